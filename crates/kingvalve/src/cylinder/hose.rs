//! What charging hoses take: the purge, and what they still hold.

use crate::measure::{Known, Measured};
use crate::quantity::{Length, Mass, Pressure, Quantity, Temperature, Volume, inches};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// The bore of a charging hose where it was not measured: 3/16 in. Common practice, no source.
pub const USUAL_BORE: Length = inches(0.1875);

/// A charging hose.
///
/// # Example
/// ```
/// use kingvalve::cylinder::{Hose, USUAL_BORE};
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let hose = Hose::of(feet(5.0), USUAL_BORE)?;
/// let full = hose.holds_liquid(&Refrigerant::named("R-410A")?, fahrenheit(80.0))?;
/// assert_eq!(format!("{:.1}", full.in_unit("oz")?), "1.0 oz");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hose {
    length: Length,
    bore: Length,
}

impl Hose {
    /// A hose of that length and inside diameter.
    ///
    /// # Errors
    /// A length or a bore that is not above zero, or a bore above 2 in.
    pub fn of(length: Length, bore: Length) -> Result<Hose> {
        for (what, value, most) in [("length of the hose", length, 1200.0), ("bore of the hose", bore, 2.0)] {
            if !(value > Length::ZERO && value <= inches(most)) {
                let limit = format!("it is above zero and at most {most} in");
                return Err(Error::out_of_range(what, value, limit, "check the size and its unit"));
            }
        }
        Ok(Hose { length, bore })
    }

    /// Its internal volume.
    pub fn volume(&self) -> Volume {
        self.bore * self.bore * std::f64::consts::FRAC_PI_4 * self.length
    }

    /// What it holds full of liquid: volume × density at the bubble point.
    ///
    /// # Errors
    /// A temperature outside the saturation curve.
    pub fn holds_liquid(&self, refrigerant: &Refrigerant, temperature: Temperature) -> Result<Mass> {
        Ok(refrigerant.bubble_density(temperature)? * self.volume())
    }

    /// What it holds full of vapour: volume × ρ(p, T), p absolute.
    ///
    /// # Errors
    /// Outside the equation, or a state that is no vapour.
    pub fn holds_vapour(
        &self,
        refrigerant: &Refrigerant,
        pressure: Pressure,
        temperature: Temperature,
    ) -> Result<Mass> {
        // Near the critical point there is no saturation curve to lie above, and density says what it can.
        if refrigerant.dew_pressure(temperature).is_ok_and(|dew| pressure > dew) {
            return Err(Error::inconsistent(
                "vapour in a hose",
                format!("{} at {pressure:.1} and {temperature:.1} is no vapour", refrigerant.designation()),
                "ask how much liquid it holds, or check the readings against each other",
            ));
        }
        Ok(refrigerant.density(pressure, temperature)? * self.volume())
    }
}

/// The allowance for purging air out of hoses once with saturated vapour from the cylinder: one fill of each.
///
/// # Units
/// Temperature of the cylinder; mass out.
/// # Source
/// Common practice, no source.
/// # Valid range
/// One purge of each hose; where rules forbid it, evacuate the hoses instead.
/// # Accuracy
/// Between nothing and twice the fill is taken as equally likely.
/// # Errors
/// A temperature outside the saturation curve.
/// # Example
/// ```
/// use kingvalve::cylinder::{Hose, USUAL_BORE, purge_allowance};
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let hoses = [Hose::of(feet(5.0), USUAL_BORE)?; 3];
/// let lost = purge_allowance(&hoses, &Refrigerant::named("R-410A")?, fahrenheit(80.0))?;
/// assert_eq!(format!("{:.2}", lost.value().in_unit("oz")?), "0.20 oz");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn purge_allowance(
    hoses: &[Hose],
    refrigerant: &Refrigerant,
    cylinder: Temperature,
) -> Result<Measured<Mass>> {
    let vapour = refrigerant.dew_density(cylinder)?;
    let fill: Mass = hoses.iter().map(|hose| vapour * hose.volume()).sum();
    Measured::from_limits(fill, fill, "hose purge allowance")
}

/// What reached the system of what left the cylinders: less the purge, less what the hoses still hold.
///
/// # Units
/// Masses, plain or measured.
/// # Source
/// Balance of mass.
/// # Valid range
/// Hoses empty of refrigerant before.
/// # Accuracy
/// That of the three.
/// # Errors
/// More lost than left the cylinders, beyond the doubt at 95 %.
/// # Example
/// ```
/// use kingvalve::cylinder::into_system;
/// use kingvalve::quantity::*;
/// let reached = into_system(pounds(4.25), ounces(0.2), ounces(1.0))?;
/// assert_eq!(format!("{:.3}", reached.value()), "4.175 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn into_system(
    out_of_cylinders: impl Known<Mass>,
    purged: impl Known<Mass>,
    still_in_hoses: impl Known<Mass>,
) -> Result<Measured<Mass>> {
    let (out, lost) = (out_of_cylinders.value(), purged.value() + still_in_hoses.value());
    let reached = Measured::exact(Mass::from_base(out.base() - lost.base()))
        .depending_on(out_of_cylinders, 1.0)
        .depending_on(purged, -1.0)
        .depending_on(still_in_hoses, -1.0);
    if reached.value() + reached.expanded(crate::measure::Level::default()) >= Mass::ZERO {
        return Ok(reached);
    }
    Err(Error::inconsistent(
        "refrigerant that reached the system",
        format!("{lost} is counted as lost in the hoses, of {out} that left the cylinders"),
        "check the weights and the hoses",
    ))
}
