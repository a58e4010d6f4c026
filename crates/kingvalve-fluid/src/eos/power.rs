//! Power terms, n τᵗ δᵈ exp(−δˡ), the exponential absent where l = 0.
//!
//! Source: the functional form of Setzmann and Wagner, J. Phys. Chem. Ref. Data 20 (1991) 1061,
//! doi:10.1063/1.555898, common to nearly all reference equations of state.

use super::{Partials, Point};

#[derive(Debug, Clone, Copy)]
pub(super) struct Power {
    n: f64,
    t: f64,
    d: f64,
    l: u8,
}

impl Power {
    /// Columns n, t, d, l.
    pub fn new(&[n, t, d, l]: &[f64; 4]) -> Self {
        Power { n, t, d, l: (l as u8).min(7) }
    }
}

#[inline]
pub(super) fn add(terms: &[Power], point: &Point, sum: &mut Partials) {
    for term in terms {
        let l = f64::from(term.l);
        let decay = if term.l == 0 { 0.0 } else { point.delta_powers[usize::from(term.l & 7)] };
        let exponent = term.t * point.ln_tau + term.d * point.ln_delta - decay;
        let value = term.n * exponent.exp();
        sum.add_product(value, term.t, 0.0, term.d - l * decay, -l * l * decay);
    }
}
