//! Run capacitors, supply, circuits, motors.

mod capacitor;
mod circuit;
mod motor;
mod part;
mod rows;
mod supply;

use kingvalve::electrical as kv;
use pyo3::prelude::*;

use crate::quantity::IntoPython;
use crate::record::{Named, listed};

/// Adds the classes, functions and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    capacitor::register(module)?;
    part::register(module)?;
    rows::register(module)?;
    supply::register(module)?;
    circuit::register(module)?;
    motor::register(module)?;
    constants(module)
}

fn constants(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let py = module.py();
    module.add("SAFE_VOLTAGE", kv::SAFE_VOLTAGE.into_python(py)?)?;
    module.add("DISCHARGE_TIME", kv::DISCHARGE_TIME.into_python(py)?)?;
    module.add("STANDARD_CAPACITANCES", listed(kv::STANDARD_CAPACITANCES, py)?)?;
    module.add("STANDARD_VOLTAGES", listed(kv::STANDARD_VOLTAGES, py)?)?;
    module.add("RUNNING_SAG", kv::RUNNING_SAG.into_python(py)?)?;
    module.add("STARTING_SAG", kv::STARTING_SAG.into_python(py)?)?;
    module.add("UNBALANCE_LIMIT", kv::UNBALANCE_LIMIT.into_python(py)?)?;
    module.add("UNBALANCE_STOP", kv::UNBALANCE_STOP.into_python(py)?)?;
    module.add("FIRST_CHOICE", kv::FIRST_CHOICE.into_python(py)?)?;
    module.add("LARGEST_SHARE", kv::LARGEST_SHARE.into_python(py)?)?;
    module.add("STANDARD_RATINGS", listed(kv::STANDARD_RATINGS, py)?)?;
    module.add("CONDUCTOR_DROP", kv::CONDUCTOR_DROP.into_python(py)?)?;
    module.add("CONTACTOR_DROP", kv::CONTACTOR_DROP.into_python(py)?)?;
    module.add("MCC_PER_RLA", kv::MCC_PER_RLA)
}

impl Named for kv::Phases {
    const WHAT: &'static str = "number of phases";
    const ALL: &'static [(&'static str, Self)] =
        &[("single", kv::Phases::Single), ("three", kv::Phases::Three)];
}
