//! A rate in percent, exact.

use std::fmt;
use std::str::FromStr;

use rust_decimal::Decimal;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::money::plain_decimal;
use crate::{Error, Result};

/// A rate that is never negative: a tax, a markup, a margin. Text and JSON form: `8.25 %`.
///
/// # Units
/// Percent as written; [`fraction`](Self::fraction) is a plain ratio.
///
/// # Source
/// Definition.
///
/// # Valid range
/// 0 to 1000 %, up to six decimal places.
///
/// # Accuracy
/// Exact.
///
/// # Errors
/// Negative, beyond 1000 %, or finer than six places.
///
/// # Example
/// ```
/// use kingvalve::estimate::{Decimal, Percent};
/// let rate: Percent = "8.25 %".parse()?;
/// assert_eq!(rate.fraction(), Decimal::new(825, 4));
/// assert_eq!(rate.to_string(), "8.25 %");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Percent(Decimal);

const MOST: Decimal = Decimal::ONE_THOUSAND;
const MOST_PLACES: u32 = 6;

impl Percent {
    /// Nothing added.
    pub const ZERO: Self = Self(Decimal::ZERO);

    /// `percent` of a hundred.
    ///
    /// # Errors
    /// Negative, beyond 1000 %, or finer than six decimal places.
    pub fn new(percent: Decimal) -> Result<Self> {
        let percent = percent.normalize();
        if percent < Decimal::ZERO || percent > MOST || percent.scale() > MOST_PLACES {
            let limit = format!("0 to {MOST} % with at most {MOST_PLACES} decimal places");
            return Err(Error::out_of_range(
                "rate",
                format!("{percent} %"),
                limit,
                "write 8.25 % for 8.25 in a hundred",
            ));
        }
        Ok(Self(percent))
    }

    /// The rate as a ratio: 0.0825 for 8.25 %.
    pub fn fraction(self) -> Decimal {
        self.0 / Decimal::ONE_HUNDRED
    }
}

impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{} %", self.0))
    }
}

impl FromStr for Percent {
    type Err = Error;

    /// Reads `8.25 %` or `8.25%`.
    ///
    /// # Errors
    /// Not a decimal and a percent sign; a rate out of range.
    fn from_str(text: &str) -> Result<Self> {
        let unreadable = || Error::unreadable("a rate in percent", text, "write it as 8.25 %");
        let number = text.strip_suffix('%').ok_or_else(unreadable)?;
        let number = number.strip_suffix(' ').unwrap_or(number);
        Self::new(plain_decimal(number).ok_or_else(unreadable)?)
    }
}

impl Serialize for Percent {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Percent {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(de::Error::custom)
    }
}
