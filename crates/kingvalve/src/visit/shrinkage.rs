//! What a shop's stock lost that nothing accounts for.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::ledger::{Amount, Flow};
use crate::json;
use crate::quantity::Mass;
use crate::{Error, Result};

/// A shop's own count of one refrigerant over the time of a ledger.
///
/// # Example
/// ```
/// use kingvalve::visit::{Ledger, Stock, Visit};
/// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
/// let mut ledger = Ledger::default();
/// ledger.add(&Visit::from_json(text)?.evaluate()?);
/// let stocks = Stock::from_json(r#"{"R-454B": {"opening": "40 lb", "bought": "25 lb", "sent_out": {"heel": "1.2 lb"},
///     "on_the_shelf": "56.9 lb", "doubt": "0.3 lb"}}"#)?;
/// let lost = &ledger.shrinkage(&stocks)?["R-454B"];
/// assert_eq!(format!("{:.2} ± {:.2}", lost.mass, lost.doubt), "0.55 lb ± 0.60 lb");
/// assert!(!lost.beyond_doubt()); // the scales cannot tell it from nothing
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Stock {
    /// On the shelf at the start.
    pub opening: Mass,
    /// Bought since.
    pub bought: Mass,
    /// Sent out other than into systems.
    #[serde(default)]
    pub sent_out: SentOut,
    /// On the shelf now, as weighed.
    pub on_the_shelf: Mass,
    /// Standard uncertainty of the two counts of the shelf taken together.
    pub doubt: Mass,
}

/// What left the shop other than into systems.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct SentOut {
    /// To be reclaimed.
    pub reclaimed: Mass,
    /// To be destroyed.
    pub destroyed: Mass,
    /// Returned in cylinders that count as empty.
    pub heel: Mass,
}

impl Default for SentOut {
    fn default() -> Self {
        Self { reclaimed: Mass::ZERO, destroyed: Mass::ZERO, heel: Mass::ZERO }
    }
}

impl Stock {
    /// Reads stocks by designation.
    ///
    /// # Errors
    /// JSON of another form; a mass below nothing. Each names the field.
    ///
    /// # Example
    /// See [`Stock`].
    pub fn from_json(text: &str) -> Result<std::collections::BTreeMap<String, Stock>> {
        let stocks: std::collections::BTreeMap<String, Stock> = json::read("a stock", text)?;
        for (designation, stock) in &stocks {
            let SentOut { reclaimed, destroyed, heel } = stock.sent_out;
            for (field, mass) in [
                ("opening", stock.opening),
                ("bought", stock.bought),
                ("on_the_shelf", stock.on_the_shelf),
                ("doubt", stock.doubt),
                ("sent_out.reclaimed", reclaimed),
                ("sent_out.destroyed", destroyed),
                ("sent_out.heel", heel),
            ] {
                if mass < Mass::ZERO {
                    let error = Error::out_of_range("mass", mass, "not below nothing", "check its sign");
                    return Err(error.in_field(field).in_field(designation));
                }
            }
        }
        Ok(stocks)
    }
}

/// What a stock lost that nothing accounts for.
///
/// # Units
/// Mass; below nothing where there is more than there should be.
///
/// # Source
/// opening + bought + recovered − charged − sent out − on the shelf.
///
/// # Valid range
/// Masses not below nothing.
///
/// # Accuracy
/// [`doubt`](Self::doubt) is two standard uncertainties (95 %): those of the visits' weights added up as if all were off
/// the same way, and the shelf's, combined as independent.
///
/// # Errors
/// None.
///
/// # Example
/// See [`Stock`].
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Shrinkage {
    /// What is not accounted for.
    pub mass: Mass,
    /// What the scales could be off by, at 95 %.
    pub doubt: Mass,
}

impl Shrinkage {
    pub(super) fn of(stock: &Stock, flow: &Flow) -> Self {
        let SentOut { reclaimed, destroyed, heel } = stock.sent_out;
        let Flow { charged, recovered } = flow;
        let came = stock.opening + stock.bought + recovered.mass;
        let went = charged.mass + reclaimed + destroyed + heel;
        let Amount { doubt: visits, .. } =
            Amount { mass: Mass::ZERO, doubt: charged.doubt + recovered.doubt };
        let standard = visits.kilograms().hypot(stock.doubt.kilograms());
        let mass = came - went - stock.on_the_shelf;
        Self { mass, doubt: crate::quantity::kilograms(2.0 * standard) }
    }

    /// Whether it is more than the scales could be off by.
    pub fn beyond_doubt(&self) -> bool {
        self.mass.kilograms().abs() > self.doubt.kilograms()
    }
}
