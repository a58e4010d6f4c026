//! JSON in, with errors that name the field, what was given and what could have been meant.

use std::borrow::Cow;
use std::collections::{BTreeMap, HashSet};
use std::fmt;
use std::marker::PhantomData;

use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};
use serde::de::{self, DeserializeOwned};
use serde::{Deserialize, Deserializer};

use crate::error::nearest;
use crate::{Error, Result};

/// Reads `text` as a `T`; `what` names it in errors.
pub(crate) fn read<T: DeserializeOwned>(what: &str, text: &str) -> Result<T> {
    let mut input = serde_json::Deserializer::from_str(text);
    let value = serde_path_to_error::deserialize(&mut input).map_err(|error| {
        let path = error.path().to_string();
        let said = error.into_inner().to_string();
        let error = Error::malformed(what, explained(&said));
        if path == "." { error } else { error.in_field(path) }
    })?;
    input.end().map_err(|error| Error::malformed(what, error.to_string()))?;
    Ok(value)
}

/// The JSON Schema (draft 2020-12) of a `T`.
pub(crate) fn schema<T: JsonSchema>() -> Result<String> {
    let settings = SchemaSettings::draft2020_12().with_transform(RecursiveTransform(keep_first_paragraph));
    let schema = settings.into_generator().into_root_schema_for::<T>();
    serde_json::to_string_pretty(&schema).map_err(|error| Error::malformed("a schema", error.to_string()))
}

/// Descriptions come from the documentation of the types, of which a schema needs the first paragraph.
fn keep_first_paragraph(schema: &mut Schema) {
    let Some(serde_json::Value::String(text)) = schema.get_mut("description") else { return };
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

/// Refuses JSON in which an object has two fields of one name, or that is not JSON at all.
pub(crate) fn no_name_twice(what: &str, text: &str) -> Result<()> {
    read::<Names>(what, text).map(drop)
}

/// Any value, read for the names of its fields alone.
struct Names;

impl<'de> Deserialize<'de> for Names {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(Names)
    }
}

impl<'de> de::Visitor<'de> for Names {
    type Value = Self;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_unit<E>(self) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_bool<E>(self, _: bool) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_i64<E>(self, _: i64) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_u64<E>(self, _: u64) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_f64<E>(self, _: f64) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_str<E>(self, _: &str) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_seq<A: de::SeqAccess<'de>>(self, mut items: A) -> Result<Self, A::Error> {
        while items.next_element::<Self>()?.is_some() {}
        Ok(Self)
    }

    fn visit_map<A: de::MapAccess<'de>>(self, mut map: A) -> Result<Self, A::Error> {
        let mut names = HashSet::new();
        while let Some(name) = map.next_key::<Cow<'de, str>>()? {
            if names.contains(&name) {
                return Err(de::Error::custom(format!("the name {name:?} stands twice")));
            }
            names.insert(name);
            map.next_value::<Self>()?;
        }
        Ok(Self)
    }
}

/// A map in which a name may stand once only.
pub(crate) fn unique_names<'de, D, T>(deserializer: D) -> Result<BTreeMap<String, T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    deserializer.deserialize_map(UniqueNames(PhantomData))
}

struct UniqueNames<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> de::Visitor<'de> for UniqueNames<T> {
    type Value = BTreeMap<String, T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object in which every name stands once")
    }

    fn visit_map<A: de::MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
        let mut entries = BTreeMap::new();
        while let Some(name) = map.next_key::<String>()? {
            if entries.contains_key(&name) {
                return Err(de::Error::custom(format!("the name {name:?} stands twice")));
            }
            entries.insert(name, map.next_value()?);
        }
        Ok(entries)
    }
}
