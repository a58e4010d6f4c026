//! Moist air at one place: dry bulb, humidity ratio, pressure.

use std::fmt;

use super::carry::{Of2, carried};
use super::psychrometric::{DRIEST, MASS_RATIO, ratio_of_vapor, ratio_of_wet_bulb};
use super::water::{COLDEST, ZERO_CELSIUS, saturation};
use crate::measure::{Grade, Known, Plain};
use crate::quantity::{
    HumidityRatio, Pressure, Quantity, Ratio, Site, Temperature, celsius, kilograms_per_kilogram, pascals,
    percent,
};
use crate::{Error, Result};

/// Dry bulbs of moist air in this room, °C: outdoors to furnace outlets.
const COLDEST_AIR: f64 = -60.0;
const HOTTEST_AIR: f64 = 90.0;
/// How far above saturation rounding may carry.
const ROUNDING: f64 = 1e-9;

/// Moist air at the pressure of a site, made from the dry bulb and one measure of its humidity.
///
/// Made of readings it carries their doubt: every property of a [`MoistAir`] of readings is
/// [`Measured`](crate::measure::Measured), with the dry bulb's doubt counted once however often it enters. A duct's
/// few tenths of an inch of water change the pressure by a tenth of a percent and are not counted.
///
/// # Units
/// Those of the quantities; humidity ratio, enthalpy and volume are per mass of *dry* air.
/// # Source
/// ASHRAE Handbook—Fundamentals 2017, chapter 1: moist air as a mixture of perfect gases.
/// # Valid range
/// Dry bulb −60 °C to 90 °C (−76 °F to 194 °F), up to saturation.
/// # Accuracy
/// The Handbook states 0.7 % for the perfect-gas relations' humidity ratio, enthalpy and volume at the standard
/// pressure from −50 °C to 50 °C; against real-gas tables the humidity ratio at saturation is about 0.5 % low.
/// # Errors
/// See each constructor.
/// # Example
/// ```
/// use kingvalve::air::MoistAir;
/// use kingvalve::quantity::*;
/// let air = MoistAir::from_wet_bulb(fahrenheit(80.0), fahrenheit(67.0), &Site::sea_level())?;
/// assert_eq!(format!("{:.1}", air.humidity_ratio()), "78.2 gr/lb");
/// assert_eq!(format!("{:.1}", air.dew_point()?), "60.3 °F");
/// assert_eq!(format!("{:.1}", air.relative_humidity()), "51.1 %");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub struct MoistAir<G: Grade = Plain> {
    pub(super) dry_bulb: G::Of<Temperature>,
    pub(super) humidity_ratio: G::Of<HumidityRatio>,
    pub(super) pressure: Pressure,
}

/// Moist air that depends on two inputs.
type Air<D, H> = MoistAir<Of2<D, H>>;

impl MoistAir {
    /// From dry bulb and wet bulb.
    ///
    /// # Units
    /// Any temperature unit.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 33 (wick wet) and 35 (iced, below 0 °C).
    /// # Valid range
    /// Thermodynamic wet bulb; a ventilated wick or a meter that computes it comes within a few tenths of a degree.
    /// # Accuracy
    /// See [`MoistAir`]; exact derivatives.
    /// # Errors
    /// A wet bulb above the dry bulb, or so far below it that no air is that dry; a dry bulb outside the valid range.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::measure::{Instrument, Reading};
    /// use kingvalve::quantity::*;
    /// let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    /// let dry = Reading::new(fahrenheit(75.0), probe.clone())?;
    /// let wet = Reading::new(fahrenheit(63.0), probe)?;
    /// let air = MoistAir::from_wet_bulb(&dry, &wet, &Site::at_elevation(feet(5280.0))?)?;
    /// assert_eq!(air.relative_humidity().to_string(), "54.21 ± 0.64 %"); // one probe: its error cancels in part
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn from_wet_bulb<D: Known<Temperature>, W: Known<Temperature>>(
        dry_bulb: D,
        wet_bulb: W,
        site: &Site,
    ) -> Result<Air<D::Grade, W::Grade>> {
        let (t, wet) = (dry_bulb.value(), wet_bulb.value());
        let pressure = site.atmosphere();
        in_range(t)?;
        not_above("wet bulb", wet, t)?;
        wet_enough(t, saturation(wet.base())[0], pressure)?;
        let [w, by_dry, by_wet] = ratio_of_wet_bulb(t.celsius(), wet.celsius(), pressure.base());
        if w.is_nan() || w < 0.0 {
            let driest = super::psychrometric::wet_bulb(t.celsius(), 0.0, pressure.base());
            return Err(Error::inconsistent(
                "wet bulb",
                format!(
                    "{wet:.1} with a dry bulb of {t:.1} is drier than dry air, whose wet bulb is {:.1}",
                    celsius(driest)
                ),
                "check the wick and the readings",
            ));
        }
        Ok(MoistAir {
            dry_bulb: carried::<Of2<D::Grade, W::Grade>, _>(t, |doubt| doubt.by(&dry_bulb, 1.0)),
            humidity_ratio: carried::<Of2<D::Grade, W::Grade>, _>(kilograms_per_kilogram(w), |doubt| {
                doubt.by(&dry_bulb, by_dry).by(&wet_bulb, by_wet)
            }),
            pressure,
        })
    }

    /// From dry bulb and dew point (below 0.01 °C: frost point).
    ///
    /// # Units
    /// Any temperature unit.
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 5, 6 and 20: the vapour pressure is that of saturation
    /// at the dew point.
    /// # Valid range
    /// Dew points from −100 °C.
    /// # Accuracy
    /// See [`MoistAir`]; exact derivatives.
    /// # Errors
    /// A dew point above the dry bulb or below the valid range; a dry bulb outside the valid range.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let error = MoistAir::from_dew_point(fahrenheit(60.0), fahrenheit(65.0), &Site::sea_level()).map(|_| ()).unwrap_err();
    /// assert!(error.is_inconsistent());
    /// assert!(error.to_string().starts_with("dew point: 65.0 °F lies above the dry bulb, 60.0 °F"));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn from_dew_point<D: Known<Temperature>, W: Known<Temperature>>(
        dry_bulb: D,
        dew_point: W,
        site: &Site,
    ) -> Result<Air<D::Grade, W::Grade>> {
        let (t, dew) = (dry_bulb.value(), dew_point.value());
        let pressure = site.atmosphere();
        in_range(t)?;
        not_above("dew point", dew, t)?;
        let [vapor, slope, _] = saturation(dew.base());
        let [w, by_vapor] = wet_enough(t, vapor, pressure)?;
        Ok(MoistAir {
            dry_bulb: carried::<Of2<D::Grade, W::Grade>, _>(t, |doubt| doubt.by(&dry_bulb, 1.0)),
            humidity_ratio: carried::<Of2<D::Grade, W::Grade>, _>(kilograms_per_kilogram(w), |doubt| {
                doubt.by(&dew_point, by_vapor * slope)
            }),
            pressure,
        })
    }

    /// From dry bulb and relative humidity.
    ///
    /// # Units
    /// Any temperature unit; a ratio (`percent(50.0)`).
    /// # Source
    /// ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 5, 6, 20 and 22; below 0.01 °C over ice.
    /// # Valid range
    /// 0 % to 100 %.
    /// # Accuracy
    /// See [`MoistAir`]; exact derivatives.
    /// # Errors
    /// A relative humidity below 0 % or above 100 %; a dry bulb outside the valid range.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let error = MoistAir::from_relative_humidity(fahrenheit(75.0), percent(140.0), &Site::sea_level()).map(|_| ()).unwrap_err();
    /// assert!(error.to_string().starts_with("relative humidity 140 % is out of range"), "{error}");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn from_relative_humidity<D: Known<Temperature>, W: Known<Ratio>>(
        dry_bulb: D,
        relative_humidity: W,
        site: &Site,
    ) -> Result<Air<D::Grade, W::Grade>> {
        let (t, humidity) = (dry_bulb.value(), relative_humidity.value());
        let pressure = site.atmosphere();
        in_range(t)?;
        if !(0.0..=1.0 + ROUNDING).contains(&humidity.fraction()) {
            return Err(Error::out_of_range(
                "relative humidity",
                humidity,
                "air holds from 0 % to 100 %",
                "check the reading; a fraction is given as fraction(0.55), a percentage as percent(55.0)",
            ));
        }
        let [saturated, slope, _] = saturation(t.base());
        let [w, by_vapor] = wet_enough(t, humidity.fraction() * saturated, pressure)?;
        Ok(MoistAir {
            dry_bulb: carried::<Of2<D::Grade, W::Grade>, _>(t, |doubt| doubt.by(&dry_bulb, 1.0)),
            humidity_ratio: carried::<Of2<D::Grade, W::Grade>, _>(kilograms_per_kilogram(w), |doubt| {
                doubt
                    .by(&dry_bulb, by_vapor * slope * humidity.fraction())
                    .by(&relative_humidity, by_vapor * saturated)
            }),
            pressure,
        })
    }

    /// From dry bulb and humidity ratio.
    ///
    /// # Units
    /// Any temperature unit; mass of water per mass of dry air.
    /// # Source
    /// Definition.
    /// # Valid range
    /// From dry air to saturation.
    /// # Accuracy
    /// That of the inputs.
    /// # Errors
    /// A negative humidity ratio or one above saturation; a dry bulb outside the valid range.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::from_humidity_ratio(celsius(30.0), grams_per_kilogram(20.0), &Site::at_elevation(meters(500.0))?)?;
    /// assert_eq!(format!("{:.3}", air.density().kilograms_per_cubic_meter()), "1.084");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn from_humidity_ratio<D: Known<Temperature>, W: Known<HumidityRatio>>(
        dry_bulb: D,
        humidity_ratio: W,
        site: &Site,
    ) -> Result<Air<D::Grade, W::Grade>> {
        let (t, w) = (dry_bulb.value(), humidity_ratio.value());
        let pressure = site.atmosphere();
        in_range(t)?;
        let most = saturated_ratio(t, pressure);
        if !(w.base() >= 0.0 && w.base() <= most * (1.0 + ROUNDING)) {
            return Err(Error::out_of_range(
                "humidity ratio",
                w,
                format!("air of {t:.1} holds from 0 gr/lb to {:.1}", kilograms_per_kilogram(most)),
                "check the reading, its unit and the dry bulb",
            ));
        }
        Ok(MoistAir {
            dry_bulb: carried::<Of2<D::Grade, W::Grade>, _>(t, |doubt| doubt.by(&dry_bulb, 1.0)),
            humidity_ratio: carried::<Of2<D::Grade, W::Grade>, _>(w, |doubt| doubt.by(&humidity_ratio, 1.0)),
            pressure,
        })
    }

    /// Saturated air: what to take where wet and dry bulb read the same within their doubt.
    ///
    /// # Units
    /// Any temperature unit.
    /// # Source
    /// As [`from_relative_humidity`](MoistAir::from_relative_humidity) at 100 %.
    /// # Valid range
    /// As there.
    /// # Accuracy
    /// As there.
    /// # Errors
    /// A dry bulb outside the valid range, or at which water boils.
    /// # Example
    /// ```
    /// use kingvalve::air::MoistAir;
    /// use kingvalve::quantity::*;
    /// let air = MoistAir::saturated(fahrenheit(55.0), &Site::sea_level())?;
    /// assert_eq!(format!("{:.1}", air.wet_bulb()?), "55.0 °F");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn saturated<D: Known<Temperature>>(
        dry_bulb: D,
        site: &Site,
    ) -> Result<MoistAir<Of2<D::Grade, Plain>>> {
        MoistAir::from_relative_humidity(dry_bulb, percent(100.0), site)
    }
}

/// Most water the air can hold, kg/kg; infinite where water boils.
pub(super) fn saturated_ratio(t: Temperature, pressure: Pressure) -> f64 {
    let [vapor, ..] = saturation(t.base());
    if vapor < pressure.base() {
        let [w, _] = ratio_of_vapor(vapor, pressure.base());
        w
    } else {
        f64::INFINITY
    }
}

fn in_range(t: Temperature) -> Result<()> {
    if (COLDEST_AIR..=HOTTEST_AIR).contains(&t.celsius()) {
        return Ok(());
    }
    Err(Error::out_of_range(
        "dry bulb",
        t,
        format!("moist air is computed from {:.0} to {:.0}", celsius(COLDEST_AIR), celsius(HOTTEST_AIR)),
        "check the temperature and its unit",
    ))
}

/// A wet bulb or dew point: not above the dry bulb, not below the curve of saturation.
fn not_above(what: &str, t: Temperature, dry_bulb: Temperature) -> Result<()> {
    if t.base().is_nan() || t.base() < COLDEST + ZERO_CELSIUS {
        return Err(Error::out_of_range(
            what,
            t,
            format!("the saturation curve starts at {:.0}", celsius(COLDEST)),
            "check the temperature and its unit",
        ));
    }
    if t > dry_bulb {
        return Err(Error::inconsistent(
            what,
            format!("{t:.1} lies above the dry bulb, {dry_bulb:.1}"),
            "check the wick, the probe and which reading is which; where the two agree within their doubt the air is \
             saturated: MoistAir::saturated",
        ));
    }
    Ok(())
}

/// Humidity ratio of a vapour pressure that is below the air's own.
fn wet_enough(t: Temperature, vapor: f64, pressure: Pressure) -> Result<[f64; 2]> {
    if vapor < pressure.base() {
        return Ok(ratio_of_vapor(vapor, pressure.base()));
    }
    Err(Error::inconsistent(
        "humidity",
        format!("at {t:.1} water vapor alone would have {:.2}, the air has {pressure:.2}", pascals(vapor)),
        "check the temperature, the humidity and the site",
    ))
}

/// Whether there is enough vapour to speak of a dew point.
pub(super) fn is_dry(w: HumidityRatio) -> bool {
    w.base() < DRIEST * MASS_RATIO
}

impl<G: Grade> Clone for MoistAir<G>
where
    G::Of<Temperature>: Clone,
    G::Of<HumidityRatio>: Clone,
{
    fn clone(&self) -> Self {
        MoistAir {
            dry_bulb: self.dry_bulb.clone(),
            humidity_ratio: self.humidity_ratio.clone(),
            pressure: self.pressure,
        }
    }
}

impl Copy for MoistAir {}

/// As one says it: "75.0 °F, 65.1 gr/lb".
impl<G: Grade> fmt::Display for MoistAir<G> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.1}, {:.1}", self.dry_bulb.value(), self.humidity_ratio.value())
    }
}

impl<G: Grade> fmt::Debug for MoistAir<G> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "MoistAir({self} at {:.3})", self.pressure)
    }
}
