//! What is in the system, what is missing, what to add next, how fast it leaks.

mod additive;
mod before;
mod dated;
mod evidence;
mod forecast;
mod ingress;
mod inventory;
mod plan;
mod response;
mod rule;
mod standing;
mod system;
mod trend;
mod tube;
mod virtual_charge;
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
    room(module, "virtual_charge", virtual_charge::register)?;
    room(module, "evidence", evidence::register)?;
    room(module, "inventory", inventory::register)?;
    room(module, "before", before::register)?;
    room(module, "plan", plan::register)?;
    room(module, "response", response::register)?;
    room(module, "additive", additive::register)?;
    room(module, "forecast", forecast::register)?;
    room(module, "trend", trend::register)?;
    room(module, "rule", rule::register)
}
