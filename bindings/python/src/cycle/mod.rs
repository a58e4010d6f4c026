//! What superheat, subcooling and approach should be, and whether they are.

mod chart;
mod check;
mod conditions;
mod target;

pub use chart::{row, table};

use pyo3::prelude::*;

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    chart::register(module)?;
    target::register(module)?;
    conditions::register(module)?;
    check::register(module)
}
