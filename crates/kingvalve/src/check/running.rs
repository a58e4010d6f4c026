//! `superheat` and `subcooling`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Check, called, refrigerant};
use crate::Result;
use crate::cycle::target::TargetNote;
use crate::measure::{Caution, Finding, Level, Limits, Measured, Reading};
use crate::quantity::{GaugePressure, Site, Temperature, TemperatureDifference};
use crate::refrigerant::Refrigerant;

/// How much warmer the suction line is than the dew point at the suction pressure.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Superheat {
    /// Its designation: "R-410A".
    refrigerant: String,
    /// Where the gauge was read: elevation or barometer.
    site: Site,
    /// At the service valve of the suction line.
    suction_pressure: Reading<GaugePressure>,
    /// Of the suction line beside it.
    suction_line: Reading<Temperature>,
    /// What it should be, where a target is known.
    #[serde(default)]
    limits: Option<Limits<TemperatureDifference>>,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// How much colder the liquid line is than the bubble point at the liquid pressure.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Subcooling {
    /// Its designation: "R-410A".
    refrigerant: String,
    /// Where the gauge was read: elevation or barometer.
    site: Site,
    /// At the service valve of the liquid line.
    liquid_pressure: Reading<GaugePressure>,
    /// Of the liquid line beside it.
    liquid_line: Reading<Temperature>,
    /// What it should be, where a target is known.
    #[serde(default)]
    limits: Option<Limits<TemperatureDifference>>,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

impl Check for Superheat {
    const NAME: &'static str = "superheat";
    const EXAMPLE: &'static str = include_str!("examples/superheat.json");

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let gauge = called(self.suction_pressure, "suction gauge");
        let line = called(self.suction_line, "suction line thermometer");
        let at_gauge = |error: crate::Error| error.in_field("suction_pressure");
        let pressure = self.site.absolute(&gauge).map_err(at_gauge)?;
        let dew = refrigerant.dew_temperature(&pressure).map_err(at_gauge)?;
        let superheat = refrigerant.superheat(&pressure, &line).map_err(at_gauge)?;
        let finding = Finding::of(Self::NAME)
            .measured("superheat", &superheat)?
            .measured("dew point at the suction pressure", &dew)?
            .measured("suction pressure", &pressure)?
            .saying(format!("Superheat {superheat}: the line against a dew point of {dew}."));
        let note = TargetNote::of_superheat(&superheat, self.level)?;
        let finding = against(finding, "superheat", &superheat, note, self.limits, self.level)?;
        Ok(cautioned(finding, &refrigerant).source("definition: superheat = T_line − T_dew(p)"))
    }
}

impl Check for Subcooling {
    const NAME: &'static str = "subcooling";
    const EXAMPLE: &'static str = include_str!("examples/subcooling.json");

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let gauge = called(self.liquid_pressure, "liquid gauge");
        let line = called(self.liquid_line, "liquid line thermometer");
        let at_gauge = |error: crate::Error| error.in_field("liquid_pressure");
        let pressure = self.site.absolute(&gauge).map_err(at_gauge)?;
        let bubble = refrigerant.bubble_temperature(&pressure).map_err(at_gauge)?;
        let subcooling = refrigerant.subcooling(&pressure, &line).map_err(at_gauge)?;
        let finding = Finding::of(Self::NAME)
            .measured("subcooling", &subcooling)?
            .measured("bubble point at the liquid pressure", &bubble)?
            .measured("liquid pressure", &pressure)?
            .saying(format!("Subcooling {subcooling}: the line against a bubble point of {bubble}."));
        let note = TargetNote::of_subcooling(&subcooling, self.level)?;
        let finding = against(finding, "subcooling", &subcooling, note, self.limits, self.level)?;
        Ok(cautioned(finding, &refrigerant).source("definition: subcooling = T_bubble(p) − T_line"))
    }
}

/// Adds what a reading not above zero means, and the verdict where there is a target.
fn against(
    finding: Finding,
    what: &str,
    measured: &Measured<TemperatureDifference>,
    note: Option<TargetNote>,
    limits: Option<Limits<TemperatureDifference>>,
    level: Level,
) -> Result<Finding> {
    let finding = match note {
        Some(note) => finding.concluding(note.name()).saying(note.text()).then(note.next()),
        None => finding,
    };
    let Some(limits) = limits else {
        return Ok(finding.then("Hold it against its target, with airflow and steady running shown first."));
    };
    let verdict = limits.judge(measured, level)?;
    Ok(finding.judged(what, &verdict)?.saying(verdict.to_string()).source("JCGM 106:2012"))
}

pub(super) fn cautioned(finding: Finding, refrigerant: &Refrigerant) -> Finding {
    let finding = finding.caution(Caution::HighPressure).caution(Caution::Frostbite);
    refrigerant.cautioned(finding)
}
