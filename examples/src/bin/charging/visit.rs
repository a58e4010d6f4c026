//! The invented visit, as it was written down.

use kingvalve::charge::plan::OutdoorCoil;
use kingvalve::measure::Instrument;
use kingvalve::quantity::*;
use serde::Deserialize;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Visit {
    pub note: String,
    pub refrigerant: String,
    pub elevation: Length,
    pub plate_charge: Mass,
    pub gauge: Instrument<GaugePressure>,
    pub thermometer: Instrument<Temperature>,
    pub scale: Instrument<Mass>,
    pub target: Target,
    pub steps: Vec<Step>,
}

/// What the data plate wants.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Target {
    pub superheat: TemperatureDifference,
    pub subcooling: TemperatureDifference,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    pub does: String,
    #[serde(default = "clean")]
    pub coil: OutdoorCoil,
    pub standing: Option<Standing>,
    pub weighed: Option<Weighed>,
    pub running: Option<Running>,
}

fn clean() -> OutdoorCoil {
    OutdoorCoil::Clean
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Standing {
    pub pressure: GaugePressure,
    pub temperature: Temperature,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weighed {
    pub cylinder: String,
    pub before: Mass,
    pub after: Mass,
    pub tare: Mass,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Running {
    pub suction_pressure: GaugePressure,
    pub suction_line: Temperature,
    pub liquid_pressure: GaugePressure,
    pub liquid_line: Temperature,
}
