//! Records of a newer form: fields this version does not know are kept, not refused.

use serde_json::Value;

use super::{Record, SCHEMA};
use crate::Result;
use crate::json::{self, Step};

/// What a form's name starts with; its version follows.
const FAMILY: &str = "kingvalve/visit/";
/// More unknown fields than any newer form would have.
const MOST: usize = 1000;

/// A field this version does not know, and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Beyond {
    path: Vec<Step>,
    value: Value,
}

/// The version of a form, where it is one of a visit.
fn version(schema: &str) -> Option<u32> {
    schema.strip_prefix(FAMILY)?.parse().ok()
}

/// Whether `schema` is a newer form than this version writes.
pub(super) fn is_newer(schema: &str) -> bool {
    version(schema) > version(SCHEMA)
}

/// Reads a record whose form is newer: unknown fields are set aside, whatever else is wrong is an error.
pub(super) fn read(mut whole: Value) -> Result<(Record, Vec<Beyond>)> {
    let mut beyond = Vec::new();
    loop {
        let fault = match json::fitting(&whole) {
            Ok(record) => return Ok((record, beyond)),
            Err(fault) => fault,
        };
        let unknown = fault.said.starts_with("unknown field") && beyond.len() < MOST;
        match unknown.then(|| take(&mut whole, fault.path())).flatten() {
            Some(field) => beyond.push(field),
            None => return Err(json::refusal("a visit", &fault)),
        }
    }
}

/// Puts the fields that were set aside back where they stood, the last one first.
pub(super) fn restore(whole: &mut Value, beyond: &[Beyond]) {
    for Beyond { path, value } in beyond.iter().rev() {
        let Some((Step::Field(name), above)) = path.split_last() else { continue };
        if let Some(Value::Object(fields)) = at(whole, above) {
            fields.insert(name.clone(), value.clone());
        }
    }
}

fn take(whole: &mut Value, path: Vec<Step>) -> Option<Beyond> {
    let (Step::Field(name), above) = path.split_last()? else { return None };
    let Some(Value::Object(fields)) = at(whole, above) else { return None };
    let value = fields.remove(name)?;
    Some(Beyond { path, value })
}

fn at<'a>(whole: &'a mut Value, path: &[Step]) -> Option<&'a mut Value> {
    path.iter().try_fold(whole, |value, step| match (step, value) {
        (Step::Field(name), Value::Object(fields)) => fields.get_mut(name),
        (Step::Item(index), Value::Array(items)) => items.get_mut(*index),
        _ => None,
    })
}
