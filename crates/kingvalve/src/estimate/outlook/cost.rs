//! Expected costs: statistics in a currency, not prices.

use std::fmt;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::{Serialize, Serializer, ser::SerializeStruct};

use crate::estimate::{Currency, Money, PriceRange, Rounding};
use crate::{Error, Result};

/// What something costs on average over what may happen, in money of today: a statistic, rounded once to the minor unit.
///
/// # Example
/// ```
/// use kingvalve::estimate::outlook::ExpectedCost;
/// use kingvalve::estimate::Currency;
/// let cost = ExpectedCost::of(1234.5678, Currency::USD)?;
/// assert_eq!(cost.to_string(), "1234.57 USD expected");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct ExpectedCost(Money);

impl ExpectedCost {
    /// The statistic of that size, rounded once.
    ///
    /// # Errors
    /// A number that is not finite or too large for money.
    pub fn of(value: f64, currency: Currency) -> Result<ExpectedCost> {
        Ok(ExpectedCost(money(value, currency)?))
    }

    /// The amount.
    pub fn amount(self) -> Money {
        self.0
    }
}

impl fmt::Display for ExpectedCost {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} expected", self.0)
    }
}

/// Labelled, so that nobody takes it for a price.
impl Serialize for ExpectedCost {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut object = serializer.serialize_struct("expected cost", 2)?;
        object.serialize_field("expected", &self.0)?;
        object.serialize_field("kind", "a statistic, not a price")?;
        object.end()
    }
}

/// A statistic as money, rounded once to the minor unit.
pub(super) fn money(value: f64, currency: Currency) -> Result<Money> {
    let decimal = Decimal::from_f64_retain(value).ok_or_else(|| {
        let limit = "a finite amount below a thousand million million";
        Error::out_of_range("expected cost", value, limit, "check prices and rates for a slip of digits")
    })?;
    Money::new(Rounding::HalfUp.to_places(decimal, currency.minor_units()), currency)
}

/// An amount as a number for statistics.
pub(super) fn number(money: Money) -> f64 {
    money.amount().to_f64().unwrap_or(f64::NAN)
}

/// Middle and half width of a range as numbers.
pub(super) fn middle(range: PriceRange) -> (f64, f64) {
    let (low, high) = (number(range.low()), number(range.high()));
    (0.5 * (low + high), 0.5 * (high - low))
}
