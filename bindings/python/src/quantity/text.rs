//! Quantities as text, as a hash, and as a pickle.

use std::hash::{DefaultHasher, Hash, Hasher};

use kingvalve::quantity::{InUnit, Quantity};
use pyo3::prelude::*;

use crate::error::raise;

/// Equal quantities of one kind hash equal.
pub fn hash<Q: Quantity>(quantity: Q) -> u64 {
    let mut hasher = DefaultHasher::new();
    Q::NAME.hash(&mut hasher);
    (quantity.base() + 0.0).to_bits().hash(&mut hasher);
    hasher.finish()
}

/// What makes it: `psia(76.7)`.
pub fn repr<Q: Quantity>(quantity: Q) -> String {
    let Some(unit) = Q::units().first() else { return String::new() };
    match InUnit::of(quantity, unit.symbol) {
        Ok(shown) => format!("{}({:?})", unit.word, shown.value()),
        Err(_) => quantity.to_string(),
    }
}

/// `spec` as for a float, then optionally a blank and a unit.
pub fn format<Q: Quantity>(py: Python<'_>, quantity: Q, spec: &str) -> PyResult<String> {
    let (number, unit) = spec.split_once(' ').unwrap_or((spec, ""));
    let unit = match (unit.trim(), Q::units().first()) {
        ("", Some(first)) => first.symbol,
        (named, _) => named,
    };
    let shown = InUnit::of(quantity, unit).map_err(raise)?;
    if number.is_empty() {
        return Ok(shown.to_string());
    }
    let value = shown.value().into_pyobject(py)?;
    let text: String = value.call_method1("__format__", (number,))?.extract()?;
    Ok(format!("{text} {}", shown.unit().symbol))
}

/// The function of the SI base unit and its argument: exact, so that a pickle comes back the same.
pub fn reduce<Q: Quantity>(py: Python<'_>, quantity: Q) -> PyResult<(Bound<'_, PyAny>, (f64,))> {
    let base = Q::units().iter().find(|unit| unit.factor == 1.0 && unit.offset == 0.0);
    let word = base.map_or("", |unit| unit.word);
    Ok((py.import("kingvalve")?.getattr(word)?, (quantity.base(),)))
}
