//! Between gauge and absolute pressure, carrying the doubt of the reading.

use super::Known;
use crate::quantity::{GaugePressure, Pressure, Quantity, Site, pascals};
use crate::{Error, Result};

impl Site {
    /// The absolute pressure behind a gauge pressure read here.
    ///
    /// # Units
    /// Gauge pressure in, absolute pressure out.
    /// # Source
    /// Definition: absolute = gauge + atmosphere.
    /// # Valid range
    /// From vacuum up.
    /// # Accuracy
    /// That of the reading and of the atmosphere.
    /// # Errors
    /// Where the gauge pressure lies below vacuum, or is not a number.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// let p = Site::sea_level().absolute(psig(62.0))?;
    /// assert_eq!(format!("{p:.2}"), "76.70 psia");
    /// assert!(Site::sea_level().absolute(psig(-15.0)).unwrap_err().is_out_of_range());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn absolute<P: Known<GaugePressure>>(&self, gauge: P) -> Result<P::With<Pressure>> {
        let read = gauge.value();
        let absolute = self.atmosphere() + (read - GaugePressure::from_base(0.0));
        if !(absolute.is_finite() && absolute >= pascals(0.0)) {
            let vacuum = GaugePressure::from_base(-self.atmosphere().base());
            return Err(Error::out_of_range(
                "gauge pressure",
                read,
                format!("a full vacuum at this site is {vacuum:.2}"),
                "a gauge pressure below vacuum cannot be: check the sign, the unit, the gauge's zero and the site",
            ));
        }
        Ok(gauge.carry(absolute, 1.0))
    }

    /// What a gauge would show here at an absolute pressure.
    ///
    /// # Units
    /// Absolute pressure in, gauge pressure out.
    /// # Source
    /// Definition: gauge = absolute − atmosphere.
    /// # Valid range
    /// From vacuum up.
    /// # Accuracy
    /// That of the pressure and of the atmosphere.
    /// # Errors
    /// Where the absolute pressure is negative, or not a number.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// let shown = Site::sea_level().gauge(psia(76.696))?;
    /// assert_eq!(format!("{shown:.1}"), "62.0 psig");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn gauge<P: Known<Pressure>>(&self, absolute: P) -> Result<P::With<GaugePressure>> {
        let pressure = absolute.value();
        if !(pressure.is_finite() && pressure >= pascals(0.0)) {
            return Err(Error::out_of_range(
                "absolute pressure",
                pressure,
                "an absolute pressure is zero or more",
                "check the sign and the unit; was it a gauge pressure?",
            ));
        }
        Ok(absolute.carry(GaugePressure::from_base((pressure - self.atmosphere()).base()), 1.0))
    }
}
