//! The record of one visit as it travels in JSON.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::amend::{Amendment, Signature};
use super::compare::Difference;
use super::inventory::InventoryAsked;
use super::outcome::Outcome;
use super::outlook::OutlookAsked;
use crate::charge::{Oil, PlateCharge};
use crate::electrical::Tolerance;
use crate::estimate::{Consent, Language, Payment, RateCard, UnitSystem, Work, WorkHours};
use crate::measure::{Instrument, Interval, Limits};
use crate::quantity::{
    Capacitance, Current, ElectricPotential, Frequency, GaugePressure, Length, Mass, Quantity, Site,
    Temperature, TemperatureDifference, Time, Volume,
};

/// The one form of a record this version writes and reads.
pub const SCHEMA: &str = "kingvalve/visit/1";

/// One visit: what was asked, seen, read, weighed, offered and agreed.
///
/// Unknown fields are refused, except under [`extensions`](Self::extensions) and in a record of a newer form, where they
/// are kept. Quantities are read as `{"value": 62.0, "unit": "psig"}` or `"62 psig"`.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// The form of the record: [`SCHEMA`].
    pub schema: String,
    /// What the shop calls the visit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub id: Option<String>,
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
    /// Where superheat and subcooling should be, by the maker's plate or table.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub targets: Option<Targets>,
    /// The system off and settled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub standing: Option<StandingReadings>,
    /// Run capacitors read under load.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub capacitors: Vec<CapacitorReadings>,
    /// Cylinders on the scale.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cylinders: Vec<CylinderReadings>,
    /// Cylinders that took refrigerant out of the system, on the scale.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub recovered: Vec<CylinderReadings>,
    /// The system running, as often as it was read.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub running: Vec<RunningReadings>,
    /// Other checks by name, with what each takes ([`check::schema`](crate::check::schema)).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<CheckInput>,
    /// The shop's prices.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rates: Option<RateCard>,
    /// How long the shop takes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hours: Option<WorkHours>,
    /// The customer's membership on the rate card.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub membership: Option<String>,
    /// Where taxes are levied, by the names on the rate card; left out, every tax of the card applies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jurisdictions: Option<Vec<String>>,
    /// The language of the sheets.
    #[serde(default, skip_serializing_if = "is_default")]
    pub language: Language,
    /// The units of the sheets.
    #[serde(default, skip_serializing_if = "is_default")]
    pub units: UnitSystem,
    /// Asks for what each way is expected to cost over years, and with what.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outlook: Option<OutlookAsked>,
    /// How the charge is followed from reading to reading, where it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inventory: Option<InventoryAsked>,
    /// What the customer agreed to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub consent: Option<Consent>,
    /// The work as it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub done: Option<Done>,
    /// What became of earlier work, as this visit found it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outcome: Option<Outcome>,
    /// What the technician recommends.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recommendation: Option<String>,
    /// When to come again, as it is to be printed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub follow_up: Option<String>,
    /// Who signed the record and its results; from then on it is only amended.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signed: Option<Signature>,
    /// Corrections, in the order in which they were made.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub amendments: Vec<Amendment>,
    /// What a shop's software keeps besides: any JSON.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub extensions: BTreeMap<String, Value>,
    /// What the library made of it; written by [`Visit::to_json`](super::Visit::to_json) after an evaluation.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub results: Option<Value>,
    /// What the library makes of a signed record now, beside the results that were signed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recomputed: Option<Value>,
    /// Where that differs from what was signed by more than [`TOLERANCE`](super::TOLERANCE).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub differences: Vec<Difference>,
}

impl Record {
    /// The site a ledger keeps the visit under: the shop's name for it, or else the address.
    pub fn site_name(&self) -> &str {
        self.customer.site.as_deref().unwrap_or(&self.customer.address)
    }
}

pub(super) fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

/// Where the running system should be.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Targets {
    /// Superheat at the outdoor unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub superheat: Option<Limits<TemperatureDifference>>,
    /// Subcooling at the outdoor unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub subcooling: Option<Limits<TemperatureDifference>>,
}

/// A check by name, with what it takes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CheckInput {
    /// Its name in the registry.
    pub check: String,
    /// When it was read, as it is to be printed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// What it takes, in the form of its own schema.
    pub input: Value,
}

/// The work as it was, for the report and the invoice.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Done {
    /// What was done, in words.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// The invoice's number.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub invoice: Option<String>,
    /// What is billed: hours, pieces and fees as they were. Refrigerant is taken from the scale where none is named here.
    #[serde(skip_serializing_if = "is_default")]
    pub work: Work,
    /// What was paid.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub paid: Vec<Payment>,
}

/// Whom the visit is for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Customer {
    /// Name.
    pub name: String,
    /// Where the equipment is.
    pub address: String,
    /// What the shop calls the site; a ledger keeps visits by it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub site: Option<String>,
}

/// What was said at the door.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Intake {
    /// In the customer's words.
    pub complaint: String,
    /// Since when.
    pub since: String,
    /// The filter, as it was found.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub filter: Option<String>,
    /// The thermostat: what it is set to and what it shows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thermostat: Option<String>,
    /// What was asked, and the answers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub answers: Vec<Answer>,
}

/// One question and its answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    /// The question.
    pub question: String,
    /// The answer.
    pub answer: String,
}

/// The system, as its data plate and a look around describe it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
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
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpaceVolume {
    /// What it is called.
    pub name: String,
    /// Its internal volume.
    pub volume: Interval<Volume>,
}

/// Instruments by name, apart by what they measure.
#[derive(Debug, Clone, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Instruments {
    /// Gauges.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub pressure: BTreeMap<String, Instrument<GaugePressure>>,
    /// Thermometers and clamps.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub temperature: BTreeMap<String, Instrument<Temperature>>,
    /// Voltmeters.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub voltage: BTreeMap<String, Instrument<ElectricPotential>>,
    /// Ammeters.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub current: BTreeMap<String, Instrument<Current>>,
    /// Scales.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub mass: BTreeMap<String, Instrument<Mass>>,
}

/// A value read with a named instrument: `{"value": "62.0 psig", "with": "manifold gauge"}`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, bound(serialize = "Q: Serialize", deserialize = "Q: Deserialize<'de>"))]
pub struct Read<Q: Quantity> {
    /// What it showed.
    pub value: Q,
    /// The name of the instrument.
    pub with: String,
    /// When it was read, as it is to be printed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// At which step of the visit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<String>,
}

/// The system off, equalised and settled.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StandingReadings {
    /// How long it has been off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub off_for: Option<Time>,
    /// Pressure, equal on both sides.
    pub pressure: Read<GaugePressure>,
    /// Temperature of each space, by the space's name.
    pub temperatures: BTreeMap<String, Read<Temperature>>,
}

/// One section of a run capacitor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
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
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
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
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CylinderReadings {
    /// "cylinder A".
    pub name: String,
    /// Weights in the order read.
    pub weights: Vec<Read<Mass>>,
}

/// The system running.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
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
