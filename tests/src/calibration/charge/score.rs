//! What became of one system's interval, and counts of that.

use kingvalve::Result;
use kingvalve::charge::inventory::{Inventory, StandingReading};
use kingvalve::quantity::{Mass, Quantity, kilograms, psig};

use crate::rig::medium::Medium;
use crate::rig::visit::{StandingRead, Visit};

/// What became of one system.
#[derive(Debug, Clone, Copy)]
pub enum Outcome {
    /// The estimator answered.
    Answered {
        /// Whether the true charge lies below, in or above the interval: −1, 0, 1.
        side: i8,
        /// Width of the interval over that of the prior alone.
        width: f64,
        /// The same before the last reading, where the class asks for it.
        before: f64,
    },
    /// It refused the readings.
    Refused,
}

impl Outcome {
    /// An answer beside the truth, kg.
    pub fn of(prior: &Inventory, before: &Inventory, after: &Inventory, truth: f64) -> Outcome {
        let width = |of: &Inventory| of.now().ninety.width() / prior.now().ninety.width();
        let interval = after.now().ninety;
        let truth: Mass = kilograms(truth);
        let side = i8::from(truth > interval.high()) - i8::from(truth < interval.low());
        Outcome::Answered { side, width: width(after), before: width(before) }
    }
}

/// Counts over systems.
#[derive(Debug, Clone, Default)]
pub struct Score {
    /// Answers, and those whose interval lay below the truth, held it, and lay above it.
    pub answered: usize,
    /// See `answered`.
    pub too_low: usize,
    /// See `answered`.
    pub held: usize,
    /// See `answered`.
    pub too_high: usize,
    /// Readings refused.
    pub refused: usize,
    widths: Vec<f64>,
    before: Vec<f64>,
}

impl Score {
    /// Counts one more.
    pub fn count(&mut self, outcome: Outcome) {
        match outcome {
            Outcome::Refused => self.refused += 1,
            Outcome::Answered { side, width, before } => {
                self.answered += 1;
                match side {
                    0 => self.held += 1,
                    1 => self.too_low += 1,
                    _ => self.too_high += 1,
                }
                self.widths.push(width);
                self.before.push(before);
            }
        }
    }

    /// Share of the answers that held the truth.
    pub fn coverage(&self) -> f64 {
        self.held as f64 / self.answered as f64
    }

    /// Median width over that of the prior alone.
    pub fn width(&self) -> f64 {
        median(&self.widths)
    }

    /// The same before the last reading.
    pub fn width_before(&self) -> f64 {
        median(&self.before)
    }
}

fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    match (sorted.get(middle), sorted.len() % 2) {
        (Some(upper), 0) => 0.5 * (upper + sorted.get(middle - 1).copied().unwrap_or(*upper)),
        (Some(one), _) => *one,
        (None, _) => f64::NAN,
    }
}

/// A standing reading as the estimator takes it: one temperature, that of the coldest point.
pub fn standing(visit: &Visit, read: &StandingRead) -> Result<StandingReading> {
    let pressure = visit.site.absolute(&read.pressure)?;
    Ok(StandingReading::at(pressure, read.coldest.measured()))
}

/// How far a settled system's coldest point may be from where it was read, K: 2 °F.
const SETTLED: f64 = 2.0 / 1.8;

/// Whether a standing pressure reads below saturation by more than the instruments can be off.
pub fn reads_as_vapour(medium: &Medium, visit: &Visit, read: &StandingRead) -> Result<bool> {
    let grade = &visit.kit.grade;
    let off = grade.thermometer.1 / 1.8 + SETTLED;
    let dew = medium.dew_pressure(read.coldest.value().kelvins() - off);
    // By hand, since a gauge that is off may read below a full vacuum.
    let atmosphere = visit.site.absolute(psig(0.0))?.pascals();
    let pressure = atmosphere + read.pressure.value().base();
    Ok(pressure + grade.gauge_limit() < dew)
}
