//! Several measurements of one thing: their best mean, and whether they agree.

use std::fmt;

use super::distribution::chi_square_beyond;
use super::{Level, Measured};
use crate::quantity::{Quantity, Ratio};
use crate::{Error, Result};

/// Measurements of one quantity, combined.
///
/// # Source
/// The mean weighted by the inverse of the covariance matrix (generalised least squares: A. C. Aitken, Proc.
/// R. Soc. Edinburgh 55 (1935) 42), so that what measurements share is not counted twice. Consistency by χ² (M. G. Cox,
/// Metrologia 39 (2002) 589, procedure A) and by pairs: |d| against its own expanded uncertainty. Birge's ratio:
/// R. T. Birge, Phys. Rev. 40 (1932) 207.
/// # Valid range
/// Measurements of a quantity that did not change in between.
/// # Accuracy
/// Exact to rounding for the mean and its doubt. Where weights would be negative (strong correlation), the best of the
/// measurements is taken instead: never an answer outside what was measured.
/// # Example
/// ```
/// use kingvalve::measure::{Combined, Level, Measured};
/// use kingvalve::quantity::*;
/// let first = Measured::from_standard(microfarads(4.29), microfarads(0.20), "under load")?;
/// let second = Measured::from_standard(microfarads(4.45), microfarads(0.05), "on the bench")?;
/// let both = Combined::of(&[first.clone(), second], Level::default())?;
/// assert!(both.is_consistent());
/// assert_eq!(both.mean().to_string(), "4.441 ± 0.095 µF");
/// let third = Measured::from_standard(microfarads(2.10), microfarads(0.05), "on the bench")?;
/// let odd = Combined::of(&[first, third], Level::default())?;
/// assert!(odd.to_string().contains("the technique"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Combined<Q: Quantity> {
    mean: Measured<Q>,
    weights: Vec<f64>,
    chi_square: f64,
    chance: f64,
    disagreements: Vec<Disagreement<Q>>,
}

/// Two measurements that are further apart than their doubt allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Disagreement<Q: Quantity> {
    /// Which of those given, counted from zero.
    pub first: usize,
    /// And which other.
    pub second: usize,
    /// How far the first lies above the second.
    pub difference: Q::Difference,
    /// How far apart their doubt allows them to be at the level.
    pub allowed: Q::Difference,
}

impl<Q: Quantity> Combined<Q> {
    /// Combines two measurements or more.
    ///
    /// # Units
    /// Those of the measurements.
    /// # Source
    /// See [`Combined`].
    /// # Errors
    /// With fewer than two, or one without finite value and doubt.
    pub fn of(measurements: &[Measured<Q>], level: Level) -> Result<Self> {
        if measurements.len() < 2 {
            return Err(Error::out_of_range(
                format!("number of measurements of {}", Q::NAME),
                measurements.len(),
                "two or more can be combined",
                "measure again, or use the one there is",
            ));
        }
        for (at, measured) in measurements.iter().enumerate() {
            if !(measured.value().base().is_finite() && measured.doubt().standard().is_finite()) {
                return Err(Error::inconsistent(
                    format!("measurements of {}", Q::NAME),
                    format!("{} is not finite or has no finite doubt", measured.value()),
                    "leave it out",
                )
                .in_field(format!("[{at}]")));
            }
        }
        let covariance = covariance(measurements);
        let (weights, inverse_residual) = weights(&covariance);
        let anchor = measurements.first().map_or(0.0, |first| first.value().base());
        let offsets: Vec<f64> = measurements.iter().map(|m| m.value().base() - anchor).collect();
        let shift: f64 = weights.iter().zip(&offsets).map(|(w, x)| w * x).sum();
        let mean = weights
            .iter()
            .zip(measurements)
            .fold(Measured::exact(Q::from_base(anchor + shift)), |mean, (w, m)| mean.depending_on(m, *w));
        let residuals: Vec<f64> = offsets.iter().map(|x| x - shift).collect();
        let chi_square = inverse_residual(&residuals);
        let chance = chi_square_beyond(chi_square, measurements.len() as f64 - 1.0);
        let disagreements = disagreements(measurements, level);
        Ok(Combined { mean, weights, chi_square, chance, disagreements })
    }

    /// The combined value, with its doubt by source.
    pub fn mean(&self) -> &Measured<Q> {
        &self.mean
    }

    /// How much each measurement counts; they sum to one.
    pub fn weights(&self) -> Vec<Ratio> {
        self.weights.iter().map(|weight| Ratio::from_si(*weight)).collect()
    }

    /// The sum of squared deviations in units of their doubt; about one less than the number of measurements, where
    /// they agree.
    pub fn chi_square(&self) -> f64 {
        self.chi_square
    }

    /// How probable so large a χ² is by chance.
    pub fn chance(&self) -> Ratio {
        Ratio::from_si(self.chance)
    }

    /// By what factor all doubts would have to grow for χ² to be what it should: Birge's ratio.
    pub fn birge_ratio(&self) -> f64 {
        let degrees = self.weights.len() as f64 - 1.0;
        (self.chi_square / degrees).sqrt()
    }

    /// The pairs that are further apart than their doubt allows.
    pub fn disagreements(&self) -> &[Disagreement<Q>] {
        &self.disagreements
    }

    /// Whether no pair disagrees.
    pub fn is_consistent(&self) -> bool {
        self.disagreements.is_empty()
    }
}

/// The mean; or which measurements disagree, and that this speaks of how it was measured, not of the part.
impl<Q: Quantity> fmt::Display for Combined<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_consistent() {
            return write!(f, "{} from {} measurements that agree.", self.mean, self.weights.len());
        }
        for Disagreement { first, second, difference, allowed } in &self.disagreements {
            let apart = Q::Difference::from_base(difference.base().abs());
            write!(
                f,
                "Measurements {} and {} are {apart:.3} apart; their doubt allows {allowed:.3}. ",
                first + 1,
                second + 1
            )?;
        }
        f.write_str(
            "That speaks of the technique, not of the part: check terminals, leads, range, zero and that nothing changed \
             in between, and measure again before judging.",
        )
    }
}

/// Variances and covariances, by the sources shared.
fn covariance<Q: Quantity>(measurements: &[Measured<Q>]) -> Vec<Vec<f64>> {
    let standards: Vec<f64> = measurements.iter().map(|m| m.doubt().standard()).collect();
    let pairs = measurements.iter().zip(&standards);
    pairs
        .enumerate()
        .map(|(i, (a, u))| {
            let row = measurements.iter().zip(&standards).enumerate();
            row.map(|(j, (b, v))| if i == j { u * u } else { a.correlation(b) * u * v }).collect()
        })
        .collect()
}

/// The weights of the best mean, and a function that gives χ² of residuals from it.
fn weights(covariance: &[Vec<f64>]) -> (Vec<f64>, impl Fn(&[f64]) -> f64) {
    let factor = cholesky(covariance);
    let best = covariance.len();
    let solved = factor.as_deref().map(|factor| solve(factor, &vec![1.0; best]));
    let total = solved.as_deref().map(|x| x.iter().sum::<f64>());
    let weights = match (solved, total) {
        (Some(x), Some(total)) if total > 0.0 && x.iter().all(|w| *w >= 0.0) => {
            x.iter().map(|w| w / total).collect()
        }
        _ => best_alone(covariance),
    };
    let variances: Vec<f64> =
        covariance.iter().enumerate().filter_map(|(i, row)| row.get(i).copied()).collect();
    let chi_square = move |residuals: &[f64]| match &factor {
        Some(factor) => {
            solve(factor, residuals).iter().zip(residuals).map(|(x, r)| x * r).sum::<f64>().max(0.0)
        }
        // Without an inverse (measurements that share all their doubt): the deviations by themselves.
        None => residuals
            .iter()
            .zip(&variances)
            .filter(|(r, _)| **r != 0.0)
            .map(|(r, variance)| r * r / variance)
            .sum(),
    };
    (weights, chi_square)
}

/// All weight to the measurements of least doubt, evenly.
fn best_alone(covariance: &[Vec<f64>]) -> Vec<f64> {
    let variances: Vec<f64> =
        covariance.iter().enumerate().filter_map(|(i, row)| row.get(i).copied()).collect();
    let least = variances.iter().copied().fold(f64::INFINITY, f64::min);
    let among = |variance: f64| variance <= least * (1.0 + 1e-9);
    let count = variances.iter().filter(|v| among(**v)).count() as f64;
    variances.iter().map(|v| if among(*v) { 1.0 / count } else { 0.0 }).collect()
}

/// The lower triangular factor of a matrix; none unless it is positive definite beyond rounding.
fn cholesky(matrix: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let mut factor: Vec<Vec<f64>> = Vec::new();
    for (i, row) in matrix.iter().enumerate() {
        let mut made: Vec<f64> = Vec::new();
        for (earlier, value) in factor.iter().zip(row) {
            let known: f64 = made.iter().zip(earlier).map(|(a, b)| a * b).sum();
            made.push((value - known) / earlier.last()?);
        }
        let own = row.get(i)?;
        let left = own - made.iter().map(|x| x * x).sum::<f64>();
        (left > 1e-12 * own).then_some(())?;
        made.push(left.sqrt());
        factor.push(made);
    }
    Some(factor)
}

/// The solution x of L·Lᵀ·x = b.
fn solve(factor: &[Vec<f64>], b: &[f64]) -> Vec<f64> {
    let mut forward: Vec<f64> = Vec::new();
    for (row, b) in factor.iter().zip(b) {
        let known: f64 = row.iter().zip(&forward).map(|(l, y)| l * y).sum();
        forward.push((b - known) / row.last().copied().unwrap_or(f64::NAN));
    }
    let mut x = forward;
    for i in (0..factor.len()).rev() {
        let known: f64 =
            factor.iter().zip(&x).skip(i + 1).map(|(row, x)| row.get(i).copied().unwrap_or(0.0) * x).sum();
        let diagonal = factor.get(i).and_then(|row| row.last()).copied().unwrap_or(f64::NAN);
        if let Some(value) = x.get_mut(i) {
            *value = (*value - known) / diagonal;
        }
    }
    x
}

fn disagreements<Q: Quantity>(measurements: &[Measured<Q>], level: Level) -> Vec<Disagreement<Q>> {
    let mut found = Vec::new();
    for (first, a) in measurements.iter().enumerate() {
        for (second, b) in measurements.iter().enumerate().skip(first + 1) {
            let difference = a.clone() - b.clone();
            let allowed = difference.expanded(level);
            let rounding = 1e-12 * a.value().base().abs();
            if difference.value().base().abs() > allowed.base() + rounding {
                let difference = difference.value();
                found.push(Disagreement { first, second, difference, allowed });
            }
        }
    }
    found
}

#[cfg(test)]
mod tests;
