//! How probable errors of a result are: the shape of its doubt.

use super::Doubt;
use super::distribution::{normal_cdf, normal_cdf_of_both, student_cdf, student_quantile_of_tail};

/// The shape of a result's doubt: normal, widened where sources have few degrees of freedom.
///
/// # Source
/// All degrees of freedom infinite: the normal distribution (JCGM 106:2012, 7.2). One source alone: Student's t
/// (JCGM 101:2008, 6.4.9). Mixed: the error exceeded with probability p is √(Σ(t_p(νᵢ)·uᵢ)² + (z_p·u)²), as in the
/// root-sum-square model of ANSI/ASME PTC 19.1-1985. Unlike the formula of Welch and Satterthwaite, under which more
/// doubt can narrow the interval, this never makes an error less probable when any source grows.
#[derive(Debug)]
pub(super) struct Spread {
    pub standard: f64,
    /// Variance with infinitely many degrees of freedom.
    normal: f64,
    /// (standard uncertainty, degrees of freedom) of the others.
    few: Vec<(f64, f64)>,
}

impl Spread {
    #[inline]
    pub fn of(doubt: &Doubt) -> Spread {
        let standard = doubt.standard();
        if !doubt.has_finite() {
            return Spread { standard, normal: standard * standard, few: Vec::new() };
        }
        let mut spread = Spread { standard, normal: 0.0, few: Vec::new() };
        for (first, variance) in doubt.groups() {
            if first.degrees_of_freedom().is_infinite() {
                spread.normal += variance;
            } else if variance > 0.0 {
                spread.few.push((variance.sqrt(), first.degrees_of_freedom()));
            }
        }
        spread
    }

    /// Whether every source has infinitely many degrees of freedom.
    pub fn is_normal(&self) -> bool {
        self.few.is_empty()
    }

    /// The probability that the truth lies above the value by more than `distance` (which may be negative).
    #[inline]
    pub fn beyond(&self, distance: f64) -> f64 {
        // No limit there, or no doubt.
        if distance == f64::INFINITY || self.standard == 0.0 {
            return if distance < 0.0 { 1.0 } else { 0.0 };
        }
        let tail = match self.few.as_slice() {
            [] => return normal_cdf(-distance / self.standard),
            [(u, nu)] if self.normal == 0.0 => return student_cdf(-distance / u, *nu),
            few => normal_cdf(-self.normal_score(distance.abs(), few)),
        };
        if distance >= 0.0 { tail } else { 1.0 - tail }
    }

    /// The probabilities that the truth lies below the value by more than the first distance, and above it by more than
    /// the second.
    #[inline]
    pub fn beyond_either(&self, below: f64, above: f64) -> [f64; 2] {
        if self.is_normal() && self.standard != 0.0 {
            return normal_cdf_of_both([-below / self.standard, -above / self.standard]);
        }
        [self.beyond(below), self.beyond(above)]
    }

    /// The z whose tail probability gives an error of `distance` ≥ 0.
    fn normal_score(&self, distance: f64, few: &[(f64, f64)]) -> f64 {
        let reached = |z: f64| {
            let tail = normal_cdf(-z);
            let scattered: f64 =
                few.iter().map(|(u, nu)| (u * student_quantile_of_tail(tail, *nu)).powi(2)).sum();
            (scattered + self.normal * z * z).sqrt()
        };
        // t is never below z, so the score is at most distance/u. Bisection: the function rises with z.
        let (mut low, mut high) = (0.0, (distance / self.standard).min(38.0));
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if reached(middle) < distance {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    }
}
