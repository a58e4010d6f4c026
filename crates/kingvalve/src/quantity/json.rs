//! Quantities in JSON: `{"value": 62.0, "unit": "psig"}` out; that, or `"62 psig"`, in.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{self, Deserializer, MapAccess, Visitor};
use serde::ser::{Error as _, SerializeStruct, Serializer};

use super::{Quantity, text};

const FIELDS: &[&str] = &["value", "unit"];

pub(super) fn serialize<Q: Quantity, S: Serializer>(quantity: Q, serializer: S) -> Result<S::Ok, S::Error> {
    let si = quantity.base();
    let unit = Q::units().first().filter(|_| si.is_finite());
    let unit = unit.ok_or_else(|| S::Error::custom(format!("{quantity} is not a finite {}", Q::NAME)))?;
    let mut object = serializer.serialize_struct(Q::NAME, FIELDS.len())?;
    object.serialize_field("value", &text::shortest(si, unit))?;
    object.serialize_field("unit", unit.symbol)?;
    object.end()
}

pub(super) fn deserialize<'de, Q: Quantity, D: Deserializer<'de>>(deserializer: D) -> Result<Q, D::Error> {
    deserializer.deserialize_any(Reader(PhantomData))
}

struct Reader<Q>(PhantomData<Q>);

impl<'de, Q: Quantity> Visitor<'de> for Reader<Q> {
    type Value = Q;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = Q::units().first().map_or("", |unit| unit.symbol);
        write!(f, "a {}: {{\"value\": 1.0, \"unit\": \"{unit}\"}} or \"1 {unit}\"", Q::NAME)
    }

    fn visit_str<E: de::Error>(self, given: &str) -> Result<Q, E> {
        text::read(given).map_err(E::custom)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Q, A::Error> {
        let mut value: Option<f64> = None;
        let mut unit: Option<String> = None;
        while let Some(field) = map.next_key::<String>()? {
            match field.as_str() {
                "value" if value.is_none() => value = Some(map.next_value()?),
                "unit" if unit.is_none() => unit = Some(map.next_value()?),
                "value" => return Err(de::Error::duplicate_field("value")),
                "unit" => return Err(de::Error::duplicate_field("unit")),
                other => return Err(de::Error::unknown_field(other, FIELDS)),
            }
        }
        let value = value.ok_or_else(|| de::Error::missing_field("value"))?;
        let unit = unit.ok_or_else(|| de::Error::missing_field("unit"))?;
        text::from_parts(value, &unit, &format!("{value} {unit}")).map_err(de::Error::custom)
    }
}
