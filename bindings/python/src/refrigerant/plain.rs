//! Plain numbers in units said once: for loops and data frames that carry their units in their column names.

use kingvalve::quantity::{
    Density, GaugePressure, Pressure, Quantity, Site, SpecificEnergy, Temperature, TemperatureDifference,
    Unit,
};
use kingvalve::refrigerant as kv;
use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;

use crate::column::{self, Each, Errors, Kinded, Numbers, Rows, Scale, Slices, Source, run};
use crate::error::{raise, wrong_kind};

/// A refrigerant's methods on plain numbers and arrays, in units said once. NaN in, NaN out.
#[pyclass(frozen, module = "kingvalve")]
pub struct Plain {
    refrigerant: kv::Refrigerant,
    pressure: Scale,
    temperature: Scale,
    difference: Scale,
    density: Scale,
    energy: Scale,
}

fn unit<Q: Quantity>(name: &str) -> PyResult<Scale> {
    Unit::named::<Q>(name).map(Scale::from).map_err(raise)
}

impl Plain {
    /// In these units: pressure, temperature, density, energy.
    pub fn new(
        refrigerant: kv::Refrigerant,
        [pressure, temperature, density, energy]: [&str; 4],
        difference: Option<&str>,
        site: Option<Site>,
    ) -> PyResult<Self> {
        let pressure = match (unit::<Pressure>(pressure), site) {
            (Ok(scale), _) => scale,
            (Err(_), Some(site)) => {
                Scale { above: site.atmosphere().pascals(), ..unit::<GaugePressure>(pressure)? }
            }
            (Err(unknown), None) => {
                return Err(match unit::<GaugePressure>(pressure) {
                    Ok(_) => wrong_kind(format!(
                        "{pressure} is a gauge pressure: say at which site, site=kv.Site()"
                    )),
                    Err(_) => unknown,
                });
            }
        };
        let temperature = unit::<Temperature>(temperature)?;
        // A difference is counted in the degrees of the temperatures unless another unit is asked for.
        let alike = || TemperatureDifference::kind().unit_of_factor(temperature.unit.factor);
        let difference = match difference {
            Some(name) => unit::<TemperatureDifference>(name)?,
            None => alike().ok_or_else(|| wrong_kind("say the unit of differences".to_owned()))?.into(),
        };
        let (density, energy) = (unit::<Density>(density)?, unit::<SpecificEnergy>(energy)?);
        Ok(Plain { refrigerant, pressure, temperature, difference, density, energy })
    }
}

/// The number in SI, where the object is one.
#[inline]
fn number(object: &Bound<'_, PyAny>, scale: Scale) -> PyResult<Option<f64>> {
    let Some(number) = column::number(object)? else { return Ok(None) };
    let mut number = [number];
    scale.to_base(&mut number);
    Ok(Some(number[0]))
}

/// One result, NaN where `errors="nan"` allows it.
fn alone(
    py: Python<'_>,
    found: kingvalve::Result<f64>,
    result: Scale,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let mut number = match found {
        Ok(found) => [found],
        Err(_) if errors == Errors::Nan => [f64::NAN],
        Err(error) => return Err(raise(error)),
    };
    result.of_base(&mut number);
    number[0].into_py_any(py)
}

/// Many results.
fn rows(
    given: &[(&Bound<'_, PyAny>, Scale)],
    result: Scale,
    errors: Errors,
    rows: &dyn Rows,
) -> PyResult<Py<PyAny>> {
    let Some(py) = given.first().map(|(object, _)| object.py()) else {
        return Err(wrong_kind("no argument".to_owned()));
    };
    let module = py.import("kingvalve._array")?;
    let numbers = given.iter().map(|(object, scale)| number(object, *scale)).collect::<PyResult<Vec<_>>>()?;
    let arrays = given.iter().zip(&numbers).map(|((object, _), number)| match number {
        Some(_) => Ok(py.None().into_bound(py)),
        None => module.call_method1("floats", (object,)),
    });
    let arrays = pyo3::types::PyTuple::new(py, arrays.collect::<PyResult<Vec<_>>>()?)?;
    let (shape, arrays): (Bound<'_, PyAny>, Vec<Bound<'_, PyAny>>) =
        module.call_method1("together", arrays)?.extract()?;
    let sources = given.iter().zip(numbers).zip(&arrays).map(|(((_, scale), number), array)| match number {
        Some(number) => Ok(Source::Same(number)),
        None => Ok(Source::Each(Numbers::of(array)?, *scale)),
    });
    let made = run(py, &shape, &sources.collect::<PyResult<Vec<_>>>()?, &[result], errors, rows)?;
    made.into_iter().next().ok_or_else(|| wrong_kind("no rows".to_owned()))
}

/// A function of one number.
fn of_one<Q: crate::quantity::Exposed, R: crate::quantity::Exposed>(
    (object, scale): (&Bound<'_, PyAny>, Scale),
    result: Scale,
    errors: Errors,
    plain: impl Fn(Q) -> kingvalve::Result<R> + Sync,
    slice: Option<impl Fn(&[Q], &mut [R]) -> kingvalve::Result<()> + Sync>,
) -> PyResult<Py<PyAny>> {
    if let Some(number) = number(object, scale)? {
        if number.is_nan() {
            return f64::NAN.into_py_any(object.py());
        }
        return alone(object.py(), plain(Q::from_base(number)).map(R::base), result, errors);
    }
    match slice {
        Some(slice) => {
            rows(&[(object, scale)], result, errors, &Slices::new(slice, &|quantity| plain(quantity).err()))
        }
        None => {
            let each = Each(|row: &[f64]| row.first().map(|q| plain(Q::from_base(*q)).map(R::base)));
            rows(&[(object, scale)], result, errors, &each)
        }
    }
}

/// No form for slices.
type NoSlice<Q, R> = fn(&[Q], &mut [R]) -> kingvalve::Result<()>;

impl Plain {
    /// A function of a pressure and a temperature.
    fn of_both<R: crate::quantity::Exposed>(
        &self,
        [p, t]: [&Bound<'_, PyAny>; 2],
        result: Scale,
        errors: Errors,
        plain: impl Fn(Pressure, Temperature) -> kingvalve::Result<R> + Sync,
    ) -> PyResult<Py<PyAny>> {
        let (py, scales) = (p.py(), [self.pressure, self.temperature]);
        if let (Some(p), Some(t)) = (number(p, scales[0])?, number(t, scales[1])?) {
            let known = !p.is_nan() && !t.is_nan();
            let found = plain(Pressure::from_base(p), Temperature::from_base(t)).map(R::base);
            return alone(py, if known { found } else { Ok(f64::NAN) }, result, errors);
        }
        let each = Each(|row: &[f64]| match row {
            [p, t] => Some(plain(Quantity::from_base(*p), Quantity::from_base(*t)).map(R::base)),
            _ => None,
        });
        rows(&[(p, scales[0]), (t, scales[1])], result, errors, &each)
    }
}

#[pymethods]
impl Plain {
    /// Pressure at which the liquid starts to boil.
    ///
    /// Parameters
    /// ----------
    /// temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn bubble_pressure(&self, temperature: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one(
            (temperature, self.temperature),
            self.pressure,
            errors,
            |x| r.bubble_pressure(x),
            Some(|x: &[_], y: &mut [_]| r.bubble_pressures(x, y)),
        )
    }

    /// Pressure at which the vapour starts to condense.
    ///
    /// Parameters
    /// ----------
    /// temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn dew_pressure(&self, temperature: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one(
            (temperature, self.temperature),
            self.pressure,
            errors,
            |x| r.dew_pressure(x),
            Some(|x: &[_], y: &mut [_]| r.dew_pressures(x, y)),
        )
    }

    /// Temperature at which the liquid starts to boil.
    ///
    /// Parameters
    /// ----------
    /// pressure : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    #[pyo3(signature = (pressure, *, errors = Errors::Raise))]
    fn bubble_temperature(&self, pressure: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one(
            (pressure, self.pressure),
            self.temperature,
            errors,
            |x| r.bubble_temperature(x),
            Some(|x: &[_], y: &mut [_]| r.bubble_temperatures(x, y)),
        )
    }

    /// Temperature at which the vapour starts to condense.
    ///
    /// Parameters
    /// ----------
    /// pressure : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    #[pyo3(signature = (pressure, *, errors = Errors::Raise))]
    fn dew_temperature(&self, pressure: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one(
            (pressure, self.pressure),
            self.temperature,
            errors,
            |x| r.dew_temperature(x),
            Some(|x: &[_], y: &mut [_]| r.dew_temperatures(x, y)),
        )
    }

    /// Density of the liquid at its bubble point.
    ///
    /// Parameters
    /// ----------
    /// temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn bubble_density(&self, temperature: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one(
            (temperature, self.temperature),
            self.density,
            errors,
            |x| r.bubble_density(x),
            Some(|x: &[_], y: &mut [_]| r.bubble_densities(x, y)),
        )
    }

    /// Density of the vapour at its dew point.
    ///
    /// Parameters
    /// ----------
    /// temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn dew_density(&self, temperature: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one(
            (temperature, self.temperature),
            self.density,
            errors,
            |x| r.dew_density(x),
            Some(|x: &[_], y: &mut [_]| r.dew_densities(x, y)),
        )
    }

    /// Enthalpy of the liquid at its bubble point; IIR reference state.
    ///
    /// Parameters
    /// ----------
    /// temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn bubble_enthalpy(&self, temperature: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one(
            (temperature, self.temperature),
            self.energy,
            errors,
            |t: Temperature| r.bubble_enthalpy(t),
            None::<NoSlice<_, _>>,
        )
    }

    /// Enthalpy of the vapour at its dew point; IIR reference state.
    ///
    /// Parameters
    /// ----------
    /// temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn dew_enthalpy(&self, temperature: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one(
            (temperature, self.temperature),
            self.energy,
            errors,
            |t: Temperature| r.dew_enthalpy(t),
            None::<NoSlice<_, _>>,
        )
    }

    /// How much warmer the dew point is than the bubble point at one pressure.
    ///
    /// Parameters
    /// ----------
    /// pressure : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    #[pyo3(signature = (pressure, *, errors = Errors::Raise))]
    fn glide(&self, pressure: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one((pressure, self.pressure), self.difference, errors, |x| r.glide(x), None::<NoSlice<_, _>>)
    }

    /// What it takes to boil the liquid away at a pressure: h_fg.
    ///
    /// Parameters
    /// ----------
    /// pressure : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    #[pyo3(signature = (pressure, *, errors = Errors::Raise))]
    fn latent_heat(&self, pressure: &Bound<'_, PyAny>, errors: Errors) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        of_one((pressure, self.pressure), self.energy, errors, |x| r.latent_heat(x), None::<NoSlice<_, _>>)
    }

    /// Density of superheated vapour or subcooled liquid.
    ///
    /// Parameters
    /// ----------
    /// pressure, temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside the equation.
    /// Inconsistent
    ///     Between bubble and dew point, where there is no single density.
    #[pyo3(signature = (pressure, temperature, *, errors = Errors::Raise))]
    fn density(
        &self,
        pressure: &Bound<'_, PyAny>,
        temperature: &Bound<'_, PyAny>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        self.of_both([pressure, temperature], self.density, errors, |p, t| r.density(p, t))
    }

    /// How much warmer the suction line is than the dew point at the suction pressure.
    ///
    /// Parameters
    /// ----------
    /// suction_pressure, line_temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    #[pyo3(signature = (suction_pressure, line_temperature, *, errors = Errors::Raise))]
    fn superheat(
        &self,
        suction_pressure: &Bound<'_, PyAny>,
        line_temperature: &Bound<'_, PyAny>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        self.of_both([suction_pressure, line_temperature], self.difference, errors, |p, t| r.superheat(p, t))
    }

    /// How much colder the liquid line is than the bubble point at the liquid pressure.
    ///
    /// Parameters
    /// ----------
    /// liquid_pressure, line_temperature : float or array of float
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// float or array of float
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    #[pyo3(signature = (liquid_pressure, line_temperature, *, errors = Errors::Raise))]
    fn subcooling(
        &self,
        liquid_pressure: &Bound<'_, PyAny>,
        line_temperature: &Bound<'_, PyAny>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.refrigerant;
        self.of_both([liquid_pressure, line_temperature], self.difference, errors, |p, t| r.subcooling(p, t))
    }

    fn __repr__(&self) -> String {
        let units = [&self.pressure, &self.temperature, &self.difference, &self.density, &self.energy];
        let units = units.map(|scale| scale.unit.symbol).join(", ");
        format!("<Plain: {} in {units}>", self.refrigerant)
    }
}
