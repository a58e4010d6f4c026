//! The χ² distribution.

use super::normal_cdf;

/// The probability of a χ² above `x` with so many degrees of freedom, a whole number.
///
/// # Source
/// M. Abramowitz and I. Stegun, Handbook of Mathematical Functions (1964), 26.4.4 and 26.4.5: finite sums.
/// # Accuracy
/// 1e-12 up to some hundred degrees of freedom; the tests hold it to scipy.
pub(crate) fn beyond(x: f64, degrees: f64) -> f64 {
    if x.is_nan() || x <= 0.0 {
        return if x.is_nan() { x } else { 1.0 };
    }
    if x.is_infinite() {
        return 0.0;
    }
    let root = x.sqrt();
    let odd = degrees % 2.0 == 1.0;
    // Terms x^k·e^(−x/2) over products, each from the one before.
    let (mut sum, mut term, first) = if odd {
        let density = (-0.5 * x).exp() * (2.0 / std::f64::consts::PI).sqrt();
        (2.0 * normal_cdf(-root), density * root, 1.0)
    } else {
        let term = (-0.5 * x).exp();
        (term, term * 0.5 * x, 2.0)
    };
    let mut at = first;
    while at < degrees {
        sum += term;
        at += 2.0;
        term *= x / at;
    }
    sum.min(1.0)
}

#[cfg(test)]
mod tests {
    use super::beyond;

    /// scipy 1.17.1, `chi2.sf`.
    #[test]
    fn values_are_those_of_scipy() {
        for (x, degrees, expected) in SCIPY {
            let found = beyond(x, degrees);
            assert!((found / expected - 1.0).abs() < 1e-11, "{x} {degrees}: {found} is not {expected}");
        }
        assert_eq!(beyond(0.0, 3.0), 1.0);
    }

    const SCIPY: [(f64, f64, f64); 9] = [
        (3.841458820694124, 1.0, 0.04999999999999989),
        (0.5, 1.0, 0.47950012218695337),
        (5.991464547107979, 2.0, 0.05000000000000007),
        (1.0, 3.0, 0.8012519569012009),
        (12.5, 4.0, 0.013995792487650894),
        (40.0, 5.0, 1.493367900050393e-07),
        (9.0, 9.0, 0.43727418891386693),
        (60.0, 30.0, 0.0009206823961486636),
        (25.0, 31.0, 0.7677177206908439),
    ];
}
