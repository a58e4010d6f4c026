//! What differs between two JSON values, field by field, and how it is said.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// How far apart two numbers may be and still count as the same: 1 part in a million, or a millionth of their unit where
/// they are near nothing.
///
/// Far above what another processor's last digit does (about 1e-13), far below what any reading here decides.
pub const TOLERANCE: f64 = 1e-6;

/// One field in which two records differ.
///
/// # Example
/// See [`Visit::differences`](super::Visit::differences).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Difference {
    /// The field, as a JSON pointer.
    pub field: String,
    /// What it was; left out where it was not there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub was: Option<Value>,
    /// What it is; left out where it is gone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub is: Option<Value>,
}

impl fmt::Display for Difference {
    /// In words: `standing, pressure, value: 62 psig before, 64 psig now`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let field = words(&self.field);
        match (&self.was, &self.is) {
            (Some(was), Some(is)) => write!(f, "{field}: {} before, {} now", said(was), said(is)),
            (None, Some(is)) => write!(f, "{field}: added, {}", said(is)),
            (Some(was), None) => write!(f, "{field}: taken away, was {}", said(was)),
            (None, None) => write!(f, "{field}: unchanged"),
        }
    }
}

/// Every field in which two values differ beyond `tolerance`, in the order of their names.
pub(super) fn differences(was: &Value, is: &Value, tolerance: f64) -> Vec<Difference> {
    let mut found = Vec::new();
    compare(String::new(), Some(was), Some(is), tolerance, &mut found);
    found
}

fn compare(
    field: String,
    was: Option<&Value>,
    is: Option<&Value>,
    tolerance: f64,
    found: &mut Vec<Difference>,
) {
    match (was, is) {
        (Some(was), Some(is)) if measured(was).is_some() && measured(is).is_some() => {
            if !same_measured(was, is, tolerance) {
                found.push(Difference { field, was: Some(was.clone()), is: Some(is.clone()) });
            }
        }
        (Some(Value::Object(was)), Some(Value::Object(is))) => {
            let mut names: Vec<&String> = was.keys().chain(is.keys()).collect();
            names.sort();
            names.dedup();
            for name in names {
                let field = format!("{field}/{}", name.replace('~', "~0").replace('/', "~1"));
                compare(field, was.get(name), is.get(name), tolerance, found);
            }
        }
        (Some(Value::Array(was)), Some(Value::Array(is))) => {
            for index in 0..was.len().max(is.len()) {
                compare(format!("{field}/{index}"), was.get(index), is.get(index), tolerance, found);
            }
        }
        (was, is) if same(was, is, tolerance) => {}
        (was, is) => found.push(Difference { field, was: was.cloned(), is: is.cloned() }),
    }
}

/// A number or a decimal text, and its unit or currency, where a value is that and nothing else.
fn measured(value: &Value) -> Option<(&Value, &str)> {
    let fields = value.as_object().filter(|fields| fields.len() == 2)?;
    let pair = |amount: &str, unit: &str| Some((fields.get(amount)?, fields.get(unit)?.as_str()?));
    pair("value", "unit").or_else(|| pair("amount", "currency"))
}

fn same_measured(was: &Value, is: &Value, tolerance: f64) -> bool {
    match (measured(was), measured(is)) {
        (Some((was, of)), Some((is, now))) => of == now && same(Some(was), Some(is), tolerance),
        _ => false,
    }
}

fn same(was: Option<&Value>, is: Option<&Value>, tolerance: f64) -> bool {
    match (was, is) {
        (Some(Value::Number(was)), Some(Value::Number(is))) => match (was.as_f64(), is.as_f64()) {
            (Some(was), Some(is)) => (was - is).abs() <= tolerance * was.abs().max(is.abs()).max(1.0),
            _ => was == is,
        },
        (was, is) => was == is,
    }
}

/// A pointer as words: `/cylinders/0/weights/2` is `cylinders 1, weights 3`.
fn words(pointer: &str) -> String {
    let mut words = String::new();
    for part in pointer.split('/').skip(1) {
        let part = part.replace("~1", "/").replace("~0", "~");
        match part.parse::<usize>() {
            Ok(index) => words.push_str(&format!(" {}", index + 1)),
            Err(_) => {
                words.push_str(if words.is_empty() { "" } else { ", " });
                words.push_str(&part.replace('_', " "));
            }
        }
    }
    if words.is_empty() { "the whole".to_owned() } else { words }
}

/// A value as words: text without its marks, a quantity with its unit, money with its currency.
fn said(value: &Value) -> String {
    let plain = |value: &Value| match value {
        Value::String(text) => text.clone(),
        Value::Number(number) => number.as_f64().map_or(number.to_string(), |number| number.to_string()),
        other => other.to_string(),
    };
    measured(value).map_or_else(|| plain(value), |(number, unit)| format!("{} {unit}", plain(number)))
}
