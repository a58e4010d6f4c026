//! What a library function takes where a quantity is wanted: the bare quantity, or a reading of it.

use kingvalve::measure as kv;
use pyo3::prelude::*;

use super::{Measured, Reading};
use crate::error::wrong_kind;
use crate::quantity::Exposed;

/// A quantity as Python gave it: plainly, or with its doubt.
pub enum Given<Q: Exposed> {
    /// Taken as exact.
    Plain(Q),
    /// A reading, or computed from readings.
    Doubtful(Box<kv::Measured<Q>>),
}

impl<Q: Exposed> Given<Q> {
    /// With its doubt, which a plain one has none of.
    pub fn measured(self) -> kv::Measured<Q> {
        match self {
            Given::Plain(quantity) => kv::Measured::exact(quantity),
            Given::Doubtful(measured) => *measured,
        }
    }
}

/// The quantity behind a reading or a measured value; a plain quantity itself.
pub fn plain_value<'py>(object: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
    match object.is_instance_of::<Reading>() || object.is_instance_of::<Measured>() {
        true => object.getattr("value"),
        false => Ok(object.clone()),
    }
}

impl<'py, Q: Exposed> FromPyObject<'_, 'py> for Given<Q> {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        let (found, name) = if let Ok(reading) = object.cast::<Reading>() {
            (reading.get().measured::<Q>(), reading.get().quantity_name())
        } else if let Ok(measured) = object.cast::<Measured>() {
            (measured.get().of::<Q>().cloned(), measured.get().quantity_name())
        } else {
            return Q::from_python(&object).map(Given::Plain);
        };
        found.map(|measured| Given::Doubtful(Box::new(measured))).ok_or_else(|| {
            wrong_kind(crate::quantity::refusal::expected(
                Q::kind(),
                &format!("a reading of {name}"),
                Some(name),
            ))
        })
    }
}
