//! A JSON value read as a type, with the path to whatever does not fit.
//!
//! Every type is compiled for this one reader. A reader that wraps serde_json's text reader to follow the path is compiled
//! once more for each type and field: that was a third of the Python extension.

use std::fmt;

use serde::de::value::MapAccessDeserializer;
use serde::de::{self, DeserializeSeed, Deserializer, Expected, IntoDeserializer, Unexpected, Visitor};
use serde::forward_to_deserialize_any;
use serde_json::{Map, Value, map};

/// One step from a value to a part of it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Step {
    Field(String),
    Item(usize),
}

/// Why a value is not of a type, and where.
#[derive(Debug)]
pub(crate) struct Fault {
    pub(crate) said: String,
    /// Innermost first.
    path: Vec<Step>,
}

impl Fault {
    /// Outermost first.
    pub(crate) fn path(&self) -> Vec<Step> {
        self.path.iter().rev().cloned().collect()
    }

    /// The path in words: `taxes[0].rate`.
    pub(crate) fn field(&self) -> String {
        let mut words = String::new();
        for step in self.path.iter().rev() {
            match step {
                Step::Field(name) if words.is_empty() => words += name,
                Step::Field(name) => words.extend([".", name]),
                Step::Item(index) => words += &format!("[{index}]"),
            }
        }
        words
    }

    fn within(mut self, step: Step) -> Self {
        self.path.push(step);
        self
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.said)
    }
}

impl std::error::Error for Fault {}

impl de::Error for Fault {
    fn custom<T: fmt::Display>(said: T) -> Self {
        Fault { said: said.to_string(), path: Vec::new() }
    }

    fn invalid_type(given: Unexpected<'_>, expected: &dyn Expected) -> Self {
        match given {
            Unexpected::Unit => Self::custom(format_args!("invalid type: null, expected {expected}")),
            given => Self::custom(format_args!("invalid type: {given}, expected {expected}")),
        }
    }
}

/// A value to be read.
pub(super) struct Reader<'v>(pub(super) &'v Value);

impl<'de> Deserializer<'de> for Reader<'_> {
    type Error = Fault;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.0 {
            Value::Null => visitor.visit_unit(),
            Value::Bool(value) => visitor.visit_bool(*value),
            Value::Number(number) => match (number.as_u64(), number.as_i64(), number.as_f64()) {
                (Some(number), ..) => visitor.visit_u64(number),
                (_, Some(number), _) => visitor.visit_i64(number),
                (.., Some(number)) => visitor.visit_f64(number),
                _ => Err(de::Error::custom("number out of range")),
            },
            Value::String(text) => visitor.visit_str(text),
            Value::Array(items) => {
                let mut rest = Items { items, next: 0 };
                let found = visitor.visit_seq(&mut rest)?;
                match rest.next == items.len() {
                    true => Ok(found),
                    false => Err(de::Error::invalid_length(items.len(), &"fewer items")),
                }
            }
            Value::Object(fields) => visitor.visit_map(Fields::of(fields)),
        }
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.0 {
            Value::Object(fields) => visitor.visit_map(Fields::of(fields)),
            other => Err(de::Error::invalid_type(kind(other), &visitor)),
        }
    }

    /// From an object only; other readers take a list of the fields' values for one as well.
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.deserialize_map(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.0 {
            Value::Null => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match self.0 {
            Value::String(name) => visitor.visit_enum(name.as_str().into_deserializer()),
            Value::Object(fields) if fields.len() == 1 => {
                visitor.visit_enum(MapAccessDeserializer::new(Fields::of(fields)))
            }
            other => Err(de::Error::invalid_type(kind(other), &"text or an object with one field")),
        }
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_unit()
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct seq tuple
        tuple_struct identifier
    }
}

/// What a value is, for an error.
fn kind(value: &Value) -> Unexpected<'_> {
    match value {
        Value::Null => Unexpected::Unit,
        Value::Bool(value) => Unexpected::Bool(*value),
        Value::Number(number) => number.as_f64().map_or(Unexpected::Other("number"), Unexpected::Float),
        Value::String(text) => Unexpected::Str(text),
        Value::Array(_) => Unexpected::Seq,
        Value::Object(_) => Unexpected::Map,
    }
}

struct Items<'v> {
    items: &'v [Value],
    next: usize,
}

impl<'de> de::SeqAccess<'de> for &mut Items<'_> {
    type Error = Fault;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, Fault> {
        let Some(item) = self.items.get(self.next) else { return Ok(None) };
        let found = seed.deserialize(Reader(item)).map_err(|fault| fault.within(Step::Item(self.next)))?;
        self.next += 1;
        Ok(Some(found))
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.items.len() - self.next)
    }
}

struct Fields<'v> {
    rest: map::Iter<'v>,
    value: Option<(&'v String, &'v Value)>,
}

impl<'v> Fields<'v> {
    fn of(fields: &'v Map<String, Value>) -> Self {
        Fields { rest: fields.iter(), value: None }
    }
}

impl<'de> de::MapAccess<'de> for Fields<'_> {
    type Error = Fault;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Fault> {
        self.value = self.rest.next();
        let Some((name, _)) = self.value else { return Ok(None) };
        let key = seed.deserialize(name.as_str().into_deserializer());
        key.map(Some).map_err(|fault: Fault| fault.within(Step::Field(name.clone())))
    }

    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, Fault> {
        let Some((name, value)) = self.value else { return Err(de::Error::custom("a value is missing")) };
        seed.deserialize(Reader(value)).map_err(|fault| fault.within(Step::Field(name.clone())))
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.rest.len())
    }
}
