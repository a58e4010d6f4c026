//! What pattern of readings points to what, and what a wrong charge or airflow costs.

mod operation;
mod patterns;
mod penalty;
mod ranking;

use kingvalve::fault as kv;
use pyo3::prelude::*;

use crate::record::Named;

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    operation::register(module)?;
    patterns::register(module)?;
    ranking::register(module)?;
    penalty::register(module)
}

impl Named for kv::Fault {
    const WHAT: &'static str = "fault";
    const ALL: &'static [(&'static str, Self)] = &[
        ("no_fault", kv::Fault::NoFault),
        ("low_charge", kv::Fault::LowCharge),
        ("overcharge", kv::Fault::Overcharge),
        ("low_indoor_airflow", kv::Fault::LowIndoorAirflow),
        ("dirty_outdoor_coil", kv::Fault::DirtyOutdoorCoil),
        ("liquid_line_restriction", kv::Fault::LiquidLineRestriction),
        ("feeding_valve", kv::Fault::FeedingValve),
        ("starving_valve", kv::Fault::StarvingValve),
        ("non_condensables", kv::Fault::NonCondensables),
        ("weak_compressor", kv::Fault::WeakCompressor),
    ];
}

impl Named for kv::Feature {
    const WHAT: &'static str = "feature";
    const ALL: &'static [(&'static str, Self)] = &[
        ("superheat", kv::Feature::Superheat),
        ("subcooling", kv::Feature::Subcooling),
        ("condensing_over_ambient", kv::Feature::CondensingOverAmbient),
        ("evaporating_depression", kv::Feature::EvaporatingDepression),
        ("air_split", kv::Feature::AirSplit),
        ("discharge_temperature", kv::Feature::DischargeTemperature),
        ("liquid_line_drop", kv::Feature::LiquidLineDrop),
        ("standing_excess", kv::Feature::StandingExcess),
    ];
}

impl Named for kv::Metering {
    const WHAT: &'static str = "metering device";
    const ALL: &'static [(&'static str, Self)] =
        &[("fixed_orifice", kv::Metering::FixedOrifice), ("valve", kv::Metering::Valve)];
}

impl Named for kv::Basis {
    const WHAT: &'static str = "basis";
    const ALL: &'static [(&'static str, Self)] =
        &[("published", kv::Basis::Published), ("memory", kv::Basis::Memory), ("user", kv::Basis::User)];
}
