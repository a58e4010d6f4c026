//! A cylinder by its stamps: what it weighs empty and how much water it holds.

use crate::measure::{Known, Measured};
use crate::quantity::{Density, Mass, Quantity, Volume, kilograms_per_cubic_meter};
use crate::{Error, Result};

/// Water at 60 °F, the temperature a water capacity is stamped for (49 CFR 173.304a, note 1): IAPWS-95 by CoolProp
/// 8.0.0.
pub(super) const WATER: Density = kilograms_per_cubic_meter(999.017);

/// A refrigerant cylinder.
///
/// # Example
/// ```
/// use kingvalve::cylinder::Cylinder;
/// use kingvalve::quantity::*;
/// let recovery = Cylinder::stamped(pounds(24.5), pounds(47.7))?;
/// assert_eq!(format!("{:.3}", recovery.volume().value()), "0.765 ft³");
/// assert_eq!(format!("{:.1}", recovery.net(pounds(40.0))?.value()), "15.5 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Cylinder {
    tare: Measured<Mass>,
    water_capacity: Measured<Mass>,
}

impl Cylinder {
    /// By its stamps: tare weight (TW) and water capacity (WC).
    ///
    /// # Units
    /// Masses, plain or measured.
    /// # Source
    /// Definition of water capacity: 49 CFR 173.304a(a)(2), note 1 (mass of water at 60 °F that fills it).
    /// # Valid range
    /// Any refillable or disposable cylinder; a disposable one must not be refilled.
    /// # Accuracy
    /// That of the stamps: give them as measured where the tare was not weighed.
    /// # Errors
    /// A tare or a capacity that is not above zero.
    /// # Example
    /// See [`Cylinder`].
    pub fn stamped(tare: impl Known<Mass>, water_capacity: impl Known<Mass>) -> Result<Cylinder> {
        for (what, mass) in [("tare", tare.value()), ("water capacity", water_capacity.value())] {
            if !(mass > Mass::ZERO && mass.is_finite()) {
                return Err(Error::out_of_range(
                    what,
                    mass,
                    "it is above zero",
                    "read the stamp on the collar",
                ));
            }
        }
        Ok(Cylinder { tare: measured(&tare), water_capacity: measured(&water_capacity) })
    }

    /// What it weighs empty.
    pub fn tare(&self) -> &Measured<Mass> {
        &self.tare
    }

    /// The water it holds at 60 °F.
    pub fn water_capacity(&self) -> &Measured<Mass> {
        &self.water_capacity
    }

    /// Its internal volume: water capacity over the density of water at 60 °F.
    ///
    /// # Units
    /// Volume.
    /// # Source
    /// Definition of water capacity, 49 CFR 173.304a(a)(2), note 1; density of water by IAPWS-95.
    /// # Accuracy
    /// That of the stamp; a steel cylinder grows by less than 0.3 % under pressure.
    pub fn volume(&self) -> Measured<Volume> {
        let per_mass = 1.0 / WATER.base();
        let volume = Volume::from_base(self.water_capacity.value().base() * per_mass);
        self.water_capacity.clone().map(volume, per_mass)
    }

    /// The refrigerant in it: gross less tare.
    ///
    /// # Units
    /// Gross weight on the scale.
    /// # Source
    /// Difference of weighings.
    /// # Valid range
    /// Weighed upright, without hoses.
    /// # Accuracy
    /// That of the scale and of the stamp.
    /// # Errors
    /// A gross weight below the tare by more than the doubt of both at 95 %.
    /// # Example
    /// See [`Cylinder`].
    pub fn net(&self, gross: impl Known<Mass>) -> Result<Measured<Mass>> {
        let read = gross.value();
        let net = measured(&gross) - self.tare.clone();
        let doubt = net.expanded(crate::measure::Level::default());
        if net.value().is_finite() && net.value() + doubt >= Mass::ZERO {
            return Ok(net);
        }
        Err(Error::inconsistent(
            "gross weight of the cylinder",
            format!("{read} is less than its tare of {}", self.tare.value()),
            "check the scale's zero, the stamp and whether it is the right cylinder",
        ))
    }
}

/// What is known, with whatever doubt it has.
pub(super) fn measured<Q: Quantity>(known: &impl Known<Q>) -> Measured<Q> {
    let mut doubt = crate::measure::Doubt::none();
    known.add_to(&mut doubt, 1.0);
    Measured::new(known.value(), doubt)
}
