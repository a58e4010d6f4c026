//! The log of a vacuum, and the numbers it is judged by.

use kingvalve::quantity as q;
use kingvalve::tightness as kv;
use pyo3::prelude::*;

use crate::error::{raise, wrong_kind};
use crate::measure::{Instrument, level};
use crate::quantity::{IntoPython, Pressure, Ratio, TemperatureDifference, Time};
use crate::record::{Between, Class, Made, New, Shown, class};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<DecayLog>()?;
    class::<kv::VacuumTarget>(module, &[wrap_pyfunction!(vacuum_target, module)?])?;
    class::<kv::DecayRule>(module, &[wrap_pyfunction!(decay_rule, module)?])
}

/// The log of a vacuum after the valve was shut: times and absolute pressures, in the order they were read.
///
/// Parameters
/// ----------
/// times : Column of Time
///     Rising; 12 readings at least.
/// pressures : Column of Pressure
///     Absolute, above zero and up to 10 kPa.
/// gauge : Instrument
///     What they were read with.
///
/// Raises
/// ------
/// OutOfRange
///     Too few readings; a pressure outside the range.
/// Inconsistent
///     Times that do not rise.
///
/// Examples
/// --------
/// >>> import numpy as np
/// >>> minutes = np.arange(20.0)
/// >>> gauge = kv.Instrument.resolution(kv.delta_microns(1)).accuracy_percent_of_reading(10)
/// >>> log = kv.DecayLog(kv.minutes(minutes), kv.microns(300 + 2 * minutes), gauge)
/// >>> print(log.duration, len(log))
/// 19 min 20
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct DecayLog(pub(super) kv::DecayLog);

#[pymethods]
impl DecayLog {
    #[new]
    fn new(
        py: Python<'_>,
        times: &Bound<'_, PyAny>,
        pressures: &Bound<'_, PyAny>,
        gauge: &Bound<'_, Instrument>,
    ) -> PyResult<Self> {
        let times: Vec<q::Time> = crate::cycle::row(times)?;
        let pressures: Vec<q::Pressure> = crate::cycle::row(pressures)?;
        if times.len() != pressures.len() {
            let (a, b) = (times.len(), pressures.len());
            return Err(wrong_kind(format!("a log of {a} times and {b} pressures")));
        }
        let gauge = gauge.get().reading(py)?;
        kv::DecayLog::new(times.into_iter().zip(pressures), gauge).map(DecayLog).map_err(raise)
    }

    /// Adds a scatter of the gauge from reading to reading, as a share of what it reads.
    ///
    /// Parameters
    /// ----------
    /// share : Ratio
    ///     Of the reading.
    ///
    /// Returns
    /// -------
    /// DecayLog
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Below zero, or 100 % and more.
    #[pyo3(signature = (share, /))]
    fn repeatable_within(&self, share: Ratio) -> PyResult<Self> {
        self.0.clone().repeatable_within(share.0).map(DecayLog).map_err(raise)
    }

    /// Leaves out the first of it, while the gauge or the pressure settled.
    ///
    /// Parameters
    /// ----------
    /// first : Time
    ///     From the start of the log.
    ///
    /// Returns
    /// -------
    /// DecayLog
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Fewer than 12 readings remain.
    #[pyo3(signature = (first, /))]
    fn leaving_out(&self, first: Time) -> PyResult<Self> {
        self.0.clone().leaving_out(first.0).map(DecayLog).map_err(raise)
    }

    /// The times, a column.
    #[getter]
    fn times<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        let seconds: Vec<f64> = self.0.samples().iter().map(|sample| sample.time.seconds()).collect();
        py.import("kingvalve")?.call_method1("seconds", (seconds,))
    }

    /// The absolute pressures, a column.
    #[getter]
    fn pressures<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        let pascals: Vec<f64> = self.0.samples().iter().map(|sample| sample.pressure.pascals()).collect();
        py.import("kingvalve")?.call_method1("pascals", (pascals,))
    }

    /// From the first reading to the last.
    #[getter]
    fn duration(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.duration().into_python(py)
    }

    fn __len__(&self) -> usize {
        self.0.samples().len()
    }

    fn __repr__(&self) -> String {
        format!("<DecayLog: {} readings over {}>", self.0.samples().len(), self.0.duration())
    }
}

impl Shown for kv::VacuumTarget {
    const CLASS: Class<Self> = Class {
        name: "VacuumTarget",
        doc: "The deep vacuum asked for.

        Parameters
        ----------
        pull_to : Pressure, optional
            What it is to be pumped down to: 500 microns.
        hold : Time, optional
            How long it is watched: 10 min.
        at_most : Pressure, optional
            What it may have risen to by then: 1,000 microns.

        Notes
        -----
        Source of the defaults: common practice, no source. A maker's instructions go first.
        ",
        fields: &[
            ("pull_to", "What it is to be pumped down to.", |it, py| it.pull_to.into_python(py)),
            ("hold", "How long it is watched.", |it, py| it.hold.into_python(py)),
            ("at_most", "What it may have risen to by then.", |it, py| it.at_most.into_python(py)),
        ],
        text: |it| {
            format!(
                "{:.0} microns, at most {:.0} after {}",
                it.pull_to.microns(),
                it.at_most.microns(),
                it.hold
            )
        },
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
#[pyo3(signature = (cls, *, pull_to = None, hold = None, at_most = None))]
fn vacuum_target(
    cls: New,
    pull_to: Option<Pressure>,
    hold: Option<Time>,
    at_most: Option<Pressure>,
) -> Made<kv::VacuumTarget> {
    let usual = kv::VacuumTarget::default();
    cls.of(Ok(kv::VacuumTarget {
        pull_to: pull_to.map_or(usual.pull_to, |pressure| pressure.0),
        hold: hold.map_or(usual.hold, |time| time.0),
        at_most: at_most.map_or(usual.at_most, |pressure| pressure.0),
    }))
}

impl Shown for kv::DecayRule {
    const CLASS: Class<Self> = Class {
        name: "DecayRule",
        doc: "When a cause of a vacuum's rise counts as shown or excluded.

        Parameters
        ----------
        level : Ratio, optional
            How sure the interval of the leak's share is: 99 %.
        material : Ratio, optional
            A cause is excluded where it can be no more than this part of the rise: 25 %.
        trace : Ratio, optional
            A cause counts as shown where it is more than this part: 5 %.
        pumped : tuple of Time, optional
            How long the system may have been pumped before the valve was shut: ``kv.PUMPED``.
        cooling : TemperatureDifference, optional
            How much colder than the coldest point a wet spot may be: ``kv.COOLING_BY_EVAPORATION``.

        Notes
        -----
        Source: profile likelihood with the F quantile of one parameter (Seber and Wild 1989, from memory); that a cause
        below a material part counts as excluded is this library's rule.
        ",
        fields: &[
            ("level", "How sure the interval of the leak's share is.", |it, py| {
                it.level.probability().into_python(py)
            }),
            ("material", "Below this part of the rise a cause is excluded.", |it, py| it.material.into_python(py)),
            ("trace", "Above this part of the rise a cause is shown.", |it, py| it.trace.into_python(py)),
            ("pumped", "How long the system may have been pumped.", |it, py| it.pumped.into_python(py)),
            ("cooling", "How much colder a wet spot may be.", |it, py| it.cooling.into_python(py)),
        ],
        text: |it| format!("{}, material {}, trace {}", it.level, it.material, it.trace),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
#[pyo3(signature = (cls, *, level = None, material = None, trace = None, pumped = None, cooling = None))]
fn decay_rule(
    cls: New,
    level: Option<Ratio>,
    material: Option<Ratio>,
    trace: Option<Ratio>,
    pumped: Option<Between<q::Time>>,
    cooling: Option<TemperatureDifference>,
) -> PyResult<Made<kv::DecayRule>> {
    let usual = kv::DecayRule::default();
    Ok(cls.of(Ok(kv::DecayRule {
        level: level.map_or(Ok(usual.level), |share| self::level(Some(share)))?,
        material: material.map_or(usual.material, |share| share.0),
        trace: trace.map_or(usual.trace, |share| share.0),
        pumped: pumped.map_or(usual.pumped, |pumped| pumped.0),
        cooling: cooling.map_or(usual.cooling, |cooling| cooling.0),
    })))
}
