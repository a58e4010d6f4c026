//! What is taken off: discounts, and memberships that carry them.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::estimate::{LineKind, Money, Percent, Rounding};
use crate::{Error, Result};

/// A discount: so much off some lines, printed as a line of its own.
///
/// It is taken off before tax, an amount by kind of line and then by name; several discounts follow one another, each on
/// what the one before it left. It never takes more than a line is.
///
/// # Units
/// Percent of the lines it is on, or money.
///
/// # Source
/// Tax on the price after the seller's own discount: Streamlined Sales and Use Tax Agreement, library of definitions,
/// "sales price" (does not include discounts by the seller that are not reimbursed by a third party).
///
/// # Valid range
/// Up to 100 %.
///
/// # Accuracy
/// Exact, each line's part made payable by the card's rounding.
///
/// # Errors
/// A rate beyond 100 %; an amount below nothing or in another currency ([`RateCard::validate`](super::RateCard::validate)).
///
/// # Example
/// ```
/// use kingvalve::estimate::{Item, RateCard, Way, Words, Work};
/// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
/// let work = Work { fees: vec![Item::one("trip"), Item::one("diagnosis")], ..Work::default() };
/// let look = Way { name: "look".into(), title: "Look".into(), work, words: Words::default() };
/// assert_eq!(look.price(&card)?.total().to_string(), "149.00 USD");
/// let member = look.price(&card.for_member("comfort plan")?)?; // no trip fee, and 10 % off labour and fees
/// assert_eq!(member.total().to_string(), "54.00 USD");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Discount {
    /// What it is called on the sheet.
    pub name: String,
    /// How much is taken off.
    pub off: Off,
    /// The kinds of line it is on.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub on: BTreeSet<LineKind>,
    /// Fees it is on, by their names on the card.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub fees: BTreeSet<String>,
    /// The membership that gives it; [`RateCard::for_member`](super::RateCard::for_member) says so.
    #[serde(skip)]
    pub member: Option<MemberDiscount>,
}

/// What a membership takes off, by the names on the card: for a sheet in any language.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MemberDiscount {
    /// The membership.
    pub membership: String,
    /// The fee it waives.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub waives: Option<String>,
    /// The discount it gives.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub discount: Option<String>,
}

/// How much is taken off, or asked in advance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Off {
    /// A share.
    Share(Percent),
    /// An amount.
    Amount(Money),
}

/// What is asked when a way is agreed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Deposit {
    /// A share of the low end of the total, or an amount up to that.
    pub ask: Off,
    /// The low end from which it is asked; left out, always.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Money>,
}

impl Deposit {
    /// What is asked of a total whose low end is `low`.
    pub(in crate::estimate) fn of(self, low: Money, rounding: Rounding) -> Result<Option<Money>> {
        match self.from {
            Some(from) if low < from => Ok(None),
            _ => self.ask.of(low, rounding).map(Some),
        }
    }

    pub(super) fn validate(self, currency: super::Currency) -> Result<()> {
        self.ask.validate(currency).map_err(|error| error.in_field("ask"))?;
        let from = self.from.map_or(Ok(()), |from| super::validate::price(from, currency));
        from.map_err(|error| error.in_field("from"))
    }
}

impl Off {
    /// What it takes of an amount, never more than the amount.
    pub(in crate::estimate) fn of(self, amount: Money, rounding: Rounding) -> Result<Money> {
        match self {
            Self::Share(share) => amount.times(share.fraction(), rounding),
            Self::Amount(off) => {
                off.same_currency(amount)?;
                Ok(if off < amount { off } else { amount })
            }
        }
    }

    pub(super) fn validate(self, currency: super::Currency) -> Result<()> {
        match self {
            Self::Amount(amount) => {
                super::validate::price(amount, currency).map_err(|error| error.in_field("amount"))
            }
            Self::Share(share) if share.fraction() > rust_decimal::Decimal::ONE => {
                let advice = "nothing can be more than free";
                Err(Error::out_of_range("share", share, "up to 100 %", advice).in_field("share"))
            }
            Self::Share(_) => Ok(()),
        }
    }
}

/// What a customer gets for belonging: discounts beside the card's own, and fees that are not asked.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Membership {
    /// Discounts, after the card's own.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub discounts: Vec<Discount>,
    /// Fees that are waived: printed, and taken off whole.
    #[serde(skip_serializing_if = "BTreeSet::is_empty")]
    pub waived_fees: BTreeSet<String>,
}

impl Membership {
    /// Its discounts in the order in which they are taken: waived fees first.
    pub(super) fn taken(&self, name: &str) -> Result<Vec<Discount>> {
        let all = Off::Share(Percent::new(rust_decimal::Decimal::ONE_HUNDRED)?);
        let member =
            |waives, discount| Some(MemberDiscount { membership: name.to_owned(), waives, discount });
        let waive = |fee: &String| Discount {
            name: format!("{name}: no {fee} fee"),
            off: all,
            on: BTreeSet::new(),
            fees: [fee.clone()].into(),
            member: member(Some(fee.clone()), None),
        };
        let called = |discount: &Discount| Discount {
            name: format!("{name}: {}", discount.name),
            member: member(None, Some(discount.name.clone())),
            ..discount.clone()
        };
        Ok(self.waived_fees.iter().map(waive).chain(self.discounts.iter().map(called)).collect())
    }
}
