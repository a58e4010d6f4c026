//! JSON text as a value in which no object has a name twice.

use std::fmt;

use serde::de::{self, Deserialize, Deserializer};
use serde_json::map::Entry;
use serde_json::{Map, Value};

/// Any JSON; a name that stands twice in an object is an error, where serde_json would keep the last.
pub(super) struct Tree(pub(super) Value);

impl<'de> Deserialize<'de> for Tree {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(Any)
    }
}

struct Any;

impl<'de> de::Visitor<'de> for Any {
    type Value = Tree;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_unit<E>(self) -> Result<Tree, E> {
        Ok(Tree(Value::Null))
    }

    fn visit_bool<E>(self, value: bool) -> Result<Tree, E> {
        Ok(Tree(value.into()))
    }

    fn visit_i64<E>(self, number: i64) -> Result<Tree, E> {
        Ok(Tree(number.into()))
    }

    fn visit_u64<E>(self, number: u64) -> Result<Tree, E> {
        Ok(Tree(number.into()))
    }

    fn visit_f64<E>(self, number: f64) -> Result<Tree, E> {
        Ok(Tree(number.into()))
    }

    fn visit_str<E>(self, text: &str) -> Result<Tree, E> {
        Ok(Tree(text.into()))
    }

    fn visit_seq<A: de::SeqAccess<'de>>(self, mut items: A) -> Result<Tree, A::Error> {
        let mut list = Vec::new();
        while let Some(Tree(item)) = items.next_element()? {
            list.push(item);
        }
        Ok(Tree(list.into()))
    }

    fn visit_map<A: de::MapAccess<'de>>(self, mut map: A) -> Result<Tree, A::Error> {
        let mut fields = Map::new();
        while let Some(name) = map.next_key::<String>()? {
            match fields.entry(name) {
                Entry::Vacant(place) => place.insert(map.next_value::<Tree>()?.0),
                Entry::Occupied(place) => {
                    let said = format!("the name {:?} stands twice", place.key());
                    return Err(de::Error::custom(said));
                }
            };
        }
        Ok(Tree(fields.into()))
    }
}
