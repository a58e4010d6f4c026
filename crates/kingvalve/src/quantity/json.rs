//! Quantities in JSON: `{"value": 62.0, "unit": "psig"}` out; that, or `"62 psig"`, in.

use std::fmt;

use serde::de::{self, Deserializer, MapAccess, Visitor};
use serde::ser::{Error as _, SerializeStruct, Serializer};

use super::{Kind, Quantity, text};

const FIELDS: &[&str] = &["value", "unit"];

pub(super) fn serialize<Q: Quantity, S: Serializer>(quantity: Q, serializer: S) -> Result<S::Ok, S::Error> {
    write(Kind::of::<Q>(), quantity.base(), serializer)
}

fn write<S: Serializer>(kind: &'static Kind, si: f64, serializer: S) -> Result<S::Ok, S::Error> {
    let unit = (kind.units)().first().filter(|_| si.is_finite());
    let unit =
        unit.ok_or_else(|| S::Error::custom(format!("{} is not a finite {}", kind.shown(si), kind.name)))?;
    let mut object = serializer.serialize_struct(kind.name, FIELDS.len())?;
    object.serialize_field("value", &text::shortest(si, unit))?;
    object.serialize_field("unit", unit.symbol)?;
    object.end()
}

pub(super) fn deserialize<'de, Q: Quantity, D: Deserializer<'de>>(deserializer: D) -> Result<Q, D::Error> {
    deserializer.deserialize_any(Reader(Kind::of::<Q>())).map(Q::from_base)
}

/// Reads the SI base value.
struct Reader(&'static Kind);

impl<'de> Visitor<'de> for Reader {
    type Value = f64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = (self.0.units)().first().map_or("", |unit| unit.symbol);
        write!(f, "a {}: {{\"value\": 1.0, \"unit\": \"{unit}\"}} or \"1 {unit}\"", self.0.name)
    }

    fn visit_str<E: de::Error>(self, given: &str) -> Result<f64, E> {
        text::read_si(self.0, given).map_err(E::custom)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<f64, A::Error> {
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
        text::from_parts(self.0, value, &unit, &format!("{value} {unit}")).map_err(de::Error::custom)
    }
}
