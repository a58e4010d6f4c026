//! Sums, products and comparisons of quantities, once for all classes: a class says what may stand on the right and what
//! comes of it, as Rust has it for the type; the numbers, in SI base units, are then added or multiplied here.

use pyo3::prelude::*;
use pyo3::pyclass::CompareOp;

use super::{Exposed, FromPython, IntoPython, refusal};
use crate::column::{Kind, combine, is_listed};

/// Makes a Python object of an SI base value.
pub type Make = fn(Python<'_>, f64) -> PyResult<Py<PyAny>>;

/// A class that holds a quantity.
pub trait Holds {
    /// The quantity.
    type Quantity: Exposed;
}

/// The quantity a class holds.
pub type Held<C> = <C as Holds>::Quantity;

/// What an operation may give: a quantity, or the ratio of two.
pub trait Result: IntoPython {
    /// From the SI base value.
    fn of_base(base: f64) -> Self;
}

impl Result for f64 {
    fn of_base(base: f64) -> Self {
        base
    }
}

impl<Q: Exposed> Result for Q {
    fn of_base(base: f64) -> Self {
        Q::from_base(base)
    }
}

/// The result `R` of an SI base value, as a Python object.
pub fn made<R: Result>(py: Python<'_>, base: f64) -> PyResult<Py<PyAny>> {
    R::of_base(base).into_python(py)
}

fn held<Q: Exposed>(object: &Bound<'_, PyAny>) -> Option<f64> {
    <Q as FromPython>::held(object).map(Q::base)
}

/// One kind of quantity that may stand on the right.
pub struct Term {
    held: fn(&Bound<'_, PyAny>) -> Option<f64>,
    made: Make,
}

impl Term {
    /// A `C` on the right gives an `R`.
    pub const fn of<C: Holds, R: Result>() -> Term {
        Term { held: held::<C::Quantity>, made: made::<R> }
    }
}

/// An operation.
pub struct Operation {
    sign: &'static str,
    name: &'static str,
    of: fn(f64, f64) -> f64,
}

/// Sums.
pub const ADD: Operation = Operation { sign: "+", name: "add", of: |a, b| a + b };
/// Differences.
pub const SUB: Operation = Operation { sign: "-", name: "sub", of: |a, b| a - b };
/// Products.
pub const MUL: Operation = Operation { sign: "*", name: "mul", of: |a, b| a * b };
/// Quotients.
pub const DIV: Operation = Operation { sign: "/", name: "truediv", of: |a, b| a / b };

/// `left op right`, where the left is one quantity; `times` is what a bare number on the right gives, if anything.
pub fn binary<Q: Exposed>(
    left: &Q,
    operation: &Operation,
    terms: &[Term],
    times: &[Make],
    right: &Bound<'_, PyAny>,
) -> PyResult<Py<PyAny>> {
    operated(Q::kind(), left.base(), operation, terms, times, right)
}

fn operated(
    kind: &'static Kind,
    left: f64,
    operation: &Operation,
    terms: &[Term],
    times: &[Make],
    right: &Bound<'_, PyAny>,
) -> PyResult<Py<PyAny>> {
    let py = right.py();
    for term in terms {
        if let Some(right) = (term.held)(right) {
            return (term.made)(py, (operation.of)(left, right));
        }
    }
    if let (Some(made), Some(number)) = (times.first(), refusal::bare(right)) {
        return made(py, (operation.of)(left, number));
    }
    if is_listed(right) {
        let left = (kind.one)(py, left)?;
        return Ok(combine(operation.name, left.bind(py), right)?.unbind());
    }
    refusal::operation(kind, operation.sign, right)
}

/// `left op right` means nothing.
pub fn refused<Q: Exposed>(_left: &Q, sign: &str, right: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
    refusal::operation(Q::kind(), sign, right)
}

/// `left op right` where the quantity stands on the right.
pub fn reflected<Q: Exposed>(_right: &Q, verb: &str, left: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
    refusal::reflected(Q::kind(), verb, left)
}

/// `left op right` for a right of the same kind, whose SI base value is given.
pub fn compared<Q: Exposed>(
    left: &Q,
    right: Option<f64>,
    op: CompareOp,
    given: &Bound<'_, PyAny>,
) -> PyResult<Py<PyAny>> {
    comparison(Q::kind(), left.base(), right, op, given)
}

fn comparison(
    kind: &'static Kind,
    a: f64,
    b: Option<f64>,
    op: CompareOp,
    given: &Bound<'_, PyAny>,
) -> PyResult<Py<PyAny>> {
    let py = given.py();
    let Some(b) = b else {
        return match op {
            CompareOp::Eq | CompareOp::Ne => Ok(py.NotImplemented()),
            _ => refusal::operation(kind, "<", given),
        };
    };
    let holds = match op {
        CompareOp::Lt => a < b,
        CompareOp::Le => a <= b,
        CompareOp::Eq => a == b,
        CompareOp::Ne => a != b,
        CompareOp::Gt => a > b,
        CompareOp::Ge => a >= b,
    };
    Ok(holds.into_pyobject(py)?.to_owned().into_any().unbind())
}
