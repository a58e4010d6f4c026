//! Run capacitors, supply, circuits, motors.

mod capacitor;
mod circuit;
mod dual;
mod motor;
mod part;
mod rows;
mod stored;
mod supply;
mod wire;

use kingvalve::electrical as kv;
use pyo3::prelude::*;

use crate::record::Named;
use crate::room;

/// Adds a module for each file, and its names.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    room(module, "capacitor", capacitor::register)?;
    room(module, "dual", dual::register)?;
    room(module, "part", part::register)?;
    room(module, "stored", stored::register)?;
    room(module, "rows", rows::register)?;
    room(module, "supply", supply::register)?;
    room(module, "circuit", circuit::register)?;
    room(module, "wire", wire::register)?;
    room(module, "motor", motor::register)
}

impl Named for kv::Phases {
    const WHAT: &'static str = "number of phases";
    const ALL: &'static [(&'static str, Self)] =
        &[("single", kv::Phases::Single), ("three", kv::Phases::Three)];
}
