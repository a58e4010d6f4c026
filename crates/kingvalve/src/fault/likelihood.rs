//! How well one pattern explains the residuals.

use super::feature::FEATURES;

/// A symmetric matrix of as many rows as features read, at most [`FEATURES`].
pub(super) type Matrix = [[f64; FEATURES]; FEATURES];

/// Log density of a multivariate normal at `off` from its mean, less the constant that all share, and the squared
/// distance in standard deviations; `covariance` with `added` on its diagonal must be positive definite.
///
/// # Source
/// Cholesky's factorisation: log p = −½·(ln det Σ + dᵀΣ⁻¹d) + constant.
pub(super) fn log_density(
    count: usize,
    off: &[f64; FEATURES],
    covariance: &Matrix,
    added: &[f64; FEATURES],
) -> (f64, f64) {
    let mut lower: Matrix = [[0.0; FEATURES]; FEATURES];
    let mut solved = [0.0; FEATURES];
    let (mut log_det, mut distance) = (0.0, 0.0);
    for i in 0..count.min(FEATURES) {
        for j in 0..=i {
            let mut sum = covariance[i][j];
            if i == j {
                sum += added[i];
            }
            for k in 0..j {
                sum -= lower[i][k] * lower[j][k];
            }
            lower[i][j] = if i == j { sum.max(f64::MIN_POSITIVE).sqrt() } else { sum / lower[j][j] };
        }
        let mut rest = off[i];
        for k in 0..i {
            rest -= lower[i][k] * solved[k];
        }
        solved[i] = rest / lower[i][i];
        log_det += 2.0 * lower[i][i].ln();
        distance += solved[i] * solved[i];
    }
    (-0.5 * (log_det + distance), distance)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// numpy 2: 2×2 with correlation; logpdf by scipy.stats.multivariate_normal less the constant −ln 2π.
    #[test]
    fn two_correlated_residuals() {
        let mut covariance = [[0.0; FEATURES]; FEATURES];
        covariance[0][0] = 2.0;
        covariance[1][1] = 3.0;
        covariance[0][1] = 1.0;
        covariance[1][0] = 1.0;
        let mut off = [0.0; FEATURES];
        (off[0], off[1]) = (1.0, -2.0);
        let mut added = [0.0; FEATURES];
        (added[0], added[1]) = (0.5, 1.0);
        // Σ = [[2.5, 1], [1, 4]]: det 9; Σ⁻¹ = [[4, −1], [−1, 2.5]]/9; d² = (4 + 4 + 10)/9 = 2.
        let (log, distance) = log_density(2, &off, &covariance, &added);
        assert!((distance - 2.0).abs() < 1e-14);
        assert!((log + 0.5 * (9f64.ln() + 2.0)).abs() < 1e-14);
    }
}
