//! The supply: its sag and its unbalance.

use kingvalve::electrical as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::capacitor::Tolerance;
use crate::column::{Errors, Many, exactly};
use crate::measure::{Given, level};
use crate::quantity::{ElectricPotential, IntoPython, Ratio};
use crate::record::{Class, Made, Shown, class};

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Supply>()?;
    class::<kv::Sag>(module, &[])?;
    let unbalance = [
        wrap_pyfunction!(unbalance_of, module)?,
        wrap_pyfunction!(unbalance_against, module)?,
        wrap_pyfunction!(derating_at, module)?,
    ];
    class::<kv::Unbalance>(module, &unbalance)?;
    let py = module.py();
    module.add("RUNNING_SAG", kv::RUNNING_SAG.into_python(py)?)?;
    module.add("STARTING_SAG", kv::STARTING_SAG.into_python(py)?)?;
    module.add("UNBALANCE_LIMIT", kv::UNBALANCE_LIMIT.into_python(py)?)?;
    module.add("UNBALANCE_STOP", kv::UNBALANCE_STOP.into_python(py)?)
}

/// A supply, as the data plate asks for it.
///
/// Notes
/// -----
/// Source: sag = 1 − V/V₀; limits by NEMA MG 1 12.44 (±10 %), ``kv.RUNNING_SAG`` (NEC 215.2, informational note) and
/// ``kv.STARTING_SAG`` (common practice, no source), all from memory and replaceable.
/// Range: single phase, or between the same two of three phases; all other loads unchanged.
/// Accuracy: two readings of one meter share its percentage error, which cancels; steps and counts do not.
///
/// Examples
/// --------
/// >>> meter = kv.Instrument.resolution(kv.volts(0.1)).accuracy_percent_of_reading(1)
/// >>> idle, running = kv.Reading(kv.volts(241), meter), kv.Reading(kv.volts(232.5), meter)
/// >>> sag = kv.Supply.rated(kv.volts(230)).running(idle, running)
/// >>> print(sag.verdict.name, sag.sag)
/// within 3.527 ± 0.033 %
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Supply(kv::Supply);

#[pymethods]
impl Supply {
    /// A supply of that rated voltage, with the limits of common practice.
    ///
    /// Parameters
    /// ----------
    /// voltage : ElectricPotential
    ///     Nominal, of the supply.
    ///
    /// Returns
    /// -------
    /// Supply
    ///
    /// Notes
    /// -----
    /// Limits: ±10 % (NEMA MG 1 12.44), ``kv.RUNNING_SAG``, ``kv.STARTING_SAG``. What cannot be is refused by
    /// ``running``.
    #[staticmethod]
    #[pyo3(signature = (voltage, /))]
    fn rated(voltage: ElectricPotential) -> Self {
        Supply(kv::Supply::rated(voltage.0))
    }

    /// Another range of voltages the unit may run at.
    ///
    /// Parameters
    /// ----------
    /// band : Tolerance
    ///     About the nominal voltage.
    ///
    /// Returns
    /// -------
    /// Supply
    #[pyo3(signature = (band, /))]
    fn within(&self, band: PyRef<'_, Tolerance>) -> Self {
        Supply(self.0.within(band.0))
    }

    /// Other limits of sag, as shares of the idle voltage.
    ///
    /// Parameters
    /// ----------
    /// running, starting : Ratio
    ///     Of the voltage without load.
    ///
    /// Returns
    /// -------
    /// Supply
    fn sagging_at_most(&self, running: Ratio, starting: Ratio) -> Self {
        Supply(self.0.sagging_at_most(running.0, starting.0))
    }

    /// Asks for another level of confidence than 95 %.
    ///
    /// Parameters
    /// ----------
    /// level : Ratio
    ///     How sure a verdict must be.
    ///
    /// Returns
    /// -------
    /// Supply
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A level that is not above 50 % and below 100 %.
    #[pyo3(signature = (level, /))]
    fn at_level(&self, level: Ratio) -> PyResult<Self> {
        Ok(Supply(self.0.at_level(self::level(Some(level))?)))
    }

    /// The sag from idle to running, and whether the running voltage suits the data plate.
    ///
    /// Parameters
    /// ----------
    /// idle, running : ElectricPotential
    ///     At the unit's line terminals, read or plain.
    ///
    /// Returns
    /// -------
    /// Sag
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A voltage that is not above zero and finite; a rated voltage or limit that cannot be.
    fn running(
        &self,
        idle: Given<q::ElectricPotential>,
        running: Given<q::ElectricPotential>,
    ) -> Made<kv::Sag> {
        Made(self.0.running(idle.measured(), running.measured()))
    }

    /// The sag from idle to the lowest voltage while the compressor starts.
    ///
    /// Parameters
    /// ----------
    /// idle, lowest : ElectricPotential
    ///     At the unit's line terminals, read or plain; the lowest as a meter's minimum hold caught it.
    ///
    /// Returns
    /// -------
    /// Sag
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     As for ``running``.
    ///
    /// Notes
    /// -----
    /// Range: a meter fast enough for a start of a fraction of a second; a slower one reads too little sag.
    ///
    /// Examples
    /// --------
    /// >>> kv.Supply.rated(kv.volts(230)).starting(kv.volts(241), kv.volts(197)).verdict.name
    /// 'outside'
    fn starting(
        &self,
        idle: Given<q::ElectricPotential>,
        lowest: Given<q::ElectricPotential>,
    ) -> Made<kv::Sag> {
        Made(self.0.starting(idle.measured(), lowest.measured()))
    }
}

impl Shown for kv::Sag {
    const CLASS: Class<Self> = Class {
        name: "Sag",
        doc: "How far a supply sagged, by ``Supply.running`` or ``Supply.starting``.",
        fields: &[
            ("sag", "The share of the idle voltage lost.", |it, py| it.sag().into_python(py)),
            ("verdict", "Against the limit of sag.", |it, py| it.verdict().into_python(py)),
            (
                "voltage_verdict",
                "The running voltage against the data plate's range; ``None`` for a start.",
                |it, py| it.voltage_verdict().into_python(py),
            ),
        ],
        text: ToString::to_string,
        finding: Some(kv::Sag::finding),
        same: None,
    };
}

impl Shown for kv::Unbalance {
    const CLASS: Class<Self> = Class {
        name: "Unbalance",
        doc: r#"Three voltages between phases, their unbalance judged.

        Notes
        -----
        Source: NEMA MG 1, 12.45 and 14.36: the greatest deviation from the average, as a share of the average.
        Range: each voltage within 20 % of the average; further apart a phase is lost.
        Accuracy: exact for plain voltages; the percentage error of one meter is shared and cancels. Near perfect
        balance the true unbalance is rather above the one computed.

        Examples
        --------
        >>> found = kv.Unbalance.of(kv.volts(460), kv.volts(467), kv.volts(450))
        >>> print(f"{found.unbalance.value:.2f}, derate to {found.derating:.0f}")
        1.96 %, derate to 95 %
        >>> found.verdict.name, found.stop_verdict.name
        ('outside', 'within')
        "#,
        fields: &[
            ("average", "The average voltage.", |it, py| it.average().into_python(py)),
            ("unbalance", "The unbalance.", |it, py| it.unbalance().into_python(py)),
            ("verdict", "Against the limit.", |it, py| it.verdict().into_python(py)),
            ("stop_verdict", "Against the 5 % above which operation is not recommended.", |it, py| {
                it.stop_verdict().into_python(py)
            }),
            (
                "derating",
                "The share of its rated power a motor may give at this unbalance; ``None`` above 5 %.",
                |it, py| it.derating().into_python(py),
            ),
        ],
        text: ToString::to_string,
        finding: Some(kv::Unbalance::finding),
        same: None,
    };
}

/// The unbalance of three voltages, against ``kv.UNBALANCE_LIMIT``.
///
/// Parameters
/// ----------
/// a, b, c : ElectricPotential
///     Between phases 1-2, 2-3 and 3-1, read or plain.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// Unbalance
///
/// Raises
/// ------
/// OutOfRange
///     A voltage that is not above zero and finite.
/// Inconsistent
///     A voltage more than 20 % off the average.
#[pyfunction(name = "of")]
#[pyo3(signature = (a, b, c, *, level = None))]
fn unbalance_of(
    a: Given<q::ElectricPotential>,
    b: Given<q::ElectricPotential>,
    c: Given<q::ElectricPotential>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::Unbalance>> {
    Ok(Made(kv::Unbalance::of(a.measured(), b.measured(), c.measured(), self::level(level)?)))
}

/// The same against another limit: the unit's maker may allow 2 %.
///
/// Parameters
/// ----------
/// limit : Ratio
///     Above 0 % and at most 5 %.
/// a, b, c : ElectricPotential
///     Between phases 1-2, 2-3 and 3-1, read or plain.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// Unbalance
///
/// Raises
/// ------
/// OutOfRange
///     As for ``of``, and a limit outside its range.
/// Inconsistent
///     A voltage more than 20 % off the average.
#[pyfunction(name = "against")]
#[pyo3(signature = (limit, a, b, c, *, level = None))]
fn unbalance_against(
    limit: Ratio,
    a: Given<q::ElectricPotential>,
    b: Given<q::ElectricPotential>,
    c: Given<q::ElectricPotential>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::Unbalance>> {
    Ok(Made(kv::Unbalance::against(limit.0, a.measured(), b.measured(), c.measured(), self::level(level)?)))
}

/// The share of its rated power a motor may give at some unbalance.
///
/// Parameters
/// ----------
/// unbalance : Ratio or Column of Ratio
///     0 % to 5 %.
/// errors : {"raise", "nan"}
///     What to do with a value outside the range.
///
/// Returns
/// -------
/// Ratio or Column of Ratio
///
/// Raises
/// ------
/// OutOfRange
///     Outside the range.
///
/// Notes
/// -----
/// Source: NEMA MG 1, figure 14-1, as read in a general engineering reference, straight between its points.
/// Accuracy: 0.015; other readings of the curve give 0.88 to 0.90 at 3 % and 0.75 at 5 %.
///
/// Examples
/// --------
/// >>> kv.Unbalance.derating_at(kv.percent([1, 3])).percent
/// array([100.,  89.])
#[pyfunction]
#[pyo3(signature = (unbalance, *, errors = Errors::Raise))]
fn derating_at(py: Python<'_>, unbalance: Many<'_, q::Ratio>, errors: Errors) -> PyResult<Py<PyAny>> {
    exactly(py, unbalance, errors, kv::Unbalance::derating_at)
}
