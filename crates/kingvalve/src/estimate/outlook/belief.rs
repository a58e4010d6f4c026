//! Chances that are themselves known only so well, and learn.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Ratio, fraction};
use crate::{Error, Result};

/// A chance as one believes it: a beta distribution, counted in cases.
///
/// # Source
/// Beta-binomial updating (conjugate): A. Gelman and others, Bayesian Data Analysis, chapter 2 (from memory).
/// # Example
/// ```
/// use kingvalve::estimate::outlook::Chance;
/// use kingvalve::quantity::percent;
/// // Believed at 40 %, as firmly as five cases would make one.
/// let holds = Chance::believed(percent(40.0), 5.0)?;
/// let learned = holds.learned(30, 40); // 30 of 40 held
/// assert_eq!(format!("{:.1}", learned.mean()), "71.1 %"); // (2 + 30)/(5 + 40)
/// assert_eq!(learned.records(), 40);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Written", into = "Written")]
pub struct Chance {
    mean: Ratio,
    /// Cases it is worth, those believed before any record included.
    weight: f64,
    records: u64,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(rename = "Chance", deny_unknown_fields)]
struct Written {
    mean: Ratio,
    weight: f64,
    #[serde(default)]
    records: u64,
}

/// The firmest belief, in cases.
const FIRMEST: f64 = 1e9;

impl Chance {
    /// Believed to be `mean`, as firmly as `weight` cases would make one.
    ///
    /// # Errors
    /// A mean outside 0 % to 100 %, or a weight that is not above zero (and at most a billion).
    pub fn believed(mean: Ratio, weight: f64) -> Result<Chance> {
        let p = mean.fraction();
        if !((0.0..=1.0).contains(&p) && weight > 0.0 && weight <= FIRMEST) {
            return Err(Error::out_of_range(
                "chance",
                format!("{mean} with the weight of {weight} cases"),
                "it lies from 0 % to 100 %, its weight above zero",
                "give a share of cases, and how many cases the belief is worth",
            ));
        }
        Ok(Chance { mean, weight, records: 0 })
    }

    /// Known for certain: learning does not move it to speak of.
    ///
    /// # Errors
    /// A chance outside 0 % to 100 %.
    pub fn known(chance: Ratio) -> Result<Chance> {
        Chance::believed(chance, FIRMEST)
    }

    pub(super) const fn usual(mean: Ratio, weight: f64) -> Chance {
        Chance { mean, weight, records: 0 }
    }

    /// After `successes` in so many `trials` of the shop's own records; successes beyond the trials count as trials.
    #[must_use]
    pub fn learned(self, successes: u64, trials: u64) -> Chance {
        let trials = trials.max(successes);
        let weight = self.weight + trials as f64;
        Chance {
            mean: fraction((self.p() * self.weight + successes as f64) / weight),
            weight,
            records: self.records.saturating_add(trials),
        }
    }

    /// The chance that the next case succeeds.
    pub fn mean(self) -> Ratio {
        self.mean
    }

    /// How many records of the shop are in it.
    pub fn records(self) -> u64 {
        self.records
    }

    pub(super) fn p(self) -> f64 {
        self.mean.fraction()
    }

    /// The chance of a first success at each of so many tries, and of none: trying in vain lowers what one believes.
    pub(super) fn first_success(self, tries: u32) -> (Vec<f64>, f64) {
        let (mut left, yes) = (1.0, self.p() * self.weight);
        let found = (0..tries)
            .map(|failed| {
                let now = left * yes / (self.weight + f64::from(failed));
                left -= now;
                now
            })
            .collect();
        (found, left)
    }
}

impl TryFrom<Written> for Chance {
    type Error = Error;
    fn try_from(written: Written) -> Result<Self> {
        Ok(Chance { records: written.records, ..Chance::believed(written.mean, written.weight)? })
    }
}

impl From<Chance> for Written {
    fn from(chance: Chance) -> Self {
        Written { mean: chance.mean, weight: chance.weight, records: chance.records }
    }
}

/// Where leaks are, as one believes it: a Dirichlet distribution, counted in cases.
///
/// # Source
/// Dirichlet-multinomial updating (conjugate): A. Gelman and others, Bayesian Data Analysis, chapter 3 (from memory).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Places {
    /// Joints, valves and lines that can be reached.
    pub reachable: f64,
    /// The indoor coil.
    pub indoor_coil: f64,
    /// Inside the outdoor unit.
    pub outdoor_unit: f64,
    /// How many records of the shop are in it.
    #[serde(default)]
    pub records: u64,
}

impl Places {
    /// After leaks found at these places.
    #[must_use]
    pub fn learned(self, [reachable, indoor_coil, outdoor_unit]: [u64; 3]) -> Places {
        Places {
            reachable: self.reachable + reachable as f64,
            indoor_coil: self.indoor_coil + indoor_coil as f64,
            outdoor_unit: self.outdoor_unit + outdoor_unit as f64,
            records: [reachable, indoor_coil, outdoor_unit]
                .iter()
                .fold(self.records, |a, b| a.saturating_add(*b)),
        }
    }

    /// The chances of the three places, which sum to one.
    pub fn means(self) -> [Ratio; 3] {
        self.p().map(fraction)
    }

    pub(super) fn p(self) -> [f64; 3] {
        let total = self.reachable + self.indoor_coil + self.outdoor_unit;
        [self.reachable, self.indoor_coil, self.outdoor_unit].map(|cases| cases / total)
    }

    pub(super) fn check(self) -> Result<()> {
        let cases = [self.reachable, self.indoor_coil, self.outdoor_unit];
        let total: f64 = cases.iter().sum();
        if cases.iter().all(|cases| *cases >= 0.0) && total > 0.0 && total.is_finite() {
            return Ok(());
        }
        let why = "cases are finite and not negative, at least one above zero";
        Err(Error::inconsistent("places of leaks", why, "count the cases at each place"))
    }
}
