//! What a running system shows: superheat, subcooling, and what they should be ([`target`]).
//!
//! # Example
//! ```
//! use kingvalve::quantity::*;
//! use kingvalve::refrigerant::Refrigerant;
//! let (site, r) = (Site::sea_level(), Refrigerant::named("R-410A")?);
//! let superheat = r.superheat(site.absolute(psig(118.0))?, fahrenheit(52.0))?;
//! let subcooling = r.subcooling(site.absolute(psig(365.0))?, fahrenheit(98.0))?;
//! assert_eq!(format!("{superheat:.1} {subcooling:.1}"), "12.2 Δ°F 11.7 Δ°F");
//! # Ok::<(), kingvalve::Error>(())
//! ```

pub mod target;

use crate::Result;
use crate::measure::{Both, Known, carry_both};
use crate::quantity::{Pressure, Temperature, TemperatureDifference};
use crate::refrigerant::Refrigerant;

impl Refrigerant {
    /// How much warmer the suction line is than the dew point at the suction pressure.
    ///
    /// # Units
    /// Absolute pressure ([`Site::absolute`](crate::quantity::Site::absolute) makes it from a gauge reading) and
    /// line temperature in; temperature difference out.
    /// # Source
    /// Definition: superheat = T_line − T_dew(p).
    /// # Valid range
    /// As [`dew_temperature`](Self::dew_temperature). A negative value is returned as it is: liquid in the line, or
    /// readings within their doubt of it.
    /// # Accuracy
    /// Readings carry their doubt through, with the exact slope dT/dp; the dew point itself is good to 0.05–0.2 K.
    /// # Errors
    /// A pressure outside the range, with its limits.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-22")?;
    /// let superheat = r.superheat(psia(83.2), fahrenheit(52.0))?;
    /// assert!((superheat.delta_fahrenheit() - 12.0).abs() < 0.1);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn superheat<P: Known<Pressure>, T: Known<Temperature>>(
        &self,
        suction_pressure: P,
        line_temperature: T,
    ) -> Result<Both<P::Grade, T::Grade, TemperatureDifference>> {
        let p = suction_pressure.value();
        let (dew, slope) = self.dew_temperature_and_slope(p)?;
        let superheat = line_temperature.value() - dew;
        Ok(carry_both(superheat, (&suction_pressure, -slope), (&line_temperature, 1.0)))
    }

    /// How much colder the liquid line is than the bubble point at the liquid pressure.
    ///
    /// # Units
    /// As [`superheat`](Self::superheat).
    /// # Source
    /// Definition: subcooling = T_bubble(p) − T_line.
    /// # Valid range
    /// As [`bubble_temperature`](Self::bubble_temperature). A negative value is returned as it is: vapour in the
    /// line, or readings within their doubt of it.
    /// # Accuracy
    /// As [`superheat`](Self::superheat).
    /// # Errors
    /// A pressure outside the range, with its limits.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-410A")?;
    /// let p = Site::sea_level().absolute(psig(365.0))?;
    /// assert!(r.subcooling(p, fahrenheit(98.0))? > delta_fahrenheit(11.0));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn subcooling<P: Known<Pressure>, T: Known<Temperature>>(
        &self,
        liquid_pressure: P,
        line_temperature: T,
    ) -> Result<Both<P::Grade, T::Grade, TemperatureDifference>> {
        let p = liquid_pressure.value();
        let (bubble, slope) = self.bubble_temperature_and_slope(p)?;
        let subcooling = bubble - line_temperature.value();
        Ok(carry_both(subcooling, (&liquid_pressure, slope), (&line_temperature, -1.0)))
    }
}
