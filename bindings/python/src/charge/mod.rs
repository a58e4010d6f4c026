//! What is in the system, what is missing, what to add next, how fast it leaks.

mod dated;
mod forecast;
mod ingress;
mod inventory;
mod plan;
mod response;
mod rule;
mod standing;
mod system;
mod tube;
mod weigh_in;

use pyo3::prelude::*;

use crate::room;

/// Adds a module for each file, and its names.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    room(module, "tube", tube::register)?;
    room(module, "weigh_in", weigh_in::register)?;
    room(module, "standing", standing::register)?;
    room(module, "ingress", ingress::register)?;
    room(module, "system", system::register)?;
    room(module, "inventory", inventory::register)?;
    room(module, "plan", plan::register)?;
    room(module, "response", response::register)?;
    room(module, "forecast", forecast::register)?;
    room(module, "rule", rule::register)
}
