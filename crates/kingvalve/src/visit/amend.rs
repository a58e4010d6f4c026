//! Amendments: what is found out later is added, and nothing signed is rewritten.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::compare::{Difference, TOLERANCE, differences};
use super::{Evaluation, Record, Visit};
use crate::{Error, Result, json};

/// A correction that stands beside the record: the field as it was signed stays as it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Amendment {
    /// When, as it is to be printed.
    pub on: String,
    /// Who.
    pub by: String,
    /// Why.
    pub why: String,
    /// The field, as a JSON pointer: `/standing/pressure/value`.
    pub field: String,
    /// What it should say; left out, the field is taken away.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<Value>,
}

/// Who signed a record, and when. From then on it is only amended.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Signature {
    /// Who.
    pub by: String,
    /// When, as it is to be printed.
    pub on: String,
}

/// Fields that an amendment cannot touch.
const FIXED: [&str; 6] = ["schema", "signed", "amendments", "results", "recomputed", "differences"];

impl Visit {
    /// The record with one more amendment at its end.
    ///
    /// # Errors
    /// A field that is not there, or that is not for amending; a value that the field cannot hold.
    ///
    /// # Example
    /// ```
    /// use kingvalve::visit::{Amendment, Visit};
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let visit = Visit::from_json(text)?;
    /// let amended = visit.amended(Amendment {
    ///     on: "2026-07-15".into(),
    ///     by: "A. Example".into(),
    ///     why: "read off the photograph of the gauge".into(),
    ///     field: "/standing/pressure/value".into(),
    ///     value: Some("64.0 psig".into()),
    /// })?;
    /// assert_eq!(amended.record().standing, visit.record().standing); // as it was signed
    /// let now = amended.as_amended()?;
    /// let changes: Vec<String> = visit.differences(&now)?.iter().map(ToString::to_string).collect();
    /// assert_eq!(changes, ["standing, pressure, value: 62 psig before, 64 psig now"]);
    /// assert!(amended.continues(&visit)?);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn amended(&self, amendment: Amendment) -> Result<Visit> {
        let mut amended = self.clone();
        amended.record.amendments.push(amendment);
        amended.as_amended()?;
        Ok(amended)
    }

    /// The record as its amendments correct it, in their order, without them: for evaluating anew.
    ///
    /// # Errors
    /// An amendment of a field that is not there or not for amending, or by a value that the field cannot hold.
    ///
    /// # Example
    /// See [`amended`](Self::amended).
    pub fn as_amended(&self) -> Result<Visit> {
        let mut whole = value(&self.record)?;
        for (index, amendment) in self.record.amendments.iter().enumerate() {
            let here = |error: Error| error.in_field(format!("amendments[{index}]"));
            apply(&mut whole, amendment).map_err(here)?;
        }
        if let Value::Object(fields) = &mut whole {
            fields.remove("amendments");
        }
        let record = json::read_value("an amended visit", &whole)?;
        Ok(Visit { record, beyond: self.beyond.clone() })
    }

    /// Whether this record is `earlier` with nothing but amendments added: what a signed record may become.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    ///
    /// # Example
    /// See [`amended`](Self::amended).
    pub fn continues(&self, earlier: &Visit) -> Result<bool> {
        let (was, is) = (&earlier.record.amendments, &self.record.amendments);
        let bare = |visit: &Visit| value(&Record { amendments: Vec::new(), ..visit.record.clone() });
        Ok(is.starts_with(was) && bare(self)? == bare(earlier)? && self.beyond == earlier.beyond)
    }

    /// Every field in which `later` differs from this record, numbers to 1 part in a million; each says itself in words.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    ///
    /// # Example
    /// See [`amended`](Self::amended).
    pub fn differences(&self, later: &Visit) -> Result<Vec<Difference>> {
        Ok(differences(&value(&self.record)?, &value(&later.record)?, TOLERANCE))
    }
}

impl Evaluation {
    /// The same, signed: its results are part of the record from now on, and a later evaluation leaves them as they are.
    ///
    /// # Errors
    /// A record that is signed already; a number that JSON cannot hold.
    ///
    /// # Example
    /// ```
    /// use kingvalve::visit::{Signature, Visit};
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let signature = Signature { by: "A. Example".into(), on: "2026-07-14".into() };
    /// let signed = Visit::from_json(text)?.evaluate()?.signed(signature)?;
    /// let again = signed.evaluate()?;
    /// assert!(again.differences().is_empty()); // what is recomputed is what was signed
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn signed(&self, signature: Signature) -> Result<Visit> {
        if let Some(earlier) = &self.record.signed {
            let why = format!("{} signed it on {}", earlier.by, earlier.on);
            return Err(Error::inconsistent("signature", why, "amend the record instead").in_field("signed"));
        }
        let results = Some(value(&self.results)?);
        let record = Record { signed: Some(signature), results, ..self.record.clone() };
        Ok(Visit { record, beyond: self.beyond.clone() })
    }
}

fn apply(whole: &mut Value, amendment: &Amendment) -> Result<()> {
    let pointer = &amendment.field;
    let unknown = || {
        let advice = "write it as a JSON pointer to a field that is there: /standing/pressure/value";
        Error::unreadable("a field to amend", pointer.as_str(), advice).in_field("field")
    };
    let (above, name) = pointer.rsplit_once('/').ok_or_else(unknown)?;
    let first = pointer.split('/').nth(1).unwrap_or("");
    if FIXED.contains(&first) {
        let advice = "amend what was read, said or done; results follow from it";
        return Err(Error::inconsistent("amendment", format!("{first} is not for amending"), advice)
            .in_field("field"));
    }
    let name = name.replace("~1", "/").replace("~0", "~");
    match (whole.pointer_mut(above), &amendment.value) {
        (Some(Value::Object(fields)), Some(value)) => drop(fields.insert(name, value.clone())),
        (Some(Value::Object(fields)), None) => drop(fields.remove(&name).ok_or_else(unknown)?),
        (Some(Value::Array(items)), value) => {
            let index: usize = name.parse().map_err(|_| unknown())?;
            match value {
                Some(value) if index == items.len() => items.push(value.clone()),
                Some(value) => *items.get_mut(index).ok_or_else(unknown)? = value.clone(),
                None if index < items.len() => drop(items.remove(index)),
                None => return Err(unknown()),
            }
        }
        _ => return Err(unknown()),
    }
    Ok(())
}

pub(super) fn value(of: &impl Serialize) -> Result<Value> {
    serde_json::to_value(of).map_err(|error| Error::malformed("a visit", error.to_string()))
}
