//! A run capacitor, and what a check of one finds.

use kingvalve::electrical as kv;
use pyo3::prelude::*;

use super::rows::CapacitorRows;
use crate::error::raise;
use crate::measure::{Given, Instrument, Measured, Verdict, level};
use crate::quantity::{Capacitance, Frequency, IntoPython, Ratio};
use crate::record::{Made, finding, html};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Tolerance>()?;
    module.add_class::<RunCapacitor>()?;
    module.add_class::<CapacitorCheck>()
}

/// How far below and above its rating a part may be, read as it is marked: "±6 %", "-0/+10 %".
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(Clone, Copy, PartialEq)]
pub struct Tolerance(pub(super) kv::Tolerance);

#[pymethods]
impl Tolerance {
    #[new]
    #[pyo3(signature = (text, /))]
    fn new(text: &str) -> PyResult<Self> {
        text.parse().map(Tolerance).map_err(raise)
    }

    /// So many percent to either side.
    ///
    /// Parameters
    /// ----------
    /// either_side : float
    ///     In percent.
    ///
    /// Returns
    /// -------
    /// Tolerance
    ///
    /// Notes
    /// -----
    /// What cannot be is refused by the check of a part.
    #[staticmethod]
    #[pyo3(signature = (either_side, /))]
    fn percent(either_side: f64) -> Self {
        Tolerance(kv::Tolerance::percent(either_side))
    }

    /// So many percent below and above, both given without sign.
    ///
    /// Parameters
    /// ----------
    /// below, above : float
    ///     In percent.
    ///
    /// Returns
    /// -------
    /// Tolerance
    #[staticmethod]
    fn unequal(below: f64, above: f64) -> Self {
        Tolerance(kv::Tolerance::unequal(below, above))
    }

    /// How far below.
    #[getter]
    fn below(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.below().into_python(py)
    }

    /// How far above.
    #[getter]
    fn above(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.above().into_python(py)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Tolerance: {}>", self.0)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyAny>, (String,)) {
        (slf.get_type().into_any(), (slf.get().0.to_string(),))
    }
}

/// A run capacitor, or one section of a dual one, as marked.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(Clone, Copy, PartialEq)]
pub struct RunCapacitor(pub(super) kv::RunCapacitor);

#[pymethods]
impl RunCapacitor {
    /// A capacitor of that rating and tolerance.
    ///
    /// Parameters
    /// ----------
    /// rated : Capacitance
    ///     As marked.
    /// tolerance : Tolerance
    ///     As marked.
    ///
    /// Returns
    /// -------
    /// RunCapacitor
    ///
    /// Notes
    /// -----
    /// Range: above zero and at most 10,000 µF. What cannot be is refused by the check of the part.
    ///
    /// Examples
    /// --------
    /// >>> kv.RunCapacitor.rated(kv.microfarads(45), kv.Tolerance.percent(6))
    /// <RunCapacitor: 45 µF ±6 %>
    #[staticmethod]
    fn rated(rated: Capacitance, tolerance: PyRef<'_, Tolerance>) -> Self {
        RunCapacitor(kv::RunCapacitor::rated(rated.0, tolerance.0))
    }

    /// Adds the tolerance at which the shop replaces it, whatever is marked on it.
    ///
    /// Parameters
    /// ----------
    /// tolerance : Tolerance
    ///     About the rated capacitance.
    ///
    /// Returns
    /// -------
    /// RunCapacitor
    #[pyo3(signature = (tolerance, /))]
    fn policy(&self, tolerance: PyRef<'_, Tolerance>) -> Self {
        RunCapacitor(self.0.policy(tolerance.0))
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
    /// RunCapacitor
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A level that is not above 50 % and below 100 %.
    #[pyo3(signature = (level, /))]
    fn at_level(&self, level: Ratio) -> PyResult<Self> {
        Ok(RunCapacitor(self.0.at_level(self::level(Some(level))?)))
    }

    /// The capacitance marked.
    #[getter]
    fn rating(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.rating().into_python(py)
    }

    /// The tolerance marked.
    #[getter]
    fn tolerance(&self) -> Tolerance {
        Tolerance(self.0.tolerance())
    }

    /// The capacitance behind a voltage across its terminals and a current through it, each plain or read, judged.
    ///
    /// Parameters
    /// ----------
    /// voltage : ElectricPotential
    ///     Across this section, running; read or plain.
    /// current : Current
    ///     In its lead, running; read or plain.
    /// frequency : Frequency
    ///     Of the supply; read or plain.
    ///
    /// Returns
    /// -------
    /// CapacitorCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A voltage not above zero, a negative current, a frequency outside 45 Hz to 65 Hz, a rating or tolerance that
    ///     cannot be. No current at all is a finding.
    ///
    /// Notes
    /// -----
    /// Source: C = I/(2πfV); doubt by JCGM 100:2008, verdict by JCGM 106:2012. Range: sinusoidal, motor running.
    /// Accuracy: that of the readings; harmonics raise the current a true-RMS meter reads. Live work: by those licensed
    /// for it.
    ///
    /// Examples
    /// --------
    /// >>> fan = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance.percent(6))
    /// >>> current = kv.Reading(kv.amperes(0.6), kv.Instrument.resolution(kv.amperes(0.1)))
    /// >>> check = fan.under_load(kv.volts(371.3), current, kv.hertz(60))
    /// >>> print(check.capacitance, check.verdict.name)
    /// 4.29 ± 0.40 µF outside
    fn under_load(
        &self,
        voltage: Given<kingvalve::quantity::ElectricPotential>,
        current: Given<kingvalve::quantity::Current>,
        frequency: Given<kingvalve::quantity::Frequency>,
    ) -> PyResult<CapacitorCheck> {
        let found = self.0.under_load(voltage.measured(), current.measured(), frequency.measured());
        found.map(CapacitorCheck).map_err(raise)
    }

    /// The tolerance at which the shop replaces it, where one was given.
    #[getter]
    fn shop_policy(&self) -> Option<Tolerance> {
        self.0.shop_policy().map(Tolerance)
    }

    /// How sure a verdict must be.
    #[getter]
    fn level(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.level().probability().into_python(py)
    }

    /// A capacitance read out of circuit, disconnected and discharged, judged.
    ///
    /// Parameters
    /// ----------
    /// read : Capacitance
    ///     By a capacitance meter, read or plain.
    ///
    /// Returns
    /// -------
    /// CapacitorCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A capacitance that is negative or not finite; a rating or tolerance that cannot be.
    ///
    /// Notes
    /// -----
    /// Source: the meter; the verdict by JCGM 106:2012. Accuracy: that of the meter.
    ///
    /// Examples
    /// --------
    /// >>> part = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("6 %"))
    /// >>> part.on_bench(kv.microfarads(4.31)).verdict.name
    /// 'outside'
    #[pyo3(signature = (read, /))]
    fn on_bench(&self, read: Given<kingvalve::quantity::Capacitance>) -> PyResult<CapacitorCheck> {
        self.0.on_bench(read.measured()).map(CapacitorCheck).map_err(raise)
    }

    /// Combines several checks of this part and judges their mean.
    ///
    /// Parameters
    /// ----------
    /// checks : list of CapacitorCheck
    ///     Two at least, of this very part.
    ///
    /// Returns
    /// -------
    /// CapacitorCombined
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     Fewer than two checks, or one of another part.
    ///
    /// Notes
    /// -----
    /// Readings of one meter share its accuracy error, which does not shrink by repeating; another meter or method does
    /// help. Where two checks are further apart than their doubt allows, nothing is judged: that speaks of the technique.
    /// Source: see ``Combined``; the verdict by JCGM 106:2012.
    ///
    /// Examples
    /// --------
    /// >>> fan = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("6 %"))
    /// >>> checks = [fan.on_bench(kv.microfarads(each)) for each in (4.31, 4.31)]
    /// >>> fan.combined(checks).check.verdict.name
    /// 'outside'
    #[pyo3(signature = (checks, /))]
    fn combined(&self, checks: Vec<PyRef<'_, CapacitorCheck>>) -> Made<kv::CapacitorCombined> {
        let checks: Vec<kv::CapacitorCheck> = checks.into_iter().map(|check| check.0.clone()).collect();
        Made(self.0.combined(&checks))
    }

    /// Makes ready to judge columns of readings of two instruments, as ``under_load`` judges one.
    ///
    /// Parameters
    /// ----------
    /// voltmeter, ammeter : Instrument
    /// frequency : Frequency
    ///     Of the mains: 50 Hz or 60 Hz.
    ///
    /// Returns
    /// -------
    /// CapacitorRows
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A rating, tolerance, frequency or instrument that cannot be.
    ///
    /// Notes
    /// -----
    /// Judged against the shop's policy where one was given, else the tolerance marked. Accuracy: equal to ``under_load``
    /// to rounding.
    fn rows(
        &self,
        py: Python<'_>,
        voltmeter: &Bound<'_, Instrument>,
        ammeter: &Bound<'_, Instrument>,
        frequency: Frequency,
    ) -> PyResult<CapacitorRows> {
        let (volts, amps) = (voltmeter.get().reading(py)?, ammeter.get().reading(py)?);
        self.0.rows(&volts, &amps, frequency.0).map(CapacitorRows).map_err(raise)
    }

    fn __repr__(&self) -> String {
        format!("<RunCapacitor: {} {}>", self.0.rating(), self.0.tolerance())
    }
}

/// What a check of a run capacitor found: its capacitance with doubt, and what that means.
#[pyclass(frozen, module = "kingvalve")]
pub struct CapacitorCheck(pub(super) kv::CapacitorCheck);

#[pymethods]
impl CapacitorCheck {
    /// The part as marked.
    #[getter]
    fn part(&self) -> RunCapacitor {
        RunCapacitor(*self.0.part())
    }

    /// The capacitance, with its doubt.
    #[getter]
    fn capacitance(&self) -> Measured {
        self.0.capacitance().clone().into()
    }

    /// Against the tolerance marked on the part.
    #[getter]
    fn verdict(&self) -> Verdict {
        self.0.verdict().clone().into()
    }

    /// Against the shop's policy, where one was given.
    #[getter]
    fn policy_verdict(&self) -> Option<Verdict> {
        self.0.policy_verdict().cloned().map(Verdict::from)
    }

    /// The verdict the work follows: the shop's policy where one was given, else the tolerance marked.
    #[getter]
    fn deciding(&self) -> Verdict {
        self.0.deciding().clone().into()
    }

    /// How far the voltage across the part lay above the line's, where ``beside_line`` was asked.
    #[getter]
    fn above_line(&self) -> Option<Verdict> {
        self.0.above_line().cloned().map(Verdict::from)
    }

    /// Whether the capacitance lies firmly below the lower limit that decides.
    #[getter]
    fn is_low(&self) -> bool {
        self.0.is_low()
    }

    /// The same check, with the voltage read across the capacitor held against the line's: whether it was read at the
    /// right terminals of a running motor.
    ///
    /// Parameters
    /// ----------
    /// across : ElectricPotential
    ///     The one the check was made with, read or plain.
    /// line : ElectricPotential
    ///     Between the line terminals of the unit, read or plain.
    ///
    /// Returns
    /// -------
    /// CapacitorCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A line voltage that is not above zero and finite.
    ///
    /// Notes
    /// -----
    /// Source: common practice, no source: at speed the auxiliary winding's own voltage adds to the line's. Range:
    /// permanent-split-capacitor motors at running speed. Accuracy: only a reading firmly below the line earns the note.
    ///
    /// Examples
    /// --------
    /// >>> fan = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("6 %"))
    /// >>> check = fan.under_load(kv.volts(118), kv.amperes(0.22), kv.hertz(60))
    /// >>> len(check.beside_line(kv.volts(118), kv.volts(238)).notes)
    /// 1
    fn beside_line(
        &self,
        across: Given<kingvalve::quantity::ElectricPotential>,
        line: Given<kingvalve::quantity::ElectricPotential>,
    ) -> PyResult<CapacitorCheck> {
        let check = self.0.clone().beside_line(across.measured(), line.measured());
        check.map(CapacitorCheck).map_err(raise)
    }

    /// The same in the shape shared by all checks, as ``kv.check.run`` gives it.
    fn finding<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        finding(py, self.0.finding())
    }

    fn _repr_html_<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        html(py, self.0.finding())
    }

    /// What else was seen.
    #[getter]
    fn notes(&self) -> Vec<&'static str> {
        self.0.notes().iter().map(|note| note.text()).collect()
    }

    /// What can hurt someone at this work.
    #[getter]
    fn cautions(&self) -> Vec<&'static str> {
        self.0.cautions().iter().map(|caution| caution.text()).collect()
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<CapacitorCheck: {}>", self.0.capacitance())
    }
}
