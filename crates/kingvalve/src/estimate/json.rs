//! JSON text read with the field named when it cannot be.

use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;

use serde::de::{self, DeserializeOwned};
use serde::{Deserialize, Deserializer};

use crate::{Error, Result};

/// Reads `text` as `what` ("a rate card"); the error says which field, where, and why.
pub(super) fn from_json<T: DeserializeOwned>(what: &str, text: &str) -> Result<T> {
    serde_json::from_str(text).map_err(|error| {
        let (line, column) = (error.line(), error.column());
        let place = format!("line {line} column {column}");
        let message = error.to_string();
        let why = message.strip_suffix(&format!(" at {place}")).unwrap_or(&message);
        let unreadable = Error::unreadable(what, place, why);
        match path_at(text, line, column).as_str() {
            "" => unreadable,
            path => unreadable.in_field(path),
        }
    })
}

/// The path (`taxes[0].rate`) of the value that holds, or ends at, a line and column (bytes, from 1).
fn path_at(text: &str, line: usize, column: usize) -> String {
    let before: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
    let end = before.saturating_add(column).min(text.len());
    let bytes = text.as_bytes();
    let mut path: Vec<Step> = Vec::new();
    let mut at = 0;
    while let Some(byte) = bytes.get(at).filter(|_| at < end) {
        match byte {
            b'{' => path.push(Step::Key { name: "", open: true }),
            b'[' => path.push(Step::Index(0)),
            b'}' | b']' => drop(path.pop()),
            b',' => next(path.last_mut()),
            b'"' => {
                let close = closing_quote(bytes, at);
                if let Some(Step::Key { name, open: open @ true }) = path.last_mut() {
                    *name = text.get(at + 1..close).unwrap_or_default();
                    *open = false;
                }
                at = close;
            }
            _ => {}
        }
        at += 1;
    }
    path.iter().fold(String::new(), |so_far, step| match step {
        Step::Key { name: "", .. } => so_far,
        Step::Key { name, .. } if so_far.is_empty() => (*name).to_owned(),
        Step::Key { name, .. } => format!("{so_far}.{name}"),
        Step::Index(index) => format!("{so_far}[{index}]"),
    })
}

/// One level of a path: the key being read in an object (`open` while none was read), or a place in an array.
enum Step<'a> {
    Key { name: &'a str, open: bool },
    Index(usize),
}

fn next(step: Option<&mut Step<'_>>) {
    match step {
        Some(Step::Index(index)) => *index += 1,
        Some(Step::Key { name, open }) => (*name, *open) = ("", true),
        None => {}
    }
}

/// Where the string that opens at `open` closes; the end of the text if it never does.
fn closing_quote(bytes: &[u8], open: usize) -> usize {
    let mut escaped = false;
    let mut after = bytes.iter().enumerate().skip(open + 1);
    let close = after.find(|(_, byte)| {
        let closes = **byte == b'"' && !escaped;
        escaped = **byte == b'\\' && !escaped;
        closes
    });
    close.map_or(bytes.len(), |(at, _)| at)
}

/// A map in which a name may stand once only.
pub(super) fn unique_names<'de, D, T>(deserializer: D) -> Result<BTreeMap<String, T>, D::Error>
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
