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

mod evaluate;
mod record;
mod report;
mod results;
mod sheet;

use crate::{Error, Result, json};
pub use evaluate::Evaluation;
pub use record::*;
pub use results::*;

/// One visit.
///
/// # Example
/// See [the room](self).
#[derive(Debug, Clone)]
pub struct Visit {
    record: Record,
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
        let record: Record = json::read("a visit", text)?;
        if record.schema != SCHEMA {
            return Err(Error::unknown("schema", record.schema, [SCHEMA]).in_field("schema"));
        }
        Ok(Visit { record })
    }

    /// The record as it was read.
    pub fn record(&self) -> &Record {
        &self.record
    }

    /// The record in its JSON form, fields in their own order, two spaces of indent.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn to_json(&self) -> Result<String> {
        let mut text = serde_json::to_string_pretty(&self.record)
            .map_err(|error| Error::unreadable("a visit", "its own record", error.to_string()))?;
        text.push('\n');
        Ok(text)
    }
}
