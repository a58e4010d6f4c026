//! One printed line of an estimate.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::{BilledQuantity, MemberDiscount, Money, Percent, PriceRange, Rounding};
use crate::{Error, Result};

/// What a line is for: taxes and uplifts go by it.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum LineKind {
    /// A fixed fee: trip, diagnosis, recovery, disposal.
    Fee,
    /// Work by the hour.
    Labor,
    /// Refrigerant by weight.
    Refrigerant,
    /// Parts and consumables.
    Material,
    /// A replacement, installed.
    Equipment,
}

impl LineKind {
    /// Every kind, in the order lines are printed.
    pub const ALL: [Self; 5] = [Self::Fee, Self::Labor, Self::Refrigerant, Self::Material, Self::Equipment];

    /// Its name, as in JSON.
    pub fn name(self) -> &'static str {
        match self {
            Self::Fee => "fee",
            Self::Labor => "labor",
            Self::Refrigerant => "refrigerant",
            Self::Material => "material",
            Self::Equipment => "equipment",
        }
    }
}

impl fmt::Display for LineKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

/// One line of an estimate: so much of something at a unit price.
///
/// # Units
/// The quantity in its unit, prices in one currency.
///
/// # Source
/// amount = quantity · unit price, at each end, made payable.
///
/// # Valid range
/// Quantity and price not below nothing.
///
/// # Accuracy
/// Exact, then payable by the rounding named.
///
/// # Errors
/// An amount out of range.
///
/// # Example
/// ```
/// use kingvalve::estimate::{BilledQuantity, BilledUnit, Decimal, Line, LineKind, PriceRange, Rounding};
/// let hours = BilledQuantity::new(Decimal::from(2), Decimal::new(375, 2), BilledUnit::Hour)?;
/// let hour = PriceRange::exact("145.00 USD".parse()?)?;
/// let line = Line::new("Technician", LineKind::Labor, hours, hour, Rounding::HalfUp)?;
/// assert_eq!(line.amount().to_string(), "290.00–543.75 USD");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Written")]
pub struct Line {
    description: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    detail: Option<String>,
    kind: LineKind,
    quantity: BilledQuantity,
    unit_price: PriceRange,
    amount: PriceRange,
}

impl Line {
    /// So much of something at a unit price; the amount is made payable by `rounding`.
    ///
    /// # Errors
    /// An amount out of range.
    pub fn new(
        description: impl Into<String>,
        kind: LineKind,
        quantity: BilledQuantity,
        unit_price: PriceRange,
        rounding: Rounding,
    ) -> Result<Self> {
        let amount = unit_price.times(quantity.low(), quantity.high(), rounding)?;
        Ok(Self { description: description.into(), detail: None, kind, quantity, unit_price, amount })
    }

    /// The same line with more said of it: the tasks behind the hours, how a weight is counted.
    #[must_use]
    pub fn with_detail(mut self, detail: impl Into<String>) -> Self {
        self.detail = Some(detail.into());
        self
    }

    /// What it is for, in words.
    pub fn description(&self) -> &str {
        &self.description
    }

    /// What more is said of it.
    pub fn detail(&self) -> Option<&str> {
        self.detail.as_deref()
    }

    /// What it is for, by kind.
    pub fn kind(&self) -> LineKind {
        self.kind
    }

    /// How much of it.
    pub fn quantity(&self) -> BilledQuantity {
        self.quantity
    }

    /// The price of one unit.
    pub fn unit_price(&self) -> PriceRange {
        self.unit_price
    }

    /// The payable amount.
    pub fn amount(&self) -> PriceRange {
        self.amount
    }
}

/// A line as it was written, before it is believed.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    description: String,
    detail: Option<String>,
    kind: LineKind,
    quantity: BilledQuantity,
    unit_price: PriceRange,
    amount: PriceRange,
}

impl TryFrom<Written> for Line {
    type Error = Error;

    /// Believes a line whose amount is the quantity at the unit price to within a minor unit at each end, which is what a
    /// rounding can make of it.
    fn try_from(
        Written { description, detail, kind, quantity, unit_price, amount }: Written,
    ) -> Result<Self> {
        let least = unit_price.times(quantity.low(), quantity.high(), Rounding::Down)?;
        let most = unit_price.times(quantity.low(), quantity.high(), Rounding::Up)?;
        let between = |least: Money, amount: Money, most: Money| {
            least <= amount && amount <= most && amount.is_payable()
        };
        if between(least.low(), amount.low(), most.low()) && between(least.high(), amount.high(), most.high())
        {
            return Ok(Self { description, detail, kind, quantity, unit_price, amount });
        }
        let why = format!("{quantity} of {description:?} at {unit_price} is not {amount}");
        Err(Error::inconsistent("line", why, "price it again"))
    }
}

/// One printed discount.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DiscountLine {
    /// What it is called.
    pub name: String,
    /// What it takes off the lines: at the low end, at the high end.
    pub amount: PriceRange,
    /// The membership that gives it, where one does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub member: Option<MemberDiscount>,
}

/// One printed tax.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TaxLine {
    /// What it is called.
    pub name: String,
    /// Its rate.
    pub rate: Percent,
    /// Its amount.
    pub amount: PriceRange,
    /// Whether the lines contain it already, so that the total does not add it.
    pub included: bool,
}

impl TaxLine {
    /// What the total adds for it.
    pub(super) fn added(&self) -> PriceRange {
        if self.included { PriceRange::zero(self.amount.currency()) } else { self.amount }
    }
}
