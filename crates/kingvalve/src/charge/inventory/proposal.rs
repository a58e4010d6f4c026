//! Where to look: a normal distribution around what is likely, and always a part from before anything was read.
//!
//! Source: importance sampling with a defensive mixture: T. Hesterberg, "Weighted average importance sampling and
//! defensive mixture distributions", Technometrics 37 (1995) 185.

use serde::{Deserialize, Serialize};

use super::points::{COORDINATES, Point, VOLUME};

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
    /// Of the triangle without the volume's row.
    determinant: f64,
}

/// A point to try, before its volume is chosen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Begun {
    /// All coordinates; that of the volume is not set yet.
    pub at: Vector,
    own: Vector,
    from: From,
}

/// Where a point comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
enum From {
    Prior,
    Fit,
    Rise,
}

/// A normal distribution of the volume's coordinate, once the others are chosen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Along {
    pub mean: f64,
    pub deviation: f64,
}

/// A point to try, and the weight that the way of choosing it takes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tried {
    pub at: Vector,
    pub weight: f64,
}

impl Proposal {
    /// The prior itself.
    pub const PRIOR: Proposal = Proposal { mean: [0.0; COORDINATES], lower: UNIT, determinant: 1.0 };

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
        let mut determinant = 1.0;
        for i in 0..COORDINATES {
            for j in 0..=i {
                let known: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
                let left = WIDER * WIDER * covariance[i][j] - known;
                lower[i][j] = if i == j { left.max(1e-6).sqrt() } else { left / lower[j][j] };
            }
            if i != VOLUME {
                determinant *= lower[i][i];
            }
        }
        Proposal { mean, lower, determinant }
    }

    /// The point of that number, all but its volume.
    #[inline]
    pub fn begin(&self, index: usize, point: &Point) -> Begun {
        let from = match index % DEFENSIVE {
            0 => From::Prior,
            1 => From::Fit,
            _ => From::Rise,
        };
        let (mut at, mut own) = ([0.0; COORDINATES], point.normal);
        for i in 0..VOLUME {
            let known: f64 = (0..i).map(|k| self.lower[i][k] * own[k]).sum();
            if from == From::Prior {
                at[i] = point.normal[i];
                own[i] = (at[i] - self.mean[i] - known) / self.lower[i][i];
            } else {
                at[i] = self.mean[i] + known + self.lower[i][i] * own[i];
            }
        }
        Begun { at, own, from }
    }

    /// The point with its volume: where the rise of the pressure tells it, most of the points look there.
    #[inline]
    pub fn finish(&self, begun: &Begun, point: &Point, rise: Option<Along>) -> Tried {
        let Begun { mut at, ref own, from } = *begun;
        let normal = point.normal[VOLUME];
        let known: f64 = (0..VOLUME).map(|k| self.lower[VOLUME][k] * own[k]).sum();
        let fit = Along { mean: self.mean[VOLUME] + known, deviation: self.lower[VOLUME][VOLUME] };
        at[VOLUME] = match (from, rise) {
            (From::Prior, _) => normal,
            (From::Rise, Some(rise)) => rise.mean + rise.deviation * normal,
            _ => fit.mean + fit.deviation * normal,
        };
        let mut exponent = 0.5 * at[VOLUME] * at[VOLUME];
        for i in 0..VOLUME {
            exponent += 0.5 * (at[i] * at[i] - own[i] * own[i]);
        }
        let along = |of: Along| {
            let z = (at[VOLUME] - of.mean) / of.deviation;
            (exponent - 0.5 * z * z).exp() / of.deviation
        };
        let share = 1.0 / DEFENSIVE as f64;
        let chosen = match rise {
            Some(rise) => (1.0 - 2.0 * share) * along(rise) + share * along(fit),
            None => (1.0 - share) * along(fit),
        };
        Tried { at, weight: 1.0 / (chosen / self.determinant + share) }
    }
}

/// How many equally weighted points these weighted ones are worth (Kish).
pub(super) fn effective(weights: &[f64]) -> f64 {
    let (sum, squares) = weights.iter().fold((0.0, 0.0), |(s, q), w| (s + w, q + w * w));
    if squares > 0.0 { sum * sum / squares } else { 0.0 }
}

/// The weights raised to the power 1, ½, ¼ … to a 64th, the first at which they are worth so many points: less sure than
/// they say, never surer.
pub(super) fn tempered(weights: &[f64], wanted: f64) -> Vec<f64> {
    let largest = weights.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    let mut raised: Vec<f64> = weights.iter().map(|weight| weight / largest).collect();
    for _ in 0..6 {
        if effective(&raised) >= wanted {
            break;
        }
        raised.iter_mut().for_each(|weight| *weight = weight.sqrt());
    }
    raised
}
