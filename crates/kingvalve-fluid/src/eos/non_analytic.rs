//! Non-analytic terms of the critical region, n Δᵇ δ ψ with
//! Δ = θ² + B((δ−1)²)ᵃ, θ = (1−τ) + A((δ−1)²)^(1/2β), ψ = exp(−C(δ−1)² − D(τ−1)²).
//!
//! Source: Span and Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509, doi:10.1063/1.555991, Table 32;
//! Wagner and Pruß, J. Phys. Chem. Ref. Data 31 (2002) 387, doi:10.1063/1.1461829, Table 6.4.

use super::{Partials, Point};

#[derive(Debug, Clone, Copy)]
pub(super) struct NonAnalytic {
    n: f64,
    a: f64,
    b: f64,
    beta: f64,
    /// A, B, C, D of the papers.
    upper: [f64; 4],
}

impl NonAnalytic {
    /// Columns n, a, b, beta, A, B, C, D.
    pub fn new(&[n, a, b, beta, upper_a, upper_b, upper_c, upper_d]: &[f64; 8]) -> Self {
        NonAnalytic { n, a, b, beta, upper: [upper_a, upper_b, upper_c, upper_d] }
    }

    pub fn add(&self, point: &Point, sum: &mut Partials) {
        let [big_a, big_b, big_c, big_d] = self.upper;
        let (tau, delta) = (point.tau, point.delta);
        // The derivatives have no value at δ = 1 itself; this keeps (δ−1)² away from zero there.
        let x = if (delta - 1.0).abs() < 1e-10 { 1e-10 } else { delta - 1.0 };
        let square = x * x;

        // θ and Δ with their derivatives; θ_τ = −1.
        let k = 1.0 / self.beta;
        let root = big_a * square.powf(0.5 * k);
        let theta = 1.0 - tau + root;
        let theta_d = k * root / x;
        let theta_dd = k * (k - 1.0) * root / square;
        let bump = big_b * square.powf(self.a);
        let distance = theta * theta + bump;
        let distance_t = -2.0 * theta;
        let distance_d = 2.0 * theta * theta_d + 2.0 * self.a * bump / x;
        let distance_td = -2.0 * theta_d;
        let distance_dd = 2.0 * theta_d * theta_d
            + 2.0 * theta * theta_dd
            + 2.0 * self.a * (2.0 * self.a - 1.0) * bump / square;

        // ln of the term: b ln Δ + ln δ − C(δ−1)² − D(τ−1)², derived in τ and δ.
        let b = self.b;
        let log_t = b * distance_t / distance - 2.0 * big_d * (tau - 1.0);
        let log_d = b * distance_d / distance + 1.0 / delta - 2.0 * big_c * x;
        let log_tt = b * (2.0 / distance - (distance_t / distance).powi(2)) - 2.0 * big_d;
        let log_td = b * (distance_td / distance - distance_t * distance_d / (distance * distance));
        let log_dd = b * (distance_dd / distance - (distance_d / distance).powi(2))
            - 1.0 / (delta * delta)
            - 2.0 * big_c;

        let value = self.n * distance.powf(b) * delta * (-big_c * square - big_d * (tau - 1.0).powi(2)).exp();
        // From τ, δ to ln τ, ln δ.
        let (t, d) = (tau * log_t, delta * log_d);
        sum.value += value;
        sum.t += value * t;
        sum.d += value * d;
        sum.tt += value * (t * t + t + tau * tau * log_tt);
        sum.td += value * (t * d + tau * delta * log_td);
        sum.dd += value * (d * d + d + delta * delta * log_dd);
    }
}
