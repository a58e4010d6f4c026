//! Moist air.

use kingvalve::{air as kv, quantity as q};
use pyo3::prelude::*;
use q::Quantity as _;

use crate::column::{Errors, Kinded, Many, field, fields, side};
use crate::quantity::Site;

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<MoistAir>()
}

/// Moist air at one place: made of its dry bulb and one measure of its moisture; each property a quantity, or a column
/// where it was made of columns.
#[pyclass(frozen, module = "kingvalve")]
pub struct MoistAir {
    fields: Vec<Py<PyAny>>,
}

fn properties(air: kv::MoistAir) -> kingvalve::Result<[f64; 9]> {
    Ok([
        air.dry_bulb().base(),
        air.wet_bulb()?.base(),
        air.dew_point()?.base(),
        air.relative_humidity().base(),
        air.humidity_ratio().base(),
        air.enthalpy().base(),
        air.specific_volume().base(),
        air.density().base(),
        air.vapor_pressure().base(),
    ])
}

/// Made by a constructor of the library from a dry bulb and something else.
fn make<W: crate::quantity::Exposed>(
    py: Python<'_>,
    dry_bulb: &Many<'_, q::Temperature>,
    moisture: &Many<'_, W>,
    errors: Errors,
    air: impl Fn(q::Temperature, W) -> kingvalve::Result<kv::MoistAir> + Sync,
) -> PyResult<MoistAir> {
    let kinds = [
        q::Temperature::kind(),
        q::Temperature::kind(),
        q::Temperature::kind(),
        q::Ratio::kind(),
        q::HumidityRatio::kind(),
        q::SpecificEnergy::kind(),
        q::SpecificVolume::kind(),
        q::Density::kind(),
        q::Pressure::kind(),
    ];
    let each = |row: &[f64]| match row {
        [t, w] => Some(air(q::Quantity::from_base(*t), W::from_base(*w)).and_then(properties)),
        _ => None,
    };
    Ok(MoistAir { fields: fields(py, [side(dry_bulb)?, side(moisture)?], kinds, errors, each)? })
}

#[pymethods]
impl MoistAir {
    /// From dry bulb and wet bulb.
    #[staticmethod]
    #[pyo3(signature = (dry_bulb, wet_bulb, site, *, errors = Errors::Raise))]
    fn from_wet_bulb(
        py: Python<'_>,
        dry_bulb: Many<'_, q::Temperature>,
        wet_bulb: Many<'_, q::Temperature>,
        site: PyRef<'_, Site>,
        errors: Errors,
    ) -> PyResult<Self> {
        let site = site.0;
        make(py, &dry_bulb, &wet_bulb, errors, |t, w| kv::MoistAir::from_wet_bulb(t, w, &site))
    }

    /// From dry bulb and dew point.
    #[staticmethod]
    #[pyo3(signature = (dry_bulb, dew_point, site, *, errors = Errors::Raise))]
    fn from_dew_point(
        py: Python<'_>,
        dry_bulb: Many<'_, q::Temperature>,
        dew_point: Many<'_, q::Temperature>,
        site: PyRef<'_, Site>,
        errors: Errors,
    ) -> PyResult<Self> {
        let site = site.0;
        make(py, &dry_bulb, &dew_point, errors, |t, w| kv::MoistAir::from_dew_point(t, w, &site))
    }

    /// From dry bulb and relative humidity.
    #[staticmethod]
    #[pyo3(signature = (dry_bulb, relative_humidity, site, *, errors = Errors::Raise))]
    fn from_relative_humidity(
        py: Python<'_>,
        dry_bulb: Many<'_, q::Temperature>,
        relative_humidity: Many<'_, q::Ratio>,
        site: PyRef<'_, Site>,
        errors: Errors,
    ) -> PyResult<Self> {
        let site = site.0;
        let air = |t, w| kv::MoistAir::from_relative_humidity(t, w, &site);
        make(py, &dry_bulb, &relative_humidity, errors, air)
    }

    /// From dry bulb and humidity ratio.
    #[staticmethod]
    #[pyo3(signature = (dry_bulb, humidity_ratio, site, *, errors = Errors::Raise))]
    fn from_humidity_ratio(
        py: Python<'_>,
        dry_bulb: Many<'_, q::Temperature>,
        humidity_ratio: Many<'_, q::HumidityRatio>,
        site: PyRef<'_, Site>,
        errors: Errors,
    ) -> PyResult<Self> {
        let site = site.0;
        make(py, &dry_bulb, &humidity_ratio, errors, |t, w| kv::MoistAir::from_humidity_ratio(t, w, &site))
    }

    /// Dry bulb.
    #[getter]
    fn dry_bulb(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 0)
    }
    /// Wet bulb.
    #[getter]
    fn wet_bulb(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 1)
    }
    /// Dew point.
    #[getter]
    fn dew_point(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 2)
    }
    /// Relative humidity.
    #[getter]
    fn relative_humidity(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 3)
    }
    /// Water vapour per mass of dry air.
    #[getter]
    fn humidity_ratio(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 4)
    }
    /// Enthalpy per mass of dry air, from dry air and liquid water at 0 °C.
    #[getter]
    fn enthalpy(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 5)
    }
    /// Volume per mass of dry air.
    #[getter]
    fn specific_volume(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 6)
    }
    /// Density of the moist air.
    #[getter]
    fn density(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 7)
    }
    /// Pressure of the water vapour in it.
    #[getter]
    fn vapor_pressure(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 8)
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let texts = [0, 1].map(|index| Ok(field(&self.fields, py, index)?.bind(py).str()?.to_string()));
        Ok(format!("<MoistAir: {} wet bulb>", texts.into_iter().collect::<PyResult<Vec<_>>>()?.join(", ")))
    }
}
