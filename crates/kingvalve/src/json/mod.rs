//! JSON in, with errors that name the field, what was given and what could have been meant.

mod reader;
#[cfg(test)]
mod tests;
mod tree;

use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::DeserializeOwned;
use serde_json::Value;

use self::reader::Reader;
pub(crate) use self::reader::{Fault, Step};
use self::tree::Tree;
use crate::error::nearest;
use crate::{Error, Result};

/// Reads `text` as a `T`; `what` names it in errors.
pub(crate) fn read<T: DeserializeOwned>(what: &str, text: &str) -> Result<T> {
    read_value(what, &parse(what, text)?)
}

/// JSON of any type, in which no name stands twice in an object.
pub(crate) fn parse(what: &str, text: &str) -> Result<Value> {
    let read = serde_json::from_str(text).map(|Tree(value)| value);
    read.map_err(|error| Error::malformed(what, error.to_string()))
}

/// Reads `value` as a `T`.
pub(crate) fn read_value<T: DeserializeOwned>(what: &str, value: &Value) -> Result<T> {
    fitting(value).map_err(|fault| refusal(what, &fault))
}

/// `value` as a `T`, or what of it does not fit.
pub(crate) fn fitting<T: DeserializeOwned>(value: &Value) -> Result<T, Fault> {
    T::deserialize(Reader(value))
}

/// The error of a `what` with a part that does not fit.
pub(crate) fn refusal(what: &str, fault: &Fault) -> Error {
    let error = Error::malformed(what, explained(&fault.said));
    match fault.field() {
        field if field.is_empty() => error,
        field => error.in_field(field),
    }
}

/// The JSON Schema (draft 2020-12) of a `T`.
pub(crate) fn schema<T: JsonSchema>() -> Result<String> {
    written(&generator().into_root_schema_for::<T>())
}

fn generator() -> SchemaGenerator {
    SchemaSettings::draft2020_12().with_transform(RecursiveTransform(keep_first_paragraph)).into_generator()
}

fn written(schema: &Schema) -> Result<String> {
    serde_json::to_string_pretty(schema).map_err(|error| Error::malformed("a schema", error.to_string()))
}

/// Descriptions come from the documentation of the types, of which a schema needs the first paragraph.
fn keep_first_paragraph(schema: &mut Schema) {
    let Some(Value::String(text)) = schema.get_mut("description") else { return };
    if let Some((first, _)) = text.split_once("\n\n") {
        *text = first.to_owned();
    }
}

/// The reader's message; for a misspelt field, with the nearest known one first.
fn explained(said: &str) -> String {
    let mut quoted = said.split('`').skip(1).step_by(2);
    let given = quoted.next();
    match given {
        Some(given) if said.starts_with("unknown field") || said.starts_with("unknown variant") => {
            match nearest(given, quoted).as_slice() {
                [] => said.to_owned(),
                near => format!("did you mean {}? {said}", near.join(" or ")),
            }
        }
        _ => said.to_owned(),
    }
}
