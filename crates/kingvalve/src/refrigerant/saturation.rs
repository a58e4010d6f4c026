//! Bubble and dew: pressure, temperature and density at saturation.

use kingvalve_fluid::Line;

use super::{Refrigerant, failure};
use crate::Result;
use crate::measure::Known;
use crate::quantity::{
    Density, Pressure, Temperature, TemperatureDifference, kelvins, kilograms_per_cubic_meter, pascals,
};

impl Refrigerant {
    /// Pressure at which the liquid starts to boil: the saturation pressure of a pure refrigerant, the bubble
    /// pressure of a blend.
    ///
    /// # Units
    /// Any temperature in, absolute pressure out.
    /// # Source
    /// The multi-fluid Helmholtz-energy model with the papers' equations ([`Fluid::sources`](kingvalve_fluid::Fluid::sources),
    /// [`Fluid::pairs`](kingvalve_fluid::Fluid::pairs)), looked up on a curve fitted to it.
    /// # Valid range
    /// From the lowest temperature of the equations, or that above which a blend's liquid is one, to 0.995 of the
    /// critical temperature.
    /// # Accuracy
    /// The curve follows the equation to 2·10⁻⁵ of the pressure or better. The equations are typically good to
    /// 0.1–0.5 % of the pressure.
    /// # Errors
    /// A temperature outside the range, with its limits.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let p = Refrigerant::named("R-410A")?.bubble_pressure(fahrenheit(100.0))?;
    /// assert_eq!(format!("{p:.1}"), "333.2 psia");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    #[inline]
    pub fn bubble_pressure<T: Known<Temperature>>(&self, t: T) -> Result<T::With<Pressure>> {
        self.pressure(Line::Bubble, t)
    }

    /// Pressure at which the vapour starts to condense; see [`bubble_pressure`](Self::bubble_pressure).
    ///
    /// # Errors
    /// A temperature outside the range, with its limits.
    #[inline]
    pub fn dew_pressure<T: Known<Temperature>>(&self, t: T) -> Result<T::With<Pressure>> {
        self.pressure(Line::Dew, t)
    }

    /// Temperature at which the liquid starts to boil: subcooling is counted from here.
    ///
    /// # Units
    /// Absolute pressure in ([`Site::absolute`](crate::quantity::Site::absolute) makes it from a gauge reading).
    /// # Source
    /// As [`bubble_pressure`](Self::bubble_pressure), of which it is the exact inverse.
    /// # Valid range
    /// Pressures of the saturation curve: up to about 0.96 of the critical pressure.
    /// # Accuracy
    /// Within 1 mK of the equation; the equations are typically good to 0.05–0.2 K.
    /// # Errors
    /// A pressure outside the range, with its limits.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-407C")?;
    /// let (bubble, dew) = (r.bubble_temperature(psia(250.0))?, r.dew_temperature(psia(250.0))?);
    /// assert!(dew - bubble > delta_fahrenheit(8.0)); // the glide
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    #[inline]
    pub fn bubble_temperature<P: Known<Pressure>>(&self, p: P) -> Result<P::With<Temperature>> {
        self.temperature(Line::Bubble, p)
    }

    /// Temperature at which the vapour starts to condense: superheat is counted from here; see
    /// [`bubble_temperature`](Self::bubble_temperature).
    ///
    /// # Errors
    /// A pressure outside the range, with its limits.
    #[inline]
    pub fn dew_temperature<P: Known<Pressure>>(&self, p: P) -> Result<P::With<Temperature>> {
        self.temperature(Line::Dew, p)
    }

    /// Density of the liquid at its bubble point.
    ///
    /// # Units
    /// Any temperature in; mass per volume out.
    /// # Source
    /// As [`bubble_pressure`](Self::bubble_pressure).
    /// # Valid range
    /// As [`bubble_pressure`](Self::bubble_pressure).
    /// # Accuracy
    /// The curve follows the equation to 2·10⁻⁵; the equations are typically good to 0.1 % of the liquid density.
    /// # Errors
    /// A temperature outside the range, with its limits.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let liquid = Refrigerant::named("R-22")?.bubble_density(celsius(25.0))?;
    /// assert!((liquid.kilograms_per_cubic_meter() - 1190.7).abs() < 1.0);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    #[inline]
    pub fn bubble_density<T: Known<Temperature>>(&self, t: T) -> Result<T::With<Density>> {
        self.saturated_density(Line::Bubble, t)
    }

    /// Density of the vapour at its dew point; see [`bubble_density`](Self::bubble_density). The equations are
    /// typically good to 0.5 % of the vapour density.
    ///
    /// # Errors
    /// A temperature outside the range, with its limits.
    #[inline]
    pub fn dew_density<T: Known<Temperature>>(&self, t: T) -> Result<T::With<Density>> {
        self.saturated_density(Line::Dew, t)
    }

    /// How much warmer the dew point is than the bubble point at one pressure.
    ///
    /// # Units
    /// Absolute pressure in, temperature difference out.
    /// # Source
    /// Definition.
    /// # Valid range
    /// As [`bubble_temperature`](Self::bubble_temperature).
    /// # Accuracy
    /// As [`bubble_temperature`](Self::bubble_temperature).
    /// # Errors
    /// A pressure outside the range, with its limits.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let glide = Refrigerant::named("R-410A")?.glide(psia(200.0))?;
    /// assert!(glide < delta_fahrenheit(0.3));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn glide(&self, p: Pressure) -> Result<TemperatureDifference> {
        Ok(self.dew_temperature(p)? - self.bubble_temperature(p)?)
    }

    #[inline]
    fn pressure<T: Known<Temperature>>(&self, line: Line, t: T) -> Result<T::With<Pressure>> {
        let curve = self.curve(line)?;
        let (p, slope) =
            curve.pressure_and_slope(t.value().kelvins()).map_err(|error| self.failed(&error))?;
        Ok(t.carry(pascals(p), slope))
    }

    #[inline]
    fn temperature<P: Known<Pressure>>(&self, line: Line, p: P) -> Result<P::With<Temperature>> {
        let (t, slope) = self.temperature_and_slope(line, p.value())?;
        Ok(p.carry(t, slope))
    }

    /// Dew temperature and its slope dT/dp, K/Pa.
    pub(crate) fn dew_temperature_and_slope(&self, p: Pressure) -> Result<(Temperature, f64)> {
        self.temperature_and_slope(Line::Dew, p)
    }

    /// Bubble temperature and its slope dT/dp, K/Pa.
    pub(crate) fn bubble_temperature_and_slope(&self, p: Pressure) -> Result<(Temperature, f64)> {
        self.temperature_and_slope(Line::Bubble, p)
    }

    #[inline]
    fn temperature_and_slope(&self, line: Line, p: Pressure) -> Result<(Temperature, f64)> {
        let curve = self.curve(line)?;
        let (t, slope) = curve.temperature_and_slope(p.pascals()).map_err(|error| self.failed(&error))?;
        Ok((kelvins(t), slope))
    }

    #[inline]
    fn saturated_density<T: Known<Temperature>>(&self, line: Line, t: T) -> Result<T::With<Density>> {
        let curve = self.curve(line)?;
        let (density, slope) =
            curve.density_and_slope(t.value().kelvins()).map_err(|error| self.failed(&error))?;
        let molar_mass = self.fluid().molar_mass();
        Ok(t.carry(kilograms_per_cubic_meter(density * molar_mass), slope * molar_mass))
    }

    pub(super) fn curve(&self, line: Line) -> Result<&kingvalve_fluid::Curve> {
        self.fluid().curve(line).map_err(|error| self.failed(&error))
    }

    pub(crate) fn failed(&self, error: &kingvalve_fluid::Error) -> crate::Error {
        failure::of_state(self.designation(), error)
    }
}
