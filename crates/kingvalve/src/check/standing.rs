//! `standing_pressure`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Check, Fields, called, refrigerant};
use crate::charge::{AirIngress, Oil, Space, Standing, StandingFinding};
use crate::measure::{Finding, Interval, Reading};
use crate::quantity::{GaugePressure, Quantity, Site, Temperature, Volume};
use crate::{Error, Result};

/// What the standing pressure (system off, equalised, temperatures settled) says about the charge.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct StandingPressure {
    /// Its designation: "R-454B".
    refrigerant: String,
    /// Where the gauge was read: elevation or barometer.
    site: Site,
    /// Equal on both sides.
    pressure: Reading<GaugePressure>,
    /// The parts the refrigerant fills, one at least.
    spaces: Vec<Part>,
    /// The compressor's oil, which holds refrigerant of its own.
    #[serde(default)]
    oil: Option<Oil>,
}

/// A space the refrigerant fills, at one temperature.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Part {
    /// What it is called: "outdoor coil".
    name: String,
    /// Its internal volume.
    volume: Interval<Volume>,
    /// Its temperature.
    temperature: Reading<Temperature>,
}

impl Check for StandingPressure {
    const NAME: &'static str = "standing_pressure";
    const EXAMPLE: &'static str = include_str!("examples/standing_pressure.json");
    const FIELDS: Fields = &[
        ("volume of", "spaces"),
        ("standing system", "spaces"),
        ("R-", "spaces"),
        ("oil ", "oil"),
        ("steepening of the oil", "oil.steepening"),
    ];

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let gauge = called(self.pressure, "standing pressure");
        let pressure = self.site.absolute(&gauge).map_err(|error: Error| error.in_field("pressure"))?;
        let spaces = self.spaces.into_iter().map(|part| {
            let label = format!("temperature of {}", part.name);
            let temperature = called(part.temperature, label).measured();
            Space { name: part.name, volume: part.volume, temperature }
        });
        let system = Standing { pressure, spaces: spaces.collect(), oil: self.oil };
        let found = system.read(&refrigerant)?;
        let finding =
            Finding::of(Self::NAME).measured("standing pressure", &system.pressure)?.saying(found.text());
        let air = AirIngress::of(&system.pressure, &self.site)?;
        let finding = if air == AirIngress::KeptOut {
            finding.concluding(found.name()).then(found.next())
        } else {
            let finding = finding.concluding(air.name()).saying(air.text());
            air.next().iter().fold(finding, |finding, line| finding.then(*line))
        };
        let finding = match &found {
            StandingFinding::AllVapour { mass, .. } => ends(finding, "refrigerant left", mass)?,
            StandingFinding::LiquidPossible { at_least, .. } => {
                finding.given("refrigerant left, at least", *at_least)?
            }
            StandingFinding::NotThisRefrigerantAlone { excess } => ends(finding, "above saturation", excess)?,
        };
        let cautions = found.cautions(&refrigerant);
        Ok(cautions
            .into_iter()
            .fold(finding, Finding::caution)
            .source("liquid and vapour in equilibrium have the pressure of the coldest point")
            .source("JCGM 106:2012"))
    }
}

/// Both ends of an interval.
fn ends<Q>(finding: Finding, what: &str, interval: &Interval<Q>) -> Result<Finding>
where
    Q: Quantity + serde::Serialize,
{
    finding
        .given(format!("{what}, at least"), interval.low())?
        .given(format!("{what}, at most"), interval.high())
}
