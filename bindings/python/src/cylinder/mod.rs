//! Cylinders: what went out of them, how full they may be, what stays in an empty one, what the hoses take.

mod fill;
mod heel;
mod hose;
mod tally;

use kingvalve::cylinder as kv;
use pyo3::prelude::*;

use crate::quantity::IntoPython;

/// Adds the classes, functions and named defaults to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    tally::register(module)?;
    fill::register(module)?;
    heel::register(module)?;
    hose::register(module)?;
    let py = module.py();
    module.add("USUAL_FILL", kv::USUAL_FILL.into_python(py)?)?;
    module.add("USUAL_FILL_TEMPERATURE", kv::USUAL_FILL_TEMPERATURE.into_python(py)?)?;
    module.add("HOTTEST_IN_PRACTICE", kv::HOTTEST_IN_PRACTICE.into_python(py)?)?;
    module.add("HOTTEST_BY_RULE", kv::HOTTEST_BY_RULE.into_python(py)?)?;
    module.add("USUAL_BORE", kv::USUAL_BORE.into_python(py)?)
}
