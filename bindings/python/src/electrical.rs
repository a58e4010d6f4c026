//! Run capacitors.

use kingvalve::electrical as kv;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::{Given, Measured, Verdict, level};
use crate::quantity::{Capacitance, IntoPython, Ratio};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Tolerance>()?;
    module.add_class::<RunCapacitor>()?;
    module.add_class::<CapacitorCheck>()
}

/// How far below and above its rating a part may be, read as it is marked: "±6 %", "-0/+10 %".
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(Clone, Copy, PartialEq)]
pub struct Tolerance(kv::Tolerance);

#[pymethods]
impl Tolerance {
    #[new]
    #[pyo3(signature = (text, /))]
    fn new(text: &str) -> PyResult<Self> {
        text.parse().map(Tolerance).map_err(raise)
    }

    /// So many percent to either side.
    #[staticmethod]
    #[pyo3(signature = (either_side, /))]
    fn percent(either_side: f64) -> Self {
        Tolerance(kv::Tolerance::percent(either_side))
    }

    /// So many percent below and above, both given without sign.
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
}

/// A run capacitor, or one section of a dual one, as marked.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(Clone, Copy, PartialEq)]
pub struct RunCapacitor(kv::RunCapacitor);

#[pymethods]
impl RunCapacitor {
    /// A capacitor of that rating and tolerance.
    #[staticmethod]
    fn rated(rated: Capacitance, tolerance: PyRef<'_, Tolerance>) -> Self {
        RunCapacitor(kv::RunCapacitor::rated(rated.0, tolerance.0))
    }

    /// Adds the tolerance at which the shop replaces it, whatever is marked on it.
    #[pyo3(signature = (tolerance, /))]
    fn policy(&self, tolerance: PyRef<'_, Tolerance>) -> Self {
        RunCapacitor(self.0.policy(tolerance.0))
    }

    /// Asks for another level of confidence than 95 %.
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
    fn under_load(
        &self,
        voltage: Given<kingvalve::quantity::ElectricPotential>,
        current: Given<kingvalve::quantity::Current>,
        frequency: Given<kingvalve::quantity::Frequency>,
    ) -> PyResult<CapacitorCheck> {
        let found = self.0.under_load(voltage.measured(), current.measured(), frequency.measured());
        found.map(CapacitorCheck).map_err(raise)
    }

    fn __repr__(&self) -> String {
        format!("<RunCapacitor: {} {}>", self.0.rating(), self.0.tolerance())
    }
}

/// What a check of a run capacitor found: its capacitance with doubt, and what that means.
#[pyclass(frozen, module = "kingvalve")]
pub struct CapacitorCheck(kv::CapacitorCheck);

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
