//! What to say where Rust would not compile: sums and arguments of the wrong kind.

use pyo3::prelude::*;

use super::name_of;
use crate::column::Kind;
use crate::error::{describe, with_article, wrong_kind};

/// A constructor to show: `psia(76.7)`.
fn example(kind: &Kind) -> String {
    (kind.units)().first().map_or_else(String::new, |unit| format!("kv.{}(1.0)", unit.word))
}

/// What turns one kind of pressure into the other, where that is what is missing.
fn remedy(first: &str, second: &str) -> &'static str {
    let pair = [first, second];
    if pair.contains(&"gauge pressure") && pair.contains(&"absolute pressure") {
        "a gauge pressure becomes absolute at its site: site.absolute(kv.psig(62))"
    } else if pair == ["temperature", "temperature"] {
        "two temperatures have a difference but no sum; a step is kv.delta_fahrenheit(10)"
    } else {
        ""
    }
}

/// `left op right` means nothing; for objects that are no quantities and no numbers, Python may ask the other side.
pub fn operation(kind: &Kind, op: &str, right: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
    let Some(name) = name_of(right).or_else(|| number(right)) else {
        return Ok(right.py().NotImplemented());
    };
    let verb = match op {
        "+" => "be added to",
        "-" => "be subtracted from",
        "*" => "multiply",
        "/" => "divide",
        _ => "be compared with",
    };
    let mut sentence = format!("{} cannot {verb} {}", with_article(name), with_article(kind.name));
    let remedy = match name {
        "bare number" if matches!(op, "+" | "-" | "<") => {
            format!("give the number its unit, as in {}", example(kind))
        }
        _ => remedy(kind.name, name).to_owned(),
    };
    if !remedy.is_empty() {
        sentence = format!("{sentence}: {remedy}");
    }
    Err(wrong_kind(sentence))
}

/// `left op right` where the quantity stands on the right and the left is no quantity.
pub fn reflected(kind: &Kind, verb: &str, left: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
    match number(left) {
        Some(name) => Err(wrong_kind(format!("{} cannot be {verb} a {name}", with_article(kind.name)))),
        None => Ok(left.py().NotImplemented()),
    }
}

fn number(object: &Bound<'_, PyAny>) -> Option<&'static str> {
    bare(object).map(|_| "bare number")
}

/// A number without a unit; an array of one element is an array.
pub fn bare(object: &Bound<'_, PyAny>) -> Option<f64> {
    match object.cast_exact::<pyo3::types::PyFloat>() {
        Ok(number) => Some(number.value()),
        Err(_) if crate::column::is_listed(object) => None,
        Err(_) => object.extract().ok(),
    }
}

/// An argument that should have been a `Q`.
pub fn argument(kind: &Kind, given: &Bound<'_, PyAny>) -> PyErr {
    wrong_kind(expected(kind, &describe(given), name_of(given)))
}

/// What was expected, what was given, and, where the quantity given is near, how to come from one to the other.
pub fn expected(kind: &Kind, given: &str, given_name: Option<&str>) -> String {
    let remedy = match (kind.name, given_name) {
        ("absolute pressure", Some("gauge pressure")) => {
            "; add the atmosphere of its site: site.absolute(kv.psig(62))"
        }
        ("gauge pressure", Some("absolute pressure")) => {
            "; take the atmosphere of the site off: site.gauge(kv.psia(77))"
        }
        ("temperature difference", Some("temperature")) => {
            "; a difference is made by kv.delta_fahrenheit, or by subtracting two temperatures"
        }
        _ => "",
    };
    format!("expected {}, such as {}, got {given}{remedy}", with_article(kind.name), example(kind))
}
