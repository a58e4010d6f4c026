//! Exponential terms, n τᵗ δᵈ exp(−g δˡ − h τᵐ).
//!
//! Source: three published forms are this one: exp(−g δˡ) (for example Span and Wagner, Int. J.
//! Thermophys. 24 (2003) 1, doi:10.1023/A:1022390430888), exp(−δˡ − τᵐ) (Lemmon and Jacobsen,
//! J. Phys. Chem. Ref. Data 34 (2005) 69, doi:10.1063/1.1797813) and exp(−g δˡ − h τᵐ) (de Reuck and
//! Craven, IUPAC tables of methanol, 1993).

use super::{Exponent, Partials, Point};

#[derive(Debug, Clone, Copy)]
pub(super) struct Exponential {
    n: f64,
    t: f64,
    d: f64,
    g: f64,
    l: f64,
    h: f64,
    m: f64,
}

impl Exponential {
    /// Columns n, t, d, g, l.
    pub fn in_density(&[n, t, d, g, l]: &[f64; 5]) -> Self {
        Exponential { n, t, d, g, l, h: 0.0, m: 0.0 }
    }

    /// Columns n, t, d, gd, ld, gt, lt.
    pub fn double(&[n, t, d, g, l, h, m]: &[f64; 7]) -> Self {
        Exponential { n, t, d, g, l, h, m }
    }

    /// Columns n, t, d, l, m; a zero exponent means that the factor is absent.
    pub fn lemmon(&[n, t, d, l, m]: &[f64; 5]) -> Self {
        let present = |exponent: f64| if exponent == 0.0 { 0.0 } else { 1.0 };
        Exponential { n, t, d, g: present(l), l, h: present(m), m }
    }

    #[inline]
    pub fn add(&self, point: &Point, sum: &mut Partials) {
        let in_delta = self.g * (self.l * point.ln_delta).exp();
        let in_tau = self.h * (self.m * point.ln_tau).exp();
        let f = Exponent {
            value: self.t * point.ln_tau - in_tau,
            first: self.t - self.m * in_tau,
            second: -self.m * self.m * in_tau,
        };
        let g = Exponent {
            value: self.d * point.ln_delta - in_delta,
            first: self.d - self.l * in_delta,
            second: -self.l * self.l * in_delta,
        };
        sum.add_exponential(self.n, f, g);
    }
}
