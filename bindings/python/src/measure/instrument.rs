//! What an instrument shows and how far it may be off.

use std::any::{Any, TypeId};
use std::collections::HashMap;
use std::sync::Mutex;

use kingvalve::measure as kv;
use pyo3::prelude::*;

use crate::quantity::{Exposed, FromPython, Ratio, Temperature, name_of, not_a_quantity};

/// An instrument: the step of its display and its specified accuracy.
///
/// Readings of one instrument share its accuracy error, fully correlated; two instruments of one specification are
/// two objects. Which quantity it reads shows when a reading is made of it.
#[pyclass(frozen, module = "kingvalve")]
pub struct Instrument {
    specification: Specification,
    /// The library's instrument for each quantity it has read: one for all readings of that quantity.
    made: Mutex<HashMap<TypeId, Box<dyn Any + Send + Sync>>>,
}

struct Specification {
    name: String,
    resolution: Py<PyAny>,
    of_reading: Option<f64>,
    counts: Option<f64>,
    of_span: Option<(f64, Py<PyAny>)>,
    accuracy: Option<Py<PyAny>>,
    coverage_factor: Option<f64>,
    range: Option<(Py<PyAny>, Py<PyAny>)>,
    temperature_coefficient: Option<(Ratio, Temperature, Temperature)>,
}

impl Specification {
    fn copy(&self, py: Python<'_>) -> Specification {
        let pair = |(a, b): &(Py<PyAny>, Py<PyAny>)| (a.clone_ref(py), b.clone_ref(py));
        Specification {
            name: self.name.clone(),
            resolution: self.resolution.clone_ref(py),
            of_reading: self.of_reading,
            counts: self.counts,
            of_span: self.of_span.as_ref().map(|(share, span)| (*share, span.clone_ref(py))),
            accuracy: self.accuracy.as_ref().map(|within| within.clone_ref(py)),
            coverage_factor: self.coverage_factor,
            range: self.range.as_ref().map(pair),
            temperature_coefficient: self.temperature_coefficient,
        }
    }

    fn build<Q: Exposed>(&self, py: Python<'_>) -> PyResult<kv::Instrument<Q>> {
        let difference = |part: &Py<PyAny>| Q::Difference::from_python(part.bind(py));
        let mut instrument = kv::Instrument::<Q>::resolution(difference(&self.resolution)?);
        if !self.name.is_empty() {
            instrument = instrument.named(self.name.clone());
        }
        if let Some(share) = self.of_reading {
            instrument = instrument.accuracy_percent_of_reading(share);
        }
        if let Some(counts) = self.counts {
            instrument = instrument.counts(counts);
        }
        if let Some((share, span)) = &self.of_span {
            instrument = instrument.accuracy_percent_of_span(*share, difference(span)?);
        }
        if let Some(within) = &self.accuracy {
            instrument = instrument.accuracy(difference(within)?);
        }
        if let Some(factor) = self.coverage_factor {
            instrument = instrument.accuracy_means(kv::Coverage::Factor(factor));
        }
        if let Some((low, high)) = &self.range {
            instrument = instrument.range(Q::from_python(low.bind(py))?, Q::from_python(high.bind(py))?);
        }
        if let Some((share, low, high)) = self.temperature_coefficient {
            instrument = instrument.temperature_coefficient(share.0, low.0, high.0);
        }
        Ok(instrument)
    }
}

impl Instrument {
    fn new(specification: Specification) -> Self {
        Instrument { specification, made: Mutex::default() }
    }

    fn with(&self, py: Python<'_>, change: impl FnOnce(&mut Specification)) -> Self {
        let mut specification = self.specification.copy(py);
        change(&mut specification);
        Instrument::new(specification)
    }

    /// The library's instrument that reads a `Q`: the same one each time, so that its readings share its error.
    pub fn reading<Q: Exposed>(&self, py: Python<'_>) -> PyResult<kv::Instrument<Q>> {
        let built = self.specification.build::<Q>(py)?;
        let mut made = self.made.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
        let kept = made.entry(TypeId::of::<Q>()).or_insert_with(|| Box::new(built.clone()));
        Ok(kept.downcast_ref::<kv::Instrument<Q>>().cloned().unwrap_or(built))
    }
}

/// A quantity, of whatever kind, as it came.
fn quantity(object: Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
    if name_of(&object).is_some() { Ok(object.unbind()) } else { Err(not_a_quantity(&object)) }
}

#[pymethods]
impl Instrument {
    /// An instrument whose display steps by so much, and whose accuracy is not counted until it is given.
    ///
    /// Parameters
    /// ----------
    /// step : quantity
    ///     Of the display, a difference of what it reads.
    ///
    /// Returns
    /// -------
    /// Instrument
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A bare number.
    ///
    /// Notes
    /// -----
    /// Source: a step is a rectangle of its own width (JCGM 100, F.2.2.1). A specification that cannot be is refused by
    /// the first reading, ``OutOfRange``.
    ///
    /// Examples
    /// --------
    /// >>> clamp = kv.Instrument.resolution(kv.amperes(0.1)).accuracy_percent_of_reading(2).counts(5)
    /// >>> print(kv.Reading(kv.amperes(5.8), clamp))
    /// 5.80 ± 0.70 A
    #[staticmethod]
    #[pyo3(signature = (step, /))]
    fn resolution(step: Bound<'_, PyAny>) -> PyResult<Self> {
        Ok(Instrument::new(Specification {
            name: String::new(),
            resolution: quantity(step)?,
            of_reading: None,
            counts: None,
            of_span: None,
            accuracy: None,
            coverage_factor: None,
            range: None,
            temperature_coefficient: None,
        }))
    }

    /// What it is called in messages: "clamp ammeter".
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     As reports have it.
    ///
    /// Returns
    /// -------
    /// Instrument
    #[pyo3(signature = (name, /))]
    fn named(&self, py: Python<'_>, name: String) -> Self {
        self.with(py, |specification| specification.name = name)
    }

    /// Adds so many percent of what it reads.
    ///
    /// Parameters
    /// ----------
    /// share : float
    ///     In percent.
    ///
    /// Returns
    /// -------
    /// Instrument
    #[pyo3(signature = (share, /))]
    fn accuracy_percent_of_reading(&self, py: Python<'_>, share: f64) -> Self {
        self.with(py, |specification| specification.of_reading = Some(share))
    }

    /// Adds so many steps of the display.
    ///
    /// Parameters
    /// ----------
    /// counts : float
    ///     Steps of the display.
    ///
    /// Returns
    /// -------
    /// Instrument
    #[pyo3(signature = (counts, /))]
    fn counts(&self, py: Python<'_>, counts: f64) -> Self {
        self.with(py, |specification| specification.counts = Some(counts))
    }

    /// Adds so many percent of its span.
    ///
    /// Parameters
    /// ----------
    /// share : float
    ///     In percent.
    /// span : quantity
    ///     The whole of it, a difference of what it reads.
    ///
    /// Returns
    /// -------
    /// Instrument
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A bare number for the span.
    #[pyo3(signature = (share, span, /))]
    fn accuracy_percent_of_span(&self, py: Python<'_>, share: f64, span: Bound<'_, PyAny>) -> PyResult<Self> {
        let span = quantity(span)?;
        Ok(self.with(py, |specification| specification.of_span = Some((share, span))))
    }

    /// Adds a fixed amount.
    ///
    /// Parameters
    /// ----------
    /// within : quantity
    ///     Half the width, a difference of what it reads.
    ///
    /// Returns
    /// -------
    /// Instrument
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A bare number.
    #[pyo3(signature = (within, /))]
    fn accuracy(&self, py: Python<'_>, within: Bound<'_, PyAny>) -> PyResult<Self> {
        let within = quantity(within)?;
        Ok(self.with(py, |specification| specification.accuracy = Some(within)))
    }

    /// Says that the accuracy of the specification is an expanded uncertainty with this coverage factor; without it,
    /// it is limits never exceeded.
    ///
    /// Parameters
    /// ----------
    /// factor : float
    ///     k of the specification's expanded uncertainty.
    ///
    /// Returns
    /// -------
    /// Instrument
    #[pyo3(signature = (factor, /))]
    fn accuracy_has_coverage_factor(&self, py: Python<'_>, factor: f64) -> Self {
        self.with(py, |specification| specification.coverage_factor = Some(factor))
    }

    /// The lowest and highest it can read: a reading outside is an error.
    ///
    /// Parameters
    /// ----------
    /// low, high : quantity
    ///     What it reads.
    ///
    /// Returns
    /// -------
    /// Instrument
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A bare number.
    #[pyo3(signature = (low, high, /))]
    fn range(&self, py: Python<'_>, low: Bound<'_, PyAny>, high: Bound<'_, PyAny>) -> PyResult<Self> {
        let range = (quantity(low)?, quantity(high)?);
        Ok(self.with(py, |specification| specification.range = Some(range)))
    }

    /// Adds `of_accuracy` of the specified accuracy for each kelvin the surroundings are below `low` or above `high`.
    ///
    /// Parameters
    /// ----------
    /// of_accuracy : Ratio
    ///     For each kelvin.
    /// low, high : Temperature
    ///     The range for which its accuracy is specified.
    ///
    /// Returns
    /// -------
    /// Instrument
    fn temperature_coefficient(
        &self,
        py: Python<'_>,
        of_accuracy: Ratio,
        low: Temperature,
        high: Temperature,
    ) -> Self {
        self.with(py, |specification| specification.temperature_coefficient = Some((of_accuracy, low, high)))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let name = if self.specification.name.is_empty() { "Instrument" } else { &self.specification.name };
        Ok(format!("<{name}: steps of {}>", self.specification.resolution.bind(py).str()?))
    }
}
