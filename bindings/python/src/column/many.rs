//! What a library function takes where Python may give one quantity, a reading of it, or a column.

use std::marker::PhantomData;

use kingvalve::measure as kv;
use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;

use super::{Column, Errors, Kinded, Rows, Source, run};
use crate::error::{raise, wrong_kind};
use crate::measure::{Given, Measured};
use crate::quantity::{Exposed, IntoPython};

/// One quantity, plain or with its doubt, or many.
pub enum Many<'py, Q: Exposed> {
    /// One.
    One(Given<Q>),
    /// A column of it.
    Column(Bound<'py, Column>),
}

impl<'py, Q: Exposed> FromPyObject<'_, 'py> for Many<'py, Q> {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        if let Some(one) = Q::held(&object) {
            return Ok(Many::One(Given::Plain(one)));
        }
        let Ok(column) = object.cast::<Column>() else {
            return object.extract().map(Many::One);
        };
        let name = column.get().kind.name;
        if name == Q::kind().name {
            return Ok(Many::Column(column.to_owned()));
        }
        let given = format!("a column of {name}");
        Err(wrong_kind(crate::quantity::refusal::expected(Q::kind(), &given, Some(name))))
    }
}

impl<Q: Exposed> Many<'_, Q> {
    /// Whether it is one with its doubt.
    pub fn is_read(&self) -> bool {
        matches!(self, Many::One(Given::Doubtful(_)))
    }

    /// One with what doubt it has; a column cannot stand beside doubt.
    pub fn measured(self) -> PyResult<kv::Measured<Q>> {
        match self {
            Many::One(given) => Ok(given.measured()),
            Many::Column(_) => Err(mixed()),
        }
    }
}

/// Why an argument with doubt cannot stand beside a column.
fn mixed() -> PyErr {
    wrong_kind(
        "a reading with its doubt and a column do not go together; take the reading's value, or judge rows by \
         kv.batch"
            .to_owned(),
    )
}

/// The rows of a function of `N` arguments, given as a function of SI base values.
pub struct Each<F>(pub F);

impl<F: Fn(&[f64]) -> Option<kingvalve::Result<f64>> + Sync> Rows for Each<F> {
    fn answer(&self, inputs: &[&[f64]], outputs: &mut [&mut [f64]]) {
        let Some(output) = outputs.first_mut() else { return };
        let mut row = vec![0.0; inputs.len()];
        for (index, slot) in output.iter_mut().enumerate() {
            for (number, column) in row.iter_mut().zip(inputs) {
                *number = column.get(index).copied().unwrap_or(f64::NAN);
            }
            *slot = if row.iter().any(|number| number.is_nan()) {
                f64::NAN
            } else {
                (self.0)(&row).and_then(Result::ok).unwrap_or(f64::NAN)
            };
        }
    }
    fn refuse(&self, row: &[f64]) -> Option<kingvalve::Error> {
        (self.0)(row).and_then(Result::err)
    }
}

/// Why one row has no answer.
type Refusal<'a, Q> = &'a (dyn Fn(Q) -> Option<kingvalve::Error> + Sync);

/// The rows of a function that the library has for slices.
pub struct Slices<'a, Q, R, F>(F, Refusal<'a, Q>, PhantomData<fn() -> R>);

impl<'a, Q: Exposed, R: Exposed, F: Fn(&[Q], &mut [R]) -> kingvalve::Result<()> + Sync> Slices<'a, Q, R, F> {
    /// Of the function for slices, and why a row has no answer.
    pub fn new(slice: F, refuse: Refusal<'a, Q>) -> Self {
        Slices(slice, refuse, PhantomData)
    }
}

impl<Q: Exposed, R: Exposed, F: Fn(&[Q], &mut [R]) -> kingvalve::Result<()> + Sync> Rows
    for Slices<'_, Q, R, F>
{
    fn answer(&self, inputs: &[&[f64]], outputs: &mut [&mut [f64]]) {
        let ([input], [output]) = (inputs, outputs) else { return };
        let mut given = [Q::from_base(0.0); super::rows::BLOCK];
        let mut found = [R::from_base(f64::NAN); super::rows::BLOCK];
        let count = input.len().min(super::rows::BLOCK);
        let (given, found) = (given.split_at_mut(count).0, found.split_at_mut(count).0);
        for (slot, number) in given.iter_mut().zip(*input) {
            *slot = Q::from_base(*number);
        }
        if (self.0)(given, found).is_err() {
            found.fill(R::from_base(f64::NAN));
        }
        for (slot, quantity) in output.iter_mut().zip(&*found) {
            *slot = quantity.base();
        }
    }
    fn refuse(&self, row: &[f64]) -> Option<kingvalve::Error> {
        row.first().and_then(|number| (self.1)(Q::from_base(*number)))
    }
}

fn column<R: Exposed>(
    py: Python<'_>,
    shape: &Bound<'_, PyAny>,
    sources: &[Source],
    errors: Errors,
    rows: &dyn Rows,
) -> PyResult<Py<PyAny>> {
    let kind = R::kind();
    let made = run(py, shape, sources, &[kind.base()?.into()], errors, rows)?;
    let values = made.into_iter().next().ok_or_else(|| wrong_kind("no rows".to_owned()))?;
    Column::of_base(kind, values)?.into_py_any(py)
}

/// The result for one alone; NaN where it has none and `errors="nan"` asks so.
fn alone<R: Exposed>(py: Python<'_>, errors: Errors, found: kingvalve::Result<R>) -> PyResult<Py<PyAny>> {
    match found {
        Err(_) if errors == Errors::Nan => R::from_base(f64::NAN).into_python(py),
        found => found.map_err(raise)?.into_python(py),
    }
}

/// The result of a library function of one argument: one for one, with doubt for doubtful, a column for a column.
pub fn carry<Q: Exposed, R: Exposed>(
    py: Python<'_>,
    given: Many<'_, Q>,
    errors: Errors,
    plain: impl Fn(Q) -> kingvalve::Result<R> + Sync,
    doubtful: impl FnOnce(kv::Measured<Q>) -> kingvalve::Result<kv::Measured<R>>,
) -> PyResult<Py<PyAny>> {
    match given {
        Many::One(Given::Plain(quantity)) => alone(py, errors, plain(quantity)),
        Many::One(Given::Doubtful(measured)) => {
            Measured::from(doubtful(*measured).map_err(raise)?).into_python(py)
        }
        Many::Column(given) => {
            let values = given.get().values(py);
            let each = Each(|row: &[f64]| row.first().map(|q| Ok(plain(Q::from_base(*q))?.base())));
            column::<R>(py, &values.getattr("shape")?, &[given.get().source(&values)?], errors, &each)
        }
    }
}

/// The same, where the library has the function for slices too.
pub fn slices<Q: Exposed, R: Exposed>(
    py: Python<'_>,
    given: Many<'_, Q>,
    errors: Errors,
    plain: impl Fn(Q) -> kingvalve::Result<R> + Sync,
    slice: impl Fn(&[Q], &mut [R]) -> kingvalve::Result<()> + Sync,
    doubtful: impl FnOnce(kv::Measured<Q>) -> kingvalve::Result<kv::Measured<R>>,
) -> PyResult<Py<PyAny>> {
    let Many::Column(given) = given else { return carry(py, given, errors, plain, doubtful) };
    let values = given.get().values(py);
    let refuse = |quantity| plain(quantity).err();
    let rows = Slices::new(slice, &refuse);
    column::<R>(py, &values.getattr("shape")?, &[given.get().source(&values)?], errors, &rows)
}

/// The same for a function that keeps no doubt: one for one, a column for a column.
pub fn exactly<Q: Exposed, R: Exposed>(
    py: Python<'_>,
    given: Many<'_, Q>,
    errors: Errors,
    plain: impl Fn(Q) -> kingvalve::Result<R> + Sync,
) -> PyResult<Py<PyAny>> {
    if let Many::One(Given::Doubtful(_)) = given {
        let name = Q::NAME;
        return Err(wrong_kind(format!(
            "expected a plain {name}: this keeps no doubt; take the reading's value"
        )));
    }
    carry(py, given, errors, plain, |read| plain_of(&read))
}

fn plain_of<Q: Exposed, R: Exposed>(_read: &kv::Measured<Q>) -> kingvalve::Result<kv::Measured<R>> {
    Ok(kv::Measured::exact(R::from_base(f64::NAN)))
}

/// The same for two arguments: columns and single quantities broadcast as numpy does.
pub fn carry_both<A: Exposed, B: Exposed, R: Exposed>(
    py: Python<'_>,
    a: Many<'_, A>,
    b: Many<'_, B>,
    errors: Errors,
    plain: impl Fn(A, B) -> kingvalve::Result<R> + Sync,
    doubtful: impl FnOnce(kv::Measured<A>, kv::Measured<B>) -> kingvalve::Result<kv::Measured<R>>,
) -> PyResult<Py<PyAny>> {
    let (a, b) = match (a, b) {
        (Many::One(Given::Plain(a)), Many::One(Given::Plain(b))) => return alone(py, errors, plain(a, b)),
        (Many::One(a), Many::One(b)) => {
            let found = doubtful(a.measured(), b.measured()).map_err(raise)?;
            return Measured::from(found).into_python(py);
        }
        some_column => some_column,
    };
    let each = Each(|row: &[f64]| match row {
        [a, b] => Some(plain(A::from_base(*a), B::from_base(*b)).map(|found| found.base())),
        _ => None,
    });
    let (shape, sources) = together(py, [side(&a)?, side(&b)?])?;
    column::<R>(py, &shape, &sources, errors, &each)
}

/// One argument of several: a number for all rows, or a column.
pub enum Side<'a, 'py> {
    /// In the SI base unit.
    Same(f64),
    /// One for each row.
    Each(&'a Bound<'py, Column>),
}

impl Side<'_, '_> {
    /// The number, where it is one for all rows.
    pub fn same(&self) -> Option<f64> {
        match self {
            Side::Same(number) => Some(*number),
            Side::Each(_) => None,
        }
    }
}

/// An argument as a side.
pub fn side<'a, 'py, Q: Exposed + Kinded>(given: &'a Many<'py, Q>) -> PyResult<Side<'a, 'py>> {
    match given {
        Many::One(Given::Plain(quantity)) => Ok(Side::Same(quantity.base())),
        Many::One(Given::Doubtful(_)) => Err(mixed()),
        Many::Column(column) => Ok(Side::Each(column)),
    }
}

/// The common shape of several arguments, and each of them in it.
pub fn together<'py, const N: usize>(
    py: Python<'py>,
    sides: [Side<'_, 'py>; N],
) -> PyResult<(Bound<'py, PyAny>, Vec<Source>)> {
    let arrays: Vec<Option<Bound<'py, PyAny>>> = sides
        .iter()
        .map(|side| match side {
            Side::Same(_) => None,
            Side::Each(column) => Some(column.get().values(py)),
        })
        .collect();
    let arrays = pyo3::types::PyTuple::new(py, arrays)?;
    let (shape, arrays): (Bound<'py, PyAny>, Vec<Option<Bound<'py, PyAny>>>) =
        py.import("kingvalve._array")?.call_method1("together", arrays)?.extract()?;
    let sources = sides.iter().zip(&arrays).map(|(side, array)| match (side, array) {
        (Side::Each(column), Some(array)) => column.get().source(array),
        (Side::Same(value), _) => Ok(Source::Same(*value)),
        (Side::Each(column), None) => column.get().source(&column.get().values(py)),
    });
    Ok((shape, sources.collect::<PyResult<Vec<_>>>()?))
}
