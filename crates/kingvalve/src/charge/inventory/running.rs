//! A running reading made ready for weighing: a value of the charge, or a bound.

use serde::{Deserialize, Serialize};

use super::reading::RunningReading;
use super::system::System;
use crate::measure::normal_cdf;
use crate::quantity::Quantity;
use crate::{Error, Result};

/// What a running reading says of the charge, kg.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Running {
    pub says: Says,
    /// The charge by the relation, and its standard uncertainty with the scatter.
    pub charge: f64,
    pub doubt: f64,
    /// What was weighed in since, kg, and the variance of that.
    pub since: f64,
    pub since_variance: f64,
}

/// A value, or one side of it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Says {
    About,
    AtMost,
    AtLeast,
}

impl Running {
    pub fn of(system: &System, reading: &RunningReading) -> Result<Running> {
        let Some(plate) = system.plate else {
            return Err(Error::inconsistent(
                "running readings",
                "they tell the charge as a share of the full charge, and no data plate is given",
                "give the plate charge, or charge by weight",
            ));
        };
        let relation = &system.assumptions.running;
        let share = relation.share(&reading.full, &reading.superheat, &reading.subcooling)?;
        let least = relation.least.min(0.5 * reading.full.subcooling);
        let sealed = reading.subcooling.value() > least;
        let dried = reading.superheat.value() > relation.least.min(0.5 * reading.full.superheat);
        let says = match (sealed, dried) {
            (true, true) => Says::About,
            (false, true) => Says::AtMost,
            (true, false) => Says::AtLeast,
            (false, false) => {
                return Err(Error::inconsistent(
                    "superheat and subcooling",
                    format!(
                        "neither is clear of zero: superheat {}, subcooling {}",
                        reading.superheat, reading.subcooling
                    ),
                    "liquid returning while none stands in the condenser points to poor evaporator load, a metering \
                     device stuck open or a reading error: check airflow and readings first",
                ));
            }
        };
        let doubt = share.standard_uncertainty().base().hypot(relation.scatter.fraction());
        Ok(Running {
            says,
            charge: share.value().fraction() * plate.kilograms(),
            doubt: doubt * plate.kilograms(),
            since: 0.0,
            since_variance: 0.0,
        })
    }

    /// How likely the reading is at a charge now, up to a factor, where it gives a bound; 1 where it gives a value.
    pub fn bound(&self, charge: f64) -> f64 {
        let beyond = (charge - self.since - self.charge) / self.doubt.hypot(self.since_variance.sqrt());
        match self.says {
            Says::About => 1.0,
            Says::AtMost => normal_cdf(-beyond),
            Says::AtLeast => normal_cdf(beyond),
        }
    }
}
