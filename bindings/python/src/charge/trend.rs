//! A straight line through dated readings.

use kingvalve::charge::forecast as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::dated::Dated;
use crate::error::{raise, wrong_kind};
use crate::measure::{Given, level};
use crate::quantity::{Exposed, IntoPython, Ratio, Time, Visitor, not_a_quantity, visit};
use crate::record::Made;

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Trend>()
}

/// A straight line through dated readings: superheat, capacity, standing pressure.
///
/// Notes
/// -----
/// Source: weighted least squares, the doubts' shared sources kept (JCGM 100:2008, 5.2); where the readings scatter more
/// than their doubt allows, all doubt is raised to match (R. T. Birge, Phys. Rev. 40 (1932) 207). Range: readings under like
/// conditions. Accuracy: that of the readings, if the change is steady.
///
/// Examples
/// --------
/// >>> def read(superheat):
/// ...     return kv.Measured.from_standard(kv.delta_fahrenheit(superheat), kv.delta_fahrenheit(0.5), "superheat")
/// >>> trend = kv.Trend.of([("2026-05-01", read(10)), ("2026-06-10", read(13)), ("2026-07-20", read(16))])
/// >>> print(trend.crosses(kv.delta_fahrenheit(20)).likely)
/// 2026-09-11
#[pyclass(frozen, generic, module = "kingvalve")]
pub struct Trend(Box<dyn Held>);

/// A library trend of some quantity.
trait Held: Send + Sync {
    fn change_per_year(&self, py: Python<'_>, level: kingvalve::measure::Level) -> PyResult<Py<PyAny>>;
    fn on(&self, py: Python<'_>, day: kv::Day, level: kingvalve::measure::Level) -> PyResult<Py<PyAny>>;
    fn crosses(
        &self,
        limit: &Bound<'_, PyAny>,
        horizon: q::Time,
        level: kingvalve::measure::Level,
    ) -> PyResult<kingvalve::Result<kv::Crossing>>;
}

impl<Q: Exposed> Held for kv::Trend<Q> {
    fn change_per_year(&self, py: Python<'_>, level: kingvalve::measure::Level) -> PyResult<Py<PyAny>> {
        self.change_per_year(level).map_err(raise)?.into_python(py)
    }
    fn on(&self, py: Python<'_>, day: kv::Day, level: kingvalve::measure::Level) -> PyResult<Py<PyAny>> {
        self.on(day, level).map_err(raise)?.into_python(py)
    }
    fn crosses(
        &self,
        limit: &Bound<'_, PyAny>,
        horizon: q::Time,
        level: kingvalve::measure::Level,
    ) -> PyResult<kingvalve::Result<kv::Crossing>> {
        Ok(self.crosses(Q::from_python(limit)?, horizon, level))
    }
}

struct Line<'a, 'py>(&'a [(Dated, Bound<'py, PyAny>)]);

impl Visitor for Line<'_, '_> {
    type Output = PyResult<Trend>;
    fn visit<Q: Exposed>(self, _first: Q) -> Self::Output {
        let read = self.0.iter().map(|(day, read)| Ok((day.0, read.extract::<Given<Q>>()?.measured())));
        let trend = kv::Trend::of(&read.collect::<PyResult<Vec<_>>>()?).map_err(raise)?;
        Ok(Trend(Box::new(trend)))
    }
}

#[pymethods]
impl Trend {
    /// Fits the line.
    ///
    /// Parameters
    /// ----------
    /// readings : list of tuple of date and quantity
    ///     The day, a ``datetime.date`` or text as "2026-06-01", and the reading, read or plain; in the order of dates.
    ///
    /// Returns
    /// -------
    /// Trend
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     Fewer than two readings, dates out of order or on one day.
    /// OutOfRange
    ///     A reading that is not finite.
    #[staticmethod]
    #[pyo3(signature = (readings, /))]
    fn of(readings: Vec<(Dated, Bound<'_, PyAny>)>) -> PyResult<Self> {
        let Some((_, first)) = readings.first() else {
            return Err(wrong_kind("expected dated readings, got none".to_owned()));
        };
        let one = crate::measure::plain_value(first)?;
        visit(&one, Line(&readings)).unwrap_or_else(|| Err(not_a_quantity(first)))
    }

    /// The change in a year of 365 days: between which two, at the level.
    ///
    /// Parameters
    /// ----------
    /// level : Ratio, optional
    ///     How sure to be: 95 % unless given.
    ///
    /// Returns
    /// -------
    /// tuple
    ///     Its low and its high end, differences of the readings' kind.
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A level that is not between 50 % and 100 %; a change that is not finite.
    #[pyo3(signature = (level = None))]
    fn change_per_year(&self, py: Python<'_>, level: Option<Ratio>) -> PyResult<Py<PyAny>> {
        self.0.change_per_year(py, self::level(level)?)
    }

    /// The line's value on a day: between which two, at the level.
    ///
    /// Parameters
    /// ----------
    /// day : date
    ///     From the first reading to three years after the last.
    /// level : Ratio, optional
    ///     95 % unless given.
    ///
    /// Returns
    /// -------
    /// tuple
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A day outside the range.
    #[pyo3(signature = (day, level = None))]
    fn on(&self, py: Python<'_>, day: Dated, level: Option<Ratio>) -> PyResult<Py<PyAny>> {
        self.0.on(py, day.0, self::level(level)?)
    }

    /// When the line crosses a limit, counted from the last reading.
    ///
    /// Parameters
    /// ----------
    /// limit
    ///     A quantity of the readings' kind.
    /// horizon : Time, optional
    ///     How far ahead to look: ``kv.USUAL_HORIZON``, three years, unless given.
    /// level : Ratio, optional
    ///     95 % unless given.
    ///
    /// Returns
    /// -------
    /// Crossing
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A limit that is not finite.
    #[pyo3(signature = (limit, horizon = None, level = None))]
    fn crosses(
        &self,
        limit: &Bound<'_, PyAny>,
        horizon: Option<Time>,
        level: Option<Ratio>,
    ) -> PyResult<Made<kv::Crossing>> {
        let horizon = horizon.map_or(kv::USUAL_HORIZON, |horizon| horizon.0);
        Ok(Made(self.0.crosses(limit, horizon, self::level(level)?)?))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let (low, high): (Bound<'_, PyAny>, Bound<'_, PyAny>) =
            self.change_per_year(py, None)?.bind(py).extract()?;
        let [low, high] = [low, high].map(|each| each.call_method1("__format__", (".3g",)));
        Ok(format!("<Trend: {} to {} a year>", low?, high?))
    }
}
