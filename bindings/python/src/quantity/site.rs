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
///
/// Parameters
/// ----------
/// elevation : Length, optional
/// barometer : Pressure, optional
///     Station pressure.
///
/// Raises
/// ------
/// OutOfRange
///     An elevation or a barometer reading out of range.
/// WrongKind
///     Both of them.
///
/// Notes
/// -----
/// Source, range and accuracy: as ``at_elevation`` and ``with_barometer``.
///
/// Examples
/// --------
/// >>> print(f"{kv.Site(elevation=kv.feet(5280)).absolute(kv.psig(62)):.1f}")
/// 74.1 psia
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
    ///
    /// Parameters
    /// ----------
    /// elevation : Length
    ///     Above mean sea level.
    ///
    /// Returns
    /// -------
    /// Site
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     An elevation outside the range.
    ///
    /// Notes
    /// -----
    /// Source: U.S. Standard Atmosphere 1976, equation 33a. Range: −5,000 m to 11,000 m (−16,404 ft to 36,089 ft).
    /// Accuracy: 0.04 % below 4,000 m; the weather moves the true pressure by a percent or two.
    ///
    /// Examples
    /// --------
    /// >>> print(f"{kv.Site.at_elevation(kv.meters(1000)).atmosphere:.2f kPa}")
    /// 89.87 kPa
    #[staticmethod]
    fn at_elevation(elevation: Length) -> PyResult<Self> {
        kv::Site::at_elevation(elevation.0).map(Site).map_err(raise)
    }

    /// A site whose air pressure was read there: station pressure, not the sea-level pressure of a forecast.
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure
    ///     Absolute, as read there.
    ///
    /// Returns
    /// -------
    /// Site
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the range.
    ///
    /// Notes
    /// -----
    /// Source: the reading itself. Range: 20 kPa to 120 kPa (5.9 inHg to 35.4 inHg), common practice, no source.
    /// Accuracy: that of the barometer.
    ///
    /// Examples
    /// --------
    /// >>> print(f"{kv.Site.with_barometer(kv.inches_of_mercury(29.4)).atmosphere:.2f}")
    /// 14.44 psia
    #[staticmethod]
    fn with_barometer(pressure: Pressure) -> PyResult<Self> {
        kv::Site::with_barometer(pressure.0).map(Site).map_err(raise)
    }

    /// A site at mean sea level on a standard day.
    ///
    /// Returns
    /// -------
    /// Site
    ///     With 101,325 Pa of air.
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
    ///
    /// Parameters
    /// ----------
    /// gauge : GaugePressure or Column of GaugePressure
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// Pressure, Measured or Column of Pressure
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Below a full vacuum at this site.
    ///
    /// Notes
    /// -----
    /// Source: gauge pressure plus atmosphere. Accuracy: that of the reading and of the site's atmosphere.
    ///
    /// Examples
    /// --------
    /// >>> print(f"{kv.Site().absolute(kv.psig(62)):.1f}")
    /// 76.7 psia
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
    ///
    /// Parameters
    /// ----------
    /// absolute : Pressure or Column of Pressure
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// GaugePressure, Measured or Column of GaugePressure
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure below zero.
    ///
    /// Notes
    /// -----
    /// Source: absolute pressure less atmosphere. Accuracy: as ``absolute``.
    ///
    /// Examples
    /// --------
    /// >>> print(f"{kv.Site().gauge(kv.psia(76.7)):.1f}")
    /// 62.0 psig
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
