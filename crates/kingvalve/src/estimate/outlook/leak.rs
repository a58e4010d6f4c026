//! How fast refrigerant leaks, as an interval.

use serde::{Deserialize, Serialize};

use crate::estimate::{Language, UnitSystem};
use crate::measure::{Interval, Level, Measured};
use crate::quantity::{Mass, MassFlow, Quantity, kilograms_per_year, percent, years};
use crate::{Error, Result};

/// A leak rate by three of its quantiles.
///
/// # Units
/// Mass per time.
/// # Source
/// The extended Pearson-Tukey approximation: D. L. Keefer and S. E. Bodily, Management Science 29 (1983) 595: the 5 %,
/// 50 % and 95 % quantiles with weights 0.185, 0.630, 0.185 (from memory).
/// # Valid range
/// Not negative, in order.
/// # Accuracy
/// Means of smooth distributions to a few percent, by that paper.
/// # Errors
/// Quantiles out of order, negative, or not finite.
/// # Example
/// ```
/// use kingvalve::estimate::outlook::LeakRange;
/// use kingvalve::quantity::pounds_per_year;
/// let leak = LeakRange::new(pounds_per_year(0.5), pounds_per_year(1.5), pounds_per_year(4.0))?;
/// assert_eq!(format!("{:.2}", leak.mean().pounds_per_year()), "1.78");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(try_from = "Written", into = "Written")]
pub struct LeakRange {
    quantiles: [MassFlow; 3],
}

#[derive(Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename = "LeakRange", deny_unknown_fields)]
struct Written {
    low: MassFlow,
    median: MassFlow,
    high: MassFlow,
}

const WEIGHTS: [f64; 3] = [0.185, 0.630, 0.185];
/// Shares of the charge that leak in a year where nothing is known but that the system is short: common practice, no
/// source.
const USUAL: [f64; 3] = [0.05, 0.25, 1.0];

impl LeakRange {
    /// One time in twenty it is below `low`, one time in two below `median`, one time in twenty above `high`.
    ///
    /// # Errors
    /// See [`LeakRange`].
    pub fn new(low: MassFlow, median: MassFlow, high: MassFlow) -> Result<LeakRange> {
        let ordered = low.base() >= 0.0 && low.base() <= median.base() && median.base() <= high.base();
        if ordered && high.is_finite() {
            return Ok(LeakRange { quantiles: [low, median, high] });
        }
        Err(Error::inconsistent(
            "leak rate",
            format!("{low}, {median}, {high} are not three rates in order, none below zero"),
            "give the 5 %, 50 % and 95 % quantiles, zero where it may be tight",
        ))
    }

    /// Where nothing is known but that a system of that charge is short: from 5 % of the charge a year to all of it, one
    /// time in two below 25 %. Common practice, no source.
    ///
    /// # Errors
    /// A charge that is negative or not finite.
    pub fn usual(charge: Mass) -> Result<LeakRange> {
        let [low, median, high] = USUAL.map(|share| charge * share / years(1.0));
        LeakRange::new(low, median, high)
    }

    /// From a 90 % interval, its median taken halfway.
    ///
    /// # Errors
    /// An interval that reaches below zero.
    pub fn within(interval: Interval<MassFlow>) -> Result<LeakRange> {
        LeakRange::new(interval.low(), interval.middle(), interval.high())
    }

    /// From a rate with its doubt, as [`charge::forecast::LeakRate`](crate::charge::forecast::LeakRate) has it: its 90 % interval, with nothing below zero.
    ///
    /// # Errors
    /// A rate or doubt that is not finite.
    pub fn measured(rate: &Measured<MassFlow>) -> Result<LeakRange> {
        let interval = rate.interval(Level::new(percent(90.0))?)?;
        let zero = MassFlow::ZERO;
        LeakRange::new(interval.low().max(zero), rate.value().max(zero), interval.high().max(zero))
    }

    /// Known exactly.
    ///
    /// # Errors
    /// A rate that is negative or not finite.
    pub fn exactly(rate: MassFlow) -> Result<LeakRange> {
        LeakRange::new(rate, rate, rate)
    }

    /// The mean by the three-point weights.
    pub fn mean(&self) -> MassFlow {
        kilograms_per_year(self.weighed().map(|(weight, rate)| weight * rate).iter().sum())
    }

    /// In words, as mass a year: what is less and more likely.
    pub(super) fn told(&self, language: Language, units: UnitSystem) -> String {
        let [low, median, high] = self.quantiles.map(|rate| units.text(rate * years(1.0)));
        language.outlook("leak_range", &[("low", &low), ("median", &median), ("high", &high)])
    }

    /// The highest of the three.
    pub fn high(&self) -> MassFlow {
        let [_, _, high] = self.quantiles;
        high
    }

    /// Weights, and rates in kilograms a year.
    pub(super) fn weighed(&self) -> [(f64, f64); 3] {
        let ([a, b, c], [low, median, high]) = (WEIGHTS, self.quantiles.map(MassFlow::kilograms_per_year));
        [(a, low), (b, median), (c, high)]
    }
}

impl TryFrom<Written> for LeakRange {
    type Error = Error;
    fn try_from(written: Written) -> Result<Self> {
        LeakRange::new(written.low, written.median, written.high)
    }
}

impl From<LeakRange> for Written {
    fn from(leak: LeakRange) -> Self {
        let [low, median, high] = leak.quantiles;
        Written { low, median, high }
    }
}
