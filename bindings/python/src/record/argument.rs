//! What functions take: records, names out of a few, intervals.

use kingvalve::measure::Interval;
use pyo3::prelude::*;

use super::{Record, Shown};
use crate::error::{describe, raise, unknown_name, wrong_kind};
use crate::quantity::Exposed;

/// A record of a `T`.
pub struct Of<T>(pub T);

impl<T: Shown> FromPyObject<'_, '_> for Of<T> {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        let record = object.cast::<Record>().ok();
        let found = record.as_ref().and_then(|record| record.get().of::<T>().cloned());
        found.map(Of).ok_or_else(|| expected(T::CLASS.name, &object))
    }
}

fn expected(name: &str, given: &Bound<'_, PyAny>) -> PyErr {
    let name = crate::error::with_article(name);
    wrong_kind(format!("expected {name}, got {}", describe(given)))
}

/// What goes by one of a few names, in Python as in JSON.
pub trait Named: Copy + PartialEq + 'static {
    /// What it is: "metering device".
    const WHAT: &'static str;
    /// All of them.
    const ALL: &'static [(&'static str, Self)];
}

/// One of a few, by its name.
pub struct Choice<T>(pub T);

impl<T: Named> FromPyObject<'_, '_> for Choice<T> {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        let given: Option<String> = object.extract().ok();
        let found = T::ALL.iter().find(|(name, _)| given.as_deref() == Some(*name));
        found.map(|(_, value)| Choice(*value)).ok_or_else(|| {
            let names: Vec<&str> = T::ALL.iter().map(|(name, _)| *name).collect();
            not_among(T::WHAT, given, &names, &object)
        })
    }
}

fn not_among(what: &str, given: Option<String>, names: &[&str], object: &Bound<'_, PyAny>) -> PyErr {
    let names = names.iter().map(|name| format!("{name:?}")).collect::<Vec<_>>().join(", ");
    match given {
        Some(given) => unknown_name(format!("unknown {what} {given:?}; it is one of {names}")),
        None => wrong_kind(format!("expected a {what}, one of {names}, got {}", describe(object))),
    }
}

/// The name of one of a few.
pub fn name<T: Named>(value: T) -> &'static str {
    T::ALL.iter().find(|(_, each)| *each == value).map_or("", |(name, _)| *name)
}

/// An interval: its low and its high end, or one quantity known exactly.
pub struct Between<Q: Exposed>(pub Interval<Q>);

impl<Q: Exposed> FromPyObject<'_, '_> for Between<Q> {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        let made = match object.extract::<(Bound<'_, PyAny>, Bound<'_, PyAny>)>() {
            Ok((low, high)) => Interval::new(Q::from_python(&low)?, Q::from_python(&high)?),
            Err(_) => Interval::exactly(Q::from_python(&object)?),
        };
        made.map(Between).map_err(raise)
    }
}
