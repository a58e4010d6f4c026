//! The charge a system should hold: the data plate's, corrected for the length of the line set.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::measure::Known;
use crate::quantity::{Length, Mass, Quantity, feet};
use crate::{Error, Result};

/// Refrigerant per length of line set: `{"mass": "0.6 oz", "per": "1 ft"}`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LineAllowance {
    /// So much refrigerant …
    pub mass: Mass,
    /// … for each such length of line.
    pub per: Length,
}

/// The charge of a data plate.
///
/// # Example
/// ```
/// use kingvalve::charge::{LineAllowance, PlateCharge};
/// use kingvalve::quantity::*;
/// let plate = PlateCharge {
///     factory: pounds(6.0),
///     included_line: feet(15.0),
///     allowance: Some(LineAllowance { mass: ounces(0.6), per: feet(1.0) }),
/// };
/// assert_eq!(format!("{:.2}", plate.for_line(feet(40.0))?), "6.94 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlateCharge {
    /// The factory charge.
    pub factory: Mass,
    /// The length of line set the factory charge is meant for.
    pub included_line: Length,
    /// What the maker adds or takes away per length beyond or short of that; `None` where the plate gives nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub allowance: Option<LineAllowance>,
}

impl PlateCharge {
    /// The charge for a line set of that length: factory + (installed − included) × allowance.
    ///
    /// # Units
    /// Length of one line of the set in, plain or measured; mass out.
    /// # Source
    /// Common practice, no source: the maker's instructions print this rule with their own allowance.
    /// # Valid range
    /// Lines from nothing to 250 ft; a result above zero.
    /// # Accuracy
    /// That of the data plate and of the measured length.
    /// # Errors
    /// A data plate with no charge, a length outside the range, a line of another length than included where the
    /// plate gives no allowance.
    /// # Example
    /// See [`PlateCharge`].
    pub fn for_line<L: Known<Length>>(&self, installed: L) -> Result<L::With<Mass>> {
        let per_meter = self.per_meter(installed.value(), self.allowance)?;
        let charge = self.with_line(installed.value(), per_meter)?;
        Ok(installed.carry(charge, per_meter))
    }

    /// The allowance in kg/m, with plate and lengths found possible; zero where the line is the one included.
    pub(super) fn per_meter(&self, installed: Length, allowance: Option<LineAllowance>) -> Result<f64> {
        if !(self.factory.is_finite() && self.factory > Mass::ZERO) {
            return Err(Error::out_of_range(
                "factory charge",
                self.factory,
                "a data plate gives more than none",
                "read the charge from the data plate, or leave the charge out where there is none",
            )
            .in_field("factory"));
        }
        for (field, length) in [("included_line", self.included_line), ("line_length", installed)] {
            if !(length >= feet(0.0) && length <= LONGEST_LINE) {
                return Err(Error::out_of_range(
                    "length of line set",
                    length,
                    format!("a line set is 0 ft to {LONGEST_LINE} long"),
                    "check the length and its unit",
                )
                .in_field(field));
            }
        }
        match allowance {
            None if installed == self.included_line => Ok(0.0),
            None => Err(Error::inconsistent(
                "charge for the line set",
                format!(
                    "the line is {installed} and the plate includes {} but gives no allowance",
                    self.included_line
                ),
                "give the maker's allowance per length, or have it computed from the liquid line's size",
            )
            .in_field("allowance")),
            Some(allowance) => allowance.per_meter(),
        }
    }

    /// The charge with so much for each meter beyond or short of the length included.
    pub(super) fn with_line(&self, installed: Length, per_meter: f64) -> Result<Mass> {
        let correction = Mass::from_base(per_meter * (installed - self.included_line).base());
        let charge = self.factory + correction;
        if charge > Mass::ZERO {
            return Ok(charge);
        }
        Err(Error::inconsistent(
            "charge for the line set",
            format!("{} less {} leaves nothing", self.factory, correction.abs()),
            "check the allowance and the lengths",
        ))
    }
}

impl LineAllowance {
    fn per_meter(&self) -> Result<f64> {
        if self.per > feet(0.0) && self.mass >= Mass::ZERO && self.mass.is_finite() {
            return Ok(self.mass.base() / self.per.base());
        }
        Err(Error::out_of_range(
            "allowance per length",
            format!("{} per {}", self.mass, self.per),
            "it is a mass of zero or more per a length above zero",
            "check the maker's table",
        )
        .in_field("allowance"))
    }
}

/// Longer line sets than this are not part of split systems. Common practice, no source.
const LONGEST_LINE: Length = feet(250.0);
