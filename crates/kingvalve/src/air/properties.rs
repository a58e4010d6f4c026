//! What moist air is, once made: its properties, each with exact derivatives.

use super::carry::carried;
use super::psychrometric::{
    DRY_AIR, VAPOR, dew_point, enthalpy, ratio_of_wet_bulb, vapor_of_ratio, volume, wet_bulb,
};
use super::state::{MoistAir, is_dry};
use super::water::{COLDEST, saturation};
use crate::measure::{Grade, Known};
use crate::quantity::{
    Density, HumidityRatio, Pressure, Quantity, Ratio, SpecificEnergy, SpecificVolume, Temperature,
    btu_per_pound, celsius, cubic_meters_per_kilogram, fraction, joules_per_kilogram,
    kilograms_per_cubic_meter, pascals,
};
use crate::{Error, Result};

/// Equation 30 in US units, Btu/lb and °F: heat capacity of dry air, enthalpy of vapour at 0 °F, heat capacity of vapour
/// (ASHRAE Handbook—Fundamentals 2017, I-P edition, chapter 1).
const US_DRY_AIR: f64 = 0.240;
const US_VAPOR_AT_ZERO: f64 = 1061.0;
const US_VAPOR: f64 = 0.444;

impl<G: Grade> MoistAir<G> {
    /// The dry bulb.
    pub fn dry_bulb(&self) -> G::Of<Temperature> {
        carried::<G, _>(self.dry_bulb.value(), |doubt| doubt.by(&self.dry_bulb, 1.0))
    }

    /// The humidity ratio: water per dry air.
    pub fn humidity_ratio(&self) -> G::Of<HumidityRatio> {
        carried::<G, _>(self.humidity_ratio.value(), |doubt| doubt.by(&self.humidity_ratio, 1.0))
    }

    /// The pressure.
    pub const fn pressure(&self) -> Pressure {
        self.pressure
    }

    /// The same air without its doubt.
    pub fn plain(&self) -> MoistAir {
        MoistAir {
            dry_bulb: self.dry_bulb.value(),
            humidity_ratio: self.humidity_ratio.value(),
            pressure: self.pressure,
        }
    }

    pub(super) fn t(&self) -> f64 {
        self.dry_bulb.value().celsius()
    }

    pub(super) fn w(&self) -> f64 {
        self.humidity_ratio.value().base()
    }

    /// A result of this state alone, with its derivatives by dry bulb and humidity ratio.
    fn result<R: Quantity>(&self, value: R, by_dry: f64, by_ratio: f64) -> G::Of<R> {
        carried::<G, _>(value, |doubt| doubt.by(&self.dry_bulb, by_dry).by(&self.humidity_ratio, by_ratio))
    }

    /// The partial pressure of the water vapour.
    ///
    /// # Units
    /// An absolute pressure.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equation 20.
    /// # Valid range
    /// See [`MoistAir`].
    /// # Accuracy
    /// See [`MoistAir`].
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::saturated(celsius(25.0), &Site::sea_level())?;
    /// assert_eq!(format!("{:.1}", air.vapor_pressure().pascals()), "3169.2");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn vapor_pressure(&self) -> G::Of<Pressure> {
        let [vapor, by_ratio] = vapor_of_ratio(self.w(), self.pressure.base());
        self.result(pascals(vapor), 0.0, by_ratio)
    }

    /// The relative humidity, below 0.01 °C over ice.
    ///
    /// # Units
    /// A ratio.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 12 and 22.
    /// # Valid range
    /// See [`MoistAir`].
    /// # Accuracy
    /// See [`MoistAir`].
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::from_dew_point(fahrenheit(75.0), fahrenheit(55.0), &Site::sea_level())?;
    /// assert_eq!(format!("{:.1}", air.relative_humidity()), "49.8 %");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn relative_humidity(&self) -> G::Of<Ratio> {
        let [vapor, by_ratio] = vapor_of_ratio(self.w(), self.pressure.base());
        let [saturated, slope, _] = saturation(self.dry_bulb.value().base());
        self.result(
            fraction(vapor / saturated),
            -vapor * slope / (saturated * saturated),
            by_ratio / saturated,
        )
    }

    /// The dew point; below 0.01 °C the frost point.
    ///
    /// # Units
    /// A temperature.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 5 and 6 turned round by Newton's method.
    /// # Valid range
    /// Dew points from −100 °C.
    /// # Accuracy
    /// The equations solved to 1e-9 K.
    /// # Errors
    /// Air too dry to have one in the valid range.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::from_relative_humidity(fahrenheit(75.0), percent(50.0), &Site::sea_level())?;
    /// assert_eq!(format!("{:.1}", air.dew_point()?), "55.1 °F");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn dew_point(&self) -> Result<G::Of<Temperature>> {
        let [vapor, by_ratio] = vapor_of_ratio(self.w(), self.pressure.base());
        let [least, ..] = saturation(celsius(COLDEST).base());
        if is_dry(self.humidity_ratio.value()) || vapor < least {
            return Err(Error::out_of_range(
                "humidity ratio",
                self.humidity_ratio.value(),
                format!("air this dry has no dew point above {:.0}", celsius(COLDEST)),
                "check the humidity reading",
            ));
        }
        let dew = celsius(dew_point(vapor));
        let [_, slope, _] = saturation(dew.base());
        Ok(self.result(dew, 0.0, by_ratio / slope))
    }

    /// The thermodynamic wet bulb.
    ///
    /// # Units
    /// A temperature.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 33 (liquid, from 0 °C) and 35 (ice, below), solved by
    /// Halley's method from the dry bulb down; the derivatives by the rule of implicit functions.
    /// # Valid range
    /// See [`MoistAir`]. Where the air is such that the two equations both have a solution, within a degree or two of
    /// freezing, the one over liquid is given.
    /// # Accuracy
    /// The equations solved to 1e-9 K.
    /// # Errors
    /// None in the valid range; the form leaves room.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::from_relative_humidity(fahrenheit(75.0), percent(50.0), &Site::sea_level())?;
    /// assert_eq!(format!("{:.1}", air.wet_bulb()?), "62.6 °F");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    #[inline]
    pub fn wet_bulb(&self) -> Result<G::Of<Temperature>> {
        let (t, w, p) = (self.t(), self.w(), self.pressure.base());
        let wet = wet_bulb(t, w, p);
        if !wet.is_finite() {
            return Err(Error::inconsistent(
                "wet bulb",
                format!("{self} has none in the range of the equations"),
                "check the readings and the site",
            ));
        }
        Ok(carried::<G, _>(celsius(wet), |doubt| {
            let [_, by_dry, by_wet] = ratio_of_wet_bulb(t, wet, p);
            doubt.by(&self.dry_bulb, -by_dry / by_wet).by(&self.humidity_ratio, 1.0 / by_wet)
        }))
    }

    /// The enthalpy per mass of dry air, zero for dry air and liquid water at 0 °C.
    ///
    /// US tables count dry air from 0 °F: [`enthalpy_from_zero_fahrenheit`](Self::enthalpy_from_zero_fahrenheit).
    /// Differences are the same within the constants' rounding.
    ///
    /// # Units
    /// Energy per mass of dry air.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017 (SI), chapter 1, equation 30.
    /// # Valid range
    /// See [`MoistAir`].
    /// # Accuracy
    /// See [`MoistAir`].
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::from_humidity_ratio(celsius(30.0), grams_per_kilogram(20.0), &Site::sea_level())?;
    /// assert_eq!(format!("{:.1}", air.enthalpy().kilojoules_per_kilogram()), "81.3");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn enthalpy(&self) -> G::Of<SpecificEnergy> {
        let [h, by_dry, by_ratio] = enthalpy(self.t(), self.w());
        self.result(joules_per_kilogram(h), by_dry, by_ratio)
    }

    /// The enthalpy per mass of dry air as US tables and charts give it: zero for dry air at 0 °F.
    ///
    /// # Units
    /// Energy per mass of dry air.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017 (I-P), chapter 1, equation 30.
    /// # Valid range
    /// See [`MoistAir`].
    /// # Accuracy
    /// See [`MoistAir`].
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::from_wet_bulb(fahrenheit(80.0), fahrenheit(67.0), &Site::sea_level())?;
    /// assert_eq!(format!("{:.1}", air.enthalpy_from_zero_fahrenheit()), "31.4 Btu/lb");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn enthalpy_from_zero_fahrenheit(&self) -> G::Of<SpecificEnergy> {
        let (t, w) = (self.dry_bulb.value().fahrenheit(), self.w());
        let vapor = US_VAPOR_AT_ZERO + US_VAPOR * t;
        let by_kelvin = btu_per_pound(1.8 * (US_DRY_AIR + US_VAPOR * w)).base();
        self.result(btu_per_pound(US_DRY_AIR * t + w * vapor), by_kelvin, btu_per_pound(vapor).base())
    }

    /// The volume of moist air per mass of dry air in it.
    ///
    /// # Units
    /// Volume per mass of dry air.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equation 26.
    /// # Valid range
    /// See [`MoistAir`].
    /// # Accuracy
    /// See [`MoistAir`].
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::from_wet_bulb(fahrenheit(80.0), fahrenheit(67.0), &Site::sea_level())?;
    /// assert_eq!(format!("{:.2}", air.specific_volume()), "13.85 ft³/lb");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn specific_volume(&self) -> G::Of<SpecificVolume> {
        let [v, by_dry, by_ratio] = volume(self.dry_bulb.value().base(), self.w(), self.pressure.base());
        self.result(cubic_meters_per_kilogram(v), by_dry, by_ratio)
    }

    /// The density: mass of air and water per volume.
    ///
    /// # Units
    /// A density.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equation 11.
    /// # Valid range
    /// See [`MoistAir`].
    /// # Accuracy
    /// See [`MoistAir`].
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::from_relative_humidity(fahrenheit(75.0), percent(50.0), &Site::at_elevation(feet(5000.0))?)?;
    /// assert_eq!(format!("{:.4}", air.density()), "0.0613 lb/ft³");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn density(&self) -> G::Of<Density> {
        let [v, by_dry, by_ratio] = volume(self.dry_bulb.value().base(), self.w(), self.pressure.base());
        let density = (1.0 + self.w()) / v;
        self.result(kilograms_per_cubic_meter(density), -density * by_dry / v, (1.0 - density * by_ratio) / v)
    }

    /// Heat capacity at constant humidity, J/K per kg of dry air, and its derivative by humidity ratio.
    pub(super) fn heat_capacity(&self) -> [f64; 2] {
        [1e3 * (DRY_AIR + VAPOR * self.w()), 1e3 * VAPOR]
    }

    /// Volume per kg of dry air, and its derivatives by dry bulb and humidity ratio.
    pub(super) fn volume(&self) -> [f64; 3] {
        volume(self.dry_bulb.value().base(), self.w(), self.pressure.base())
    }
}
