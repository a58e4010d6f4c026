//! Polynomials on one piece of a curve: fitted to values and slopes, evaluated in few dependent steps.

use std::sync::LazyLock;

use crate::equilibrium::linear::{self, MAX};

/// Coefficients of s⁰ … s⁷ for s from −1 to 1.
pub(super) type Poly7 = [f64; 8];
/// Where values and slopes are taken: the Gauss–Lobatto points ±1, ±1/√5. The ends are shared by
/// neighbours, so value and slope are continuous from piece to piece.
pub(super) const NODES: [f64; 4] = [-1.0, -0.447_213_595_499_957_9, 0.447_213_595_499_957_9, 1.0];

/// The polynomial with the given values and slopes (per unit of s) at [`NODES`].
pub(super) fn hermite(values: [f64; 4], slopes: [f64; 4]) -> Poly7 {
    // Row k: the coefficient of sᵏ for a unit value or slope at each node; solved once.
    static INVERSE: LazyLock<[[f64; 8]; MAX]> = LazyLock::new(|| {
        let mut matrix = [[0.0; MAX]; MAX];
        let mut unit = [[0.0; 8]; MAX];
        for (row, node) in NODES.iter().enumerate() {
            for power in 0..8 {
                matrix[row][power] = node.powi(power as i32);
                if power > 0 {
                    matrix[row + 4][power] = power as f64 * node.powi(power as i32 - 1);
                }
            }
            unit[row][row] = 1.0;
            unit[row + 4][row + 4] = 1.0;
        }
        // The nodes differ, so the matrix is never singular.
        let _ = linear::solve(&mut matrix, &mut unit, 8);
        unit
    });
    let mut coefficients = [0.0; 8];
    for (coefficient, row) in coefficients.iter_mut().zip(INVERSE.iter()) {
        for node in 0..4 {
            *coefficient += row[node] * values[node] + row[node + 4] * slopes[node];
        }
    }
    coefficients
}

/// Σ cₖ sᵏ by Estrin's scheme: three dependent steps instead of seven.
#[inline(always)]
pub(super) fn value(c: &Poly7, s: f64) -> f64 {
    let s2 = s * s;
    let s4 = s2 * s2;
    ((c[0] + c[1] * s) + (c[2] + c[3] * s) * s2) + ((c[4] + c[5] * s) + (c[6] + c[7] * s) * s2) * s4
}

/// The derivative of [`value`] in s.
#[inline(always)]
pub(super) fn slope(c: &Poly7, s: f64) -> f64 {
    let s2 = s * s;
    let s4 = s2 * s2;
    ((c[1] + 2.0 * c[2] * s) + (3.0 * c[3] + 4.0 * c[4] * s) * s2)
        + ((5.0 * c[5] + 6.0 * c[6] * s) + 7.0 * c[7] * s2) * s4
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn a_polynomial_of_degree_seven_is_reproduced() {
        let c = [0.3, -1.2, 2.0, 0.7, -0.4, 0.9, 1.1, -0.6];
        let fitted = hermite(NODES.map(|s| value(&c, s)), NODES.map(|s| slope(&c, s)));
        for (a, b) in c.iter().zip(&fitted) {
            assert_relative_eq!(a, b, epsilon = 1e-13);
        }
    }
}
