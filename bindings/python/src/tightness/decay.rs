//! Why a vacuum rises: leak, moisture, outgassing, or not to be told from this log.

use kingvalve::quantity as q;
use kingvalve::tightness as kv;
use pyo3::prelude::*;

use super::leak::Leak;
use super::log::DecayLog;
use crate::column::{Errors, Many, exactly};
use crate::error::raise;
use crate::measure::Given;
use crate::quantity::{IntoPython, Site, Temperature};
use crate::record::{Named, Of, finding, html, name};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<DecayTest>()?;
    module.add_class::<DecayCheck>()
}

impl Named for kv::Cause {
    const WHAT: &'static str = "cause";
    const ALL: &'static [(&'static str, Self)] = &[
        ("steady", kv::Cause::Steady),
        ("leak", kv::Cause::Leak),
        ("moisture", kv::Cause::Moisture),
        ("outgassing", kv::Cause::Outgassing),
        ("moisture_and_leak", kv::Cause::MoistureAndLeak),
        ("outgassing_and_leak", kv::Cause::OutgassingAndLeak),
        ("unresolved", kv::Cause::Unresolved),
    ];
}

impl Named for kv::Presence {
    const WHAT: &'static str = "presence";
    const ALL: &'static [(&'static str, Self)] =
        &[("shown", kv::Presence::Shown), ("excluded", kv::Presence::Excluded), ("open", kv::Presence::Open)];
}

/// A test of a vacuum log: whether the vacuum held, and why it rose.
///
/// Parameters
/// ----------
/// log : DecayLog
/// coldest : Temperature
///     The coldest metal at which water may sit, read or plain.
///
/// Examples
/// --------
/// >>> import numpy as np
/// >>> minutes = np.arange(90) / 2
/// >>> gauge = kv.Instrument.resolution(kv.delta_microns(1)).accuracy_percent_of_reading(10)
/// >>> log = kv.DecayLog(kv.minutes(minutes), kv.microns(350 + 90 * minutes), gauge)  # invented: straight
/// >>> check = kv.DecayTest(log, kv.fahrenheit(70)).check()
/// >>> check.cause, check.hold.name
/// ('leak', 'outside')
#[pyclass(frozen, module = "kingvalve")]
pub struct DecayTest(kv::DecayTest);

#[pymethods]
impl DecayTest {
    #[new]
    fn new(log: PyRef<'_, DecayLog>, coldest: Given<q::Temperature>) -> Self {
        DecayTest(kv::DecayTest::new(log.0.clone(), coldest.measured()))
    }

    /// Another target than 500 microns, and 1,000 after 10 minutes.
    ///
    /// Parameters
    /// ----------
    /// target : VacuumTarget
    ///     The pressure to reach and to hold.
    ///
    /// Returns
    /// -------
    /// DecayTest
    #[pyo3(signature = (target, /))]
    fn target(&self, target: Of<kv::VacuumTarget>) -> Self {
        DecayTest(self.0.clone().target(target.0))
    }

    /// Another rule.
    ///
    /// Parameters
    /// ----------
    /// rule : DecayRule
    ///     Time and rise that the shop judges by.
    ///
    /// Returns
    /// -------
    /// DecayTest
    #[pyo3(signature = (rule, /))]
    fn rule(&self, rule: Of<kv::DecayRule>) -> Self {
        DecayTest(self.0.clone().rule(rule.0))
    }

    /// What the log shows.
    ///
    /// Returns
    /// -------
    /// DecayCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A rule that cannot be; a temperature outside the range of the vapour pressure.
    /// Inconsistent
    ///     A target that cannot be; a gauge that cannot tell water from nothing.
    ///
    /// Notes
    /// -----
    /// Source: leak: constant inflow; water: first-order approach to its vapour pressure (ASHRAE Handbook—Fundamentals 2017,
    /// chapter 1); outgassing as 1/t and 1/√t (O'Hanlon, chapter 4, from memory); fitted by separable least squares. Range:
    /// up to 10 kPa, one temperature all the while, shut off from pump and hoses. Accuracy: of simulated logs that are long
    /// enough 95 % and more are named right, at most 2 % wrong at any length.
    fn check(&self, py: Python<'_>) -> PyResult<DecayCheck> {
        py.detach(|| self.0.check()).map(DecayCheck).map_err(raise)
    }
}

/// What a vacuum log shows, by ``DecayTest.check``.
#[pyclass(frozen, module = "kingvalve")]
pub struct DecayCheck(kv::DecayCheck);

#[pymethods]
impl DecayCheck {
    /// "steady", "leak", "moisture", "outgassing", "moisture_and_leak", "outgassing_and_leak" or "unresolved".
    #[getter]
    fn cause(&self) -> &'static str {
        name(self.0.cause())
    }

    /// The cause and the reason for it, in words.
    #[getter]
    fn reason(&self) -> &str {
        self.0.reason()
    }

    /// Whether a leak is shown, whatever else is open: "shown", "excluded" or "open".
    #[getter]
    fn leak(&self) -> &'static str {
        name(self.0.leak())
    }

    /// The shares of the rise that a leak may have; ``None`` where no shape was fitted.
    #[getter]
    fn leak_share(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.leak_share().into_python(py)
    }

    /// How much the pressure rises in an hour by the leak, where one is shown.
    #[getter]
    fn leak_per_hour(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.leak_per_hour().into_python(py)
    }

    /// The most the pressure can rise in an hour by a leak, shown or not.
    #[getter]
    fn leak_at_most_per_hour(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.leak_at_most_per_hour().into_python(py)
    }

    /// Where water levels off at the coldest point, as this gauge may read it: between which pressures.
    #[getter]
    fn water(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.water().into_python(py)
    }

    /// Whether it was pulled down to the target.
    #[getter]
    fn pulled(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.pulled().into_python(py)
    }

    /// Whether it stayed at or below the target's limit through the hold; ``None`` where the log is shorter.
    #[getter]
    fn hold(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.hold().into_python(py)
    }

    /// The fitted pressure at times of the log: NaN where nothing was fitted or the time lies outside the log.
    ///
    /// Parameters
    /// ----------
    /// time : Time or Column of Time
    ///
    /// Returns
    /// -------
    /// Pressure or Column of Pressure
    #[pyo3(signature = (time, /))]
    fn fitted(&self, py: Python<'_>, time: Many<'_, q::Time>) -> PyResult<Py<PyAny>> {
        let plain = |time: q::Time| Ok(self.0.fitted(time).unwrap_or(q::pascals(f64::NAN)));
        exactly(py, time, Errors::Nan, plain)
    }

    /// The size of the leak shown, in a system of that volume: air at the site's pressure into vacuum; ``None`` where none is.
    ///
    /// Parameters
    /// ----------
    /// volume : Volume
    ///     Plain or with its doubt.
    /// site : Site
    /// temperature : Temperature
    ///
    /// Returns
    /// -------
    /// Leak or None
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A volume that is not above zero.
    ///
    /// Notes
    /// -----
    /// Source: q = V·dp/dt (any text of vacuum technique). Accuracy: that of the volume and of the fitted rise.
    fn leak_size(
        &self,
        volume: Given<q::Volume>,
        site: PyRef<'_, Site>,
        temperature: Temperature,
    ) -> PyResult<Option<Leak>> {
        let leak = self.0.leak_size(&volume.measured(), site.0, temperature.0);
        Ok(leak.map_err(raise)?.map(Leak))
    }

    /// The same in the shape shared by all checks, as ``kv.check.run`` gives it.
    fn finding<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        finding(py, self.0.finding())
    }

    fn _repr_html_<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        html(py, self.0.finding())
    }

    fn __str__(&self) -> &str {
        self.0.reason()
    }

    fn __repr__(&self) -> String {
        format!("<DecayCheck: {}>", name(self.0.cause()))
    }
}
