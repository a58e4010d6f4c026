//! What is taken for granted before anything is read: named defaults, every one replaceable.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::charge::oil::steepening_checked;
use crate::charge::{COMMON_STEEPENING, VirtualCharge};
use crate::measure::Interval;
use crate::quantity::{
    Mass, Pressure, Ratio, TemperatureDifference, delta_fahrenheit, kilopascals, percent, pounds,
};
use crate::{Error, Result};

/// How full a charged system is: the volume its plate charge takes up as liquid at 25 °C, as a share of its internal
/// volume. Nine systems in ten lie between these.
///
/// # Source
/// Common practice, no source: for R-410A it means 0.18 to 0.50 kg of charge per litre, middle 0.30.
pub const COMMON_FILL: (Ratio, Ratio) = (percent(17.0), percent(47.0));

/// How charged a system may be found, as a share of its plate charge: any as likely.
///
/// # Source
/// Common practice, no source.
pub const COMMON_CHARGE: (Ratio, Ratio) = (percent(0.0), percent(120.0));

/// Compressor oil as a share of the plate charge by mass, where the amount of oil is not given.
///
/// # Source
/// Common practice, no source: 25 to 45 fl oz in a residential system of 5 to 8 lb.
pub const COMMON_OIL: (Ratio, Ratio) = (percent(20.0), percent(45.0));

/// The most that stays in a system that was recovered, evacuated and held, most of it in the oil: 0.02 lb.
///
/// # Source
/// Common practice, no source.
pub const COMMON_RESIDUE: Mass = pounds(0.02);

/// What is taken for granted before anything is read.
///
/// # Example
/// ```
/// use kingvalve::charge::inventory::Assumptions;
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::percent;
/// // A shop that knows its kind of equipment narrows the fill.
/// let ours = Assumptions { fill: Interval::new(percent(24.0), percent(34.0))?, ..Assumptions::default() };
/// assert!(ours.checked().is_ok());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Assumptions {
    /// Liquid volume of the plate charge per internal volume; nine systems in ten lie inside ([`COMMON_FILL`]).
    pub fill: Interval<Ratio>,
    /// The charge found, as a share of the plate charge: any as likely ([`COMMON_CHARGE`]).
    pub charge: Interval<Ratio>,
    /// The chance that it lies beyond that range, up to half as far again above. Common practice, no source: 2 %.
    pub beyond: Ratio,
    /// Oil per plate charge, used where the system's oil is not given ([`COMMON_OIL`]).
    pub oil: Interval<Ratio>,
    /// How steeply the oil's uptake rises towards saturation ([`COMMON_STEEPENING`]).
    pub steepening: Interval<Ratio>,
    /// The chance that air or nitrogen is in a system. Common practice, no source: 1 %.
    pub gas: Ratio,
    /// Partial pressures of such a gas, from nothing to this, are as likely. Common practice, no source: 2 MPa.
    pub gas_pressure: Pressure,
    /// The chance that a reading or a weighing is not what it is taken for: nothing arrived, the scale was touched, the
    /// temperatures had not settled. Where that is likelier than the reading, it counts as a [`Conflict`](super::Conflict).
    /// Common practice, no source: 0.5 %.
    pub mistaken: Ratio,
    /// How far the coldest point may differ from the temperature read there, as a standard uncertainty, in a system
    /// left to settle. Common practice, no source: 1 Δ°F.
    pub settled: TemperatureDifference,
    /// The relation between superheat, subcooling and charge, and its scatter.
    pub running: VirtualCharge,
}

impl Default for Assumptions {
    fn default() -> Self {
        let share = |(low, high)| Interval::spanning(low, high);
        Assumptions {
            fill: share(COMMON_FILL),
            charge: share(COMMON_CHARGE),
            beyond: percent(2.0),
            oil: share(COMMON_OIL),
            steepening: share(COMMON_STEEPENING),
            gas: percent(1.0),
            gas_pressure: kilopascals(2000.0),
            mistaken: percent(0.5),
            settled: delta_fahrenheit(1.0),
            running: VirtualCharge::default(),
        }
    }
}

impl Assumptions {
    /// The assumptions, once they make sense.
    ///
    /// # Errors
    /// A fill that is not between nothing and full, a chance outside 0 to 100 %, a negative share or doubt.
    pub fn checked(self) -> Result<Self> {
        let refuse = |what: &str, value: String, limit: &str| {
            Err(Error::out_of_range(what, value, limit, "give the shop's own value, or leave the default"))
        };
        let (none, all) = (percent(0.0), percent(100.0));
        if !(self.fill.low() > none && self.fill.high() < all && self.fill.low() < self.fill.high()) {
            return refuse("fill", self.fill.to_string(), "a range above 0 % and below 100 %");
        }
        if !(self.charge.low() >= none && self.charge.low() < self.charge.high()) {
            return refuse("range of charge", self.charge.to_string(), "a range from 0 % up");
        }
        for (what, chance) in [
            ("chance beyond the range", self.beyond),
            ("chance of gas", self.gas),
            ("chance of a mistake", self.mistaken),
        ] {
            if !(chance >= none && chance < all) {
                return refuse(what, chance.to_string(), "0 % or more and below 100 %");
            }
        }
        if self.oil.low() < none {
            return refuse("oil", self.oil.to_string(), "zero or more");
        }
        steepening_checked((self.steepening.low(), self.steepening.high()))?;
        if !(self.gas_pressure > Pressure::from_si(0.0) && self.gas_pressure.is_finite()) {
            return refuse("highest gas pressure", self.gas_pressure.to_string(), "above zero");
        }
        if !(self.settled >= delta_fahrenheit(0.0) && self.settled.is_finite()) {
            return refuse("doubt of settling", self.settled.to_string(), "zero or more");
        }
        self.running.checked()?;
        Ok(self)
    }
}
