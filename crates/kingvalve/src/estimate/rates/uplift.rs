//! What a shop puts on its cost.

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use crate::estimate::{Money, Percent, Rounding};
use crate::{Error, Result};

/// What is put on a price: a markup on cost, or enough that a margin of the price remains.
///
/// # Units
/// Percent of the cost for a markup, of the price for a margin.
///
/// # Source
/// Definitions of cost accounting: price = cost · (1 + markup); price = cost ÷ (1 − margin).
///
/// # Valid range
/// A margin below 100 %.
///
/// # Accuracy
/// Exact, then payable by the named rounding.
///
/// # Errors
/// A margin of 100 % or more; a price out of range.
///
/// # Example
/// ```
/// use kingvalve::estimate::{Money, Rounding, Uplift};
/// let cost: Money = "48.00 USD".parse()?;
/// let by_markup = Uplift::Markup("25 %".parse()?).on(cost, Rounding::HalfUp)?;
/// let by_margin = Uplift::Margin("20 %".parse()?).on(cost, Rounding::HalfUp)?;
/// assert_eq!((by_markup, by_margin), ("60.00 USD".parse()?, "60.00 USD".parse()?));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Uplift {
    /// Percent of the cost, added to it.
    Markup(Percent),
    /// Percent of the price that is not cost.
    Margin(Percent),
}

impl Uplift {
    /// The price of something that costs `cost`, payable by `rounding`.
    ///
    /// # Errors
    /// A margin of 100 % or more; a price out of range.
    pub fn on(self, cost: Money, rounding: Rounding) -> Result<Money> {
        match self {
            Self::Markup(markup) => cost.times(Decimal::ONE + markup.fraction(), rounding),
            Self::Margin(margin) => {
                let share = Decimal::ONE - margin.fraction();
                if share <= Decimal::ZERO {
                    let advice =
                        "a margin is a share of the price; give a markup if it is a share of the cost";
                    return Err(Error::out_of_range("margin", margin, "below 100 %", advice));
                }
                cost.share(Decimal::ONE, share, rounding)
            }
        }
    }
}
