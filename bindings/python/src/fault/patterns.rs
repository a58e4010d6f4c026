//! What each fault does to each feature, how likely each is, how well each feature can be read.

use kingvalve::fault as kv;
use pyo3::prelude::*;

use crate::error::raise;
use crate::quantity::{IntoPython, Ratio, TemperatureDifference};
use crate::record::{Choice, name};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Patterns>()?;
    module.add_class::<Priors>()?;
    module.add_class::<Spreads>()
}

/// The effect of every fault on every feature, how much effects vary, and how well normal performance is known.
///
/// Faults are "low_charge", "overcharge", "low_indoor_airflow", "dirty_outdoor_coil", "liquid_line_restriction",
/// "feeding_valve", "starving_valve", "non_condensables" and "weak_compressor"; for features see ``Residual``.
///
/// Notes
/// -----
/// Source of directions: T. M. Rossi and J. E. Braun, HVAC&R Research 3 (1997) 19–37, as quoted by H. Li and J. E. Braun,
/// Table 1-1, confirmed by M. S. Breuker and J. E. Braun, HVAC&R Research 4 (1998) 303–318; those of other faults and all
/// with a valve from memory. Sizes, variation, scatter and severities: common practice, no source; ``basis`` says which is
/// which. Range: steady cooling, one fault, single-speed compressor, both fans running, no ice, outdoor air 65 °F to 115 °F.
/// Accuracy: directions hold for most equipment; sizes differ by a factor of two.
///
/// Examples
/// --------
/// >>> kv.Patterns.fixed_orifice().effect("low_charge", "superheat") > kv.delta_fahrenheit(10)
/// True
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Patterns(pub(super) kv::Patterns);

impl Patterns {
    fn then(&self, change: impl FnOnce(kv::Patterns) -> kingvalve::Result<kv::Patterns>) -> PyResult<Self> {
        change(self.0.clone()).map(Patterns).map_err(raise)
    }
}

#[pymethods]
impl Patterns {
    /// Those of a fixed orifice.
    #[staticmethod]
    fn fixed_orifice() -> Self {
        Patterns(kv::Patterns::fixed_orifice())
    }

    /// Those of a thermostatic or electronic valve.
    #[staticmethod]
    fn valve() -> Self {
        Patterns(kv::Patterns::valve())
    }

    /// Those of that metering device: "fixed_orifice" or "valve".
    ///
    /// Parameters
    /// ----------
    /// metering : {"fixed_orifice", "valve"}
    ///
    /// Returns
    /// -------
    /// Patterns
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     Another name.
    #[staticmethod]
    #[pyo3(signature = (metering, /))]
    fn of(metering: Choice<kv::Metering>) -> Self {
        Patterns(kv::Patterns::of(metering.0))
    }

    /// The same with the effect of one fault on one feature replaced: ``with`` in Rust.
    ///
    /// Parameters
    /// ----------
    /// fault, feature : str
    /// effect : TemperatureDifference
    ///
    /// Returns
    /// -------
    /// Patterns
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     An effect of "no_fault".
    /// OutOfRange
    ///     One that is not finite.
    fn with_(
        &self,
        fault: Choice<kv::Fault>,
        feature: Choice<kv::Feature>,
        effect: TemperatureDifference,
    ) -> PyResult<Self> {
        self.then(|patterns| patterns.with(fault.0, feature.0, effect.0))
    }

    /// The same with another standard scatter of what a feature should be: finite and above zero.
    ///
    /// Parameters
    /// ----------
    /// feature : str
    ///     Its name: ``"superheat"``.
    /// scatter : TemperatureDifference
    ///     Standard deviation over sound systems.
    ///
    /// Returns
    /// -------
    /// Patterns
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Not above zero.
    fn with_scatter(&self, feature: Choice<kv::Feature>, scatter: TemperatureDifference) -> PyResult<Self> {
        self.then(|patterns| patterns.with_scatter(feature.0, scatter.0))
    }

    /// The same with another variation of effects, 0 % to 100 % of their size.
    ///
    /// Parameters
    /// ----------
    /// variation : Ratio
    ///     Standard deviation of an effect, as a share of it.
    ///
    /// Returns
    /// -------
    /// Patterns
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside 0 to 100 %.
    #[pyo3(signature = (variation, /))]
    fn with_variation(&self, variation: Ratio) -> PyResult<Self> {
        self.then(|patterns| patterns.with_variation(variation.0))
    }

    /// The same with another share of systems that are unlike what was expected, 0 % to 50 %.
    ///
    /// Parameters
    /// ----------
    /// share : Ratio
    ///     Of systems.
    ///
    /// Returns
    /// -------
    /// Patterns
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside 0 to 50 %.
    #[pyo3(signature = (share, /))]
    fn with_unlike(&self, share: Ratio) -> PyResult<Self> {
        self.then(|patterns| patterns.with_unlike(share.0))
    }

    /// The same with other severities, each a multiple of the typical effect with its weight.
    ///
    /// Parameters
    /// ----------
    /// severities : list of tuple of two Ratio
    ///     How many times the effects, and how often.
    ///
    /// Returns
    /// -------
    /// Patterns
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     None, one beyond ten times, or one not above zero.
    #[pyo3(signature = (severities, /))]
    fn with_severities(&self, severities: Vec<(Ratio, Ratio)>) -> PyResult<Self> {
        let severities: Vec<_> = severities.into_iter().map(|(s, w)| (s.0, w.0)).collect();
        self.then(|patterns| patterns.with_severities(&severities))
    }

    /// Of what metering device.
    #[getter]
    fn metering(&self) -> &'static str {
        name(self.0.metering())
    }

    /// The typical effect of a fault on a feature.
    ///
    /// Parameters
    /// ----------
    /// fault : str
    ///     Its name: ``"low_charge"``.
    /// feature : str
    ///     Its name: ``"superheat"``.
    ///
    /// Returns
    /// -------
    /// TemperatureDifference
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     Another name.
    fn effect(
        &self,
        py: Python<'_>,
        fault: Choice<kv::Fault>,
        feature: Choice<kv::Feature>,
    ) -> PyResult<Py<PyAny>> {
        self.0.effect(fault.0, feature.0).into_python(py)
    }

    /// What the direction of that effect rests on: "published", "memory" or "user".
    ///
    /// Parameters
    /// ----------
    /// fault : str
    ///     Its name: ``"low_charge"``.
    /// feature : str
    ///     Its name: ``"superheat"``.
    ///
    /// Returns
    /// -------
    /// {"published", "memory", "user"}
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     Another name.
    fn basis(&self, fault: Choice<kv::Fault>, feature: Choice<kv::Feature>) -> &'static str {
        name(self.0.basis(fault.0, feature.0))
    }

    /// How well it is known what the feature should be: standard.
    ///
    /// Parameters
    /// ----------
    /// feature : str
    ///     Its name: ``"superheat"``.
    ///
    /// Returns
    /// -------
    /// TemperatureDifference
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     Another name.
    #[pyo3(signature = (feature, /))]
    fn scatter(&self, py: Python<'_>, feature: Choice<kv::Feature>) -> PyResult<Py<PyAny>> {
        self.0.scatter(feature.0).into_python(py)
    }

    /// How much effects vary, as a share of their size.
    #[getter]
    fn variation(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.variation().into_python(py)
    }

    fn __repr__(&self) -> String {
        format!("<Patterns: {}>", name(self.0.metering()))
    }
}

/// Weights of the faults and of none, before the readings; only their proportions count.
///
/// Notes
/// -----
/// Source: common practice, no source: an invented shop's calls for "does not cool well" where fans and compressor run. A
/// shop's own counts are better: replace them.
///
/// Examples
/// --------
/// >>> ours = kv.Priors().with_("low_charge", kv.percent(40))
/// >>> ours.of("low_charge") > kv.Priors().of("low_charge")
/// True
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Priors(pub(super) kv::Priors);

#[pymethods]
impl Priors {
    #[new]
    fn new() -> Self {
        Priors(kv::Priors::default())
    }

    /// Every fault, and none, as likely.
    #[staticmethod]
    fn even() -> Self {
        Priors(kv::Priors::even())
    }

    /// The same with one weight replaced (``with`` in Rust); the others keep theirs, percentages by default.
    ///
    /// Parameters
    /// ----------
    /// fault : str
    /// weight : Ratio
    ///     Not negative; zero leaves it out.
    ///
    /// Returns
    /// -------
    /// Priors
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A weight that is negative or above a million.
    /// Inconsistent
    ///     One that leaves no weight at all.
    fn with_(&self, fault: Choice<kv::Fault>, weight: Ratio) -> PyResult<Self> {
        self.0.with(fault.0, weight.0).map(Priors).map_err(raise)
    }

    /// Its share of the whole.
    ///
    /// Parameters
    /// ----------
    /// fault : str
    ///     Its name: ``"low_charge"``.
    ///
    /// Returns
    /// -------
    /// Ratio
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     Another name.
    #[pyo3(signature = (fault, /))]
    fn of(&self, py: Python<'_>, fault: Choice<kv::Fault>) -> PyResult<Py<PyAny>> {
        self.0.of(fault.0).into_python(py)
    }
}

/// How well each feature not read yet could be read: standard uncertainties of the coming readings.
///
/// Notes
/// -----
/// Source: common practice, no source: pipe clamps and gauges of usual accuracy; replaceable.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Spreads(pub(super) kv::Spreads);

#[pymethods]
impl Spreads {
    #[new]
    fn new() -> Self {
        Spreads(kv::Spreads::default())
    }

    /// The same with one replaced (``with`` in Rust): finite and not negative.
    ///
    /// Parameters
    /// ----------
    /// feature : str
    ///     Its name: ``"superheat"``.
    /// spread : TemperatureDifference
    ///     Standard uncertainty of its reading.
    ///
    /// Returns
    /// -------
    /// Spreads
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Below zero.
    fn with_(&self, feature: Choice<kv::Feature>, spread: TemperatureDifference) -> PyResult<Self> {
        self.0.with(feature.0, spread.0).map(Spreads).map_err(raise)
    }

    /// That of a feature.
    ///
    /// Parameters
    /// ----------
    /// feature : str
    ///     Its name: ``"superheat"``.
    ///
    /// Returns
    /// -------
    /// TemperatureDifference
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     Another name.
    #[pyo3(signature = (feature, /))]
    fn of(&self, py: Python<'_>, feature: Choice<kv::Feature>) -> PyResult<Py<PyAny>> {
        self.0.of(feature.0).into_python(py)
    }
}
