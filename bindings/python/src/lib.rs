//! The Python extension module behind the `kingvalve` package.
use pyo3::prelude::*;

#[pymodule]
fn _kingvalve(_module: &Bound<'_, PyModule>) -> PyResult<()> {
    Ok(())
}
