//! The modified Gaussian terms of ammonia, n τᵗ δᵈ exp(η(δ−ε)² + 1/(β(τ−γ)² + b)).
//!
//! Source: Gao, Wu, Bell and Lemmon, J. Phys. Chem. Ref. Data 49 (2020) 013101, doi:10.1063/1.5128269.

use super::gaussian::bell;
use super::{Exponent, Partials, Point};

#[derive(Debug, Clone, Copy)]
pub(super) struct Gao {
    n: f64,
    t: f64,
    d: f64,
    eta: f64,
    epsilon: f64,
    beta: f64,
    gamma: f64,
    b: f64,
}

impl Gao {
    /// Columns n, t, d, eta, epsilon, beta, gamma, b.
    pub fn new(&[n, t, d, eta, epsilon, beta, gamma, b]: &[f64; 8]) -> Self {
        Gao { n, t, d, eta, epsilon, beta, gamma, b }
    }

    #[inline]
    pub fn add(&self, point: &Point, sum: &mut Partials) {
        let tau = point.tau;
        let away = tau - self.gamma;
        let base = self.beta * away * away + self.b;
        // 1/base with its derivatives in τ.
        let first = -2.0 * self.beta * away / (base * base);
        let second = 8.0 * (self.beta * away).powi(2) / base.powi(3) - 2.0 * self.beta / (base * base);
        let f = Exponent {
            value: self.t * point.ln_tau + 1.0 / base,
            first: self.t + tau * first,
            second: tau * first + tau * tau * second,
        };
        let g = bell(self.d, point.ln_delta, point.delta, -self.eta, self.epsilon);
        sum.add_exponential(self.n, f, g);
    }
}
