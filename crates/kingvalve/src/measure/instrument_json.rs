//! Instruments in JSON.
//!
//! ```json
//! {"name": "clamp ammeter", "resolution": "0.1 A", "accuracy": {"percent_of_reading": 2, "counts": 5},
//!  "range": {"low": "0 A", "high": "400 A"}}
//! ```

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::instrument::Drift;
use super::{Coverage, Instrument, Label};
use crate::quantity::{Quantity, Ratio, Temperature};

/// The form of an instrument in JSON.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(
    rename = "instrument",
    deny_unknown_fields,
    bound(
        serialize = "Q: Serialize, Q::Difference: Serialize",
        deserialize = "Q: Deserialize<'de>, Q::Difference: Deserialize<'de>"
    )
)]
struct Form<Q: Quantity> {
    #[serde(default, skip_serializing_if = "Label::is_empty")]
    name: Label,
    resolution: Q::Difference,
    #[serde(default = "Accuracy::<Q>::none", skip_serializing_if = "Accuracy::<Q>::is_none")]
    accuracy: Accuracy<Q>,
    #[serde(default, skip_serializing_if = "is_default")]
    coverage: Coverage,
    #[serde(default = "Option::<Range<Q>>::default", skip_serializing_if = "Option::<Range<Q>>::is_none")]
    range: Option<Range<Q>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    temperature_coefficient: Option<Coefficient>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(
    rename = "accuracy",
    deny_unknown_fields,
    bound(serialize = "Q::Difference: Serialize", deserialize = "Q::Difference: Deserialize<'de>")
)]
struct Accuracy<Q: Quantity> {
    #[serde(default, skip_serializing_if = "is_default")]
    percent_of_reading: f64,
    #[serde(default, skip_serializing_if = "is_default")]
    counts: f64,
    #[serde(default, skip_serializing_if = "is_default")]
    percent_of_span: f64,
    #[serde(
        default = "Option::<Q::Difference>::default",
        skip_serializing_if = "Option::<Q::Difference>::is_none"
    )]
    span: Option<Q::Difference>,
    #[serde(
        default = "Option::<Q::Difference>::default",
        skip_serializing_if = "Option::<Q::Difference>::is_none"
    )]
    within: Option<Q::Difference>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(rename = "range", deny_unknown_fields)]
struct Range<Q> {
    low: Q,
    high: Q,
}

/// Part of the accuracy added for each kelvin below `low` or above `high`.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(rename = "temperature coefficient", deny_unknown_fields)]
struct Coefficient {
    of_accuracy_per_kelvin: Ratio,
    low: Temperature,
    high: Temperature,
}

fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

impl<Q: Quantity> Accuracy<Q> {
    fn none() -> Self {
        Accuracy { percent_of_reading: 0.0, counts: 0.0, percent_of_span: 0.0, span: None, within: None }
    }

    fn is_none(&self) -> bool {
        self.percent_of_reading == 0.0
            && self.counts == 0.0
            && self.percent_of_span == 0.0
            && self.span.is_none()
            && self.within.is_none()
    }
}

fn given<D: Quantity>(amount: D) -> Option<D> {
    Some(amount).filter(|amount| amount.base() != 0.0)
}

impl<Q: Quantity> From<&Instrument<Q>> for Form<Q> {
    fn from(instrument: &Instrument<Q>) -> Self {
        Form {
            name: instrument.name.clone(),
            resolution: instrument.step,
            accuracy: Accuracy {
                percent_of_reading: in_percent(instrument.of_reading),
                counts: instrument.counts,
                percent_of_span: in_percent(instrument.of_span),
                span: given(instrument.span),
                within: given(instrument.absolute),
            },
            coverage: instrument.coverage,
            range: instrument.range.map(|(low, high)| Range { low, high }),
            temperature_coefficient: instrument.drift.map(|drift| Coefficient {
                of_accuracy_per_kelvin: Ratio::from_si(drift.per_kelvin),
                low: drift.low,
                high: drift.high,
            }),
        }
    }
}

/// The percentage as it was typed: the shortest decimal that gives the same fraction.
fn in_percent(fraction: f64) -> f64 {
    Ratio::from_si(fraction).in_unit("%").map_or(100.0 * fraction, |shown| shown.value())
}

impl<Q: Quantity> From<Form<Q>> for Instrument<Q> {
    fn from(form: Form<Q>) -> Self {
        let mut instrument = Instrument::resolution(form.resolution)
            .named(form.name)
            .accuracy_percent_of_reading(form.accuracy.percent_of_reading)
            .counts(form.accuracy.counts)
            .accuracy_means(form.coverage);
        let none = Q::Difference::from_base(0.0);
        let span = form.accuracy.span.unwrap_or(none);
        instrument = instrument.accuracy_percent_of_span(form.accuracy.percent_of_span, span);
        instrument = instrument.accuracy(form.accuracy.within.unwrap_or(none));
        instrument.range = form.range.map(|range| (range.low, range.high));
        instrument.drift = form.temperature_coefficient.map(|coefficient| Drift {
            per_kelvin: coefficient.of_accuracy_per_kelvin.fraction(),
            low: coefficient.low,
            high: coefficient.high,
        });
        instrument
    }
}

impl<Q: Quantity + Serialize> Serialize for Instrument<Q>
where
    Q::Difference: Serialize,
{
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Form::from(self).serialize(serializer)
    }
}

impl<'de, Q: Quantity + Deserialize<'de>> Deserialize<'de> for Instrument<Q>
where
    Q::Difference: Deserialize<'de>,
{
    /// Every instrument read is one of its own: identity is not written.
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let instrument: Instrument<Q> = Form::deserialize(deserializer)?.into();
        instrument.check().map_err(de::Error::custom)?;
        Ok(instrument)
    }
}

impl<Q: Quantity> JsonSchema for Instrument<Q> {
    fn schema_name() -> Cow<'static, str> {
        format!("Instrument_of_{}", Q::schema_name()).into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Form::<Q>::json_schema(generator)
    }
}
