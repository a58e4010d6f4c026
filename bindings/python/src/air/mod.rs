//! Moist air, airflow, capacity, temperature split, and what a piece of work changed.

mod coil;
mod flow;
mod moist;
mod split;
mod standard;
mod work;

use pyo3::prelude::*;

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    moist::register(module)?;
    standard::register(module)?;
    flow::register(module)?;
    coil::register(module)?;
    split::register(module)?;
    work::register(module)
}
