//! The registry of checks: JSON text in, JSON text out. `kingvalve/check.py` adds plain dicts.

use kingvalve::check as kv;
use pyo3::prelude::*;

use crate::error::raise;

/// Adds the four functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_function(wrap_pyfunction!(names, module)?)?;
    module.add_function(wrap_pyfunction!(schema, module)?)?;
    module.add_function(wrap_pyfunction!(example, module)?)?;
    module.add_function(wrap_pyfunction!(run, module)?)
}

/// The name of every check.
#[pyfunction]
fn names() -> Vec<&'static str> {
    kv::names().collect()
}

/// The JSON Schema of what a check takes, as text.
#[pyfunction]
#[pyo3(signature = (name, /))]
fn schema(name: &str) -> PyResult<&'static str> {
    kv::example(name).map_err(raise)?;
    Ok(crate::schema::schema(name))
}

/// An input the check takes, as text.
#[pyfunction]
#[pyo3(signature = (name, /))]
fn example(name: &str) -> PyResult<&'static str> {
    kv::example(name).map_err(raise)
}

/// Runs a check on its input and gives the finding, both JSON text.
#[pyfunction]
#[pyo3(signature = (name, input, /))]
fn run(name: &str, input: &str) -> PyResult<String> {
    kv::run(name, input).map_err(raise)
}
