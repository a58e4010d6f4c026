//! Generic classes of instruments, and one's own.

use schemars::JsonSchema;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::{Instrument, Label};
use crate::quantity::{
    Capacitance, Current, ElectricPotential, Frequency, GaugePressure, Length, Mass, Power, Pressure,
    Quantity, Ratio, Resistance, Temperature, TemperatureDifference, Time,
};
use crate::{Error, Result, json};

/// Instruments to choose among: generic classes, no products; one's own from JSON.
///
/// # Source
/// Steps, accuracies and relative costs of the built-in classes: common practice, no source.
/// # Example
/// ```
/// use kingvalve::measure::{Catalogue, catalogue};
/// use kingvalve::quantity::Current;
/// let own = Catalogue::from_json(r#"{"instruments": [{
///     "class": "our clamp", "reads": "current", "cost": 0.5,
///     "instrument": {"resolution": "0.01 A", "accuracy": {"percent_of_reading": 1.5, "counts": 3}}
/// }]}"#)?;
/// let both = catalogue()?.and(own);
/// let offers = both.offers::<Current>()?;
/// assert_eq!(offers.first().map(|offer| offer.class.as_str()), Some("our clamp")); // the cheapest
/// assert!(offers.len() > 3);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Form", into = "Form")]
pub struct Catalogue(Form);

/// Instruments to choose among.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename = "catalogue", deny_unknown_fields)]
struct Form {
    #[serde(default, skip_serializing_if = "Label::is_empty")]
    note: Label,
    instruments: Vec<Entry>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename = "offer", deny_unknown_fields)]
struct Entry {
    /// What this class of instrument is called.
    class: Label,
    /// The name of the quantity it reads: "current".
    reads: String,
    /// What using it costs, beside the others.
    cost: f64,
    /// How it is used, where that differs from reading the same thing again.
    #[serde(default, skip_serializing_if = "Label::is_empty")]
    method: Label,
    /// Its specification, as an instrument of that quantity.
    instrument: Value,
}

impl TryFrom<Form> for Catalogue {
    type Error = Error;
    fn try_from(form: Form) -> Result<Self> {
        for (at, entry) in form.instruments.iter().enumerate() {
            entry.check().map_err(|error| error.in_field(format!("instruments[{at}]")))?;
        }
        Ok(Catalogue(form))
    }
}

impl From<Catalogue> for Form {
    fn from(catalogue: Catalogue) -> Form {
        catalogue.0
    }
}

/// An instrument one could use.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer<Q: Quantity> {
    /// Its class, as the catalogue names it.
    pub class: Label,
    /// How it is used, where that differs from reading the same thing again.
    pub method: Label,
    /// What using it costs, beside the others of the catalogue.
    pub cost: f64,
    /// The instrument, one of its own each time the catalogue is asked.
    pub instrument: Instrument<Q>,
}

/// Whether an instrument of that quantity can be read from the value.
type Reads = fn(&Value) -> Result<()>;

/// What instruments of a catalogue may read.
const READS: [(&str, Reads); 14] = [
    entry::<Capacitance>(),
    entry::<Current>(),
    entry::<ElectricPotential>(),
    entry::<Frequency>(),
    entry::<GaugePressure>(),
    entry::<Length>(),
    entry::<Mass>(),
    entry::<Power>(),
    entry::<Pressure>(),
    entry::<Ratio>(),
    entry::<Resistance>(),
    entry::<Temperature>(),
    entry::<TemperatureDifference>(),
    entry::<Time>(),
];

const fn entry<Q>() -> (&'static str, Reads)
where
    Q: Quantity + DeserializeOwned,
    Q::Difference: DeserializeOwned,
{
    (Q::NAME, |value| read::<Q>(value).map(drop))
}

fn read<Q>(value: &Value) -> Result<Instrument<Q>>
where
    Q: Quantity + DeserializeOwned,
    Q::Difference: DeserializeOwned,
{
    json::read_value("instrument", value)
}

/// The built-in catalogue of generic classes.
///
/// # Errors
/// None: the data is part of the library and its tests read it.
pub fn catalogue() -> Result<Catalogue> {
    Catalogue::from_json(include_str!("data/instruments.json"))
}

impl Catalogue {
    /// Reads a catalogue, and every instrument in it.
    ///
    /// # Errors
    /// What is not JSON of this form, a quantity nobody knows, a negative cost, an instrument that cannot be.
    pub fn from_json(text: &str) -> Result<Self> {
        let form: Form = json::read("catalogue of instruments", text)?;
        Catalogue::try_from(form)
    }

    /// This one and another.
    #[must_use]
    pub fn and(mut self, other: Catalogue) -> Self {
        self.0.instruments.extend(other.0.instruments);
        self
    }

    /// The instruments that read a quantity, cheapest first.
    ///
    /// # Errors
    /// None for a catalogue that was read.
    pub fn offers<Q>(&self) -> Result<Vec<Offer<Q>>>
    where
        Q: Quantity + DeserializeOwned,
        Q::Difference: DeserializeOwned,
    {
        let entries = self.0.instruments.iter().filter(|entry| entry.reads == Q::NAME);
        let mut offers: Vec<Offer<Q>> = entries
            .map(|entry| {
                Ok(Offer {
                    class: entry.class.clone(),
                    method: entry.method.clone(),
                    cost: entry.cost,
                    instrument: read(&entry.instrument)?,
                })
            })
            .collect::<Result<_>>()?;
        offers.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        Ok(offers)
    }
}

impl Entry {
    fn check(&self) -> Result<()> {
        if !(self.cost >= 0.0 && self.cost.is_finite()) {
            let advice = "give what using it costs, in any unit that is the same for all";
            return Err(Error::out_of_range("cost", self.cost, "it is zero or more", advice));
        }
        let known = READS.iter().find(|(name, _)| *name == self.reads);
        let Some((_, read)) = known else {
            let names = READS.iter().map(|(name, _)| *name);
            return Err(Error::unknown("quantity", self.reads.clone(), names).in_field("reads"));
        };
        read(&self.instrument).map_err(|error| error.in_field("instrument"))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "how a test fails")]

    use super::*;

    #[test]
    fn the_built_in_catalogue_reads_and_states_every_accuracy() {
        let built_in = catalogue().unwrap();
        assert!(built_in.0.instruments.len() > 20);
        assert!(built_in.offers::<Current>().unwrap().iter().all(|o| o.instrument.states_accuracy()));
        assert!(built_in.offers::<Temperature>().unwrap().iter().all(|o| o.instrument.states_accuracy()));
        assert!(!built_in.offers::<Pressure>().unwrap().is_empty());
        let text = serde_json::to_string(&built_in).unwrap();
        assert_eq!(Catalogue::from_json(&text).unwrap(), built_in);
    }

    #[test]
    fn mistakes_are_named_with_their_place() {
        let entry = |reads: &str, cost: &str, step: &str| {
            let text = format!(
                r#"{{"instruments": [{{"class": "x", "reads": "{reads}", "cost": {cost},
                "instrument": {{"resolution": "{step}"}}}}]}}"#
            );
            Catalogue::from_json(&text).unwrap_err().to_string()
        };
        let error = entry("curent", "1", "0.1 A");
        assert_eq!(error, r#"instruments[0].reads: unknown quantity "curent"; did you mean current?"#);
        assert!(entry("current", "-1", "0.1 A").starts_with("instruments[0]: cost -1 is out of range"));
        assert!(entry("current", "1", "0.1 V").starts_with("instruments[0].instrument.resolution: "));
        assert!(entry("current", "1", "0 A").contains("step of its display must be positive"));
    }
}
