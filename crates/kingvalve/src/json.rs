//! JSON in, with errors that name the field, what was given and what could have been meant.

use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;

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
