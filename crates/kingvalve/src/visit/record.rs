//! The record of one visit as it travels in JSON.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::charge::{Oil, PlateCharge};
use crate::electrical::Tolerance;
use crate::estimate::{Consent, RateCard, WorkHours};
use crate::json;
use crate::measure::{Instrument, Interval};
use crate::quantity::{
    Capacitance, Current, ElectricPotential, Frequency, GaugePressure, Length, Mass, Quantity, Site,
    Temperature, Time, Volume,
};

/// The one form of a record this version writes and reads.
pub const SCHEMA: &str = "kingvalve/visit/1";

/// One visit: what was asked, seen, read, weighed, offered and agreed.
///
/// Unknown fields are refused. Quantities are read as `{"value": 62.0, "unit": "psig"}` or `"62 psig"`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// The form of the record: [`SCHEMA`].
    pub schema: String,
    /// What else should be known of it; a made-up scenario says so here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// When, as it is to be printed. The library reads no clock.
    pub date: String,
    /// Who came.
    pub technician: String,
    /// Whom for.
    pub customer: Customer,
    /// What was said at the door.
    pub intake: Intake,
    /// Where: the atmosphere the gauges count from.
    pub site: Site,
    /// The system.
    pub equipment: Equipment,
    /// What was read with.
    pub instruments: Instruments,
    /// The system off and settled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub standing: Option<StandingReadings>,
    /// Run capacitors read under load.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub capacitors: Vec<CapacitorReadings>,
    /// Cylinders on the scale.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cylinders: Vec<CylinderReadings>,
    /// The system running, as often as it was read.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub running: Vec<RunningReadings>,
    /// The shop's prices.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rates: Option<RateCard>,
    /// How long the shop takes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hours: Option<WorkHours>,
    /// What the customer agreed to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub consent: Option<Consent>,
    /// What the library made of it; written by [`Visit::to_json`](super::Visit::to_json) after an evaluation.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub results: Option<serde_json::Value>,
}

/// Whom the visit is for.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Customer {
    /// Name.
    pub name: String,
    /// Where the equipment is.
    pub address: String,
}

/// What was said at the door.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Intake {
    /// In the customer's words.
    pub complaint: String,
    /// Since when.
    pub since: String,
    /// What was asked, and the answers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub answers: Vec<Answer>,
}

/// One question and its answer.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    /// The question.
    pub question: String,
    /// The answer.
    pub answer: String,
}

/// The system, as its data plate and a look around describe it.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Equipment {
    /// In words: "3-ton split system".
    pub description: String,
    /// Designation on the data plate.
    pub refrigerant: String,
    /// Charge on the data plate.
    pub charge: PlateCharge,
    /// Installed length of the line set.
    pub line_length: Length,
    /// The parts the refrigerant fills.
    pub spaces: Vec<SpaceVolume>,
    /// The compressor's oil.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub oil: Option<Oil>,
    /// The replacement on the rate card that fits this system.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub replacement: Option<String>,
}

/// One part of the system.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpaceVolume {
    /// What it is called.
    pub name: String,
    /// Its internal volume.
    pub volume: Interval<Volume>,
}

/// Instruments by name, apart by what they measure.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Instruments {
    /// Gauges.
    #[serde(deserialize_with = "json::unique_names", skip_serializing_if = "BTreeMap::is_empty")]
    pub pressure: BTreeMap<String, Instrument<GaugePressure>>,
    /// Thermometers and clamps.
    #[serde(deserialize_with = "json::unique_names", skip_serializing_if = "BTreeMap::is_empty")]
    pub temperature: BTreeMap<String, Instrument<Temperature>>,
    /// Voltmeters.
    #[serde(deserialize_with = "json::unique_names", skip_serializing_if = "BTreeMap::is_empty")]
    pub voltage: BTreeMap<String, Instrument<ElectricPotential>>,
    /// Ammeters.
    #[serde(deserialize_with = "json::unique_names", skip_serializing_if = "BTreeMap::is_empty")]
    pub current: BTreeMap<String, Instrument<Current>>,
    /// Scales.
    #[serde(deserialize_with = "json::unique_names", skip_serializing_if = "BTreeMap::is_empty")]
    pub mass: BTreeMap<String, Instrument<Mass>>,
}

/// A value read with a named instrument: `{"value": "62.0 psig", "with": "manifold gauge"}`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, bound(serialize = "Q: Serialize", deserialize = "Q: Deserialize<'de>"))]
pub struct Read<Q: Quantity> {
    /// What it showed.
    pub value: Q,
    /// The name of the instrument.
    pub with: String,
}

/// The system off, equalised and settled.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StandingReadings {
    /// How long it has been off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub off_for: Option<Time>,
    /// Pressure, equal on both sides.
    pub pressure: Read<GaugePressure>,
    /// Temperature of each space, by the space's name.
    #[serde(deserialize_with = "json::unique_names")]
    pub temperatures: BTreeMap<String, Read<Temperature>>,
}

/// One section of a run capacitor.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CapacitorReadings {
    /// "fan section".
    pub name: String,
    /// Marked capacitance.
    pub rated: Capacitance,
    /// Marked tolerance.
    pub tolerance: Tolerance,
    /// The shop's own limit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub policy: Option<Tolerance>,
    /// Readings under load, in the order taken.
    pub under_load: Vec<UnderLoad>,
}

/// One reading under load.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UnderLoad {
    /// Across the capacitor's terminals.
    pub voltage: Read<ElectricPotential>,
    /// Through the capacitor.
    pub current: Read<Current>,
    /// Of the supply.
    pub frequency: Frequency,
}

/// One cylinder on the scale.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CylinderReadings {
    /// "cylinder A".
    pub name: String,
    /// Weights in the order read.
    pub weights: Vec<Read<Mass>>,
}

/// The system running.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunningReadings {
    /// "after charging".
    pub when: String,
    /// Suction pressure at the outdoor unit.
    pub suction_pressure: Read<GaugePressure>,
    /// Suction line beside it.
    pub suction_line: Read<Temperature>,
    /// Liquid pressure at the outdoor unit.
    pub liquid_pressure: Read<GaugePressure>,
    /// Liquid line beside it.
    pub liquid_line: Read<Temperature>,
    /// Air entering the outdoor coil.
    pub outdoor_air: Read<Temperature>,
}
