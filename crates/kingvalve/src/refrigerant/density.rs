//! Density of one phase at a pressure and a temperature.

use super::{Refrigerant, failure};
use crate::Result;
use crate::measure::{Both, Known, carry_both};
use crate::quantity::{Density, Pressure, Temperature, kilograms_per_cubic_meter};

impl Refrigerant {
    /// The equation's error at a pressure and a temperature, in trade terms.
    pub(crate) fn failed_at(
        &self,
        error: &kingvalve_fluid::Error,
        p: Pressure,
        t: Temperature,
    ) -> crate::Error {
        failure::at(self.designation(), error, p, t)
    }

    /// Density at a pressure and a temperature: of the vapour below the dew pressure, of the liquid above the bubble
    /// pressure.
    ///
    /// # Units
    /// Absolute pressure and temperature in; mass per volume out.
    /// # Source
    /// As [`bubble_pressure`](Self::bubble_pressure), solved from the equation of state.
    /// # Valid range
    /// Temperatures and pressures of the equation.
    /// # Accuracy
    /// The equation is solved to 10⁻⁹; the equations are typically good to 0.2–0.5 % of the vapour and 0.1 % of the
    /// liquid density. Readings carry their doubt through, with the exact slopes.
    /// # Errors
    /// Outside the range; between bubble and dew, where there is no single density.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let vapour = Refrigerant::named("R-32")?.density(kilopascals(500.0), celsius(30.0))?;
    /// assert!((vapour.kilograms_per_cubic_meter() - 10.972).abs() < 0.001); // CoolProp 8.0.0
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn density<P: Known<Pressure>, T: Known<Temperature>>(
        &self,
        p: P,
        t: T,
    ) -> Result<Both<P::Grade, T::Grade, Density>> {
        let (density, by_pressure, by_temperature) = self
            .fluid()
            .density_and_slopes(t.value().kelvins(), p.value().pascals())
            .map_err(|error| failure::at(self.designation(), &error, p.value(), t.value()))?;
        let molar_mass = self.fluid().molar_mass();
        let density = kilograms_per_cubic_meter(density * molar_mass);
        Ok(carry_both(density, (&p, by_pressure * molar_mass), (&t, by_temperature * molar_mass)))
    }
}
