//! Which part may take a run capacitor's place.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{RunCapacitor, Tolerance};
use crate::measure::{Caution, Finding};
use crate::quantity::{Capacitance, ElectricPotential, microfarads, volts};
use crate::{Error, Result};

/// Voltages run capacitors are commonly marked with, lowest first: 370 V and 440 V in North America, the others under
/// IEC 60252-1. Common practice, no source.
pub const STANDARD_VOLTAGES: [ElectricPotential; 7] =
    [volts(250.0), volts(330.0), volts(370.0), volts(400.0), volts(440.0), volts(450.0), volts(500.0)];

/// Capacitances run capacitors, and sections of dual ones, are commonly sold in, lowest first. Common practice, no source.
pub const STANDARD_CAPACITANCES: [Capacitance; 24] = [
    microfarads(2.0),
    microfarads(2.5),
    microfarads(3.0),
    microfarads(4.0),
    microfarads(5.0),
    microfarads(6.0),
    microfarads(7.5),
    microfarads(10.0),
    microfarads(12.5),
    microfarads(15.0),
    microfarads(17.5),
    microfarads(20.0),
    microfarads(25.0),
    microfarads(30.0),
    microfarads(35.0),
    microfarads(40.0),
    microfarads(45.0),
    microfarads(50.0),
    microfarads(55.0),
    microfarads(60.0),
    microfarads(65.0),
    microfarads(70.0),
    microfarads(75.0),
    microfarads(80.0),
];

/// What a replacement must be: the same capacitance, at least the voltage marked, a tolerance no wider.
///
/// # Source
/// Common practice, no source; the equipment's data plate and instructions come first.
/// # Example
/// ```
/// use kingvalve::electrical::{Replacement, RunCapacitor, Tolerance};
/// use kingvalve::quantity::*;
/// let old = RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0));
/// let new = Replacement::of(&old, volts(370.0))?;
/// assert!(new.accepts(microfarads(5.0), volts(440.0)).is_ok());
/// assert!(new.accepts(microfarads(5.0), volts(330.0)).is_err());
/// assert!(new.accepts(microfarads(6.0), volts(440.0)).is_err());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Replacement {
    capacitance: Capacitance,
    tolerance: Tolerance,
    voltage: ElectricPotential,
}

/// A part on the shelf.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StockPart {
    /// The capacitance marked.
    pub capacitance: Capacitance,
    /// The voltage marked.
    pub voltage: ElectricPotential,
    /// The tolerance marked.
    pub tolerance: Tolerance,
}

/// Why a part may not take the place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Unfit {
    /// Another capacitance than the one marked.
    Capacitance,
    /// A lower voltage than the one marked.
    Voltage,
}

impl Unfit {
    /// What to print.
    pub const fn text(self) -> &'static str {
        match self {
            Unfit::Capacitance => {
                "Another capacitance than the one marked: the motor was designed around that one, and neither more nor \
                 less will do."
            }
            Unfit::Voltage => {
                "A lower voltage than the one marked: it would fail early. A higher one is fine."
            }
        }
    }
}

impl fmt::Display for Unfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}

impl Replacement {
    /// What may replace a part marked with that voltage.
    ///
    /// # Errors
    /// A rating that cannot be, a voltage that is not above zero and at most 660 V (the scope of IEC 60252-1).
    pub fn of(part: &RunCapacitor, marked: ElectricPotential) -> Result<Replacement> {
        part.limits(part.tolerance(), "rated tolerance")?;
        if !(marked > volts(0.0) && marked <= volts(660.0)) {
            return Err(Error::out_of_range(
                "voltage marked on the capacitor",
                marked,
                "it is above zero and at most 660 V",
                "copy it from the part's marking, 370 V or 440 V for example",
            ));
        }
        Ok(Replacement { capacitance: part.rating(), tolerance: part.tolerance(), voltage: marked })
    }

    /// The capacitance it must be marked with.
    pub fn capacitance(&self) -> Capacitance {
        self.capacitance
    }

    /// The voltage it must be marked with at least.
    pub fn voltage(&self) -> ElectricPotential {
        self.voltage
    }

    /// The standard voltages that will do, lowest first.
    pub fn standard_voltages(&self) -> impl Iterator<Item = ElectricPotential> {
        let least = self.voltage;
        STANDARD_VOLTAGES.into_iter().filter(move |voltage| *voltage >= least)
    }

    /// Whether the capacitance is one of those commonly sold; where not, the marking deserves a second look.
    pub fn is_standard(&self) -> bool {
        STANDARD_CAPACITANCES.iter().any(|standard| same(*standard, self.capacitance))
    }

    /// Whether a part with these marks may take the place.
    ///
    /// # Errors
    /// The reason it may not.
    pub fn accepts(
        &self,
        capacitance: Capacitance,
        voltage: ElectricPotential,
    ) -> std::result::Result<(), Unfit> {
        if !same(capacitance, self.capacitance) {
            Err(Unfit::Capacitance)
        } else if voltage >= self.voltage {
            Ok(())
        } else {
            Err(Unfit::Voltage)
        }
    }

    /// The part of the stock to take: one that may take the place, its tolerance no wider, its voltage the lowest of those
    /// (the smallest can); the first of equals.
    pub fn from_stock<'a>(&self, stock: &'a [StockPart]) -> Option<&'a StockPart> {
        let narrow = |part: &StockPart| {
            part.tolerance.below() <= self.tolerance.below()
                && part.tolerance.above() <= self.tolerance.above()
        };
        stock
            .iter()
            .filter(|part| narrow(part) && self.accepts(part.capacitance, part.voltage).is_ok())
            .min_by(|a, b| a.voltage.volts().total_cmp(&b.voltage.volts()))
    }

    /// The finding, in the shape shared by all checks: what the part must be, and which of a stock to take.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self, stock: &[StockPart]) -> Result<Finding> {
        let mut finding = Finding::of("capacitor_replacement")
            .given("capacitance", self.capacitance)?
            .given("voltage, at least", self.voltage)?
            .saying(format!("It must be {self}."));
        finding = match self.from_stock(stock) {
            Some(part) => finding.given("voltage of the part to take", part.voltage)?.then(format!(
                "Take the {}, {}, {} part: it may take the place, and is the smallest can that may.",
                part.capacitance, part.tolerance, part.voltage
            )),
            None if stock.is_empty() => finding,
            None => finding
                .concluding("none_in_stock")
                .then("None of the parts in stock may take the place: get one that may."),
        };
        Ok(super::deferring(finding)
            .caution(Caution::StoredCharge)
            .caution(Caution::LiveVoltage)
            .source("same capacitance, at least the voltage marked: common practice, no source"))
    }
}

/// One sentence for the parts list.
impl fmt::Display for Replacement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {} or tighter, {} or higher", self.capacitance, self.tolerance, self.voltage)?;
        if self.is_standard() {
            Ok(())
        } else {
            f.write_str("; not a capacitance commonly sold: read the marking again")
        }
    }
}

/// Equal beyond rounding of units.
fn same(a: Capacitance, b: Capacitance) -> bool {
    (a / b - 1.0).abs() < 1e-9
}
