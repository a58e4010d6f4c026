//! `cylinder_fill` and `cylinder_heel`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Check, called, refrigerant};
use crate::cylinder::{Cylinder, FillLimit, HOTTEST_BY_RULE, Heel};
use crate::measure::{Finding, Level, Reading};
use crate::quantity::{GaugePressure, Mass, Site, Temperature};
use crate::{Error, Result};

/// Whether a cylinder holds no more than it may, by the scale and its stamps.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct CylinderFill {
    /// What is in it: "R-410A".
    refrigerant: String,
    /// Its stamps.
    cylinder: Stamps,
    /// On the scale, hoses off.
    gross: Reading<Mass>,
    /// The hottest it may become; 55 °C, as the transport rule has it, where it is left out.
    #[serde(default)]
    hottest: Option<Temperature>,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// What stays in a cylinder that is called empty, by its pressure and temperature.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct CylinderHeel {
    /// What was in it: "R-410A".
    refrigerant: String,
    /// Its stamps.
    cylinder: Stamps,
    /// Where the gauge was read: elevation or barometer.
    site: Site,
    /// At its valve.
    pressure: Reading<GaugePressure>,
    /// Of the cylinder, settled.
    temperature: Reading<Temperature>,
    /// What it was filled with, where it was emptied as vapour: a blend is then no longer what it was.
    #[serde(default)]
    emptied_as_vapour_from: Option<Mass>,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// The stamps of a cylinder.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Stamps {
    /// TW: what it weighs empty.
    tare: Mass,
    /// WC: the water it holds.
    water_capacity: Mass,
}

impl Stamps {
    fn cylinder(&self) -> Result<Cylinder> {
        Cylinder::stamped(self.tare, self.water_capacity).map_err(|error| error.in_field("cylinder"))
    }
}

impl Check for CylinderFill {
    const NAME: &'static str = "cylinder_fill";
    const EXAMPLE: &'static str = include_str!("examples/cylinder_fill.json");

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let cylinder = self.cylinder.cylinder()?;
        let limit = FillLimit::of(&refrigerant, &cylinder, self.hottest.unwrap_or(HOTTEST_BY_RULE));
        let limit = limit.map_err(|error| error.in_field("hottest"))?;
        let gross = called(self.gross, "gross weight");
        let check = limit.judge(&gross, self.level).map_err(|error| error.in_field("gross"))?;
        Ok(refrigerant.cautioned(check.finding()?))
    }
}

impl Check for CylinderHeel {
    const NAME: &'static str = "cylinder_heel";
    const EXAMPLE: &'static str = include_str!("examples/cylinder_heel.json");

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let cylinder = self.cylinder.cylinder()?;
        let at_gauge = |error: Error| error.in_field("pressure");
        let gauge = called(self.pressure, "cylinder gauge");
        let pressure = self.site.absolute(&gauge).map_err(at_gauge)?;
        let temperature = called(self.temperature, "cylinder thermometer");
        let (r, c, level) = (&refrigerant, &cylinder, self.level);
        let heel = match self.emptied_as_vapour_from {
            None => Heel::of(r, c, &pressure, &temperature, level).map_err(at_gauge)?,
            Some(filled) => Heel::emptied_as_vapour(r, c, filled, &pressure, &temperature, level)
                .map_err(|error| error.in_field("emptied_as_vapour_from"))?,
        };
        heel.finding()
    }
}
