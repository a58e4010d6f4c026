//! Readings in JSON.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::Reading;
use crate::measure::{Instrument, Label};
use crate::quantity::{Quantity, Temperature};

/// The form of a reading in JSON: one `value`, or `repeats`.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(
    rename = "reading",
    deny_unknown_fields,
    bound(
        serialize = "Q: Serialize, Q::Difference: Serialize",
        deserialize = "Q: Deserialize<'de>, Q::Difference: Deserialize<'de>"
    )
)]
struct Form<Q: Quantity> {
    #[serde(default, skip_serializing_if = "Label::is_empty")]
    label: Label,
    #[serde(default = "Option::<Q>::default", skip_serializing_if = "Option::<Q>::is_none")]
    value: Option<Q>,
    #[serde(default = "Vec::<Q>::new", skip_serializing_if = "Vec::<Q>::is_empty")]
    repeats: Vec<Q>,
    instrument: Instrument<Q>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ambient: Option<Temperature>,
}

impl<Q: Quantity + Serialize> Serialize for Reading<Q>
where
    Q::Difference: Serialize,
{
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Form {
            label: self.label.clone(),
            value: self.repeats.is_none().then_some(self.value),
            repeats: self.repeats().to_vec(),
            instrument: self.instrument.clone(),
            ambient: self.ambient,
        }
        .serialize(serializer)
    }
}

impl<'de, Q: Quantity + Deserialize<'de>> Deserialize<'de> for Reading<Q>
where
    Q::Difference: Deserialize<'de>,
{
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let form = Form::<Q>::deserialize(deserializer)?;
        let reading = match (form.value, form.repeats.as_slice()) {
            (Some(value), []) => Reading::new(value, form.instrument),
            (None, [_, ..]) => Reading::repeated(&form.repeats, form.instrument),
            (Some(_), [_, ..]) => return Err(de::Error::custom("give a value or repeats, not both")),
            (None, []) => return Err(de::Error::missing_field("value")),
        };
        let mut reading = reading.map_err(de::Error::custom)?.labelled(form.label);
        if let Some(ambient) = form.ambient {
            reading = reading.at_ambient(ambient);
        }
        Ok(reading)
    }
}

impl<Q: Quantity> JsonSchema for Reading<Q> {
    fn schema_name() -> Cow<'static, str> {
        format!("Reading_of_{}", Q::schema_name()).into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let mut schema = Form::<Q>::json_schema(generator);
        // One of the two, as the reader asks.
        schema
            .insert("oneOf".into(), serde_json::json!([{"required": ["value"]}, {"required": ["repeats"]}]));
        schema
    }
}
