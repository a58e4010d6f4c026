//! The object itself: any library value behind one Python base class.

use std::any::Any;
use std::sync::Mutex;

use kingvalve::measure::Finding;
use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;
use pyo3::pyclass::CompareOp;
use pyo3::types::PyTuple;

use super::{Shown, classes};
use crate::error::{raise, wrong_kind};
use crate::quantity::IntoPython;

/// What the library found or was told: read-only attributes, compared where the library compares them.
#[pyclass(frozen, generic, subclass, module = "kingvalve")]
pub struct Record(Box<dyn Held>);

/// A library value, its type left behind.
trait Held: Send + Sync {
    fn name(&self) -> &'static str;
    fn field(&self, py: Python<'_>, index: usize) -> PyResult<Py<PyAny>>;
    fn text(&self) -> String;
    fn finding(&self) -> Option<kingvalve::Result<Finding>>;
    fn same(&self, other: &dyn Any) -> Option<bool>;
    fn any(&self) -> &dyn Any;
}

impl<T: Shown> Held for T {
    fn name(&self) -> &'static str {
        T::CLASS.name
    }
    fn field(&self, py: Python<'_>, index: usize) -> PyResult<Py<PyAny>> {
        match T::CLASS.fields.get(index) {
            Some((_, _, get)) => get(self, py),
            None => Err(wrong_kind("no such attribute".to_owned())),
        }
    }
    fn text(&self) -> String {
        (T::CLASS.text)(self)
    }
    fn finding(&self) -> Option<kingvalve::Result<Finding>> {
        T::CLASS.finding.map(|find| find(self))
    }
    fn same(&self, other: &dyn Any) -> Option<bool> {
        let same = T::CLASS.same?;
        Some(other.downcast_ref().is_some_and(|other| same(self, other)))
    }
    fn any(&self) -> &dyn Any {
        self
    }
}

/// A value on its way into an object; Python never gets hold of one.
#[pyclass(frozen)]
struct Coming(Mutex<Option<Box<dyn Held>>>);

impl Record {
    /// The library's value, if it is a `T`.
    pub fn of<T: Shown>(&self) -> Option<&T> {
        self.0.any().downcast_ref()
    }

    /// What its class is called.
    pub fn name(&self) -> &'static str {
        self.0.name()
    }
}

fn object(py: Python<'_>, held: Box<dyn Held>) -> PyResult<Py<PyAny>> {
    let name = held.name();
    let class = classes(py).get_item(name)?.ok_or_else(|| wrong_kind(format!("no class {name}")))?;
    let coming = Coming(Mutex::new(Some(held)));
    Ok(py.get_type::<Record>().getattr("__new__")?.call1((class, coming))?.unbind())
}

impl<T: Shown> IntoPython for T {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        object(py, Box::new(self))
    }
}

/// What a function gives back: the object, or the exception that says what the library says.
pub struct Made<T>(pub kingvalve::Result<T>);

impl<'py, T: IntoPython> IntoPyObject<'py> for Made<T> {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;
    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        Ok(self.0.map_err(raise)?.into_python(py)?.into_bound(py))
    }
}

/// The class that Python hands to a `__new__`; classes are final, so it says nothing new.
pub struct New;

impl FromPyObject<'_, '_> for New {
    type Error = PyErr;
    fn extract(_class: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        Ok(New)
    }
}

impl New {
    /// One of it.
    pub fn of<T: Shown>(self, made: kingvalve::Result<T>) -> Made<T> {
        Made(made)
    }
}

/// A finding as `kv.check.run` gives it.
pub fn finding(py: Python<'_>, found: kingvalve::Result<Finding>) -> PyResult<Bound<'_, PyAny>> {
    let text =
        serde_json::to_string(&found.map_err(raise)?).map_err(|error| wrong_kind(error.to_string()))?;
    py.import("kingvalve.check")?.call_method1("_found", (text,))
}

/// What a notebook shows of something that answers with a finding.
pub fn html(py: Python<'_>, found: kingvalve::Result<Finding>) -> PyResult<Bound<'_, PyAny>> {
    finding(py, found)?.call_method0("_repr_html_")
}

#[pymethods]
impl Record {
    #[new]
    #[pyo3(signature = (*given))]
    fn new(given: &Bound<'_, PyTuple>) -> PyResult<Self> {
        let coming = given.get_item(0).ok().and_then(|one| one.cast_into::<Coming>().ok());
        let held = coming.and_then(|coming| coming.get().0.lock().ok().and_then(|mut held| held.take()));
        held.map(Record)
            .ok_or_else(|| wrong_kind("a result is made by the function that finds it".to_owned()))
    }

    fn _at(&self, py: Python<'_>, index: usize) -> PyResult<Py<PyAny>> {
        self.0.field(py, index)
    }

    fn _finding<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.0.finding().map(|found| finding(py, found)).transpose()
    }

    fn __richcmp__(slf: &Bound<'_, Self>, other: &Bound<'_, PyAny>, op: CompareOp) -> PyResult<Py<PyAny>> {
        let py = slf.py();
        let same = match other.cast::<Record>() {
            Ok(other) => slf.get().0.same(other.get().0.any()).unwrap_or_else(|| slf.is(other)),
            Err(_) => return Ok(py.NotImplemented()),
        };
        match op {
            CompareOp::Eq => same.into_py_any(py),
            CompareOp::Ne => (!same).into_py_any(py),
            _ => Ok(py.NotImplemented()),
        }
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("kingvalve._html")?.call_method1("record", (slf, slf.get()._finding(slf.py())?))
    }

    fn __copy__(slf: Bound<'_, Self>) -> Bound<'_, Self> {
        slf
    }

    fn __deepcopy__<'py>(slf: Bound<'py, Self>, _memo: &Bound<'py, PyAny>) -> Bound<'py, Self> {
        slf
    }

    fn __str__(&self) -> String {
        self.0.text()
    }

    fn __repr__(&self) -> String {
        let text = self.0.text();
        format!("<{}: {}>", self.0.name(), text.lines().next().unwrap_or_default())
    }
}
