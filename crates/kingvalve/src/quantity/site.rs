//! Where the work is done: the atmosphere a gauge counts from.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::factor::{ATMOSPHERE, GRAVITY};
use super::{Length, Pressure, feet, meters, pascals};
use crate::{Error, Result};

/// Temperature at sea level, K: U.S. Standard Atmosphere 1976, Table 2 and section 1.2.
const SEA_LEVEL_TEMPERATURE: f64 = 288.15;
/// Fall of temperature with height up to 11 km, K/m: same, Table 4.
const LAPSE_RATE: f64 = 0.0065;
/// Gas constant, J/(kmol·K), and molar mass of air, kg/kmol: same, Table 2 and section 1.2.4.
const GAS_CONSTANT: f64 = 8314.32;
const MOLAR_MASS: f64 = 28.9644;
/// The layer in which the formula holds, m: same, Table 4 (top); ICAO Doc 7488 (bottom).
const LOWEST: f64 = -5000.0;
const HIGHEST: f64 = 11_000.0;
/// Station pressures believed, Pa: those of the layer's top and bottom near land, with room for weather.
/// Common practice, no source.
const LOWEST_BAROMETER: f64 = 20_000.0;
const HIGHEST_BAROMETER: f64 = 120_000.0;

/// A place, as far as gauges are concerned: the pressure of the air around them.
///
/// In JSON `{"elevation": {"value": 130.0, "unit": "ft"}}` or `{"barometer": {"value": 29.4, "unit": "inHg"}}`.
///
/// # Example
/// ```
/// use kingvalve::quantity::*;
/// let site = Site::at_elevation(feet(5280.0))?;
/// assert_eq!(format!("{:.2}", site.atmosphere()), "12.10 psia");
/// let suction = site.absolute(psig(118.0))?;
/// assert_eq!(format!("{suction:.1}"), "130.1 psia");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Form", into = "Form")]
pub struct Site {
    given: Given,
    atmosphere: Pressure,
}

/// What the atmosphere was derived from.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Given {
    Elevation(Length),
    Barometer(Pressure),
}

/// A site in JSON: one of the two.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "site")]
struct Form {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    elevation: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    barometer: Option<Pressure>,
}

impl Site {
    /// A site so far above mean sea level, with the atmosphere of a standard day there.
    ///
    /// # Units
    /// Elevation in any length; the atmosphere in any pressure.
    /// # Source
    /// U.S. Standard Atmosphere 1976, equation 33a, equal to ICAO Doc 7488 in this layer. The elevation is used as
    /// geopotential height, as in Table 1 of ASHRAE Handbook—Fundamentals, chapter 1.
    /// # Valid range
    /// −5,000 m to 11,000 m (−16,404 ft to 36,089 ft).
    /// # Accuracy
    /// The formula is exact by definition; taking elevation for geopotential height lowers the pressure by less than
    /// 0.04 % below 4,000 m. The weather moves the true pressure by a percent or two: give a
    /// [barometer](Site::with_barometer) where that matters.
    /// # Errors
    /// Outside the valid range, or not a number.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// let site = Site::at_elevation(meters(1000.0))?;
    /// assert_eq!(format!("{:.2}", site.atmosphere().in_unit("kPa")?), "89.87 kPa");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn at_elevation(elevation: Length) -> Result<Site> {
        let height = elevation.meters();
        if !(LOWEST..=HIGHEST).contains(&height) {
            return Err(Error::out_of_range(
                "elevation",
                elevation,
                format!(
                    "the standard atmosphere is used from {:.0} to {:.0}",
                    meters(LOWEST),
                    meters(HIGHEST)
                ),
                "check the elevation and its unit, or give a barometer reading",
            ));
        }
        let exponent = GRAVITY * MOLAR_MASS / (GAS_CONSTANT * LAPSE_RATE);
        let atmosphere = ATMOSPHERE * (1.0 - LAPSE_RATE * height / SEA_LEVEL_TEMPERATURE).powf(exponent);
        Ok(Site { given: Given::Elevation(elevation), atmosphere: pascals(atmosphere) })
    }

    /// A site whose air pressure was read there: *station* pressure, not the sea-level pressure of a forecast.
    ///
    /// # Units
    /// Any absolute pressure.
    /// # Source
    /// The reading itself.
    /// # Valid range
    /// 20 kPa to 120 kPa (5.9 to 35.4 inHg): common practice, no source.
    /// # Accuracy
    /// That of the barometer.
    /// # Errors
    /// Outside the valid range, or not a number.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// let site = Site::with_barometer(inches_of_mercury(29.4))?;
    /// assert_eq!(format!("{:.2}", site.atmosphere()), "14.44 psia");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn with_barometer(pressure: Pressure) -> Result<Site> {
        if !(LOWEST_BAROMETER..=HIGHEST_BAROMETER).contains(&pressure.pascals()) {
            let [low, high] = [pascals(LOWEST_BAROMETER), pascals(HIGHEST_BAROMETER)];
            return Err(Error::out_of_range(
                "barometer",
                pressure,
                format!("the air at a site is between {low:.1} and {high:.1}"),
                "give the station pressure and check its unit",
            ));
        }
        Ok(Site { given: Given::Barometer(pressure), atmosphere: pressure })
    }

    /// A site at mean sea level on a standard day: 101,325 Pa.
    pub const fn sea_level() -> Site {
        Site { given: Given::Elevation(feet(0.0)), atmosphere: pascals(ATMOSPHERE) }
    }

    /// The pressure of the air there.
    pub const fn atmosphere(&self) -> Pressure {
        self.atmosphere
    }

    /// How far above mean sea level, where the site was given so.
    pub const fn elevation(&self) -> Option<Length> {
        match self.given {
            Given::Elevation(elevation) => Some(elevation),
            Given::Barometer(_) => None,
        }
    }
}

impl fmt::Display for Site {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.given {
            Given::Elevation(elevation) => write!(f, "{elevation} above sea level ({:.2})", self.atmosphere),
            Given::Barometer(pressure) => write!(f, "barometer {pressure}"),
        }
    }
}

impl TryFrom<Form> for Site {
    type Error = Error;
    fn try_from(form: Form) -> Result<Site> {
        match (form.elevation, form.barometer) {
            (Some(elevation), None) => Site::at_elevation(elevation),
            (None, Some(pressure)) => Site::with_barometer(pressure),
            (Some(_), Some(_)) => Err(Error::inconsistent(
                "site",
                "both elevation and barometer are given",
                "give the barometer alone",
            )),
            (None, None) => Err(Error::inconsistent(
                "site",
                "neither elevation nor barometer is given",
                "give one of them",
            )),
        }
    }
}

impl From<Site> for Form {
    fn from(site: Site) -> Form {
        match site.given {
            Given::Elevation(elevation) => Form { elevation: Some(elevation), barometer: None },
            Given::Barometer(pressure) => Form { elevation: None, barometer: Some(pressure) },
        }
    }
}
