//! Moist air.

use kingvalve::measure::{Doubtful, Measured};
use kingvalve::{air as kv, quantity as q};
use pyo3::prelude::*;
use q::Quantity;

use crate::column::{Errors, Kinded, Many, carry, field, fields, side};
use crate::error::raise;
use crate::quantity::{IntoPython, Site};

/// Adds the class and the function to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<MoistAir>()?;
    module.add_function(wrap_pyfunction!(saturation_pressure, module)?)
}

/// The vapour pressure of water at saturation, over ice up to 0.01 °C and over liquid above.
///
/// Parameters
/// ----------
/// temperature : Temperature or Column of Temperature
///     −100 °C to 200 °C, read or plain.
/// errors : {"raise", "nan"}
///     What to do with a row outside the range.
///
/// Returns
/// -------
/// Pressure, Measured or Column of Pressure
///
/// Raises
/// ------
/// OutOfRange
///     Outside the range.
///
/// Notes
/// -----
/// Source: ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 5 and 6. Accuracy: within 0.03 % of its Table 3.
///
/// Examples
/// --------
/// >>> print(f"{kv.saturation_pressure(kv.fahrenheit(77)):.4f}")
/// 0.4597 psia
#[pyfunction]
#[pyo3(signature = (temperature, *, errors = Errors::Raise))]
fn saturation_pressure(
    py: Python<'_>,
    temperature: Many<'_, q::Temperature>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    carry(py, temperature, errors, kv::saturation_pressure, kv::saturation_pressure)
}

/// Moist air at one place: made of its dry bulb and one measure of its moisture; each property a quantity, a measured one
/// where it was made of readings, a column where it was made of columns.
#[pyclass(frozen, module = "kingvalve")]
pub struct MoistAir {
    fields: Vec<Py<PyAny>>,
    site: q::Site,
    /// Where it was made of readings.
    read: Option<kv::MoistAir<Doubtful>>,
}

impl MoistAir {
    /// Dry bulb and humidity ratio, from which a row is made by [`row`].
    pub fn parts<'py>(
        &self,
        py: Python<'py>,
    ) -> PyResult<(Many<'py, q::Temperature>, Many<'py, q::HumidityRatio>)> {
        Ok((field(&self.fields, py, 0)?.extract(py)?, field(&self.fields, py, 4)?.extract(py)?))
    }

    /// Whether it was made of readings.
    pub fn is_read(&self) -> bool {
        self.read.is_some()
    }

    /// Raises what one state has no answer to; a row of columns without one is NaN.
    fn refuse(
        &self,
        py: Python<'_>,
        refused: impl FnOnce(kv::MoistAir) -> Option<kingvalve::Error>,
    ) -> PyResult<()> {
        let (Many::One(dry), Many::One(ratio)) = self.parts(py)? else { return Ok(()) };
        let (dry, ratio) = (dry.measured().value().base(), ratio.measured().value().base());
        if dry.is_nan() || ratio.is_nan() {
            return Ok(());
        }
        row(dry, ratio, &self.site).ok().and_then(refused).map_or(Ok(()), |error| Err(raise(error)))
    }

    /// Where it is.
    pub fn site(&self) -> q::Site {
        self.site
    }

    /// One state, with what doubt it has.
    pub fn measured(&self, py: Python<'_>) -> PyResult<kv::MoistAir<Doubtful>> {
        if let Some(read) = &self.read {
            return Ok(read.clone());
        }
        let (dry, ratio) = self.parts(py)?;
        kv::MoistAir::from_humidity_ratio(dry.measured()?, ratio.measured()?, &self.site).map_err(raise)
    }
}

/// The state of SI base values.
pub fn row(dry_bulb: f64, humidity_ratio: f64, site: &q::Site) -> kingvalve::Result<kv::MoistAir> {
    let (dry, ratio) = (q::Temperature::from_base(dry_bulb), q::HumidityRatio::from_base(humidity_ratio));
    kv::MoistAir::from_humidity_ratio(dry, ratio, site)
}

fn with_doubt(py: Python<'_>, air: &kv::MoistAir<Doubtful>) -> PyResult<Vec<Py<PyAny>>> {
    Ok(vec![
        air.dry_bulb().into_python(py)?,
        air.wet_bulb().ok().into_python(py)?,
        air.dew_point().ok().into_python(py)?,
        air.relative_humidity().into_python(py)?,
        air.humidity_ratio().into_python(py)?,
        air.enthalpy().into_python(py)?,
        air.specific_volume().into_python(py)?,
        air.density().into_python(py)?,
        air.vapor_pressure().into_python(py)?,
    ])
}

fn properties(air: kv::MoistAir) -> kingvalve::Result<[f64; 9]> {
    Ok([
        air.dry_bulb().base(),
        air.wet_bulb().map_or(f64::NAN, Quantity::base),
        air.dew_point().map_or(f64::NAN, Quantity::base),
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
    (dry_bulb, moisture): (Many<'_, q::Temperature>, Many<'_, W>),
    site: q::Site,
    errors: Errors,
    air: impl Fn(q::Temperature, W) -> kingvalve::Result<kv::MoistAir> + Sync,
    read: impl FnOnce(Measured<q::Temperature>, Measured<W>) -> kingvalve::Result<kv::MoistAir<Doubtful>>,
) -> PyResult<MoistAir> {
    if dry_bulb.is_read() || moisture.is_read() {
        let read = read(dry_bulb.measured()?, moisture.measured()?).map_err(raise)?;
        return Ok(MoistAir { fields: with_doubt(py, &read)?, site, read: Some(read) });
    }
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
        [t, w] => Some(air(Quantity::from_base(*t), W::from_base(*w)).and_then(properties)),
        _ => None,
    };
    let sides = [side(&dry_bulb)?, side(&moisture)?];
    Ok(MoistAir { fields: fields(py, sides, kinds, errors, each)?, site, read: None })
}

#[pymethods]
impl MoistAir {
    /// From dry bulb and wet bulb.
    ///
    /// Parameters
    /// ----------
    /// dry_bulb : Temperature or Column of Temperature
    ///     Of the air; read or plain.
    /// wet_bulb : Temperature or Column of Temperature
    ///     Thermodynamic, as of a wetted and well-blown bulb; read or plain.
    /// site : Site
    ///     Where it was read.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// MoistAir
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A wet bulb above the dry bulb, or below that of dry air.
    /// OutOfRange
    ///     A temperature outside the saturation line.
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
        let air = |t, w| kv::MoistAir::from_wet_bulb(t, w, &site);
        make(py, (dry_bulb, wet_bulb), site, errors, air, |t, w| kv::MoistAir::from_wet_bulb(t, w, &site))
    }

    /// From dry bulb and dew point.
    ///
    /// Parameters
    /// ----------
    /// dry_bulb : Temperature or Column of Temperature
    ///     Of the air; read or plain.
    /// dew_point : Temperature or Column of Temperature
    ///     Of the air; over ice below freezing; read or plain.
    /// site : Site
    ///     Where it was read.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// MoistAir
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A dew point above the dry bulb.
    /// OutOfRange
    ///     A temperature outside the saturation line.
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
        let air = |t, w| kv::MoistAir::from_dew_point(t, w, &site);
        make(py, (dry_bulb, dew_point), site, errors, air, |t, w| kv::MoistAir::from_dew_point(t, w, &site))
    }

    /// From dry bulb and relative humidity.
    ///
    /// Parameters
    /// ----------
    /// dry_bulb : Temperature or Column of Temperature
    ///     Of the air; read or plain.
    /// relative_humidity : Ratio or Column of Ratio
    ///     0 to 100 %; read or plain.
    /// site : Site
    ///     Where it was read.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// MoistAir
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A humidity or temperature outside its range.
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
        let read = |t, w| kv::MoistAir::from_relative_humidity(t, w, &site);
        make(py, (dry_bulb, relative_humidity), site, errors, air, read)
    }

    /// From dry bulb and humidity ratio.
    ///
    /// Parameters
    /// ----------
    /// dry_bulb : Temperature or Column of Temperature
    ///     Of the air; read or plain.
    /// humidity_ratio : HumidityRatio or Column of HumidityRatio
    ///     Water to dry air by mass; read or plain.
    /// site : Site
    ///     Where it was read.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// MoistAir
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Below zero, or more than the air can hold.
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
        let air = |t, w| kv::MoistAir::from_humidity_ratio(t, w, &site);
        let read = |t, w| kv::MoistAir::from_humidity_ratio(t, w, &site);
        make(py, (dry_bulb, humidity_ratio), site, errors, air, read)
    }

    /// Dry bulb.
    #[getter]
    fn dry_bulb(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, 0)
    }
    /// Wet bulb.
    #[getter]
    fn wet_bulb(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.refuse(py, |air| air.wet_bulb().err())?;
        field(&self.fields, py, 1)
    }
    /// Dew point.
    #[getter]
    fn dew_point(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.refuse(py, |air| air.dew_point().err())?;
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
