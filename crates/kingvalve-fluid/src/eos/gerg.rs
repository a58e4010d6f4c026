//! The special exponential terms of a departure function, n τᵗ δᵈ exp(−η(δ−ε)² − β(δ−γ)).
//!
//! Source: Kunz and Wagner, J. Chem. Eng. Data 57 (2012) 3032, doi:10.1021/je300655b, Eq. 10.

use super::gaussian::bell;
use super::{Exponent, Partials, Point};

#[derive(Debug, Clone, Copy)]
pub(super) struct Gerg {
    n: f64,
    t: f64,
    d: f64,
    eta: f64,
    epsilon: f64,
    beta: f64,
    gamma: f64,
}

impl Gerg {
    /// Columns n, t, d, eta, epsilon, beta, gamma.
    pub fn new(&[n, t, d, eta, epsilon, beta, gamma]: &[f64; 7]) -> Self {
        Gerg { n, t, d, eta, epsilon, beta, gamma }
    }

    #[inline]
    pub fn add(&self, point: &Point, sum: &mut Partials) {
        let f = Exponent { value: self.t * point.ln_tau, first: self.t, second: 0.0 };
        let mut g = bell(self.d, point.ln_delta, point.delta, self.eta, self.epsilon);
        let slope = self.beta * point.delta;
        g.value -= slope - self.beta * self.gamma;
        g.first -= slope;
        g.second -= slope;
        sum.add_exponential(self.n, f, g);
    }
}
