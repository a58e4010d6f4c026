//! A table of target temperature splits, as a shop or a standard has it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::grid::{Place, bilinear, place, rises};
use crate::measure::{Both, Known, Label, carry_both};
use crate::quantity::{Quantity, Temperature, TemperatureDifference, delta_kelvins};
use crate::{Error, Result};

/// Target splits by return dry bulb (rows) and return wet bulb (columns), as data of the user.
///
/// The library carries no table of its own: the published one was not to be had in a copy that can be cited.
/// In JSON `{"dry_bulbs": ["70 °F", …], "wet_bulbs": ["56 °F", …], "splits": [["20.1 Δ°F", null, …], …], "source": "…"}`;
/// `null` where the table has a dash.
///
/// # Example
/// ```
/// use kingvalve::air::SplitTable;
/// use kingvalve::quantity::*;
/// let table: SplitTable = serde_json::from_str(r#"{
///     "dry_bulbs": ["70 °F", "80 °F"], "wet_bulbs": ["58 °F", "62 °F"],
///     "splits": [["19 Δ°F", "17 Δ°F"], ["24 Δ°F", "22 Δ°F"]], "source": "invented shop table"
/// }"#).unwrap();
/// let target = table.target(fahrenheit(74.0), fahrenheit(60.0))?;
/// assert_eq!(format!("{target:.1}"), "20.0 Δ°F");
/// assert!(table.target(fahrenheit(74.0), fahrenheit(64.0)).unwrap_err().is_out_of_range());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Form", into = "Form")]
pub struct SplitTable(Form);

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "split_table")]
struct Form {
    dry_bulbs: Vec<Temperature>,
    wet_bulbs: Vec<Temperature>,
    splits: Vec<Vec<Option<TemperatureDifference>>>,
    source: Label,
}

impl SplitTable {
    /// A table of two rows and two columns or more.
    ///
    /// # Errors
    /// Temperatures that do not rise, a row of another length, a split that is not a positive number.
    pub fn new(
        dry_bulbs: Vec<Temperature>,
        wet_bulbs: Vec<Temperature>,
        splits: Vec<Vec<Option<TemperatureDifference>>>,
        source: impl Into<Label>,
    ) -> Result<SplitTable> {
        SplitTable::try_from(Form { dry_bulbs, wet_bulbs, splits, source: source.into() })
    }

    /// Where it comes from.
    pub fn source(&self) -> &str {
        self.0.source.as_str()
    }

    /// The target split, bilinear between the four entries around it.
    ///
    /// # Units
    /// Return dry bulb and wet bulb; temperature difference.
    /// # Source
    /// The table.
    /// # Valid range
    /// Inside the table, where it has entries.
    /// # Accuracy
    /// That of the readings times the table's slopes; the table's own is not counted.
    /// # Errors
    /// Outside the table, or next to one of its dashes: no extrapolation.
    /// # Example
    /// See [`SplitTable`].
    pub fn target<D: Known<Temperature>, W: Known<Temperature>>(
        &self,
        return_dry_bulb: D,
        return_wet_bulb: W,
    ) -> Result<Both<D::Grade, W::Grade, TemperatureDifference>> {
        let (dry, wet) = (return_dry_bulb.value(), return_wet_bulb.value());
        let row = placed("return dry bulb", &self.0.dry_bulbs, dry)?;
        let column = placed("return wet bulb", &self.0.wet_bulbs, wet)?;
        let entry = |row: usize, column: usize| {
            let entry = self.0.splits.get(row).and_then(|row| row.get(column)).copied().flatten();
            entry.map(Quantity::base).ok_or_else(|| {
                Error::out_of_range(
                    "return air",
                    format!("{dry:.1} dry bulb, {wet:.1} wet bulb"),
                    "the table has no target there",
                    "let the house come closer to its set point, or judge by another method",
                )
            })
        };
        let (r, c) = (row.at, column.at);
        let corners = [[entry(r, c)?, entry(r, c + 1)?], [entry(r + 1, c)?, entry(r + 1, c + 1)?]];
        let [target, by_dry, by_wet] = bilinear(corners, row, column);
        Ok(carry_both(delta_kelvins(target), (&return_dry_bulb, by_dry), (&return_wet_bulb, by_wet)))
    }
}

/// The step of the table a value lies in.
fn placed(what: &str, steps: &[Temperature], value: Temperature) -> Result<Place> {
    if let Some(place) = place(steps.iter().map(|step| step.base()), value.base()) {
        return Ok(place);
    }
    let limit = match (steps.first(), steps.last()) {
        (Some(first), Some(last)) => format!("the table runs from {first} to {last}"),
        _ => "the table is empty".into(),
    };
    Err(Error::out_of_range(
        what,
        value,
        limit,
        "let the house come closer to its set point, or judge otherwise",
    ))
}

impl TryFrom<Form> for SplitTable {
    type Error = Error;
    fn try_from(form: Form) -> Result<SplitTable> {
        let wrong = |why: String, advice: &str| Err(Error::inconsistent("split table", why, advice));
        for (name, steps) in [("dry_bulbs", &form.dry_bulbs), ("wet_bulbs", &form.wet_bulbs)] {
            if !rises(steps.iter().map(|step| step.base())) {
                return wrong(format!("{name} must be two or more, rising"), "sort them");
            }
        }
        let wide = form.wet_bulbs.len();
        if form.splits.len() != form.dry_bulbs.len() || form.splits.iter().any(|row| row.len() != wide) {
            return wrong(
                format!("it needs {} rows of {wide} splits", form.dry_bulbs.len()),
                "give a row for each dry bulb and an entry, or null, for each wet bulb",
            );
        }
        let entries = || form.splits.iter().flatten().flatten();
        if let Some(bad) = entries().find(|split| !(split.is_finite() && split.base() > 0.0)) {
            return wrong(format!("a split of {bad}"), "a split is above zero; null stands for none");
        }
        Ok(SplitTable(form))
    }
}

impl From<SplitTable> for Form {
    fn from(table: SplitTable) -> Form {
        table.0
    }
}
