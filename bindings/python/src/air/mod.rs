//! Moist air, airflow, capacity, temperature split, and what a piece of work changed.

mod coil;
mod flow;
mod moist;
mod split;
mod standard;
mod work;

use pyo3::prelude::*;

use crate::room;

/// Adds a module for each file, and its names.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    room(module, "moist", moist::register)?;
    room(module, "standard", standard::register)?;
    room(module, "flow", flow::register)?;
    room(module, "coil", coil::register)?;
    room(module, "split", split::register)?;
    room(module, "work", work::register)
}
