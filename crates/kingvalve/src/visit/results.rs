//! What an evaluation finds, as it travels in JSON.

use serde::Serialize;

use super::inventory::InventoryResult;
use super::outlook::OutlookResult;
use crate::charge::{AirIngress, StandingFinding};
use crate::electrical::CapacitorCheck;
use crate::estimate::PricedWay;
use crate::measure::{Caution, Finding, Interval, Measured, Verdict};
use crate::quantity::{Capacitance, Mass, Pressure, TemperatureDifference};

/// Everything the readings of a visit say.
#[derive(Debug, Clone, Serialize)]
pub struct Results {
    /// The library that computed them.
    pub computed_by: String,
    /// What the refrigerant's properties rest on.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sources: Vec<String>,
    /// The atmosphere at the site.
    pub atmosphere: Pressure,
    /// What the system should hold: the data plate, corrected for the line set.
    pub charge_due: Mass,
    /// What the standing pressure says.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub standing: Option<StandingResult>,
    /// What is missing before anything is added, where it can be said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub missing: Option<Interval<Mass>>,
    /// What the system holds by all readings and weights, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub inventory: Option<InventoryResult>,
    /// Each run-capacitor section.
    pub capacitors: Vec<CapacitorResult>,
    /// What went in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub charged: Option<ChargedResult>,
    /// What came out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recovered: Option<Measured<Mass>>,
    /// The system running.
    pub running: Vec<RunningResult>,
    /// What the other checks found, in their order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<Finding>,
    /// The ways forward, priced.
    pub ways: Vec<PricedWay>,
    /// What each way is expected to cost over years, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outlook: Option<OutlookResult>,
    /// The work as it was, priced.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bill: Option<PricedWay>,
    /// What can hurt someone.
    pub cautions: Vec<Caution>,
}

/// The standing pressure's finding, with its words.
#[derive(Debug, Clone, Serialize)]
pub struct StandingResult {
    /// The finding.
    pub finding: StandingFinding,
    /// Whether air may have come in.
    pub air: AirIngress,
    /// What it means and why.
    pub text: String,
    /// What would tell more.
    pub next: String,
}

/// One section of a run capacitor: every check, in the order read.
#[derive(Debug, Clone, Serialize)]
pub struct CapacitorResult {
    /// "fan section".
    pub name: String,
    /// Its checks.
    pub checks: Vec<CapacitorCheck>,
}

impl CapacitorResult {
    /// The verdict that counts: the last reading's, against the shop's policy where it has one.
    pub fn verdict(&self) -> Option<&Verdict<Capacitance>> {
        self.checks.last().map(|check| check.policy_verdict().unwrap_or(check.verdict()))
    }
}

/// What went in over all cylinders.
#[derive(Debug, Clone, Serialize)]
pub struct ChargedResult {
    /// Cylinder and mass of each step.
    pub steps: Vec<(String, Measured<Mass>)>,
    /// All of it.
    pub total: Measured<Mass>,
    /// What the system then holds, where what it held before could be said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub now: Option<Interval<Mass>>,
}

/// The running system at one time.
#[derive(Debug, Clone, Serialize)]
pub struct RunningResult {
    /// "after charging".
    pub when: String,
    /// At the outdoor unit.
    pub superheat: Measured<TemperatureDifference>,
    /// At the outdoor unit.
    pub subcooling: Measured<TemperatureDifference>,
    /// Liquid line over the outdoor air.
    pub approach: Measured<TemperatureDifference>,
}
