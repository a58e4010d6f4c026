//! Library values as Python objects of read-only attributes: one shared path for all that has nothing more to it.
//!
//! A type says what its attributes are in a table ([`Class`]); its Python class is made of that table when the module is
//! loaded (`kingvalve/_record.py`). A type with methods of its own is a `#[pyclass]` as usual.

mod argument;
mod object;
mod value;

use kingvalve::measure::Finding;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyTuple};

pub use argument::{Between, Choice, Named, Of, name};
pub use object::{Made, New, Record, finding, html};
pub use value::{Several, listed, pair, plain};

/// An attribute: its name, what it is, and how it comes from the value.
pub type Field<T> = (&'static str, &'static str, fn(&T, Python<'_>) -> PyResult<Py<PyAny>>);

/// What Python sees of a library type.
pub struct Class<T: 'static> {
    /// As in Rust.
    pub name: &'static str,
    /// Its docstring.
    pub doc: &'static str,
    /// Its attributes.
    pub fields: &'static [Field<T>],
    /// What `str()` gives.
    pub text: fn(&T) -> String,
    /// How it answers in the shape shared by all checks, where it does.
    pub finding: Option<fn(&T) -> kingvalve::Result<Finding>>,
    /// Whether two are equal, where that can be asked.
    pub same: Option<fn(&T, &T) -> bool>,
}

/// A library type that Python sees as a record.
pub trait Shown: Clone + Send + Sync + 'static {
    /// Its table.
    const CLASS: Class<Self>;
}

/// The classes, by name.
static CLASSES: PyOnceLock<Py<PyDict>> = PyOnceLock::new();

fn classes(py: Python<'_>) -> &Bound<'_, PyDict> {
    CLASSES.get_or_init(py, || PyDict::new(py).unbind()).bind(py)
}

/// Makes the class of `T`, with these functions as its static methods, and adds it to the module.
///
/// A function called `__new__` makes one of keyword arguments that are the attributes.
pub fn class<'py, T: Shown>(
    module: &Bound<'py, PyModule>,
    functions: &[Bound<'py, pyo3::types::PyCFunction>],
) -> PyResult<()> {
    let table = T::CLASS;
    let fields: Vec<(&str, &str)> = table.fields.iter().map(|(name, doc, _)| (*name, *doc)).collect();
    finish(module, (table.name, table.doc), fields, table.finding.is_some(), functions)
}

fn finish<'py>(
    module: &Bound<'py, PyModule>,
    (name, doc): (&str, &str),
    fields: Vec<(&str, &str)>,
    finds: bool,
    functions: &[Bound<'py, pyo3::types::PyCFunction>],
) -> PyResult<()> {
    let py = module.py();
    let functions = PyTuple::new(py, functions)?;
    let made = py
        .import("kingvalve._record")?
        .call_method1("make", (py.get_type::<Record>(), name, doc, fields, finds, functions))?;
    classes(py).set_item(name, &made)?;
    module.add(name, made)
}

/// Adds the base class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Record>()
}
