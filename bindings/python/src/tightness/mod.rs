//! Pressure tests, vacuum decay, and the size of a leak.

mod decay;
mod leak;
mod log;
mod nitrogen;
mod plate;

use kingvalve::tightness as kv;
use pyo3::prelude::*;

use crate::quantity::IntoPython;

/// Adds the classes and named defaults to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    plate::register(module)?;
    nitrogen::register(module)?;
    log::register(module)?;
    decay::register(module)?;
    leak::register(module)?;
    let py = module.py();
    module.add("ALLOWED_LOSS", kv::ALLOWED_LOSS.into_python(py)?)?;
    module.add("COOLING_BY_EVAPORATION", kv::COOLING_BY_EVAPORATION.into_python(py)?)?;
    let (low, high) = kv::PUMPED;
    module.add("PUMPED", (low.into_python(py)?, high.into_python(py)?))
}
