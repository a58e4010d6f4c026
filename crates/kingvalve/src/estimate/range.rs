//! A price that is not known to the cent yet.

use std::fmt;

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::{Currency, Money, Rounding};
use crate::{Error, Result};

/// From a low to a high amount of one currency, neither below nothing.
///
/// It is the sum of what can happen, not a likelihood: the low end is every line at its low, the high end every line at
/// its high.
///
/// # Units
/// Those of [`Money`].
///
/// # Source
/// Definition.
///
/// # Valid range
/// 0 ≤ low ≤ high, one currency.
///
/// # Accuracy
/// Exact.
///
/// # Errors
/// Ends the wrong way round, below nothing, or in two currencies.
///
/// # Example
/// ```
/// use kingvalve::estimate::PriceRange;
/// let range = PriceRange::new("410.00 USD".parse()?, "655.50 USD".parse()?)?;
/// assert_eq!(range.to_string(), "410.00–655.50 USD");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(try_from = "Ends", into = "Ends")]
pub struct PriceRange {
    low: Money,
    high: Money,
}

#[derive(Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
struct Ends {
    low: Money,
    high: Money,
}

impl TryFrom<Ends> for PriceRange {
    type Error = Error;

    fn try_from(Ends { low, high }: Ends) -> Result<Self> {
        Self::new(low, high)
    }
}

impl From<PriceRange> for Ends {
    fn from(PriceRange { low, high }: PriceRange) -> Self {
        Self { low, high }
    }
}

impl PriceRange {
    /// From `low` to `high`.
    ///
    /// # Errors
    /// `low` above `high` or below nothing; two currencies.
    pub fn new(low: Money, high: Money) -> Result<Self> {
        low.same_currency(high)?;
        if low.is_negative() {
            return Err(Error::out_of_range(
                "price",
                low,
                "not below nothing",
                "leave credits out of a range",
            ));
        }
        if low > high {
            let why = format!("the low end {low} is above the high end {high}");
            return Err(Error::inconsistent("price range", why, "swap the ends"));
        }
        Ok(Self { low, high })
    }

    /// A price that is known.
    ///
    /// # Errors
    /// A price below nothing.
    pub fn exact(price: Money) -> Result<Self> {
        Self::new(price, price)
    }

    /// From nothing to nothing.
    pub fn zero(currency: Currency) -> Self {
        Self { low: Money::zero(currency), high: Money::zero(currency) }
    }

    /// The least.
    pub fn low(self) -> Money {
        self.low
    }

    /// The most.
    pub fn high(self) -> Money {
        self.high
    }

    /// The currency of both ends.
    pub fn currency(self) -> Currency {
        self.low.currency()
    }

    /// Whether both ends are the same amount.
    pub fn is_exact(self) -> bool {
        self.low == self.high
    }

    /// Low added to low, high to high.
    ///
    /// # Errors
    /// Two currencies; a sum out of range.
    pub fn plus(self, other: Self) -> Result<Self> {
        Self::new(self.low.plus(other.low)?, self.high.plus(other.high)?)
    }

    /// Low less low, high less high: what remains of a whole when a part of it is known at both ends.
    ///
    /// # Errors
    /// Two currencies; a part that is more than the whole, or a remainder whose ends cross.
    pub fn minus(self, part: Self) -> Result<Self> {
        Self::new(self.low.minus(part.low)?, self.high.minus(part.high)?)
    }

    /// The sum of any number of ranges; nothing if there are none.
    ///
    /// # Errors
    /// A range in a currency other than `currency`; a sum out of range.
    pub fn sum(currency: Currency, ranges: impl IntoIterator<Item = Self>) -> Result<Self> {
        ranges.into_iter().try_fold(Self::zero(currency), Self::plus)
    }

    /// Each end taken a number of times, payable: `low` times the low end, `high` times the high end.
    ///
    /// # Errors
    /// Factors whose products are out of range or cross.
    pub(super) fn times(self, low: Decimal, high: Decimal, rounding: Rounding) -> Result<Self> {
        Self::new(self.low.times(low, rounding)?, self.high.times(high, rounding)?)
    }
}

impl fmt::Display for PriceRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_exact() {
            return self.low.fmt(f);
        }
        f.pad(&format!("{}–{}", self.low.amount_text(), self.high))
    }
}
