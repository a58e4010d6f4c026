//! What is in the system, what is missing, what to add next, how fast it leaks.

mod dated;
mod forecast;
mod inventory;
mod plan;
mod response;
mod rule;
mod standing;
mod system;
mod tube;
mod weigh_in;

use kingvalve::charge as kv;
use kingvalve::charge::{forecast as ahead, inventory as within, plan as next};
use pyo3::prelude::*;

use crate::quantity::IntoPython;

/// Adds the classes, functions and named defaults to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    tube::register(module)?;
    weigh_in::register(module)?;
    standing::register(module)?;
    system::register(module)?;
    inventory::register(module)?;
    plan::register(module)?;
    response::register(module)?;
    forecast::register(module)?;
    rule::register(module)?;
    constants(module)
}

fn constants(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let py = module.py();
    let shares = [
        ("COMMON_UPTAKE", kv::COMMON_UPTAKE),
        ("COMMON_FILL", within::COMMON_FILL),
        ("COMMON_CHARGE", within::COMMON_CHARGE),
        ("COMMON_OIL", within::COMMON_OIL),
        ("COMMON_STEEPENING", within::COMMON_STEEPENING),
        ("COMMON_RESPONSE", next::COMMON_RESPONSE),
    ];
    for (name, (low, high)) in shares {
        module.add(name, (low.into_python(py)?, high.into_python(py)?))?;
    }
    for (name, time) in [
        ("COMMON_REST", next::COMMON_REST),
        ("COMMON_RUN", next::COMMON_RUN),
        ("USUAL_HORIZON", ahead::USUAL_HORIZON),
        ("REPAIR_TIME", ahead::REPAIR_TIME),
        ("REPAIR_TIME_WITH_SHUTDOWN", ahead::REPAIR_TIME_WITH_SHUTDOWN),
    ] {
        module.add(name, time.into_python(py)?)?;
    }
    module.add("USUAL_LIQUID", kv::USUAL_LIQUID.into_python(py)?)?;
    module.add("COMMON_STEP", next::COMMON_STEP.into_python(py)?)?;
    module.add("CHRONIC_LEAK", ahead::CHRONIC_LEAK.into_python(py)?)
}
