//! Where the work is done: the atmosphere a gauge counts from.

use kingvalve::quantity as kv;
use pyo3::prelude::*;

use super::{IntoPython, Length, Pressure};
use crate::column::{Errors, Many, carry};
use crate::error::raise;

/// Adds the class to its module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Site>()
}

/// A place, as far as gauges are concerned: the pressure of the air around them.
///
/// Give its elevation (the atmosphere is that of a standard day there) or a barometer reading; with neither it is
/// at sea level.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(Clone, Copy, PartialEq)]
pub struct Site(pub kv::Site);

#[pymethods]
impl Site {
    #[new]
    #[pyo3(signature = (*, elevation = None, barometer = None))]
    fn new(elevation: Option<Length>, barometer: Option<Pressure>) -> PyResult<Self> {
        match (elevation, barometer) {
            (Some(elevation), None) => Self::at_elevation(elevation),
            (None, Some(barometer)) => Self::with_barometer(barometer),
            (None, None) => Ok(Self::sea_level()),
            (Some(_), Some(_)) => Err(crate::error::wrong_kind(
                "a site is given by its elevation or by a barometer reading, not by both".to_owned(),
            )),
        }
    }

    /// A site so far above mean sea level, with the atmosphere of a standard day there.
    #[staticmethod]
    fn at_elevation(elevation: Length) -> PyResult<Self> {
        kv::Site::at_elevation(elevation.0).map(Site).map_err(raise)
    }

    /// A site whose air pressure was read there: station pressure, not the sea-level pressure of a forecast.
    #[staticmethod]
    fn with_barometer(pressure: Pressure) -> PyResult<Self> {
        kv::Site::with_barometer(pressure.0).map(Site).map_err(raise)
    }

    /// A site at mean sea level on a standard day.
    #[staticmethod]
    fn sea_level() -> Self {
        Site(kv::Site::sea_level())
    }

    /// The pressure of the air there.
    #[getter]
    fn atmosphere(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.atmosphere().into_python(py)
    }

    /// How far above mean sea level, where the site was given so.
    #[getter]
    fn elevation(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        self.0.elevation().map(|elevation| elevation.into_python(py)).transpose()
    }

    /// The absolute pressure behind a gauge pressure read here; a reading keeps its doubt.
    #[pyo3(signature = (gauge, *, errors = Errors::Raise))]
    fn absolute(
        &self,
        py: Python<'_>,
        gauge: Many<'_, kv::GaugePressure>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        carry(py, gauge, errors, |plain| self.0.absolute(plain), |read| self.0.absolute(read))
    }

    /// What a gauge would show here at an absolute pressure; a measured one keeps its doubt.
    #[pyo3(signature = (absolute, *, errors = Errors::Raise))]
    fn gauge(&self, py: Python<'_>, absolute: Many<'_, kv::Pressure>, errors: Errors) -> PyResult<Py<PyAny>> {
        carry(py, absolute, errors, |plain| self.0.gauge(plain), |read| self.0.gauge(read))
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Site: {}>", self.0)
    }
}
