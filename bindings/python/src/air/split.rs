//! The temperature split over a coil: what it should be, and whether it is.

use kingvalve::{air as kv, quantity as q};
use pyo3::prelude::*;
use q::Quantity;

use super::moist::{MoistAir, row};
use crate::column::{Errors, Kinded, Many, carry_both, field, fields, side};
use crate::cycle::{row as listed_row, table};
use crate::error::raise;
use crate::measure::{Given, Limits, LimitsOf, level};
use crate::quantity::{IntoPython, Ratio};
use crate::record::{Class, Made, Shown, class, plain};

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<SplitTable>()?;
    class::<kv::SplitCheck>(module, &[wrap_pyfunction!(split_check_of, module)?])?;
    module.add_function(wrap_pyfunction!(split_by_model, module)?)?;
    module.add_function(wrap_pyfunction!(installer_split_limits, module)?)?;
    module.add_function(wrap_pyfunction!(rater_split_limits, module)?)?;
    module.add_function(wrap_pyfunction!(usual_bypass, module)?)
}

/// Target splits by return dry bulb (rows) and return wet bulb (columns), as data of the user.
///
/// Parameters
/// ----------
/// dry_bulbs, wet_bulbs : Column of Temperature
///     Rising, two at least.
/// splits : Column of TemperatureDifference
///     A row for each dry bulb, an entry for each wet bulb; NaN where the table has a dash.
/// source : str
///     Where it comes from.
///
/// Raises
/// ------
/// Inconsistent
///     Temperatures that do not rise, a row of another length, a split that is not positive.
///
/// Examples
/// --------
/// >>> splits = kv.delta_fahrenheit([[19, 17], [24, 22]])
/// >>> table = kv.SplitTable(kv.fahrenheit([70, 80]), kv.fahrenheit([58, 62]), splits, "invented shop table")
/// >>> print(f"{table.target(kv.fahrenheit(74), kv.fahrenheit(60)):.1f}")
/// 20.0 Δ°F
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct SplitTable(kv::SplitTable);

#[pymethods]
impl SplitTable {
    #[new]
    fn new(
        dry_bulbs: &Bound<'_, PyAny>,
        wet_bulbs: &Bound<'_, PyAny>,
        splits: &Bound<'_, PyAny>,
        source: String,
    ) -> PyResult<Self> {
        let table =
            kv::SplitTable::new(listed_row(dry_bulbs)?, listed_row(wet_bulbs)?, table(splits)?, source);
        table.map(SplitTable).map_err(raise)
    }

    /// Where it comes from.
    #[getter]
    fn source(&self) -> &str {
        self.0.source()
    }

    /// The target split, bilinear between the four entries around it.
    ///
    /// Parameters
    /// ----------
    /// return_dry_bulb, return_wet_bulb : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}
    ///     What to do with a row outside the table.
    ///
    /// Returns
    /// -------
    /// TemperatureDifference, Measured or Column of TemperatureDifference
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside the table, or next to one of its dashes: no extrapolation.
    ///
    /// Notes
    /// -----
    /// Accuracy: that of the readings times the table's slopes; the table's own is not counted.
    #[pyo3(signature = (return_dry_bulb, return_wet_bulb, *, errors = Errors::Raise))]
    fn target(
        &self,
        py: Python<'_>,
        return_dry_bulb: Many<'_, q::Temperature>,
        return_wet_bulb: Many<'_, q::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let plain = |dry: q::Temperature, wet: q::Temperature| self.0.target(dry, wet);
        carry_both(py, return_dry_bulb, return_wet_bulb, errors, plain, |dry, wet| self.0.target(dry, wet))
    }

    fn __repr__(&self) -> String {
        format!("<SplitTable: {}>", self.0.source())
    }
}

impl Shown for kv::SplitCheck {
    const CLASS: Class<Self> = Class {
        name: "SplitCheck",
        doc: r#"A measured temperature split against its target.

        Examples
        --------
        >>> probe = kv.Instrument.resolution(kv.delta_fahrenheit(0.1)).accuracy(kv.delta_fahrenheit(0.5))
        >>> back, supply = (kv.Reading(kv.fahrenheit(each), probe) for each in (75, 61.5))
        >>> kv.SplitCheck.of(back, supply, kv.delta_fahrenheit(18.8), "model").verdict.name
        'outside'
        "#,
        fields: &[
            ("split", "Return less supply dry bulb.", |it, py| it.split().into_python(py)),
            ("target", "What it should be.", |it, py| it.target().into_python(py)),
            ("verdict", "Against the limits.", |it, py| it.verdict().into_python(py)),
            ("next", "What to do.", |it, py| plain(it.next(), py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::SplitCheck::finding),
        same: None,
    };
}

/// Return less supply dry bulb, against its target.
///
/// Parameters
/// ----------
/// return_dry_bulb, supply_dry_bulb : Temperature
///     Close to the coil, read or plain; on one ``Instrument`` its accuracy cancels.
/// target : TemperatureDifference
///     By ``SplitTable.target`` or ``split_by_model``.
/// target_source : str
///     Who says so.
/// limits : Limits of TemperatureDifference, optional
///     ``installer_split_limits()``, 3 °F either way, unless given.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// SplitCheck
///
/// Raises
/// ------
/// OutOfRange
///     A target that is not positive.
#[pyfunction(name = "of")]
#[pyo3(signature = (return_dry_bulb, supply_dry_bulb, target, target_source, limits = None, *, level = None))]
fn split_check_of(
    return_dry_bulb: Given<q::Temperature>,
    supply_dry_bulb: Given<q::Temperature>,
    target: Given<q::TemperatureDifference>,
    target_source: String,
    limits: Option<LimitsOf<q::TemperatureDifference>>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::SplitCheck>> {
    let limits = limits.map_or_else(kv::installer_split_limits, |limits| limits.0);
    let (back, supply, target) = (return_dry_bulb.measured(), supply_dry_bulb.measured(), target.measured());
    Ok(Made(kv::SplitCheck::of(back, supply, target, target_source, limits, self::level(level)?)))
}

/// The split a coil of known capacity gives, by model.
///
/// Parameters
/// ----------
/// airflow : VolumeFlow or Column of VolumeFlow
///     At the state of the entering air, read or plain.
/// entering : MoistAir
/// total_capacity : Power or Column of Power
///     Total net capacity at these conditions, from the maker's table; read or plain.
/// bypass : Ratio, optional
///     Of the coil: ``usual_bypass()``, 0.1, unless given.
/// errors : {"raise", "nan"}
///     What to do with a row that cannot be.
///
/// Returns
/// -------
/// TemperatureDifference, Measured or Column of TemperatureDifference
///
/// Raises
/// ------
/// OutOfRange
///     An airflow or capacity that is not positive, a bypass factor outside 0 to 1.
/// Inconsistent
///     A capacity that would take the coil below −40 °C.
///
/// Notes
/// -----
/// Source: energy balance; ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 26 and 30. Range: steady cooling, coil
/// above freezing. Accuracy: that of the inputs; a bypass factor off by 0.05 moves the split by about 0.5 °F.
///
/// Examples
/// --------
/// >>> back = kv.MoistAir.from_wet_bulb(kv.fahrenheit(75), kv.fahrenheit(63), kv.Site())
/// >>> print(f"{kv.split_by_model(kv.cfm(1200), back, kv.tons_of_refrigeration(2.7)):.1f}")
/// 20.4 Δ°F
#[pyfunction]
#[pyo3(signature = (airflow, entering, total_capacity, bypass = None, *, errors = Errors::Raise))]
fn split_by_model(
    py: Python<'_>,
    airflow: Many<'_, q::VolumeFlow>,
    entering: PyRef<'_, MoistAir>,
    total_capacity: Many<'_, q::Power>,
    bypass: Option<Ratio>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let bypass = bypass.map_or_else(kv::usual_bypass, |bypass| bypass.0);
    if airflow.is_read() || entering.is_read() || total_capacity.is_read() {
        let (flow, capacity) = (airflow.measured()?, total_capacity.measured()?);
        let found = kv::split_by_model(flow, &entering.measured(py)?, capacity, bypass);
        return found.map_err(raise)?.into_python(py);
    }
    let ((t, w), site) = (entering.parts(py)?, entering.site());
    let each = |inputs: &[f64]| {
        let [flow, t, w, capacity] = inputs else { return None };
        let (flow, capacity) = (q::VolumeFlow::from_base(*flow), q::Power::from_base(*capacity));
        let found = row(*t, *w, &site).and_then(|air| kv::split_by_model(flow, &air, capacity, bypass));
        Some(found.map(|split| [split.base()]))
    };
    let sides = [side(&airflow)?, side(&t)?, side(&w)?, side(&total_capacity)?];
    field(&fields(py, sides, [q::TemperatureDifference::kind()], errors, each)?, py, 0)
}

/// How far the split may be from its target when the installer tests: 3 °F either way (California 2008 Reference Residential
/// Appendix RA3.2.2.7).
#[pyfunction]
fn installer_split_limits() -> Limits {
    kv::installer_split_limits().into()
}

/// The same when a rater tests: 4 °F.
#[pyfunction]
fn rater_split_limits() -> Limits {
    kv::rater_split_limits().into()
}

/// A coil's bypass factor to model with where none was measured: 0.1. Common practice, no source.
#[pyfunction]
fn usual_bypass(py: Python<'_>) -> PyResult<Py<PyAny>> {
    kv::usual_bypass().into_python(py)
}
