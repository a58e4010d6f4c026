//! `target_superheat` and `target_subcooling`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::running::cautioned;
use super::{Check, called, refrigerant};
use crate::air::{AirflowCheck, usual_airflow_per_ton};
use crate::cycle::target::{
    ChargeTolerance, ChargingChart, Conditions, Mode, Requirements, Target, TargetCheck,
};
use crate::measure::{Finding, Level, Limits, Reading};
use crate::quantity::{GaugePressure, Power, Site, Temperature, TemperatureDifference, Time, VolumeFlow};
use crate::{Error, Result};

/// Whether a system with a fixed orifice runs at its target superheat, from the air's temperatures.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct TargetSuperheat {
    /// Its designation: "R-410A".
    refrigerant: String,
    /// Where the gauge was read: elevation or barometer.
    site: Site,
    /// At the service valve of the suction line.
    suction_pressure: Reading<GaugePressure>,
    /// Of the suction line beside it.
    suction_line: Reading<Temperature>,
    /// Wet bulb of the air entering the indoor coil.
    indoor_wet_bulb: Reading<Temperature>,
    /// The maker's chart by outdoor dry bulb and indoor wet bulb; left out, the common formula is used.
    #[serde(default)]
    chart: Option<ChargingChart>,
    /// What it was read under.
    conditions: Running,
    /// The limits; left out, California's for the installer.
    #[serde(default)]
    tolerance: ChargeTolerance,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// Whether a system with a thermostatic or electronic valve runs at its target subcooling.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct TargetSubcooling {
    /// Its designation: "R-410A".
    refrigerant: String,
    /// Where the gauges were read: elevation or barometer.
    site: Site,
    /// At the service valve of the liquid line.
    liquid_pressure: Reading<GaugePressure>,
    /// Of the liquid line beside it.
    liquid_line: Reading<Temperature>,
    /// At the service valve of the suction line, to see whether the valve works.
    #[serde(default)]
    suction_pressure: Option<Reading<GaugePressure>>,
    /// Of the suction line beside it.
    #[serde(default)]
    suction_line: Option<Reading<Temperature>>,
    /// The data plate's.
    target: TemperatureDifference,
    /// What it was read under.
    conditions: Running,
    /// The limits; left out, California's for the installer.
    #[serde(default)]
    tolerance: ChargeTolerance,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// The conditions of a reading, and what they must be.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Running {
    /// Cooling where it is left out.
    #[serde(default)]
    mode: Mode,
    /// How long it has run since the last change.
    running: Time,
    /// Dry bulb of the air entering the outdoor coil.
    outdoor: Reading<Temperature>,
    /// Dry bulb of the air entering the indoor coil.
    #[serde(default)]
    indoor: Option<Reading<Temperature>>,
    /// The airflow, where it was measured.
    #[serde(default)]
    airflow: Option<Airflow>,
    /// What must hold before there is a verdict; left out, 15 minutes of running, 55 to 115 °F outdoors, 70 °F or more
    /// indoors, airflow shown to be right.
    #[serde(default)]
    requirements: Requirements,
}

/// An airflow and what it is for.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Airflow {
    /// Through the indoor coil.
    flow: Reading<VolumeFlow>,
    /// Nominal cooling capacity on the data plate.
    nominal: Power,
    /// Limits for each ton; left out, 350 to 450 cfm.
    #[serde(default)]
    per_ton: Option<Limits<VolumeFlow>>,
}

impl Running {
    fn conditions(&self, level: Level) -> Result<Conditions> {
        let airflow = match &self.airflow {
            Some(Airflow { flow, nominal, per_ton }) => {
                let per_ton = per_ton.clone().unwrap_or_else(usual_airflow_per_ton);
                let flow = called(flow.clone(), "airflow");
                let check = AirflowCheck::of(&flow, *nominal, per_ton, level);
                Some(check.map_err(|error| error.in_field("airflow"))?)
            }
            None => None,
        };
        let air = |reading: &Reading<Temperature>, label| called(reading.clone(), label).measured();
        Ok(Conditions {
            mode: self.mode,
            running: self.running,
            outdoor: air(&self.outdoor, "outdoor thermometer"),
            indoor: self.indoor.as_ref().map(|reading| air(reading, "indoor thermometer")),
            airflow,
        })
    }
}

impl Check for TargetSuperheat {
    const NAME: &'static str = "target_superheat";
    const EXAMPLE: &'static str = include_str!("examples/target_superheat.json");

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let in_conditions = |error: Error| error.in_field("conditions");
        let conditions = self.conditions.conditions(self.level).map_err(in_conditions)?;
        let wet_bulb = called(self.indoor_wet_bulb, "wet-bulb thermometer").measured();
        let target = match &self.chart {
            Some(chart) => Target::by_chart(chart, &conditions.outdoor, &wet_bulb),
            None => Target::by_formula(&wet_bulb, &conditions.outdoor),
        };
        let target = target.map_err(|error| error.in_field("indoor_wet_bulb"))?;
        let gauge = called(self.suction_pressure, "suction gauge");
        let line = called(self.suction_line, "suction line thermometer");
        let at_gauge = |error: Error| error.in_field("suction_pressure");
        let pressure = self.site.absolute(&gauge).map_err(at_gauge)?;
        let superheat = refrigerant.superheat(&pressure, &line).map_err(at_gauge)?;
        let check = TargetCheck::superheat(superheat, &target, &self.tolerance, self.level)?
            .under(&self.conditions.requirements, &conditions)
            .map_err(in_conditions)?;
        Ok(cautioned(check.finding()?, &refrigerant))
    }
}

impl Check for TargetSubcooling {
    const NAME: &'static str = "target_subcooling";
    const EXAMPLE: &'static str = include_str!("examples/target_subcooling.json");

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let in_conditions = |error: Error| error.in_field("conditions");
        let conditions = self.conditions.conditions(self.level).map_err(in_conditions)?;
        let target = Target::given(self.target, "data plate").map_err(|error| error.in_field("target"))?;
        let gauge = called(self.liquid_pressure, "liquid gauge");
        let line = called(self.liquid_line, "liquid line thermometer");
        let at_gauge = |error: Error| error.in_field("liquid_pressure");
        let pressure = self.site.absolute(&gauge).map_err(at_gauge)?;
        let subcooling = refrigerant.subcooling(&pressure, &line).map_err(at_gauge)?;
        let mut check = TargetCheck::subcooling(subcooling, &target, &self.tolerance, self.level)?;
        match (self.suction_pressure, self.suction_line) {
            (Some(gauge), Some(line)) => {
                let gauge = called(gauge, "suction gauge");
                let line = called(line, "suction line thermometer");
                let at_gauge = |error: Error| error.in_field("suction_pressure");
                let pressure = self.site.absolute(&gauge).map_err(at_gauge)?;
                let superheat = refrigerant.superheat(&pressure, &line).map_err(at_gauge)?;
                check = check.with_valve_superheat(superheat, &self.tolerance, self.level)?;
            }
            (None, None) => {}
            _ => {
                return Err(Error::inconsistent(
                    "superheat of the valve",
                    "one of suction_pressure and suction_line is missing",
                    "give both, or neither",
                ));
            }
        }
        let check = check.under(&self.conditions.requirements, &conditions).map_err(in_conditions)?;
        Ok(cautioned(check.finding()?, &refrigerant))
    }
}
