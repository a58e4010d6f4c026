//! Standard air: the constants behind 1.08, 4.5 and 0.68.

use crate::measure::{Both, Known, carry_both};
use crate::quantity::{
    Density, HumidityRatio, Power, Quantity, Site, SpecificEnergy, SpecificEntropy, TemperatureDifference,
    VolumeFlow, btu_per_pound, btu_per_pound_fahrenheit, pounds_per_cubic_foot, watts,
};

/// Air of a fixed density and heat capacity, for the trade's short formulas.
///
/// 60 min/h × 0.075 lb/ft³ × 0.24 Btu/(lb·°F) = 1.08; 60 × 0.075 = 4.5; 60 × 0.075 × 1076 Btu/lb = 4842 per lb/lb, or
/// 0.69 per gr/lb (rounded down to 4840 and 0.68 in many tables). Two readings of the air itself give better:
/// [`delivered`](super::delivered).
///
/// # Source
/// Standard air of 0.075 lb/ft³ and 0.24 Btu/(lb·°F), and 1076 Btu/lb of vapour condensed to 50 °F water: as listed in
/// general engineering references on ASHRAE's standard air.
/// # Accuracy
/// A few percent indoors: warm moist air is lighter (3 % at 80 °F, 67 °F wet bulb) and its heat capacity higher.
/// # Example
/// ```
/// use kingvalve::air::StandardAir;
/// use kingvalve::quantity::*;
/// let heat = StandardAir::at(&Site::sea_level()).sensible(cfm(1200.0), delta_fahrenheit(20.0));
/// assert_eq!(format!("{:.0}", heat.in_unit("Btu/h")?), "25920 Btu/h");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandardAir {
    density: Density,
    heat_capacity: SpecificEntropy,
    latent_heat: SpecificEnergy,
}

impl Default for StandardAir {
    fn default() -> Self {
        StandardAir {
            density: pounds_per_cubic_foot(0.075),
            heat_capacity: btu_per_pound_fahrenheit(0.24),
            latent_heat: btu_per_pound(1076.0),
        }
    }
}

impl StandardAir {
    /// Air of another density, heat capacity and latent heat.
    pub const fn of(
        density: Density,
        heat_capacity: SpecificEntropy,
        latent_heat: SpecificEnergy,
    ) -> StandardAir {
        StandardAir { density, heat_capacity, latent_heat }
    }

    /// Standard air thinned to the pressure of a site, at the same temperature.
    pub fn at(site: &Site) -> StandardAir {
        let standard = StandardAir::default();
        let thinner = site.atmosphere() / Site::sea_level().atmosphere();
        StandardAir { density: standard.density * thinner, ..standard }
    }

    /// Its density.
    pub const fn density(&self) -> Density {
        self.density
    }

    /// Its heat capacity.
    pub const fn heat_capacity(&self) -> SpecificEntropy {
        self.heat_capacity
    }

    /// What a mass of vapour gives off on its way to condensate.
    pub const fn latent_heat(&self) -> SpecificEnergy {
        self.latent_heat
    }

    /// Sensible heat: 1.08 × cfm × °F at sea level.
    ///
    /// # Units
    /// Any volume flow and temperature difference; a power.
    /// # Source
    /// See [`StandardAir`].
    /// # Valid range
    /// Near room temperature.
    /// # Accuracy
    /// See [`StandardAir`].
    /// # Errors
    /// None.
    /// # Example
    /// See [`StandardAir`].
    pub fn sensible<F: Known<VolumeFlow>, D: Known<TemperatureDifference>>(
        &self,
        flow: F,
        difference: D,
    ) -> Both<F::Grade, D::Grade, Power> {
        by_factor((self.density.base() * self.heat_capacity.base(), &flow, &difference))
    }

    /// Total heat: 4.5 × cfm × Btu/lb at sea level.
    ///
    /// # Units
    /// Any volume flow and energy per mass; a power.
    /// # Source
    /// See [`StandardAir`].
    /// # Valid range
    /// Near room temperature.
    /// # Accuracy
    /// See [`StandardAir`].
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::air::StandardAir;
    /// use kingvalve::quantity::*;
    /// let heat = StandardAir::default().total(cfm(1200.0), btu_per_pound(6.6));
    /// assert_eq!(format!("{:.0}", heat.in_unit("Btu/h")?), "35640 Btu/h");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn total<F: Known<VolumeFlow>, D: Known<SpecificEnergy>>(
        &self,
        flow: F,
        difference: D,
    ) -> Both<F::Grade, D::Grade, Power> {
        by_factor((self.density.base(), &flow, &difference))
    }

    /// Latent heat: 0.69 × cfm × gr/lb at sea level.
    ///
    /// # Units
    /// Any volume flow and humidity ratio; a power.
    /// # Source
    /// See [`StandardAir`].
    /// # Valid range
    /// Near room temperature.
    /// # Accuracy
    /// See [`StandardAir`].
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::air::StandardAir;
    /// use kingvalve::quantity::*;
    /// let heat = StandardAir::default().latent(cfm(1.0), pounds_per_pound(1.0));
    /// assert_eq!(format!("{:.0}", heat.in_unit("Btu/h")?), "4842 Btu/h");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn latent<F: Known<VolumeFlow>, D: Known<HumidityRatio>>(
        &self,
        flow: F,
        difference: D,
    ) -> Both<F::Grade, D::Grade, Power> {
        by_factor((self.density.base() * self.latent_heat.base(), &flow, &difference))
    }
}

/// Factor × flow × difference, SI.
fn by_factor<A: Quantity, B: Quantity, F: Known<A>, D: Known<B>>(
    (factor, flow, difference): (f64, &F, &D),
) -> Both<F::Grade, D::Grade, Power> {
    let (v, d) = (flow.value().base(), difference.value().base());
    carry_both(watts(factor * v * d), (flow, factor * d), (difference, factor * v))
}
