//! A running reading made ready for weighing: a value of the charge, or a bound.
//!
//! Source: the virtual charge of superheat and subcooling ([`VirtualCharge`](crate::charge::VirtualCharge)), in kg, within the
//! range given there; a bound beyond it.

use serde::{Deserialize, Serialize};

use super::moved::Moved;
use super::reading::RunningReading;
use super::seen::INVERSE_SQRT_TAU;
use super::system::System;
use crate::measure::{Measured, normal_cdf};
use crate::quantity::{Quantity, Ratio, TemperatureDifference};
use crate::{Error, Result};

/// What a running reading says of the charge, kg.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Running {
    pub says: Says,
    /// The charge by the relation, and its standard uncertainty with the scatter.
    pub charge: f64,
    pub doubt: f64,
    /// The charge by the relation where subcooling or superheat would just be zero: beyond it the reading stays the same.
    pub edge: f64,
    /// The standard uncertainty of the reading alone, and of the relation.
    pub reading: f64,
    pub scatter: f64,
    /// What was weighed since.
    pub since: Moved,
}

/// What superheat and subcooling say of the charge: a value, or a bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RunningSays {
    /// A value: both are clear of zero, and the relation holds there.
    About,
    /// A bound from above: the condenser may hold no subcooled liquid, or the charge lies below the relation's range.
    AtMost,
    /// A bound from below: the evaporator may not dry, or the charge lies above the relation's range.
    AtLeast,
}

pub(super) use RunningSays as Says;

impl RunningSays {
    /// In words.
    pub const fn text(self) -> &'static str {
        match self {
            RunningSays::About => {
                "Superheat and subcooling tell the charge, within the scatter of the relation."
            }
            RunningSays::AtMost => {
                "Superheat and subcooling bound the charge from above only: less than that looks the same, or lies where \
                 the relation was not tested."
            }
            RunningSays::AtLeast => {
                "Superheat and subcooling bound the charge from below only: more than that looks the same, or lies where \
                 the relation was not tested."
            }
        }
    }
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
        let RunningReading { superheat, subcooling, full, .. } = reading;
        let least = relation.least.min(0.5 * full.subcooling);
        let sealed = clear(subcooling, least);
        let dried = clear(superheat, relation.least.min(0.5 * full.superheat));
        let plain = |share: Measured<Ratio>| (share.value().fraction(), share.standard_uncertainty().base());
        // Without subcooled liquid the evaporator starves, and superheat rises far faster than the relation has it: the
        // bound rests on subcooling alone.
        let by_subcooling = |subcooling: &Measured<TemperatureDifference>| {
            relation.extrapolated(full, full.superheat, subcooling)
        };
        let none = Measured::exact(TemperatureDifference::ZERO);
        // Where neither is clear of zero the one that reads above it decides.
        let shows_superheat = superheat.value() > relation.least;
        let (says, (share, doubt), edge) = match (sealed, dried) {
            (true, true) => {
                let (share, doubt) = plain(relation.extrapolated(full, superheat, subcooling)?);
                // Beyond its range the relation bounds the charge, and no more.
                let (low, high) = (relation.range.low().fraction(), relation.range.high().fraction());
                let says = match share {
                    _ if share < low => Says::AtMost,
                    _ if share > high => Says::AtLeast,
                    _ => Says::About,
                };
                (says, (share, doubt), share)
            }
            (false, dried) if dried || shows_superheat => {
                (Says::AtMost, plain(by_subcooling(subcooling)?), plain(by_subcooling(&none)?).0)
            }
            (sealed, _) if sealed || subcooling.value() > least => {
                let edge = plain(relation.extrapolated(full, &none, subcooling)?).0;
                (Says::AtLeast, plain(relation.extrapolated(full, superheat, subcooling)?), edge)
            }
            _ => {
                return Err(Error::inconsistent(
                    "superheat and subcooling",
                    format!("neither is clear of zero: superheat {superheat}, subcooling {subcooling}"),
                    "liquid returning while none stands in the condenser points to poor evaporator load, a metering \
                     device stuck open or a reading error: check airflow and readings first",
                ));
            }
        };
        let plate = plate.kilograms();
        // No bound lies where the relation does not reach.
        let within =
            |share: f64| share.clamp(relation.range.low().fraction(), relation.range.high().fraction());
        let (share, edge) = (within(share), within(edge));
        let scatter = relation.scatter.fraction();
        Ok(Running {
            says,
            charge: share * plate,
            doubt: doubt.hypot(scatter) * plate,
            edge: edge * plate,
            reading: doubt.max(LEAST_DOUBT) * plate,
            scatter: scatter * plate,
            since: Moved::default(),
        })
    }

    /// The charge now and its variance, where it gives a value.
    pub fn known(&self) -> (f64, f64) {
        (self.charge + self.since.mass, self.doubt * self.doubt + self.since.variance)
    }

    /// The density of the reading at a charge now, 1/kg, where it gives a value.
    pub fn density(&self) -> impl Fn(f64) -> f64 {
        let (read, variance) = self.known();
        let (peak, per_square) = (INVERSE_SQRT_TAU / variance.sqrt(), -0.5 / variance);
        move |charge| peak * (per_square * (read - charge) * (read - charge)).exp()
    }

    /// How likely the reading is at a charge now, up to a factor, where it may lie beyond the edge; 1 where it gives a
    /// value.
    ///
    /// The relation gives the charge x with its scatter about the true one, and the reading shows x with its own doubt as
    /// long as x lies on the near side of the edge, else the edge: a censored normal (J. Tobin, Econometrica 26 (1958) 24).
    pub fn bound(&self, charge: f64) -> f64 {
        let side = match self.says {
            Says::About => return 1.0,
            Says::AtMost => 1.0,
            Says::AtLeast => -1.0,
        };
        // Mirrored where needed, so that x above the edge is seen and x below is not.
        let (now, read, edge) = (side * (charge - self.since.mass), side * self.charge, side * self.edge);
        let scatter = self.scatter.hypot(self.since.variance.sqrt());
        let both = self.reading.hypot(scatter);
        let seen = scatter * self.reading / both;
        let middle = (now * self.reading * self.reading + read * scatter * scatter) / (both * both);
        let density = |x: f64, deviation: f64| (-0.5 * (x / deviation).powi(2)).exp() / deviation;
        normal_cdf((edge - now) / scatter) * density(read - edge, self.reading)
            + normal_cdf((middle - edge) / seen) * density(read - now, both)
    }
}

/// Readings are never known better than to so small a share of the charge.
const LEAST_DOUBT: f64 = 1e-6;

/// Whether a reading lies above a least value beyond doubt.
fn clear(read: &Measured<TemperatureDifference>, least: TemperatureDifference) -> bool {
    read.value() - BEYOND_DOUBT * read.standard_uncertainty() > least
}

/// So many standard uncertainties.
const BEYOND_DOUBT: f64 = 2.0;
