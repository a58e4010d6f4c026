//! Functions with several results: a quantity for each, or a column for each.

use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;

use super::many::{Side, together};
use super::rows::{Errors, Rows, Scale, run};
use super::{Column, Kind};
use crate::error::{raise, wrong_kind};

struct Each<F>(F);

impl<const M: usize, F: Fn(&[f64]) -> Option<kingvalve::Result<[f64; M]>> + Sync> Rows for Each<F> {
    fn answer(&self, inputs: &[&[f64]], outputs: &mut [&mut [f64]]) {
        let rows = outputs.first().map_or(0, |output| output.len());
        for index in 0..rows {
            let row: Vec<f64> = inputs.iter().filter_map(|input| input.get(index).copied()).collect();
            let known = row.iter().all(|number| !number.is_nan());
            let found = if known { (self.0)(&row).and_then(Result::ok) } else { None };
            for (output, number) in outputs.iter_mut().zip(found.unwrap_or([f64::NAN; M])) {
                if let Some(slot) = output.get_mut(index) {
                    *slot = number;
                }
            }
        }
    }
    fn refuse(&self, row: &[f64]) -> Option<kingvalve::Error> {
        (self.0)(row).and_then(Result::err)
    }
}

/// The results of a function of SI base values, as Python objects of these kinds.
pub fn fields<const N: usize, const M: usize>(
    py: Python<'_>,
    sides: [Side<'_, '_>; N],
    kinds: [&'static Kind; M],
    errors: Errors,
    each: impl Fn(&[f64]) -> Option<kingvalve::Result<[f64; M]>> + Sync,
) -> PyResult<Vec<Py<PyAny>>> {
    let row: Vec<f64> = sides.iter().filter_map(Side::same).collect();
    if row.len() == N {
        let numbers = match each(&row) {
            Some(Ok(found)) => found,
            Some(Err(error)) if errors == Errors::Raise => return Err(raise(error)),
            _ => [f64::NAN; M],
        };
        return kinds.into_iter().zip(numbers).map(|(kind, number)| (kind.one)(py, number)).collect();
    }
    let (shape, sources) = together(py, sides)?;
    let scales = kinds.iter().map(|kind| Ok(Scale::from(kind.base()?))).collect::<PyResult<Vec<_>>>()?;
    let arrays = run(py, &shape, &sources, &scales, errors, &Each(each))?;
    kinds.into_iter().zip(arrays).map(|(kind, array)| Column::of_base(kind, array)?.into_py_any(py)).collect()
}

/// One of them.
pub fn field(fields: &[Py<PyAny>], py: Python<'_>, index: usize) -> PyResult<Py<PyAny>> {
    let found = fields.get(index).map(|field| field.clone_ref(py));
    found.ok_or_else(|| wrong_kind("no such property".to_owned()))
}
