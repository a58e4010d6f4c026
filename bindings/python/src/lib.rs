//! The Python extension module behind the `kingvalve` package: glue only, one file per room.
//!
//! Each glue file fills one Python module, `kingvalve._kingvalve.<room>`, with the stub of that name beside it.

mod error;
mod quantity;
mod refrigerant;

use pyo3::prelude::*;

#[pymodule]
fn _kingvalve(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add("__version__", env!("CARGO_PKG_VERSION"))?;
    room(module, "quantity", quantity::register)?;
    room(module, "refrigerant", refrigerant::register)
}

/// Makes a module for a room below `parent`, importable by its full name, and gives its names to `parent` too.
fn room(
    parent: &Bound<'_, PyModule>,
    name: &str,
    fill: fn(&Bound<'_, PyModule>) -> PyResult<()>,
) -> PyResult<()> {
    let py = parent.py();
    let name = format!("{}.{name}", parent.name()?);
    let room = PyModule::new(py, &name)?;
    fill(&room)?;
    for item in room.index()? {
        let item: String = item.extract()?;
        parent.add(item.as_str(), room.getattr(item.as_str())?)?;
    }
    py.import("sys")?.getattr("modules")?.set_item(name, room)
}
