//! The class itself: made, read, indexed, shown.

use kingvalve::quantity::Unit;
use pyo3::IntoPyObjectExt;
use pyo3::exceptions::PyAttributeError;
use pyo3::prelude::*;
use pyo3::pyclass::CompareOp;
use pyo3::types::{PyBool, PyFloat, PyList, PyString, PyTuple};

use super::arithmetic::{combine, operand};
use super::values::Numbers;
use super::{Kind, Kinded, Source};
use crate::error::{describe, raise, wrong_kind};
use crate::quantity::{Exposed, Visitor, not_a_quantity, visit};

/// Many quantities of one kind: what a unit word makes of an array (`kv.psig(frame["suction"])`).
///
/// Read by the same words as one quantity (`column.psia`, a numpy array of the same shape), added and compared as
/// numpy does, indexed as numpy does. It looks at the array it was made of and copies nothing until it must.
///
/// Parameters
/// ----------
/// quantities : iterable of quantities
///     Of one kind.
///
/// Raises
/// ------
/// WrongKind
///     Quantities of several kinds, or none.
///
/// Examples
/// --------
/// >>> kv.Column([kv.psia(1), kv.psia(2)]).psia.tolist()
/// [1.0, 2.0]
#[pyclass(frozen, generic, weakref, module = "kingvalve")]
pub struct Column {
    pub(super) kind: &'static Kind,
    unit: &'static Unit,
    values: Py<PyAny>,
}

/// Whether it is a list, an array or a table's column: something with a length that is no text.
pub fn is_listed(object: &Bound<'_, PyAny>) -> bool {
    object.len().is_ok()
        && !object.is_instance_of::<PyString>()
        && !object.is_instance_of::<pyo3::types::PyBytes>()
}

/// A quantity for a number, a column for an array of them: what every unit word does.
pub fn from_numbers(
    object: &Bound<'_, PyAny>,
    kind: &'static Kind,
    word: &str,
    one: fn(Python<'_>, f64) -> PyResult<Py<PyAny>>,
) -> PyResult<Py<PyAny>> {
    let py = object.py();
    if let Some(number) = number(object)? {
        return one(py, number);
    }
    let values = py.import("kingvalve._array")?.call_method1("floats", (object,))?.unbind();
    let unit = kind.word(word).ok_or_else(|| wrong_kind(format!("{} has no unit {word}", kind.name)))?;
    Column { kind, unit, values }.into_py_any(py)
}

/// The number that an object is, none where it holds many; a truth value is no number.
#[inline]
pub fn number(object: &Bound<'_, PyAny>) -> PyResult<Option<f64>> {
    if let Ok(number) = object.cast_exact::<PyFloat>() {
        return Ok(Some(number.value()));
    }
    if is_listed(object) {
        return Ok(None);
    }
    match object.extract() {
        Ok(number) if !object.is_instance_of::<PyBool>() => Ok(Some(number)),
        _ => Err(wrong_kind(format!("expected a number, got {}", describe(object)))),
    }
}

impl Column {
    /// Of an array of SI base values.
    pub fn of_base(kind: &'static Kind, values: Py<PyAny>) -> PyResult<Self> {
        Ok(Column { kind, unit: kind.base()?, values })
    }

    /// The numbers for the library to read, with their unit.
    pub fn source(&self, array: &Bound<'_, PyAny>) -> PyResult<Source> {
        Ok(Source::Each(Numbers::of(array)?, self.unit.into()))
    }

    /// The array it was made of.
    pub fn values<'py>(&self, py: Python<'py>) -> Bound<'py, PyAny> {
        self.values.bind(py).clone()
    }

    /// Its numbers in a unit of its kind; the array itself where that is its unit.
    pub fn in_unit<'py>(&self, py: Python<'py>, unit: &'static Unit) -> PyResult<Bound<'py, PyAny>> {
        let values = self.values(py);
        if unit == self.unit {
            return values.call_method0("view");
        }
        let shape = values.getattr("shape")?;
        let made =
            super::run(py, &shape, &[self.source(&values)?], &[unit.into()], super::Errors::Nan, &Same)?;
        made.into_iter()
            .next()
            .map(|array| array.into_bound(py))
            .ok_or_else(|| wrong_kind("no rows".to_owned()))
    }

    fn with(&self, values: Bound<'_, PyAny>) -> Self {
        Column { kind: self.kind, unit: self.unit, values: values.unbind() }
    }
}

/// One quantity of the kind that an object holds, and its numbers in the SI base unit: of a column, one quantity, or an array of
/// plain numbers, which counts as a share.
pub fn based<'py>(object: &Bound<'py, PyAny>) -> PyResult<(Bound<'py, PyAny>, Vec<f64>)> {
    let py = object.py();
    let column = match object.cast::<Column>() {
        Ok(column) => column.clone(),
        Err(_) if kind_of(object).is_some() => {
            return Ok((object.clone(), kind_of(object).map(|(_, base)| base).into_iter().collect()));
        }
        Err(_) => {
            let values = py.import("kingvalve._array")?.call_method1("floats", (object,))?;
            Bound::new(py, Column::of_base(kingvalve::quantity::Ratio::kind(), values.unbind())?)?
        }
    };
    let column = column.get();
    let values = column.in_unit(py, column.kind.base()?)?;
    Ok((
        (column.kind.one)(py, 1.0)?.into_bound(py),
        values.call_method0("ravel")?.call_method0("tolist")?.extract()?,
    ))
}

/// Every row as it is: a change of unit.
struct Same;

impl super::Rows for Same {
    fn answer(&self, inputs: &[&[f64]], outputs: &mut [&mut [f64]]) {
        if let ([input], [output]) = (inputs, outputs) {
            output.copy_from_slice(input);
        }
    }
    fn refuse(&self, _row: &[f64]) -> Option<kingvalve::Error> {
        None
    }
}

struct KindOf;

impl Visitor for KindOf {
    type Output = (&'static Kind, f64);
    fn visit<Q: Exposed>(self, quantity: Q) -> Self::Output {
        (Q::kind(), quantity.base())
    }
}

/// The kind and the SI base value of the quantity a Python object holds.
pub(super) fn kind_of(object: &Bound<'_, PyAny>) -> Option<(&'static Kind, f64)> {
    visit(object, KindOf)
}

#[pymethods]
impl Column {
    /// Of quantities of one kind.
    #[new]
    #[pyo3(signature = (quantities, /))]
    fn new(quantities: &Bound<'_, PyAny>) -> PyResult<Self> {
        let py = quantities.py();
        let mut kind: Option<&'static Kind> = None;
        let mut numbers = Vec::new();
        for each in quantities.try_iter()? {
            let each = each?;
            let (found, base) = kind_of(&each).ok_or_else(|| not_a_quantity(&each))?;
            if kind.is_some_and(|kind| kind.name != found.name) {
                let first = kind.map_or("", |kind| kind.name);
                return Err(wrong_kind(format!(
                    "a column holds one kind of quantity, not {first} and {}",
                    found.name
                )));
            }
            kind = Some(found);
            numbers.push(base);
        }
        let kind = kind.ok_or_else(|| {
            wrong_kind(
                "expected quantities, got none: make an empty column by a unit word, kv.psig([])".to_owned(),
            )
        })?;
        let values = py.import("kingvalve._array")?.call_method1("floats", (PyList::new(py, numbers)?,))?;
        Self::of_base(kind, values.unbind())
    }

    /// `column.psia`: a numpy array of so many psia.
    fn __getattr__<'py>(&self, py: Python<'py>, name: &str) -> PyResult<Bound<'py, PyAny>> {
        match self.kind.word(name) {
            Some(unit) => self.in_unit(py, unit),
            None => {
                let words: Vec<&str> = (self.kind.units)().iter().map(|unit| unit.word).collect();
                let (kind, words) = (self.kind.name, words.join(", "));
                Err(PyAttributeError::new_err(format!(
                    "a column of {kind} has no {name}; it is read by {words}"
                )))
            }
        }
    }

    fn __dir__(slf: &Bound<'_, Self>) -> PyResult<Vec<String>> {
        let mut names: Vec<String> = slf.get_type().dir()?.extract()?;
        names.extend((slf.get().kind.units)().iter().map(|unit| unit.word.to_owned()));
        Ok(names)
    }

    /// A numpy array of so many of the unit of that name, as in `.to("kPa")`.
    ///
    /// Parameters
    /// ----------
    /// unit : str
    ///
    /// Returns
    /// -------
    /// numpy.ndarray
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     A unit that is unknown, or of another kind.
    ///
    /// Examples
    /// --------
    /// >>> kv.psia([14.5, 29]).to("kPa").round().tolist()
    /// [100.0, 200.0]
    #[pyo3(signature = (unit, /))]
    fn to<'py>(&self, py: Python<'py>, unit: &str) -> PyResult<Bound<'py, PyAny>> {
        self.in_unit(py, (self.kind.named)(unit).map_err(raise)?)
    }

    /// What the quantities are called: "gauge pressure".
    #[getter]
    fn kind(&self) -> &'static str {
        self.kind.name
    }

    /// As numpy's.
    #[getter]
    fn shape<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.values(py).getattr("shape")
    }

    /// Which are neither infinite nor NaN: an array of bool.
    #[getter]
    fn is_finite<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        py.import("numpy")?.call_method1("isfinite", (self.values(py),))
    }

    fn __len__(&self, py: Python<'_>) -> PyResult<usize> {
        self.values(py).len()
    }

    fn __getitem__<'py>(&self, py: Python<'py>, index: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        let found = self.values(py).get_item(index)?;
        if found.hasattr("dtype")? && found.getattr("ndim")?.extract::<usize>()? > 0 {
            let found = py.import("kingvalve._array")?.call_method1("floats", (found,))?;
            return self.with(found).into_bound_py_any(py);
        }
        let mut number = [found.extract::<f64>()?];
        self.unit.to_base(&mut number);
        Ok((self.kind.one)(py, number[0])?.into_bound(py))
    }

    fn __iter__<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        let py = slf.py();
        let items = (0..slf.len()?).map(|index| slf.get_item(index)).collect::<PyResult<Vec<_>>>()?;
        PyList::new(py, items)?.call_method0("__iter__")
    }

    /// numpy leaves arithmetic with a column to the column.
    #[classattr]
    fn __array_ufunc__(py: Python<'_>) -> Py<PyAny> {
        py.None()
    }

    fn __add__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        combine("add", slf.as_any(), other)
    }
    fn __radd__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        combine("add", other, slf.as_any())
    }
    fn __sub__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        combine("sub", slf.as_any(), other)
    }
    fn __rsub__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        combine("sub", other, slf.as_any())
    }
    fn __mul__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        combine("mul", slf.as_any(), other)
    }
    fn __rmul__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        combine("mul", other, slf.as_any())
    }
    fn __truediv__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        combine("truediv", slf.as_any(), other)
    }
    fn __rtruediv__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        combine("truediv", other, slf.as_any())
    }
    fn __neg__<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        combine("mul", slf.as_any(), &(-1.0).into_bound_py_any(slf.py())?)
    }

    fn __richcmp__<'py>(
        slf: &Bound<'py, Self>,
        other: &Bound<'py, PyAny>,
        op: CompareOp,
    ) -> PyResult<Bound<'py, PyAny>> {
        let name = match op {
            CompareOp::Lt => "lt",
            CompareOp::Le => "le",
            CompareOp::Eq => "eq",
            CompareOp::Ne => "ne",
            CompareOp::Gt => "gt",
            CompareOp::Ge => "ge",
        };
        if matches!(op, CompareOp::Eq | CompareOp::Ne) && operand(other)?.is_none() {
            return Ok(slf.py().NotImplemented().into_bound(slf.py()));
        }
        combine(name, slf.as_any(), other)
    }

    #[classattr]
    fn __hash__(py: Python<'_>) -> Py<PyAny> {
        py.None()
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        Ok(format!("{}({})", self.unit.word, self.values(py).repr()?))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyTuple>)> {
        let word = py.import("kingvalve")?.getattr(self.unit.word)?;
        Ok((word, PyTuple::new(py, [self.values(py)])?))
    }
}
