//! Gaussian bell terms, n τᵗ δᵈ exp(−η(δ−ε)² − β(τ−γ)²).
//!
//! Source: Setzmann and Wagner, J. Phys. Chem. Ref. Data 20 (1991) 1061, doi:10.1063/1.555898.

use super::{Exponent, Partials, Point};

#[derive(Debug, Clone, Copy)]
pub(super) struct Gaussian {
    n: f64,
    t: f64,
    d: f64,
    eta: f64,
    epsilon: f64,
    beta: f64,
    gamma: f64,
}

impl Gaussian {
    /// Columns n, t, d, eta, epsilon, beta, gamma.
    pub fn new(&[n, t, d, eta, epsilon, beta, gamma]: &[f64; 7]) -> Self {
        Gaussian { n, t, d, eta, epsilon, beta, gamma }
    }

    #[inline]
    pub fn add(&self, point: &Point, sum: &mut Partials) {
        let f = bell(self.t, point.ln_tau, point.tau, self.beta, self.gamma);
        let g = bell(self.d, point.ln_delta, point.delta, self.eta, self.epsilon);
        sum.add_exponential(self.n, f, g);
    }
}

/// k ln x − w(x−c)² with its derivatives in ln x.
#[inline(always)]
pub(super) fn bell(k: f64, ln_x: f64, x: f64, w: f64, c: f64) -> Exponent {
    let away = x - c;
    Exponent {
        value: k * ln_x - w * away * away,
        first: k - 2.0 * w * x * away,
        second: -2.0 * w * x * (2.0 * x - c),
    }
}
