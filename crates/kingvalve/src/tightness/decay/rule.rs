//! The named, replaceable numbers a vacuum test is judged by.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::measure::{Interval, Level};
use crate::quantity::{
    Pressure, Quantity, Ratio, TemperatureDifference, Time, delta_kelvins, microns, minutes, percent,
};
use crate::{Error, Result};

/// How much colder than its surroundings evaporation may make a wet spot, where nothing is known: 5 K. The vapour
/// pressure then lies that much lower. This library's estimate, no source.
pub const COOLING_BY_EVAPORATION: TemperatureDifference = delta_kelvins(5.0);

/// How long the system had been pumped, where nothing is known: its surfaces' outgassing goes on as if the clock had
/// started between 5 minutes and 4 hours before the valve was shut. This library's estimate, no source.
pub const PUMPED: (Time, Time) = (minutes(5.0), minutes(240.0));

/// The deep vacuum asked for.
///
/// # Source
/// The default, pulled to 500 microns and not above 1,000 microns 10 minutes after the valve is shut: common
/// practice, no source. A maker's instructions go first.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct VacuumTarget {
    /// What it is to be pumped down to.
    pub pull_to: Pressure,
    /// How long it is watched.
    pub hold: Time,
    /// What it may have risen to by then.
    pub at_most: Pressure,
}

impl Default for VacuumTarget {
    fn default() -> Self {
        VacuumTarget { pull_to: microns(500.0), hold: minutes(10.0), at_most: microns(1000.0) }
    }
}

impl VacuumTarget {
    pub(super) fn validate(&self) -> Result<()> {
        let positive = |x: f64| x > 0.0 && x.is_finite();
        if !(positive(self.pull_to.base()) && positive(self.hold.base()) && positive(self.at_most.base()))
            || self.at_most < self.pull_to
        {
            return Err(Error::inconsistent(
                "vacuum target",
                format!(
                    "pull to {:.0}, hold {:.0}, at most {:.0}",
                    self.pull_to.in_unit("microns")?,
                    self.hold,
                    self.at_most.in_unit("microns")?
                ),
                "give positive values, the pressure it may rise to not below the one to pull to",
            ));
        }
        Ok(())
    }
}

/// When a cause counts as shown or excluded.
///
/// # Source
/// Profile likelihood with the F quantile of one parameter (Seber and Wild, Nonlinear Regression, 1989, section 5.4:
/// from memory); that a cause below a material part counts as excluded is this library's rule.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct DecayRule {
    /// How sure the interval of the leak's share is: 99 % by default.
    pub level: Level,
    /// A cause is excluded where it can be no more than this part of the rise: 25 % by default.
    pub material: Ratio,
    /// A cause counts as shown where it is more than this part of the rise: 5 % by default. No real source follows its
    /// shape much better than that, so a smaller part may be the shape's own error.
    pub trace: Ratio,
    /// How long the system may have been pumped before the valve was shut: [`PUMPED`] by default.
    pub pumped: Interval<Time>,
    /// How much colder than the coldest point a wet spot may be: [`COOLING_BY_EVAPORATION`] by default.
    pub cooling: TemperatureDifference,
}

impl Default for DecayRule {
    fn default() -> Self {
        DecayRule {
            level: Level::new(percent(99.0)).unwrap_or_default(),
            material: percent(25.0),
            trace: percent(5.0),
            pumped: Interval::spanning(PUMPED.0, PUMPED.1),
            cooling: COOLING_BY_EVAPORATION,
        }
    }
}

impl DecayRule {
    pub(super) fn validate(&self) -> Result<()> {
        let share = self.material.fraction();
        if !(share > 0.0 && share < 0.5) {
            return Err(Error::out_of_range(
                "material part of the rise",
                self.material,
                "it lies above 0 % and below 50 %",
                "25 % is the default",
            ));
        }
        if !(0.0..share).contains(&self.trace.fraction()) {
            return Err(Error::out_of_range(
                "trace part of the rise",
                self.trace,
                format!("it is 0 % or more, and below the material part of {}", self.material),
                "5 % is the default",
            ));
        }
        if self.pumped.low() <= Time::ZERO {
            return Err(Error::out_of_range(
                "time pumped",
                self.pumped.low(),
                "it is above zero",
                "give the shortest and the longest it may have been pumped",
            ));
        }
        if !(self.cooling.base() >= 0.0 && self.cooling.is_finite()) {
            return Err(Error::out_of_range(
                "cooling by evaporation",
                self.cooling,
                "it is zero or more",
                "5 K is the default",
            ));
        }
        Ok(())
    }
}
