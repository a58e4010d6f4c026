//! The charge a capacitor holds.

use kingvalve::electrical as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::error::raise;
use crate::quantity::{Capacitance, ElectricPotential, IntoPython, Resistance, Time};
use crate::record::{Made, finding};

/// Adds the class and its limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<StoredCharge>()?;
    let py = module.py();
    module.add("SAFE_VOLTAGE", kv::SAFE_VOLTAGE.into_python(py)?)?;
    module.add("DISCHARGE_TIME", kv::DISCHARGE_TIME.into_python(py)?)
}

/// A charged capacitor at its worst: disconnected at the peak of the voltage it worked at.
///
/// Notes
/// -----
/// Source: energy ½CV² and V(t) = V₀·exp(−t/RC), any textbook of electricity; V₀ = √2 times the RMS voltage of a sine.
/// Accuracy: that of the capacitance and the voltage. Nobody may rely on a bleed resistor: discharge, then measure zero
/// volts before touching; local codes, the data plate and licensed practice come first.
///
/// Examples
/// --------
/// >>> stored = kv.StoredCharge.at(kv.microfarads(45), kv.volts(370))
/// >>> print(f"{stored.peak:.0f}, {stored.energy.joules:.2f} J")
/// 523 V, 6.16 J
/// >>> print(f"{stored.time_to(kv.SAFE_VOLTAGE, kv.kilohms(15)).seconds:.1f} s")
/// 1.6 s
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct StoredCharge(kv::StoredCharge);

#[pymethods]
impl StoredCharge {
    /// What a capacitor can hold that worked at that RMS voltage.
    ///
    /// Parameters
    /// ----------
    /// capacitance : Capacitance
    /// rms : ElectricPotential
    ///     Across the part while it worked; the one marked where it was not measured.
    ///
    /// Returns
    /// -------
    /// StoredCharge
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A capacitance or voltage that is not above zero and finite.
    #[staticmethod]
    fn at(capacitance: Capacitance, rms: ElectricPotential) -> PyResult<Self> {
        kv::StoredCharge::at(capacitance.0, rms.0).map(StoredCharge).map_err(raise)
    }

    /// The capacitance.
    #[getter]
    fn capacitance(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.capacitance().into_python(py)
    }

    /// The highest voltage it may be left with: the peak.
    #[getter]
    fn peak(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.peak().into_python(py)
    }

    /// The energy at that voltage.
    #[getter]
    fn energy(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.energy().into_python(py)
    }

    /// How long a bleed resistor takes from the peak down to a voltage, ``kv.SAFE_VOLTAGE`` for instance.
    ///
    /// Parameters
    /// ----------
    /// safe : ElectricPotential
    /// bleed : Resistance
    ///
    /// Returns
    /// -------
    /// Time
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A resistance or voltage that is not above zero and finite.
    ///
    /// Notes
    /// -----
    /// Source: t = R·C·ln(V₀/V). Range: the resistor whole and connected.
    fn time_to(&self, safe: ElectricPotential, bleed: Resistance) -> Made<q::Time> {
        Made(self.0.time_to(safe.0, bleed.0))
    }

    /// The largest bleed resistor that brings it from the peak down to a voltage in a time.
    ///
    /// Parameters
    /// ----------
    /// safe : ElectricPotential
    /// time : Time
    ///     ``kv.DISCHARGE_TIME`` for instance.
    ///
    /// Returns
    /// -------
    /// Resistance
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A time or voltage that is not above zero and finite.
    /// Inconsistent
    ///     A voltage the peak does not exceed, which needs no resistor.
    ///
    /// Notes
    /// -----
    /// Source: R = t/(C·ln(V₀/V)).
    fn bleed_for(&self, safe: ElectricPotential, time: Time) -> Made<q::Resistance> {
        Made(self.0.bleed_for(safe.0, time.0))
    }

    /// What a bleed resistor left in place turns into heat while the part works.
    ///
    /// Parameters
    /// ----------
    /// bleed : Resistance
    ///
    /// Returns
    /// -------
    /// Power
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A resistance that is not above zero and finite.
    ///
    /// Notes
    /// -----
    /// Source: P = V²/R with the RMS voltage.
    fn bleed_power(&self, bleed: Resistance) -> Made<q::Power> {
        Made(self.0.bleed_power(bleed.0))
    }

    /// The same in the shape shared by all checks: energy, and time to ``kv.SAFE_VOLTAGE`` by a bleed resistor.
    ///
    /// Parameters
    /// ----------
    /// bleed : Resistance
    ///     Of the resistor.
    ///
    /// Returns
    /// -------
    /// Finding
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A resistance that is not above zero and finite.
    fn finding<'py>(&self, py: Python<'py>, bleed: Resistance) -> PyResult<Bound<'py, PyAny>> {
        finding(py, self.0.finding(bleed.0))
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<StoredCharge: {}>", self.0)
    }
}
