//! T(p): from the leading bits of a pressure to a piece of the curve, and there to a polynomial.
//!
//! On a piece the temperature is a polynomial of z ∝ (p − m)/(p + m), m the geometric mean of the pressures at its
//! ends. Of ln p, in which temperature is nearly a straight line, z is an odd function as smooth as can be had for one
//! division, so that twelve coefficients undo p(T) as fitted without a step of refinement.
//!
//! Source: ours; interpolation at the extrema of Chebyshev's polynomials (L. N. Trefethen, Approximation Theory and
//! Approximation Practice, SIAM 2013, chapters 3 and 4).

use std::f64::consts::PI;
use std::sync::LazyLock;

use super::polynomial::{self, Poly7};

/// Coefficients of a piece.
const TERMS: usize = 13;

/// Bits of the mantissa dropped from a pressure's key: 128 steps an octave are left.
const KEY_SHIFT: u32 = 45;

/// The inverse of a curve's p(T).
#[derive(Debug)]
pub(super) struct Inverse {
    /// The pressure at the warm end of each piece.
    highs: Vec<f64>,
    pieces: Vec<Piece>,
    /// First piece to try for each step of the pressure's binary exponent and leading mantissa bits.
    start: Vec<u16>,
    first_key: u64,
}

#[derive(Debug, Clone, Copy)]
struct Piece {
    /// m, Pa.
    middle: f64,
    /// z = scale·(p − m)/(p + m) runs from −1 to 1 over the piece.
    scale: f64,
    /// Of z⁰, z¹, …, K.
    terms: [f64; TERMS],
}

impl Inverse {
    /// Of the pieces of p(T), rising throughout; `temperature` tells the kelvins of a place on a piece.
    pub fn of(pressure: &[Poly7], temperature: impl Fn(usize, f64) -> f64) -> Inverse {
        let pieces = pressure.iter().enumerate();
        let pieces = pieces.map(|(at, forward)| Piece::fit(forward, |s| temperature(at, s))).collect();
        let highs: Vec<f64> = pressure.iter().map(|forward| polynomial::value(forward, 1.0)).collect();
        let low = pressure.first().map_or(f64::NAN, |forward| polynomial::value(forward, -1.0));
        let key = |p: f64| p.to_bits() >> KEY_SHIFT;
        let (first_key, last_key) = (key(low), key(highs.last().copied().unwrap_or(low)));
        // The piece that holds the lowest pressure of each key.
        let start = (first_key..=last_key)
            .map(|key| {
                let lowest = f64::from_bits(key << KEY_SHIFT);
                highs.partition_point(|high| *high < lowest) as u16
            })
            .collect();
        Inverse { highs, pieces, start, first_key }
    }

    /// The temperature at a pressure inside the curve's range, K.
    #[inline(always)]
    pub fn temperature(&self, p: f64) -> f64 {
        self.piece(p).map_or(f64::NAN, |piece| value(&piece.terms, piece.place(p)))
    }

    /// [`temperature`](Self::temperature), and its slope dT/dp, K/Pa.
    #[inline(always)]
    pub fn temperature_and_slope(&self, p: f64) -> (f64, f64) {
        self.piece(p).map_or((f64::NAN, f64::NAN), |piece| {
            let z = piece.place(p);
            (value(&piece.terms, z), slope(&piece.terms, z) * piece.stretch(p))
        })
    }

    #[inline(always)]
    fn piece(&self, p: f64) -> Option<&Piece> {
        let key = (p.to_bits() >> KEY_SHIFT).saturating_sub(self.first_key) as usize;
        let mut at = self.start.get(key).map_or(0, |&piece| usize::from(piece));
        while at + 1 < self.highs.len() && p > self.highs[at] {
            at += 1;
        }
        self.pieces.get(at)
    }
}

impl Piece {
    /// z of a pressure.
    #[inline(always)]
    fn place(&self, p: f64) -> f64 {
        self.scale * (p - self.middle) / (p + self.middle)
    }

    /// dz/dp.
    #[inline(always)]
    fn stretch(&self, p: f64) -> f64 {
        let sum = p + self.middle;
        2.0 * self.scale * self.middle / (sum * sum)
    }

    fn fit(forward: &Poly7, temperature: impl Fn(f64) -> f64) -> Piece {
        let (low, high) = (polynomial::value(forward, -1.0), polynomial::value(forward, 1.0));
        let middle = (low * high).sqrt();
        let scale = (high + middle) / (high - middle);
        // Subtracted first, so that nothing of the few kelvins of a piece is lost to rounding.
        let base = temperature(0.0);
        let above = nodes().map(|z| {
            let share = z / scale;
            let p = middle * (1.0 + share) / (1.0 - share);
            temperature(solve(forward, p, z)) - base
        });
        let mut terms = FROM_NODES.map(|row| row.iter().zip(&above).map(|(a, b)| a * b).sum());
        terms[0] += base;
        Piece { middle, scale, terms }
    }
}

/// Where a rising polynomial has a value it takes between −1 and 1, by Newton's method from a near guess.
fn solve(forward: &Poly7, target: f64, guess: f64) -> f64 {
    let mut s = guess;
    for _ in 0..8 {
        let step = (target - polynomial::value(forward, s)) / polynomial::slope(forward, s);
        s = (s + step).clamp(-1.0, 1.0);
        if step.abs() < 1e-14 {
            break;
        }
    }
    s
}

/// The extrema of Chebyshev's polynomial of the highest degree, both ends among them.
fn nodes() -> [f64; TERMS] {
    std::array::from_fn(|node| angle(node).cos())
}

fn angle(node: usize) -> f64 {
    PI * node as f64 / (TERMS - 1) as f64
}

/// Row k: the coefficient of zᵏ for a unit value at each node, the others zero.
static FROM_NODES: LazyLock<[[f64; TERMS]; TERMS]> = LazyLock::new(|| {
    let mut rows = [[0.0; TERMS]; TERMS];
    // Coefficients of Chebyshev's polynomials of degree k and k + 1, by T_(k+1) = 2z·T_k − T_(k−1).
    let last = TERMS - 1;
    let half = |at: usize| if at == 0 || at == last { 0.5 } else { 1.0 };
    let (mut this, mut next) = ([0.0; TERMS], [0.0; TERMS]);
    (this[0], next[1]) = (1.0, 1.0);
    for degree in 0..TERMS {
        for node in 0..TERMS {
            let share = 2.0 * half(degree) * half(node) / last as f64 * (degree as f64 * angle(node)).cos();
            for power in 0..=degree {
                rows[power][node] += share * this[power];
            }
        }
        let mut after = this.map(|c| -c);
        for power in 1..TERMS {
            after[power] += 2.0 * next[power - 1];
        }
        (this, next) = (next, after);
    }
    rows
});

/// Σ cₖ zᵏ by Estrin's scheme.
#[inline(always)]
fn value(c: &[f64; TERMS], z: f64) -> f64 {
    let z2 = z * z;
    let z4 = z2 * z2;
    let four = |k: usize| (c[k] + c[k + 1] * z) + (c[k + 2] + c[k + 3] * z) * z2;
    four(0) + (four(4) + (four(8) + c[12] * z4) * z4) * z4
}

/// The derivative of [`value`] in z.
#[inline(always)]
fn slope(c: &[f64; TERMS], z: f64) -> f64 {
    let z2 = z * z;
    let z4 = z2 * z2;
    let term = |k: usize| k as f64 * c[k];
    let four = |k: usize| (term(k) + term(k + 1) * z) + (term(k + 2) + term(k + 3) * z) * z2;
    four(1) + (four(5) + four(9) * z4) * z4
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::curve::polynomial::NODES;
    use approx::assert_relative_eq;

    /// Three pieces of a pressure that rises e²-fold on each, steeper than any curve is in the coldest cold.
    fn pieces() -> Vec<Poly7> {
        let piece = |at: usize| {
            let values = NODES.map(|s| (2.0 * at as f64 + s).exp());
            polynomial::hermite(values, values)
        };
        (0..3).map(piece).collect()
    }

    fn kelvins(at: usize, s: f64) -> f64 {
        300.0 / (1.5 - 0.04 * (2.0 * at as f64 + s))
    }

    #[test]
    fn the_inverse_undoes_the_forward_pieces() {
        let pieces = pieces();
        let inverse = Inverse::of(&pieces, kelvins);
        for (at, forward) in pieces.iter().enumerate() {
            for k in 0..=40 {
                let s = f64::from(k) / 20.0 - 1.0;
                let p = polynomial::value(forward, s);
                let (t, slope) = inverse.temperature_and_slope(p);
                assert_relative_eq!(t, kelvins(at, s), max_relative = 1e-8);
                assert_eq!(t.to_bits(), inverse.temperature(p).to_bits());
                let h = 1e-5 * p;
                let numeric = (inverse.temperature(p + h) - inverse.temperature(p - h)) / (2.0 * h);
                assert_relative_eq!(slope, numeric, max_relative = 1e-4);
            }
        }
    }
}
