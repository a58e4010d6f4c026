//! A maker's or a shop's charging chart.

use kingvalve::cycle::target as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;
use q::Quantity;

use crate::column::{Column, Errors, Many, carry_both};
use crate::error::{raise, wrong_kind};
use crate::quantity::FromPython;

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<ChargingChart>()
}

/// The quantities of a column or a list of one dimension.
pub fn row<Q: FromPython>(given: &Bound<'_, PyAny>) -> PyResult<Vec<Q>> {
    given.try_iter()?.map(|each| Q::from_python(&each?)).collect()
}

/// The quantities of a table: a column of two dimensions, NaN or `None` where there is none.
pub fn table<Q: Quantity + FromPython>(given: &Bound<'_, PyAny>) -> PyResult<Vec<Vec<Option<Q>>>> {
    let entry = |each: Bound<'_, PyAny>| match each.is_none() {
        true => Ok(None),
        false => Ok(Some(Q::from_python(&each)?).filter(|entry| !entry.base().is_nan())),
    };
    let line = |line: PyResult<Bound<'_, PyAny>>| {
        let line = line?;
        if !line.is_instance_of::<Column>() && line.try_iter().is_err() {
            return Err(wrong_kind("expected a table of two dimensions".to_owned()));
        }
        line.try_iter()?.map(|each| entry(each?)).collect()
    };
    given.try_iter()?.map(line).collect()
}

/// Targets by outdoor dry bulb (rows) and indoor temperature (columns), as data of the user.
///
/// Superheat by indoor wet bulb for a fixed orifice, subcooling or approach by whatever indoor temperature the chart has.
///
/// Parameters
/// ----------
/// outdoor, indoor : Column of Temperature
///     Rising, two at least.
/// targets : Column of TemperatureDifference
///     A row for each outdoor temperature, an entry for each indoor one; NaN where the chart has a dash.
/// source : str
///     Whose chart it is.
///
/// Raises
/// ------
/// Inconsistent
///     Temperatures that do not rise, a row of another length, a target that is not finite.
///
/// Examples
/// --------
/// >>> targets = kv.delta_fahrenheit([[12, 18], [6, 12]])
/// >>> chart = kv.ChargingChart(kv.fahrenheit([75, 85]), kv.fahrenheit([60, 64]), targets, "invented chart")
/// >>> print(f"{chart.target(kv.fahrenheit(80), kv.fahrenheit(62)):.1f}")
/// 12.0 Δ°F
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct ChargingChart(pub(super) kv::ChargingChart);

#[pymethods]
impl ChargingChart {
    #[new]
    fn new(
        outdoor: &Bound<'_, PyAny>,
        indoor: &Bound<'_, PyAny>,
        targets: &Bound<'_, PyAny>,
        source: String,
    ) -> PyResult<Self> {
        let chart = kv::ChargingChart::new(row(outdoor)?, row(indoor)?, table(targets)?, source);
        chart.map(ChargingChart).map_err(raise)
    }

    /// Whose chart it is.
    #[getter]
    fn source(&self) -> &str {
        self.0.source()
    }

    /// The target, bilinear between the four entries around it.
    ///
    /// Parameters
    /// ----------
    /// outdoor, indoor : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}
    ///     What to do with a row outside the chart.
    ///
    /// Returns
    /// -------
    /// TemperatureDifference, Measured or Column of TemperatureDifference
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside the chart, or next to one of its dashes: no extrapolation.
    ///
    /// Notes
    /// -----
    /// Accuracy: that of the readings times the chart's slopes; the chart's own is not counted.
    #[pyo3(signature = (outdoor, indoor, *, errors = Errors::Raise))]
    fn target(
        &self,
        py: Python<'_>,
        outdoor: Many<'_, q::Temperature>,
        indoor: Many<'_, q::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let plain = |out: q::Temperature, inside: q::Temperature| self.0.target(out, inside);
        carry_both(py, outdoor, indoor, errors, plain, |out, inside| self.0.target(out, inside))
    }

    fn __repr__(&self) -> String {
        format!("<ChargingChart: {}>", self.0.source())
    }
}
