//! Sums, products and comparisons of columns.
//!
//! What may be combined, and what comes of it, is asked of one quantity of each kind; the numbers, all in SI base
//! units, are then combined by numpy.

use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;

use super::class::kind_of;
use super::{Column, is_listed};

/// One side: one quantity to ask, and the SI base values of all.
pub struct Operand<'py> {
    one: Bound<'py, PyAny>,
    all: Bound<'py, PyAny>,
}

/// What a column can be combined with: a column, a quantity, a number, an array of numbers.
pub fn operand<'py>(object: &Bound<'py, PyAny>) -> PyResult<Option<Operand<'py>>> {
    let py = object.py();
    if let Ok(column) = object.cast::<Column>() {
        let column = column.get();
        let one = (column.kind.one)(py, 1.0)?.into_bound(py);
        return Ok(Some(Operand { one, all: column.in_unit(py, column.kind.base()?)? }));
    }
    if let Some((_, base)) = kind_of(object) {
        return Ok(Some(Operand { one: object.clone(), all: base.into_bound_py_any(py)? }));
    }
    if is_listed(object) {
        let all = py.import("kingvalve._array")?.call_method1("floats", (object,))?;
        return Ok(Some(Operand { one: 1.0.into_bound_py_any(py)?, all }));
    }
    match object.extract::<f64>() {
        Ok(_) => Ok(Some(Operand { one: object.clone(), all: object.clone() })),
        Err(_) => Ok(None),
    }
}

/// `left op right`, by the name of the operation in Python's `operator` module.
pub fn combine<'py>(
    name: &str,
    left: &Bound<'py, PyAny>,
    right: &Bound<'py, PyAny>,
) -> PyResult<Bound<'py, PyAny>> {
    let py = left.py();
    let (Some(left), Some(right)) = (operand(left)?, operand(right)?) else {
        return Ok(py.NotImplemented().into_bound(py));
    };
    let operation = py.import("operator")?.getattr(name)?;
    let one = operation.call1((left.one, right.one))?;
    let all = operation.call1((left.all, right.all))?;
    match kind_of(&one) {
        Some((kind, _)) => Column::of_base(kind, all.unbind())?.into_bound_py_any(py),
        None => Ok(all),
    }
}
