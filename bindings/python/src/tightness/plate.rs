//! What test pressure the data plate allows.

use kingvalve::quantity as q;
use kingvalve::tightness as kv;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::Given;
use crate::quantity::{GaugePressure, IntoPython, Site, Temperature};
use crate::record::{Class, Made, Shown, class};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<TestPressure>()?;
    class::<kv::TestPressureCheck>(module, &[])
}

/// The highest pressures that may stand in a system, from its data plate and its relief device.
///
/// A system tested as one piece is held to the lowest of them. The data plate, local codes and licensed practice decide;
/// never oxygen or acetylene, always a regulator.
///
/// Examples
/// --------
/// >>> plate = kv.TestPressure.of_plate(kv.psig(450)).low_side(kv.psig(236))
/// >>> [plate.check(kv.psig(planned)).verdict.name for planned in (150, 300)]
/// ['within', 'outside']
/// >>> sun = (kv.Site(), kv.fahrenheit(60), kv.fahrenheit(120))
/// >>> plate.check(kv.psig(230), warming=sun).verdict.name
/// 'outside'
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct TestPressure(kv::TestPressure);

#[pymethods]
impl TestPressure {
    /// The limit of the high side as the data plate gives it; above the atmosphere.
    ///
    /// Parameters
    /// ----------
    /// high_side : GaugePressure
    ///     Design pressure of its data plate.
    ///
    /// Returns
    /// -------
    /// TestPressure
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Not above the atmosphere.
    #[staticmethod]
    #[pyo3(signature = (high_side, /))]
    fn of_plate(high_side: GaugePressure) -> PyResult<Self> {
        kv::TestPressure::of_plate(high_side.0).map(TestPressure).map_err(raise)
    }

    /// Adds the limit of the low side, where it is tested too.
    ///
    /// Parameters
    /// ----------
    /// low_side : GaugePressure
    ///     Design pressure of its data plate.
    ///
    /// Returns
    /// -------
    /// TestPressure
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Not above the atmosphere.
    #[pyo3(signature = (low_side, /))]
    fn low_side(&self, low_side: GaugePressure) -> PyResult<Self> {
        self.0.clone().low_side(low_side.0).map(TestPressure).map_err(raise)
    }

    /// Adds the set pressure of a relief device that stays on the system.
    ///
    /// Parameters
    /// ----------
    /// set : GaugePressure
    ///     Where the relief device opens.
    ///
    /// Returns
    /// -------
    /// TestPressure
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Not above the atmosphere.
    #[pyo3(signature = (set, /))]
    fn relief(&self, set: GaugePressure) -> PyResult<Self> {
        self.0.clone().relief(set.0).map(TestPressure).map_err(raise)
    }

    /// The lowest of the limits, and whose it is.
    #[getter]
    fn limit(&self, py: Python<'_>) -> PyResult<(Py<PyAny>, &'static str)> {
        let (limit, name) = self.0.limit();
        Ok((limit.into_python(py)?, name))
    }

    /// Holds a planned pressure against the limit; with ``warming`` the pressure it becomes with the valves shut.
    ///
    /// Parameters
    /// ----------
    /// planned : GaugePressure
    ///     Read or plain.
    /// warming : tuple of Site, Temperature, Temperature, optional
    ///     Site, temperature at filling, hottest it may get.
    ///
    /// Returns
    /// -------
    /// TestPressureCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure not above the atmosphere or above 10 MPa; a temperature outside −40 °C to 80 °C.
    /// Inconsistent
    ///     A hottest temperature below that at filling.
    ///
    /// Notes
    /// -----
    /// Source of the warming: nitrogen at constant density (Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361).
    /// Accuracy: 0.02 % of the pressure, and that of the readings.
    #[pyo3(signature = (planned, warming = None))]
    fn check(
        &self,
        planned: Given<q::GaugePressure>,
        warming: Option<(PyRef<'_, Site>, Temperature, Temperature)>,
    ) -> Made<kv::TestPressureCheck> {
        let warming = warming.map(|(site, filled, hottest)| (site.0, filled.0, hottest.0));
        Made(self.0.check(planned.measured(), warming))
    }

    fn __repr__(&self) -> String {
        let (limit, name) = self.0.limit();
        format!("<TestPressure: {limit}, {name}>")
    }
}

impl Shown for kv::TestPressureCheck {
    const CLASS: Class<Self> = Class {
        name: "TestPressureCheck",
        doc: "A planned test pressure held against the plate, by ``TestPressure.check``.",
        fields: &[
            ("planned", "As planned.", |it, py| it.planned().into_python(py)),
            ("warmed", "What it becomes when warmed, where that was asked.", |it, py| {
                it.warmed().into_python(py)
            }),
            ("verdict", "Against the lowest limit.", |it, py| it.verdict().into_python(py)),
        ],
        text: |it| it.verdict().to_string(),
        finding: Some(kv::TestPressureCheck::finding),
        same: None,
    };
}
