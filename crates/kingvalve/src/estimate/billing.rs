//! From a measured quantity to the billed one: the only place where a quantity becomes decimal.

use std::fmt;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::money::plain_decimal;
use crate::{Error, Result};

/// Quantities are counted in millionths of their unit: 0.45 mg of a pound, 3.6 ms of an hour. Every step is a whole
/// number of them, so counting steps is integer arithmetic and 0.6 h is exactly three fifths of an hour.
const PER_UNIT: i64 = 1_000_000;
/// Its decimal places.
const PLACES: u32 = 6;
/// The most of anything that one line bills.
const MOST: f64 = 1e6;

/// The unit a line is billed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
pub enum BilledUnit {
    /// Hours of work.
    #[serde(rename = "h")]
    Hour,
    /// Pounds of refrigerant.
    #[serde(rename = "lb")]
    Pound,
    /// Kilograms of refrigerant.
    #[serde(rename = "kg")]
    Kilogram,
    /// Pieces.
    #[serde(rename = "each")]
    Each,
}

impl BilledUnit {
    /// Its symbol: `h`, `lb`, `kg`, and `each` for pieces.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Hour => "h",
            Self::Pound => "lb",
            Self::Kilogram => "kg",
            Self::Each => "each",
        }
    }
}

/// A positive decimal amount of a unit: the quarter of an hour, the pound, the tenth of a pound that is billed at a time.
///
/// JSON form: digits as text, `"0.25"`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Step(i64);

impl Step {
    /// One whole unit.
    pub const ONE: Self = Self(PER_UNIT);

    /// A step of `size` units.
    ///
    /// # Errors
    /// Zero, negative, beyond a million, or finer than six decimal places.
    pub fn new(size: Decimal) -> Result<Self> {
        let refused = || {
            let limit = "above 0 and up to 1000000, at most six decimal places";
            Error::out_of_range("billing step", size, limit, "write 0.25 for a quarter of an hour")
        };
        let millionths = size.normalize().checked_mul(PER_UNIT.into()).filter(|n| n.normalize().scale() == 0);
        let millionths = millionths.and_then(|n| n.to_i64()).ok_or_else(refused)?;
        if (1..=PER_UNIT * PER_UNIT).contains(&millionths) { Ok(Self(millionths)) } else { Err(refused()) }
    }

    /// Its size in units.
    pub fn size(self) -> Decimal {
        Decimal::new(self.0, PLACES).normalize()
    }
}

impl fmt::Display for Step {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.size().fmt(f)
    }
}

impl Serialize for Step {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Step {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        let unreadable = || Error::unreadable("a billing step", &*text, "write digits as text: \"0.25\"");
        let size = plain_decimal(&text).ok_or_else(unreadable).map_err(de::Error::custom)?;
        Self::new(size).map_err(de::Error::custom)
    }
}

/// How steps are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Count {
    /// Every step that was begun is billed whole.
    Started,
    /// The nearest number of steps, a half counted up: by exact weight or time, to the step.
    Nearest,
}

/// How a measured quantity becomes a billed one: by started quarter hours, by started pounds, by exact weight to 0.1 lb.
///
/// # Units
/// Those of the quantity it bills: hours, pounds, kilograms.
///
/// # Source
/// Common practice, no source: a shop states its own.
///
/// # Valid range
/// Quantities from 0 to a million units.
///
/// # Accuracy
/// The quantity is rounded once to a millionth of its unit, which takes the binary fraction off a unit conversion (6.5 lb
/// kept in kilograms comes back as 6.500000000000001 lb and is billed as 6.5); counting is exact after that.
///
/// # Errors
/// A quantity that is negative, not a number, or beyond a million units.
///
/// # Example
/// ```
/// use kingvalve::estimate::{BillingStep, Count, Decimal, RefrigerantRate, Step, WeightUnit};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// let tenths = BillingStep { step: Step::new(Decimal::new(1, 1))?, count: Count::Nearest };
/// let rate = RefrigerantRate { price: "62.00 USD".parse()?, per: WeightUnit::Pound, billed: tenths };
/// let billed = rate.bill(Interval::new(pounds(4.13), pounds(6.5))?)?;
/// assert_eq!(billed.to_string(), "4.1–6.5 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BillingStep {
    /// What is billed at a time, in the unit of the quantity.
    pub step: Step,
    /// Started or nearest.
    pub count: Count,
}

impl BillingStep {
    /// The billed decimal amount of `quantity`, a number of `unit`s.
    ///
    /// # Errors
    /// A quantity that is negative, not a number, or beyond a million units.
    pub(super) fn bill(self, quantity: f64, unit: BilledUnit) -> Result<Decimal> {
        let measured = millionths(quantity, unit)?;
        let Step(step) = self.step;
        let steps = match self.count {
            Count::Started => measured / step + i64::from(measured % step != 0),
            Count::Nearest => (measured + step / 2 + step % 2) / step,
        };
        Ok(Decimal::new(steps * step, PLACES).normalize())
    }
}

/// `quantity` in millionths of its unit, to the nearest.
fn millionths(quantity: f64, unit: BilledUnit) -> Result<i64> {
    if (0.0..=MOST).contains(&quantity) {
        return Ok((quantity * PER_UNIT as f64).round() as i64);
    }
    let value = format!("{quantity} {}", unit.symbol());
    let limit = format!("0 to {MOST} {}", unit.symbol());
    Err(Error::out_of_range("billed quantity", value, limit, "check the reading it comes from"))
}

/// A quantity as billed, from a least to a most.
///
/// # Example
/// ```
/// use kingvalve::estimate::{BilledQuantity, BilledUnit, Decimal};
/// let hours = BilledQuantity::new(Decimal::new(225, 2), Decimal::from(4), BilledUnit::Hour)?;
/// assert_eq!(hours.to_string(), "2.25–4 h");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(try_from = "Ends", into = "Ends")]
pub struct BilledQuantity {
    low: Decimal,
    high: Decimal,
    unit: BilledUnit,
}

#[derive(Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
struct Ends {
    #[schemars(with = "String")]
    low: Decimal,
    #[schemars(with = "String")]
    high: Decimal,
    unit: BilledUnit,
}

impl TryFrom<Ends> for BilledQuantity {
    type Error = Error;

    fn try_from(Ends { low, high, unit }: Ends) -> Result<Self> {
        Self::new(low, high, unit)
    }
}

impl From<BilledQuantity> for Ends {
    fn from(BilledQuantity { low, high, unit }: BilledQuantity) -> Self {
        Self { low, high, unit }
    }
}

impl BilledQuantity {
    /// From `low` to `high` of a unit.
    ///
    /// # Errors
    /// `low` above `high` or below nothing; more than a million; finer than six decimal places.
    pub fn new(low: Decimal, high: Decimal, unit: BilledUnit) -> Result<Self> {
        let (low, high) = (low.normalize(), high.normalize());
        if low > high {
            let why = format!("the low end {low} is above the high end {high}");
            return Err(Error::inconsistent("billed quantity", why, "swap the ends"));
        }
        let most = Decimal::from(PER_UNIT);
        if low < Decimal::ZERO || high > most || low.scale().max(high.scale()) > PLACES {
            let limit = format!("0 to {most} with at most {PLACES} decimal places");
            let value = format!("{low}–{high} {}", unit.symbol());
            return Err(Error::out_of_range("billed quantity", value, limit, "check the quantity"));
        }
        Ok(Self { low, high, unit })
    }

    /// From `least` to `most` pieces.
    ///
    /// # Errors
    /// `least` above `most`, or more than a million.
    pub fn pieces(least: u32, most: u32) -> Result<Self> {
        Self::new(least.into(), most.into(), BilledUnit::Each)
    }

    /// The least.
    pub fn low(self) -> Decimal {
        self.low
    }

    /// The most.
    pub fn high(self) -> Decimal {
        self.high
    }

    /// The unit.
    pub fn unit(self) -> BilledUnit {
        self.unit
    }
}

impl fmt::Display for BilledQuantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = if self.low == self.high {
            format!("{}", self.low)
        } else {
            format!("{}–{}", self.low, self.high)
        };
        match self.unit {
            BilledUnit::Each => f.pad(&number),
            unit => f.pad(&format!("{number} {}", unit.symbol())),
        }
    }
}
