//! Row by row through a library function, a block at a time, without the interpreter.

use kingvalve::quantity::Unit;
use pyo3::prelude::*;

use super::values::{Fresh, Numbers};
use crate::error::raise_at;

/// Rows handled at a time: both blocks of a call fit into the fastest cache.
pub const BLOCK: usize = 512;

/// What to do with a row that has no answer.
#[derive(Clone, Copy, PartialEq, Default)]
pub enum Errors {
    /// Raise, naming the first such row.
    #[default]
    Raise,
    /// Write NaN there.
    Nan,
}

impl<'py> FromPyObject<'_, 'py> for Errors {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        match object.extract::<String>().as_deref() {
            Ok("raise") => Ok(Errors::Raise),
            Ok("nan") => Ok(Errors::Nan),
            _ => Err(crate::error::wrong_kind(format!(
                "errors is \"raise\" or \"nan\", not {}",
                object.repr()?
            ))),
        }
    }
}

/// How numbers are counted: in a unit, and for plain gauge pressures from the atmosphere of a site.
#[derive(Clone, Copy)]
pub struct Scale {
    /// The unit.
    pub unit: &'static Unit,
    /// What the SI base value is more: the atmosphere in Pa, else 0.
    pub above: f64,
}

impl From<&'static Unit> for Scale {
    fn from(unit: &'static Unit) -> Self {
        Scale { unit, above: 0.0 }
    }
}

impl Scale {
    /// SI base values of these numbers, in place.
    pub fn to_base(self, block: &mut [f64]) {
        self.unit.to_base(block);
        if self.above != 0.0 {
            block.iter_mut().for_each(|value| *value += self.above);
        }
    }

    /// These SI base values as numbers, in place.
    pub fn of_base(self, block: &mut [f64]) {
        if self.above != 0.0 {
            block.iter_mut().for_each(|value| *value -= self.above);
        }
        self.unit.of_base(block);
    }
}

/// An argument: a number for all rows, or one for each.
pub enum Source {
    /// In the SI base unit.
    Same(f64),
    /// Counted so.
    Each(Numbers, Scale),
}

impl Source {
    fn load(&self, first: usize, block: &mut [f64]) {
        match self {
            Source::Same(value) => block.fill(*value),
            Source::Each(numbers, scale) => {
                numbers.copy(first, block);
                scale.to_base(block);
            }
        }
    }
}

/// A library function of rows, SI base units in and out.
pub trait Rows: Sync {
    /// Answers a block of rows: `inputs[argument][row]` into `outputs[result][row]`, NaN where there is no answer.
    fn answer(&self, inputs: &[&[f64]], outputs: &mut [&mut [f64]]);
    /// Why one row has no answer.
    fn refuse(&self, row: &[f64]) -> Option<kingvalve::Error>;
}

/// Answers every row; one array for each of `results`, of that shape.
pub fn run(
    py: Python<'_>,
    shape: &Bound<'_, PyAny>,
    sources: &[Source],
    results: &[Scale],
    errors: Errors,
    rows: &dyn Rows,
) -> PyResult<Vec<Py<PyAny>>> {
    let mut fresh = results.iter().map(|_| Fresh::new(py, shape)).collect::<PyResult<Vec<_>>>()?;
    let refused = py.detach(|| blocks(&mut fresh, sources, results, errors, rows));
    match refused {
        Some((row, error)) => Err(raise_at(error, &place(py, shape, row)?)),
        None => Ok(fresh.into_iter().map(Fresh::done).collect()),
    }
}

fn blocks(
    fresh: &mut [Fresh],
    sources: &[Source],
    results: &[Scale],
    errors: Errors,
    rows: &dyn Rows,
) -> Option<(usize, kingvalve::Error)> {
    let length = fresh.first().map_or(0, Fresh::len);
    let mut inputs = vec![[0.0; BLOCK]; sources.len()];
    let mut outputs = vec![[0.0; BLOCK]; results.len()];
    for first in (0..length).step_by(BLOCK) {
        let count = BLOCK.min(length - first);
        for (source, block) in sources.iter().zip(&mut inputs) {
            source.load(first, block.split_at_mut(count).0);
        }
        let given: Vec<&[f64]> = inputs.iter().map(|block| block.split_at(count).0).collect();
        let mut found: Vec<&mut [f64]> =
            outputs.iter_mut().map(|block| block.split_at_mut(count).0).collect();
        rows.answer(&given, &mut found);
        if errors == Errors::Raise
            && let Some((row, error)) = first_refused(&given, &found, rows)
        {
            return Some((first + row, error));
        }
        for ((block, scale), array) in outputs.iter_mut().zip(results).zip(fresh.iter_mut()) {
            let block = block.split_at_mut(count).0;
            scale.of_base(block);
            array.set(first, block);
        }
    }
    None
}

/// The first row without an answer though every number of it was given.
fn first_refused(
    given: &[&[f64]],
    found: &[&mut [f64]],
    rows: &dyn Rows,
) -> Option<(usize, kingvalve::Error)> {
    let answers = found.first()?;
    let unanswered = answers.iter().enumerate().filter(|(_, answer)| answer.is_nan()).map(|(row, _)| row);
    for row in unanswered {
        let numbers: Vec<f64> = given.iter().filter_map(|block| block.get(row).copied()).collect();
        if !numbers.iter().any(|number| number.is_nan())
            && let Some(error) = rows.refuse(&numbers)
        {
            return Some((row, error));
        }
    }
    None
}

/// "row 17", or "row (3, 5)" of an array of several dimensions.
fn place(py: Python<'_>, shape: &Bound<'_, PyAny>, row: usize) -> PyResult<String> {
    if shape.len()? < 2 {
        return Ok(format!("row {row}"));
    }
    let place = py.import("kingvalve._array")?.call_method1("place", (row, shape))?;
    Ok(format!("row {place}"))
}
