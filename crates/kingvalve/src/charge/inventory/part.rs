//! The parts of a system and the room inside them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::measure::Interval;
use crate::quantity::{Length, Volume};
use crate::{Error, Result};

/// One part of a system: what it is called and how much room there is inside. Nine times in ten the true volume lies
/// in the range.
///
/// # Example
/// ```
/// use kingvalve::charge::inventory::Part;
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::*;
/// let bore = Interval::new(inches(0.78), inches(0.79))?;
/// let run = Interval::new(feet(38.0), feet(42.0))?;
/// let suction = Part::tube("suction line", bore, run, 1)?;
/// assert_eq!(format!("{:.1}", suction.volume.middle().in_unit("L")?), "3.8 L");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// What it is called: "outdoor coil".
    pub name: String,
    /// The room inside.
    pub volume: Interval<Volume>,
}

impl Part {
    /// A part of known room: a compressor shell, a receiver, a coil whose maker gives it.
    ///
    /// # Errors
    /// A volume that is not above zero.
    pub fn room(name: impl Into<String>, volume: Interval<Volume>) -> Result<Part> {
        let name = name.into();
        if volume.low() > Volume::ZERO {
            return Ok(Part { name, volume });
        }
        Err(Error::out_of_range(
            format!("volume of {name}"),
            volume.low(),
            "an internal volume is above zero",
            "leave the part out, or give its volume as a range",
        ))
    }

    /// A tube, or a coil of many: π/4·d²·length of each, times their number.
    ///
    /// # Units
    /// Inside diameter and the length of one tube (a coil's return bends included) in.
    /// # Source
    /// Geometry.
    /// # Valid range
    /// Diameters and lengths above zero; one tube or more.
    /// # Accuracy
    /// Ends of the ranges combine, so that the volume's range holds every combination.
    /// # Errors
    /// A diameter or length that is not above zero, no tube.
    /// # Example
    /// See [`Part`].
    pub fn tube(
        name: impl Into<String>,
        inside_diameter: Interval<Length>,
        length: Interval<Length>,
        tubes: u32,
    ) -> Result<Part> {
        let name = name.into();
        let measures = [("inside diameter", inside_diameter.low()), ("length", length.low())];
        for (what, low) in measures {
            if low <= Length::ZERO {
                return Err(Error::out_of_range(
                    format!("{what} of {name}"),
                    low,
                    "it is above zero",
                    "check the measure and its unit",
                ));
            }
        }
        if tubes == 0 {
            return Err(Error::out_of_range(
                format!("number of tubes of {name}"),
                tubes,
                "one at least",
                "leave the part out where there is none",
            ));
        }
        let filled = |d: Length, l: Length| l * (d * d) * (std::f64::consts::FRAC_PI_4 * f64::from(tubes));
        let volume = Interval::new(
            filled(inside_diameter.low(), length.low()),
            filled(inside_diameter.high(), length.high()),
        )?;
        Ok(Part { name, volume })
    }
}
