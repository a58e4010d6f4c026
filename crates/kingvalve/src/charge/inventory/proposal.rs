//! Where to look: a normal distribution around what is likely, and always a part from before anything was read.
//!
//! Source: importance sampling with a defensive mixture: T. Hesterberg, "Weighted average importance sampling and
//! defensive mixture distributions", Technometrics 37 (1995) 185.

use serde::{Deserialize, Serialize};

use super::points::{COORDINATES, Point};

/// One point in so many is drawn from the prior, whatever was read.
const DEFENSIVE: usize = 7;
/// The proposal is so much wider than what it is fitted to.
const WIDER: f64 = 1.3;

type Vector = [f64; COORDINATES];

const UNIT: [Vector; COORDINATES] = {
    let mut unit = [[0.0; COORDINATES]; COORDINATES];
    let mut at = 0;
    while at < COORDINATES {
        unit[at][at] = 1.0;
        at += 1;
    }
    unit
};

/// A normal distribution of the coordinates, whose prior is standard normal.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Proposal {
    mean: Vector,
    /// Lower triangle L with L·Lᵀ the covariance.
    lower: [Vector; COORDINATES],
    ln_determinant: f64,
}

/// A point to try, and the weight that the way of choosing it takes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tried {
    pub at: Vector,
    pub weight: f64,
}

impl Proposal {
    /// The prior itself.
    pub const PRIOR: Proposal = Proposal { mean: [0.0; COORDINATES], lower: UNIT, ln_determinant: 0.0 };

    /// Mean and covariance of weighted points, widened.
    pub fn fitted(points: &[Vector], weights: &[f64]) -> Proposal {
        let total: f64 = weights.iter().sum();
        if !(total > 0.0 && total.is_finite()) {
            return Proposal::PRIOR;
        }
        let mut mean = [0.0; COORDINATES];
        for (point, weight) in points.iter().zip(weights) {
            for i in 0..COORDINATES {
                mean[i] += weight / total * point[i];
            }
        }
        let mut covariance = [[0.0; COORDINATES]; COORDINATES];
        for (point, weight) in points.iter().zip(weights) {
            for i in 0..COORDINATES {
                for j in 0..=i {
                    covariance[i][j] += weight / total * (point[i] - mean[i]) * (point[j] - mean[j]);
                }
            }
        }
        let mut lower = [[0.0; COORDINATES]; COORDINATES];
        let mut ln_determinant = 0.0;
        for i in 0..COORDINATES {
            for j in 0..=i {
                let known: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
                let left = WIDER * WIDER * covariance[i][j] - known;
                lower[i][j] = if i == j { left.max(1e-6).sqrt() } else { left / lower[j][j] };
            }
            ln_determinant += lower[i][i].ln();
        }
        Proposal { mean, lower, ln_determinant }
    }

    /// The point of that number.
    pub fn at(&self, index: usize, point: &Point) -> Tried {
        let from_prior = index % DEFENSIVE == DEFENSIVE - 1;
        let (mut at, mut own) = ([0.0; COORDINATES], point.normal);
        if from_prior {
            at = point.normal;
            for i in 0..COORDINATES {
                let known: f64 = (0..i).map(|k| self.lower[i][k] * own[k]).sum();
                own[i] = (at[i] - self.mean[i] - known) / self.lower[i][i];
            }
        } else {
            for i in 0..COORDINATES {
                at[i] = self.mean[i] + (0..=i).map(|k| self.lower[i][k] * own[k]).sum::<f64>();
            }
        }
        let square = |x: &Vector| x.iter().map(|x| x * x).sum::<f64>();
        let ratio = (0.5 * (square(&at) - square(&own)) - self.ln_determinant).exp();
        let defensive = 1.0 / DEFENSIVE as f64;
        Tried { at, weight: 1.0 / ((1.0 - defensive) * ratio + defensive) }
    }
}

/// How many equally weighted points these weighted ones are worth (Kish).
pub(super) fn effective(weights: &[f64]) -> f64 {
    let (sum, squares) = weights.iter().fold((0.0, 0.0), |(s, q), w| (s + w, q + w * w));
    if squares > 0.0 { sum * sum / squares } else { 0.0 }
}

/// The weights raised to the largest power up to 1, to a 64th, at which they are worth so many points: less sure than
/// they say, never surer.
pub(super) fn tempered(weights: &[f64], wanted: f64) -> Vec<f64> {
    if effective(weights) >= wanted {
        return weights.to_vec();
    }
    let largest = weights.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    let logs: Vec<f64> = weights.iter().map(|w| (w / largest).ln()).collect();
    let raised = |power: f64| logs.iter().map(move |log| (power * log).exp());
    let worth = |power: f64| {
        let (sum, squares) = raised(power).fold((0.0, 0.0), |(s, q), w| (s + w, q + w * w));
        sum * sum / squares
    };
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..6 {
        let middle = 0.5 * (low + high);
        if worth(middle) >= wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    // Power zero would count what is impossible: 0·ln 0.
    raised(low.max(1.0 / 64.0)).collect()
}
