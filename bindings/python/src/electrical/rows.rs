//! Columns of capacitor readings.

use kingvalve::electrical as kv;
use kingvalve::measure::RowVerdict;
use kingvalve::quantity as q;
use pyo3::prelude::*;
use q::Quantity;

use crate::column::{Errors, Kinded, Many, field, fields, side};
use crate::record::plain;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<CapacitorRows>()?;
    module.add_class::<CapacitorColumns>()
}

/// Judges columns of readings of one kind of part, made by ``RunCapacitor.rows``.
///
/// Examples
/// --------
/// >>> herm = kv.RunCapacitor.rated(kv.microfarads(45), kv.Tolerance("6 %"))
/// >>> meters = kv.Instrument.resolution(kv.volts(0.1)), kv.Instrument.resolution(kv.amperes(0.1))
/// >>> judged = herm.rows(*meters, kv.hertz(60)).judge(kv.volts([354.4, -1.0]), kv.amperes([5.8, 5.8]))
/// >>> judged.verdict
/// ['within', 'unusable']
#[pyclass(frozen, module = "kingvalve")]
pub struct CapacitorRows(pub(super) kv::CapacitorRows);

#[pymethods]
impl CapacitorRows {
    /// Judges each voltage with the current of the same row; a row that cannot be is ``"unusable"``, its numbers NaN.
    ///
    /// Parameters
    /// ----------
    /// voltages : ElectricPotential or Column of ElectricPotential
    ///     Across the terminals, motor running.
    /// currents : Current or Column of Current
    ///     Through the section's lead alone.
    ///
    /// Returns
    /// -------
    /// CapacitorColumns
    fn judge(
        &self,
        py: Python<'_>,
        voltages: Many<'_, q::ElectricPotential>,
        currents: Many<'_, q::Current>,
    ) -> PyResult<CapacitorColumns> {
        let kinds = [
            q::Capacitance::kind(),
            q::Capacitance::kind(),
            q::Ratio::kind(),
            q::Ratio::kind(),
            q::Ratio::kind(),
        ];
        let each = |row: &[f64]| match row {
            [v, i] => {
                let (v, i) = (q::ElectricPotential::from_base(*v), q::Current::from_base(*i));
                let mut out = [kv::CapacitorRow::NONE];
                let judged = self.0.judge(&[v], &[i], &mut out);
                let [row] = out;
                Some(judged.map(|()| {
                    let verdict = f64::from(row.verdict as u8);
                    [row.capacitance.base(), row.standard_uncertainty.base(), row.below, row.above, verdict]
                }))
            }
            _ => None,
        };
        let fields = fields(py, [side(&voltages)?, side(&currents)?], kinds, Errors::Nan, each)?;
        Ok(CapacitorColumns { fields })
    }
}

/// Capacitor readings judged row by row, by ``CapacitorRows.judge``: columns, or one of each for one row.
#[pyclass(frozen, module = "kingvalve")]
pub struct CapacitorColumns {
    fields: Vec<Py<PyAny>>,
}

fn word(number: f64) -> &'static str {
    match number {
        n if n == f64::from(RowVerdict::Within as u8) => "within",
        n if n == f64::from(RowVerdict::Below as u8) => "below",
        n if n == f64::from(RowVerdict::Above as u8) => "above",
        n if n == f64::from(RowVerdict::Unresolved as u8) => "unresolved",
        _ => "unusable",
    }
}

#[pymethods]
impl CapacitorColumns {
    /// The capacitance.
    #[getter]
    fn capacitance(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 0)
    }

    /// Its standard uncertainty.
    #[getter]
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 1)
    }

    /// The probability that the truth lies below the lower limit.
    #[getter]
    fn probability_below(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 2)
    }

    /// The probability that the truth lies above the upper limit.
    #[getter]
    fn probability_above(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 3)
    }

    /// "within", "below", "above", "unresolved" or "unusable": a list of them for columns.
    #[getter]
    fn verdict(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        let numbers = field(&self.fields, py, 4)?.bind(py).getattr("fraction")?;
        if let Ok(number) = numbers.extract::<f64>() {
            return plain(word(number), py);
        }
        let numbers: Vec<f64> = numbers.call_method0("ravel")?.call_method0("tolist")?.extract()?;
        plain(numbers.into_iter().map(word).collect::<Vec<_>>(), py)
    }
}
