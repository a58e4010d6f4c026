//! Standard air: the constants behind 1.08, 4.5 and 0.68.

use kingvalve::{air as kv, quantity as q};
use pyo3::prelude::*;

use crate::column::{Errors, Many, carry_both};
use crate::quantity::{Density, IntoPython, Site, SpecificEnergy, SpecificEntropy};

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<StandardAir>()
}

/// Air of a fixed density and heat capacity, for the trade's short formulas: 1.08, 4.5 and 0.69 at sea level.
///
/// Parameters
/// ----------
/// density : Density, optional
///     0.075 lb/ft³ unless given.
/// heat_capacity : SpecificEntropy, optional
///     0.24 Btu/(lb·°F) unless given.
/// latent_heat : SpecificEnergy, optional
///     1076 Btu/lb unless given.
///
/// Notes
/// -----
/// Source: general engineering references on ASHRAE's standard air. Accuracy: a few percent indoors; two readings of the air
/// itself give better: ``delivered``.
///
/// Examples
/// --------
/// >>> heat = kv.StandardAir.at(kv.Site()).sensible(kv.cfm(1200), kv.delta_fahrenheit(20))
/// >>> print(f"{heat:.0f Btu/h}")
/// 25920 Btu/h
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct StandardAir(kv::StandardAir);

#[pymethods]
impl StandardAir {
    #[new]
    #[pyo3(signature = (*, density = None, heat_capacity = None, latent_heat = None))]
    fn new(
        density: Option<Density>,
        heat_capacity: Option<SpecificEntropy>,
        latent_heat: Option<SpecificEnergy>,
    ) -> Self {
        let usual = kv::StandardAir::default();
        StandardAir(kv::StandardAir::of(
            density.map_or(usual.density(), |density| density.0),
            heat_capacity.map_or(usual.heat_capacity(), |heat| heat.0),
            latent_heat.map_or(usual.latent_heat(), |heat| heat.0),
        ))
    }

    /// Standard air thinned to the pressure of a site, at the same temperature.
    ///
    /// Parameters
    /// ----------
    /// site : Site
    ///     Where the air is.
    ///
    /// Returns
    /// -------
    /// StandardAir
    #[staticmethod]
    #[pyo3(signature = (site, /))]
    fn at(site: PyRef<'_, Site>) -> Self {
        StandardAir(kv::StandardAir::at(&site.0))
    }

    /// Its density.
    #[getter]
    fn density(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.density().into_python(py)
    }

    /// Its heat capacity.
    #[getter]
    fn heat_capacity(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.heat_capacity().into_python(py)
    }

    /// What a mass of vapour gives off on its way to condensate.
    #[getter]
    fn latent_heat(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.latent_heat().into_python(py)
    }

    /// Sensible heat: 1.08 × cfm × °F at sea level.
    ///
    /// Parameters
    /// ----------
    /// flow : VolumeFlow or Column of VolumeFlow
    /// difference : TemperatureDifference or Column of TemperatureDifference
    ///     Both read or plain.
    ///
    /// Returns
    /// -------
    /// Power, Measured or Column of Power
    fn sensible(
        &self,
        py: Python<'_>,
        flow: Many<'_, q::VolumeFlow>,
        difference: Many<'_, q::TemperatureDifference>,
    ) -> PyResult<Py<PyAny>> {
        let plain = |flow: q::VolumeFlow, by: q::TemperatureDifference| Ok(self.0.sensible(flow, by));
        carry_both(py, flow, difference, Errors::Raise, plain, |flow, by| Ok(self.0.sensible(flow, by)))
    }

    /// Total heat: 4.5 × cfm × Btu/lb at sea level.
    ///
    /// Parameters
    /// ----------
    /// flow : VolumeFlow or Column of VolumeFlow
    /// difference : SpecificEnergy or Column of SpecificEnergy
    ///     Of enthalpies; both read or plain.
    ///
    /// Returns
    /// -------
    /// Power, Measured or Column of Power
    fn total(
        &self,
        py: Python<'_>,
        flow: Many<'_, q::VolumeFlow>,
        difference: Many<'_, q::SpecificEnergy>,
    ) -> PyResult<Py<PyAny>> {
        let plain = |flow: q::VolumeFlow, by: q::SpecificEnergy| Ok(self.0.total(flow, by));
        carry_both(py, flow, difference, Errors::Raise, plain, |flow, by| Ok(self.0.total(flow, by)))
    }

    /// Latent heat: 0.69 × cfm × gr/lb at sea level.
    ///
    /// Parameters
    /// ----------
    /// flow : VolumeFlow or Column of VolumeFlow
    /// difference : HumidityRatio or Column of HumidityRatio
    ///     Both read or plain.
    ///
    /// Returns
    /// -------
    /// Power, Measured or Column of Power
    fn latent(
        &self,
        py: Python<'_>,
        flow: Many<'_, q::VolumeFlow>,
        difference: Many<'_, q::HumidityRatio>,
    ) -> PyResult<Py<PyAny>> {
        let plain = |flow: q::VolumeFlow, by: q::HumidityRatio| Ok(self.0.latent(flow, by));
        carry_both(py, flow, difference, Errors::Raise, plain, |flow, by| Ok(self.0.latent(flow, by)))
    }
}
