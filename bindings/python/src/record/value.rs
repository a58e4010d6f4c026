//! What attributes are made of: library values as Python objects.

use std::sync::Arc;

use kingvalve::measure as kv;
use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;

use crate::column::field;
use crate::measure::{Limits, Measured, Verdict};
use crate::quantity::{Exposed, IntoPython};

impl<Q: Exposed> IntoPython for &kv::Measured<Q> {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.clone().into_python(py)
    }
}

impl<Q: Exposed> IntoPython for kv::Measured<Q> {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        Measured::from(self).into_py_any(py)
    }
}

impl<Q: Exposed> IntoPython for &kv::Verdict<Q> {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        Verdict::from(self.clone()).into_py_any(py)
    }
}

impl<Q: Exposed> IntoPython for &kv::Limits<Q> {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        Limits::from(self.clone()).into_py_any(py)
    }
}

/// An interval as its low and its high end.
impl<Q: Exposed> IntoPython for kv::Interval<Q> {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        (self.low().into_python(py)?, self.high().into_python(py)?).into_py_any(py)
    }
}

impl<T: IntoPython> IntoPython for Option<T> {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        match self {
            Some(value) => value.into_python(py),
            None => Ok(py.None()),
        }
    }
}

/// The results of a function that has several: a quantity, a measured value or a column each.
#[derive(Clone)]
pub struct Several(Arc<Vec<Py<PyAny>>>);

impl From<Vec<Py<PyAny>>> for Several {
    fn from(fields: Vec<Py<PyAny>>) -> Self {
        Several(Arc::new(fields))
    }
}

impl Several {
    /// Of those that came out.
    pub fn of(fields: impl IntoIterator<Item = PyResult<Py<PyAny>>>) -> PyResult<Self> {
        Ok(fields.into_iter().collect::<PyResult<Vec<_>>>()?.into())
    }

    /// One of them.
    pub fn at(&self, py: Python<'_>, index: usize) -> PyResult<Py<PyAny>> {
        field(&self.0, py, index)
    }

    /// In words, each by its name.
    pub fn text(&self, names: &[&str]) -> String {
        Python::attach(|py| {
            let each =
                names.iter().zip(self.0.iter()).map(|(name, field)| format!("{name} {}", field.bind(py)));
            each.collect::<Vec<_>>().join(", ")
        })
    }
}

/// A list of them.
pub fn listed<T: IntoPython>(values: impl IntoIterator<Item = T>, py: Python<'_>) -> PyResult<Py<PyAny>> {
    values.into_iter().map(|value| value.into_python(py)).collect::<PyResult<Vec<_>>>()?.into_py_any(py)
}

/// Two of them: a named range.
pub fn pair<T: IntoPython>((low, high): (T, T), py: Python<'_>) -> PyResult<Py<PyAny>> {
    (low.into_python(py)?, high.into_python(py)?).into_py_any(py)
}

/// Texts, numbers and what Python knows already.
pub fn plain<'py>(value: impl IntoPyObjectExt<'py>, py: Python<'py>) -> PyResult<Py<PyAny>> {
    value.into_py_any(py)
}
