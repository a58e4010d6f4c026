//! What an instrument showed.

use std::any::Any;

use kingvalve::measure as kv;
use pyo3::prelude::*;
use pyo3::types::PyList;

use super::{Instrument, Measured};
use crate::error::raise;
use crate::quantity::{Exposed, Temperature, Visitor, not_a_quantity, visit};

/// A value read on an instrument, once or repeatedly.
///
/// Its doubt has up to three sources: the step of the display (its own), the accuracy of the instrument (shared by
/// every reading of that instrument) and, where it was repeated, the scatter (its own).
#[pyclass(frozen, generic, module = "kingvalve")]
pub struct Reading {
    held: Box<dyn Held>,
    instrument: Py<Instrument>,
}

/// A library reading of some quantity.
trait Held: Any + Send + Sync {
    fn quantity_name(&self) -> &'static str;
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn repeats(&self, py: Python<'_>) -> PyResult<Vec<Py<PyAny>>>;
    fn measured(&self) -> Measured;
    fn label(&self) -> &str;
    fn labelled(&self, label: String) -> Box<dyn Held>;
    fn at_ambient(&self, ambient: Temperature) -> Box<dyn Held>;
    fn text(&self) -> String;
}

impl<Q: Exposed> Held for kv::Reading<Q> {
    fn quantity_name(&self) -> &'static str {
        Q::NAME
    }
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        kv::Reading::value(self).into_python(py)
    }
    fn repeats(&self, py: Python<'_>) -> PyResult<Vec<Py<PyAny>>> {
        kv::Reading::repeats(self).iter().map(|value| value.into_python(py)).collect()
    }
    fn measured(&self) -> Measured {
        kv::Reading::measured(self).into()
    }
    fn label(&self) -> &str {
        kv::Reading::label(self)
    }
    fn labelled(&self, label: String) -> Box<dyn Held> {
        Box::new(self.clone().labelled(label))
    }
    fn at_ambient(&self, ambient: Temperature) -> Box<dyn Held> {
        Box::new(self.clone().at_ambient(ambient.0))
    }
    fn text(&self) -> String {
        self.to_string()
    }
}

impl Reading {
    /// What was read, in words.
    pub fn quantity_name(&self) -> &'static str {
        self.held.quantity_name()
    }

    /// The library's reading, if it is one of a `Q`.
    pub fn reading_of<Q: Exposed>(&self) -> Option<kv::Reading<Q>> {
        let held: &dyn Any = self.held.as_ref();
        held.downcast_ref::<kv::Reading<Q>>().cloned()
    }

    /// The value with its doubt, if it is a reading of a `Q`.
    pub fn measured<Q: Exposed>(&self) -> Option<kv::Measured<Q>> {
        let held: &dyn Any = self.held.as_ref();
        held.downcast_ref::<kv::Reading<Q>>().map(kv::Reading::measured)
    }
}

/// A reading of a `Q`, as an argument.
pub struct Read<Q: Exposed>(pub kv::Reading<Q>);

impl<Q: Exposed> FromPyObject<'_, '_> for Read<Q> {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        let reading = object.cast::<Reading>().ok();
        let found = reading.and_then(|reading| reading.get().reading_of::<Q>());
        found.map(Read).ok_or_else(|| {
            let given = crate::error::describe(&object);
            crate::error::wrong_kind(format!(
                "expected a reading of {}, kv.Reading(value, instrument), got {given}",
                crate::error::with_article(Q::NAME)
            ))
        })
    }
}

struct Once<'a, 'py>(&'a Bound<'py, Instrument>);

impl Visitor for Once<'_, '_> {
    type Output = PyResult<Box<dyn Held>>;
    fn visit<Q: Exposed>(self, value: Q) -> Self::Output {
        let instrument = self.0.get().reading::<Q>(self.0.py())?;
        Ok(Box::new(kv::Reading::new(value, instrument).map_err(raise)?))
    }
}

struct Repeatedly<'a, 'py>(&'a Bound<'py, Instrument>, &'a Bound<'py, PyList>);

impl Visitor for Repeatedly<'_, '_> {
    type Output = PyResult<Box<dyn Held>>;
    fn visit<Q: Exposed>(self, _first: Q) -> Self::Output {
        let values = self.1.iter().map(|each| Q::from_python(&each)).collect::<PyResult<Vec<Q>>>()?;
        let instrument = self.0.get().reading::<Q>(self.0.py())?;
        Ok(Box::new(kv::Reading::repeated(&values, instrument).map_err(raise)?))
    }
}

fn finish(
    mut held: Box<dyn Held>,
    instrument: Bound<'_, Instrument>,
    label: Option<String>,
    ambient: Option<Temperature>,
) -> Reading {
    if let Some(label) = label {
        held = held.labelled(label);
    }
    if let Some(ambient) = ambient {
        held = held.at_ambient(ambient);
    }
    Reading { held, instrument: instrument.unbind() }
}

#[pymethods]
impl Reading {
    #[new]
    #[pyo3(signature = (value, instrument, *, label = None, ambient = None))]
    fn new(
        value: &Bound<'_, PyAny>,
        instrument: Bound<'_, Instrument>,
        label: Option<String>,
        ambient: Option<Temperature>,
    ) -> PyResult<Self> {
        let held = visit(value, Once(&instrument)).unwrap_or_else(|| Err(not_a_quantity(value)))?;
        Ok(finish(held, instrument, label, ambient))
    }

    /// The mean of repeated readings.
    ///
    /// Parameters
    /// ----------
    /// values : list of quantity
    ///     What was read each time, in turn.
    /// instrument : Instrument
    ///     One for all of them.
    /// label : str, optional
    ///     What it is called in a budget.
    /// ambient : Temperature, optional
    ///     Of the instrument's surroundings.
    ///
    /// Returns
    /// -------
    /// Reading
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Fewer than two, one not finite or outside the instrument's range, a specification that cannot be.
    /// WrongKind
    ///     No reading at all, or readings of different kinds.
    ///
    /// Notes
    /// -----
    /// Source: scatter by JCGM 100:2008, 4.2.3: standard deviation over √n, with n − 1 degrees of freedom. The
    /// instrument's own error does not shrink by repeating.
    ///
    /// Examples
    /// --------
    /// >>> meter = kv.Instrument.resolution(kv.delta_fahrenheit(0.1))
    /// >>> line = kv.Reading.repeated([kv.fahrenheit(t) for t in (52.1, 52.6, 51.9, 52.4)], meter)
    /// >>> print(line, len(line.repeats))
    /// 52.25 ± 0.49 °F 4
    #[staticmethod]
    #[pyo3(signature = (values, instrument, *, label = None, ambient = None))]
    fn repeated(
        values: &Bound<'_, PyList>,
        instrument: Bound<'_, Instrument>,
        label: Option<String>,
        ambient: Option<Temperature>,
    ) -> PyResult<Self> {
        let Ok(first) = values.get_item(0) else {
            return Err(crate::error::wrong_kind("expected readings to average, got none".to_owned()));
        };
        let held =
            visit(&first, Repeatedly(&instrument, values)).unwrap_or_else(|| Err(not_a_quantity(&first)))?;
        Ok(finish(held, instrument, label, ambient))
    }

    /// What it is a reading of: "suction pressure".
    ///
    /// Parameters
    /// ----------
    /// label : str
    ///     What it is called in a budget.
    ///
    /// Returns
    /// -------
    /// Reading
    #[pyo3(signature = (label, /))]
    fn labelled(&self, py: Python<'_>, label: String) -> Self {
        Reading { held: self.held.labelled(label), instrument: self.instrument.clone_ref(py) }
    }

    /// How warm it was where the instrument was, for its temperature coefficient.
    ///
    /// Parameters
    /// ----------
    /// ambient : Temperature
    ///     Of the instrument's surroundings.
    ///
    /// Returns
    /// -------
    /// Reading
    #[pyo3(signature = (ambient, /))]
    fn at_ambient(&self, py: Python<'_>, ambient: Temperature) -> Self {
        Reading { held: self.held.at_ambient(ambient), instrument: self.instrument.clone_ref(py) }
    }

    /// The value read, or the mean of the repeats.
    #[getter]
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.held.value(py)
    }

    /// The instrument.
    #[getter]
    fn instrument(&self, py: Python<'_>) -> Py<Instrument> {
        self.instrument.clone_ref(py)
    }

    /// What it is a reading of, where that was said.
    #[getter]
    fn label(&self) -> &str {
        self.held.label()
    }

    /// The repeated values, where there are any.
    #[getter]
    fn repeats(&self, py: Python<'_>) -> PyResult<Vec<Py<PyAny>>> {
        self.held.repeats(py)
    }

    /// The combined standard uncertainty.
    #[getter]
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.held.measured().standard_uncertainty(py)
    }

    /// The value with its doubt by source.
    #[getter(measured)]
    fn with_doubt(&self) -> Measured {
        self.held.measured()
    }

    fn __str__(&self) -> String {
        self.held.text()
    }

    fn __repr__(&self) -> String {
        format!("<Reading: {}>", self.held.text())
    }
}
