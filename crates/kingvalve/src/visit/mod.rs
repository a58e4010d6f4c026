//! The record of one visit: read from JSON, evaluated, written back with its results.
//!
//! # Example
//! ```
//! use kingvalve::visit::Visit;
//! # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
//! let visit = Visit::from_json(text)?;
//! let evaluation = visit.evaluate()?;
//! println!("{}", evaluation.report()?);
//! let completed = evaluation.to_json()?; // the record, with its results inside
//! # assert!(Visit::from_json(&completed).is_ok());
//! # Ok::<(), kingvalve::Error>(())
//! ```

mod amend;
mod compare;
mod evaluate;
mod inventory;
mod ledger;
mod newer;
mod outcome;
mod outlook;
mod priced;
mod record;
mod report;
mod results;
mod said;
mod sheet;
mod shrinkage;
mod store;

pub use amend::{Amendment, Signature};
pub use compare::{Difference, TOLERANCE};
pub use evaluate::Evaluation;
pub use inventory::{InventoryAsked, InventoryResult};
pub use ledger::{Amount, Flow, Ledger, SiteFlow, SiteLeakRate};
pub use outcome::{FoundAt, Outcome, Outcomes, Watched};
pub use outlook::{OutlookAsked, OutlookResult};
pub use record::*;
pub use results::*;
pub use shrinkage::{SentOut, Shrinkage, Stock};
pub use store::{visits, write_whole};

use crate::{Error, Result, json};

/// The most bytes a record may have: far more than a visit fills, and little enough to be read at once.
const MOST_BYTES: usize = 4 << 20;

/// One visit.
///
/// # Example
/// See [the room](self).
#[derive(Debug, Clone)]
pub struct Visit {
    record: Record,
    /// Fields of a newer form, kept where they stood.
    beyond: Vec<newer::Beyond>,
}

impl Visit {
    /// Reads a visit from its JSON form.
    ///
    /// # Errors
    /// Text that is not the form [`SCHEMA`] names: the error gives the field, what was given and, where a name is
    /// misspelt, the nearest known one.
    ///
    /// # Example
    /// ```
    /// use kingvalve::visit::Visit;
    /// let error = Visit::from_json(r#"{"schema": "kingvalve/visit/1", "dat": "2026-07-14"}"#).unwrap_err();
    /// assert!(error.is_unreadable());
    /// assert!(error.to_string().contains("did you mean date?"), "{error}");
    /// ```
    pub fn from_json(text: &str) -> Result<Visit> {
        if text.len() > MOST_BYTES {
            let limit = format!("up to {MOST_BYTES} bytes");
            let advice = "keep pictures and logs in files of their own";
            return Err(Error::out_of_range(
                "size of a visit",
                format!("{} bytes", text.len()),
                limit,
                advice,
            ));
        }
        let whole = json::parse("a visit", text)?;
        let (record, beyond) = match json::read_value::<Record>("a visit", &whole) {
            Ok(record) => (record, Vec::new()),
            Err(error) => match json::read_value::<Form>("a visit", &whole) {
                Ok(form) if newer::is_newer(&form.schema) => newer::read(whole)?,
                _ => return Err(error),
            },
        };
        if record.schema != SCHEMA && !newer::is_newer(&record.schema) {
            return Err(Error::unknown("schema", record.schema, [SCHEMA]).in_field("schema"));
        }
        Ok(Visit { record, beyond })
    }

    /// The JSON Schema (draft 2020-12) of a record: what [`from_json`](Self::from_json) reads.
    ///
    /// # Errors
    /// None in practice: a schema holds nothing that JSON cannot.
    ///
    /// # Example
    /// ```
    /// use kingvalve::visit::Visit;
    /// assert!(Visit::schema()?.contains("follow_up"));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn schema() -> Result<String> {
        json::schema::<Record>()
    }

    /// The record as it was read.
    pub fn record(&self) -> &Record {
        &self.record
    }

    /// The record in its JSON form, two spaces of indent: fields in their own order, by name in a record of a newer form.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn to_json(&self) -> Result<String> {
        let mut text = self.written(serde_json::to_string_pretty, serde_json::to_string_pretty)?;
        text.push('\n');
        Ok(text)
    }

    /// The same on one line, without an end of line: for JSON Lines.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn to_json_line(&self) -> Result<String> {
        self.written(serde_json::to_string, serde_json::to_string)
    }

    fn written(
        &self,
        known: fn(&Record) -> serde_json::Result<String>,
        whole: fn(&serde_json::Value) -> serde_json::Result<String>,
    ) -> Result<String> {
        let text = match self.beyond.is_empty() {
            true => known(&self.record),
            false => {
                let mut value = amend::value(&self.record)?;
                newer::restore(&mut value, &self.beyond);
                whole(&value)
            }
        };
        text.map_err(|error| Error::unreadable("a visit", "its own record", error.to_string()))
    }
}

/// The name of a record's form, whatever else it holds.
#[derive(serde::Deserialize)]
struct Form {
    schema: String,
}
