//! The bore of refrigeration tube, and the liquid in it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::LineAllowance;
use crate::measure::Known;
use crate::quantity::{Area, Length, Mass, Quantity, Temperature, Volume, fahrenheit, feet, inches};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// Soft tube from the coil, or hard tube in straight lengths: their walls differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Temper {
    /// Soft, in coils.
    #[default]
    Annealed,
    /// Hard, in straight lengths.
    Drawn,
}

/// Outside diameter and wall in inches, by temper.
///
/// Source: ASTM B280 as listed in an engineering reference (copper tube, ACR; outside and inside diameter, wall).
/// Where one size has two walls in the annealed temper (3/4 in), the thinner.
const ACR: &[(f64, Option<f64>, Option<f64>)] = &[
    (0.125, Some(0.030), None),
    (0.187, Some(0.030), None),
    (0.250, Some(0.030), None),
    (0.312, Some(0.032), None),
    (0.375, Some(0.032), Some(0.030)),
    (0.500, Some(0.032), Some(0.035)),
    (0.625, Some(0.035), Some(0.040)),
    (0.750, Some(0.035), Some(0.042)),
    (0.875, Some(0.045), Some(0.045)),
    (1.125, Some(0.050), Some(0.050)),
    (1.375, Some(0.055), Some(0.055)),
];

/// A tube by its inside.
///
/// # Example
/// ```
/// use kingvalve::charge::{Temper, Tube};
/// use kingvalve::quantity::*;
/// let liquid_line = Tube::acr(inches(0.375), Temper::Annealed)?;
/// assert_eq!(format!("{:.4}", liquid_line.bore().in_unit("in²")?), "0.0760 in²");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    inside: Length,
}

impl Tube {
    /// Copper tube for refrigeration field service, by its outside diameter.
    ///
    /// # Units
    /// Outside diameter, as the trade calls the size: 3/8 in is 0.375 in.
    /// # Source
    /// ASTM B280, dimensions as listed in an engineering reference.
    /// # Valid range
    /// 1/8 to 1 3/8 in.
    /// # Accuracy
    /// Nominal; tolerances of diameter and wall change the bore by up to about 3 %. Tube sold by other standards has
    /// thinner walls: give its [inside diameter](Self::of_inside).
    /// # Errors
    /// A size, or a temper of a size, that is not made.
    /// # Example
    /// See [`Tube`].
    pub fn acr(outside: Length, temper: Temper) -> Result<Tube> {
        let given = outside.inches();
        // Sizes are said to a thousandth, so 0.3125 is the 5/16 of the table.
        let row = ACR.iter().find(|(size, ..)| (size - given).abs() < 0.001);
        let wall = row.and_then(|(_, annealed, drawn)| match temper {
            Temper::Annealed => *annealed,
            Temper::Drawn => *drawn,
        });
        match (row, wall) {
            (Some((size, ..)), Some(wall)) => Tube::of_inside(inches(size - 2.0 * wall)),
            (Some(_), None) => Err(Error::inconsistent(
                "tube",
                format!("{given} in is not made in that temper"),
                "give it as annealed, or by its inside diameter",
            )),
            (None, _) => Err(Error::out_of_range(
                "outside diameter of the tube",
                format!("{given} in"),
                "sizes listed are 1/8, 3/16, 1/4, 5/16, 3/8, 1/2, 5/8, 3/4, 7/8, 1 1/8 and 1 3/8 in",
                "measure the outside diameter, or give the inside diameter",
            )),
        }
    }

    /// A tube of that inside diameter.
    ///
    /// # Errors
    /// Unless it is above zero and at most 6 in.
    pub fn of_inside(inside: Length) -> Result<Tube> {
        if inside > feet(0.0) && inside <= inches(6.0) {
            return Ok(Tube { inside });
        }
        let limit = "it is above zero and at most 6 in";
        Err(Error::out_of_range("inside diameter of the tube", inside, limit, "check the size and its unit"))
    }

    /// The inside diameter.
    pub fn inside(&self) -> Length {
        self.inside
    }

    /// The area of the bore.
    pub fn bore(&self) -> Area {
        self.inside * self.inside * std::f64::consts::FRAC_PI_4
    }

    /// The volume of a length of it.
    pub fn volume<L: Known<Length>>(&self, length: L) -> L::With<Volume> {
        let volume = self.bore() * length.value();
        length.carry(volume, self.bore().base())
    }
}

/// The temperature of the liquid a computed allowance is for where nothing better is known: 95 °F. Common practice, no
/// source.
pub const USUAL_LIQUID: Temperature = fahrenheit(95.0);

/// The allowance for a liquid line of that bore: what fills a foot of it.
///
/// # Units
/// Temperature of the liquid line while the system runs; refrigerant per foot out.
/// # Source
/// Bore times density of the liquid at its bubble point, from the equation of state.
/// # Valid range
/// A liquid line full of liquid; temperatures of the saturation curve.
/// # Accuracy
/// The density is good to 0.1 %; 10 °F of liquid temperature change it by about 2 %. The vapour in the suction line,
/// some hundredths of it, is not counted. The maker's own figure comes first.
/// # Errors
/// A temperature outside the saturation curve.
/// # Example
/// ```
/// use kingvalve::charge::{Temper, Tube, USUAL_LIQUID, liquid_line_allowance};
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let line = Tube::acr(inches(0.375), Temper::Annealed)?;
/// let allowance = liquid_line_allowance(&Refrigerant::named("R-410A")?, line, USUAL_LIQUID)?;
/// assert_eq!(format!("{:.2}", allowance.mass.in_unit("oz")?), "0.53 oz");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn liquid_line_allowance(
    refrigerant: &Refrigerant,
    tube: Tube,
    liquid: Temperature,
) -> Result<LineAllowance> {
    let density = refrigerant.bubble_density(liquid)?;
    let per = feet(1.0);
    Ok(LineAllowance { mass: Mass::from_base(density.base() * tube.volume(per).base()), per })
}
