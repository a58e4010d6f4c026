//! The Python extension module behind the `kingvalve` package: glue only, one file per room.
//!
//! Each glue file fills one Python module, `kingvalve._kingvalve.<room>`, with the stub of that name beside it.

mod air;
mod batch;
mod charge;
mod check;
mod column;
mod cycle;
mod cylinder;
mod electrical;
mod error;
mod estimate;
mod fault;
mod measure;
mod quantity;
mod record;
mod refrigerant;
mod schema;
mod tightness;
mod visit;

use pyo3::prelude::*;

#[pymodule]
fn _kingvalve(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add("__version__", env!("CARGO_PKG_VERSION"))?;
    room(module, "quantity", quantity::register)?;
    room(module, "column", column::register)?;
    room(module, "measure", measure::register)?;
    room(module, "record", record::register)?;
    room(module, "refrigerant", refrigerant::register)?;
    room(module, "air", air::register)?;
    room(module, "electrical", electrical::register)?;
    room(module, "tightness", tightness::register)?;
    room(module, "cylinder", cylinder::register)?;
    room(module, "cycle", cycle::register)?;
    room(module, "fault", fault::register)?;
    room(module, "charge", charge::register)?;
    room(module, "estimate", estimate::register)?;
    room(module, "visit", visit::register)?;
    apart(module, "batch", batch::register)?;
    apart(module, "check", check::register).map(drop)
}

/// Makes a module for a room below `parent`, importable by its full name, and gives its names to `parent` too.
fn room(
    parent: &Bound<'_, PyModule>,
    name: &str,
    fill: fn(&Bound<'_, PyModule>) -> PyResult<()>,
) -> PyResult<()> {
    let room = apart(parent, name, fill)?;
    for item in room.index()? {
        let item: String = item.extract()?;
        parent.add(item.as_str(), room.getattr(item.as_str())?)?;
    }
    Ok(())
}

/// Makes a module below `parent`, importable by its full name, that keeps its names to itself.
fn apart<'py>(
    parent: &Bound<'py, PyModule>,
    name: &str,
    fill: fn(&Bound<'_, PyModule>) -> PyResult<()>,
) -> PyResult<Bound<'py, PyModule>> {
    let py = parent.py();
    let name = format!("{}.{name}", parent.name()?);
    let room = PyModule::new(py, &name)?;
    fill(&room)?;
    py.import("sys")?.getattr("modules")?.set_item(name, &room)?;
    Ok(room)
}
