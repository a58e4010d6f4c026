//! Exact amounts of money.

use std::hash::{DefaultHasher, Hash, Hasher};

use kingvalve::estimate as kv;
use pyo3::prelude::*;
use pyo3::pyclass::CompareOp;

use crate::error::{describe, raise, wrong_kind};

/// An exact decimal amount in a currency, read as it is written: "174.30 USD".
#[pyclass(frozen, module = "kingvalve")]
#[derive(Clone, Copy)]
pub struct Money(pub kv::Money);

fn amount(object: &Bound<'_, PyAny>) -> PyResult<Money> {
    match object.cast::<Money>() {
        Ok(money) => Ok(*money.get()),
        Err(_) => Err(wrong_kind(format!(
            "expected money, such as kv.Money(\"174.30 USD\"), got {}",
            describe(object)
        ))),
    }
}

#[pymethods]
impl Money {
    #[new]
    #[pyo3(signature = (text, /))]
    fn new(text: &str) -> PyResult<Self> {
        text.parse().map(Money).map_err(raise)
    }

    /// The amount, a `decimal.Decimal`.
    #[getter]
    fn amount<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        py.import("decimal")?.getattr("Decimal")?.call1((self.0.amount().to_string(),))
    }

    /// The code of its currency: "USD".
    #[getter]
    fn currency(&self) -> &'static str {
        self.0.currency().code()
    }

    fn __add__(&self, other: &Bound<'_, PyAny>) -> PyResult<Self> {
        self.0.plus(amount(other)?.0).map(Money).map_err(raise)
    }

    /// `sum()` starts from 0; no other bare number can be added.
    fn __radd__(&self, other: &Bound<'_, PyAny>) -> PyResult<Self> {
        if other.extract::<i64>().is_ok_and(|n| n == 0) { Ok(*self) } else { self.__add__(other) }
    }

    fn __sub__(&self, other: &Bound<'_, PyAny>) -> PyResult<Self> {
        self.0.minus(amount(other)?.0).map(Money).map_err(raise)
    }

    fn __richcmp__(&self, other: &Bound<'_, PyAny>, op: CompareOp) -> PyResult<Py<PyAny>> {
        let py = other.py();
        let Ok(other) = other.cast::<Money>() else { return Ok(py.NotImplemented()) };
        let (a, b) = (self.0, other.get().0);
        let equality = matches!(op, CompareOp::Eq | CompareOp::Ne);
        if !equality {
            // Refuses two currencies in words.
            a.minus(b).map_err(raise)?;
        }
        let same = a.currency() == b.currency();
        let holds = match op {
            CompareOp::Eq => a == b,
            CompareOp::Ne => a != b,
            _ => same && op.matches(a.amount().cmp(&b.amount())),
        };
        Ok(holds.into_pyobject(py)?.to_owned().into_any().unbind())
    }

    fn __hash__(&self) -> u64 {
        let mut hasher = DefaultHasher::new();
        self.0.hash(&mut hasher);
        hasher.finish()
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("Money('{}')", self.0)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyAny>, (String,)) {
        (slf.get_type().into_any(), (slf.get().0.to_string(),))
    }
}
