//! The rate card: what a shop charges.

mod discount;
mod tax;
mod uplift;
mod validate;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{
    Addition, BilledUnit, BillingStep, Currency, Language, LineKind, Money, PriceRange, Rounding, ShopWay,
    Step,
};
use crate::{Error, Result, json};

pub use discount::{Deposit, Discount, MemberDiscount, Membership, Off};
pub use tax::{Tax, TaxBasis};
pub use uplift::Uplift;

/// What a shop charges, in its own words and currency.
///
/// Roles, time bands, materials, fees and replacements go by the names the shop gives them. Nothing has a hidden default:
/// a price that is asked for and not on the card is an error that names the nearest entry.
///
/// # Units
/// Labour per hour; refrigerant per pound or kilogram as each entry says; everything else a piece.
///
/// # Source
/// The shop.
///
/// # Valid range
/// Prices not below nothing, all in [`currency`](Self::currency).
///
/// # Accuracy
/// Exact decimals.
///
/// # Errors
/// [`from_json`](Self::from_json) and [`validate`](Self::validate) name the field at fault.
///
/// # Example
/// ```
/// use kingvalve::estimate::RateCard;
/// let card = RateCard::from_json(r#"{
///     "shop": "An invented shop",
///     "currency": "USD",
///     "rounding": "half_up",
///     "labor": {"technician": {"regular": "145.00 USD"}},
///     "hours_billed": {"step": "0.25", "count": "started"},
///     "minimum_hours": "1",
///     "fees": {"trip": "89.00 USD"},
///     "refrigerants": {
///         "R-454B": {"price": "62.00 USD", "per": "lb", "billed": {"step": "1", "count": "started"}}
///     },
///     "materials": {"filter-drier": "68.00 USD"},
///     "replacements": {},
///     "taxes": [{"name": "Sales tax", "rate": "8.25 %", "on": ["material", "refrigerant"],
///                "rounding": "half_up", "basis": "invoice"}]
/// }"#)?;
/// assert_eq!(card.labor_rate("technician", "regular")?.to_string(), "145.00 USD");
/// assert!(card.material("filter dryer").unwrap_err().to_string().contains("did you mean filter-drier?"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RateCard {
    /// The shop's name.
    pub shop: String,
    /// Anything the shop wants to keep with the card.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The currency of every price on the card.
    pub currency: Currency,
    /// How a line's amount is made payable.
    pub rounding: Rounding,
    /// Price of an hour by role, then by time band; a band named `regular` goes unsaid on a line.
    pub labor: BTreeMap<String, BTreeMap<String, Money>>,
    /// How hours are counted.
    pub hours_billed: BillingStep,
    /// Hours billed at least, wherever any are.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minimum_hours: Option<Step>,
    /// Fixed fees by name: trip, diagnosis, recovery, disposal, …
    pub fees: BTreeMap<String, Money>,
    /// Refrigerants by designation.
    pub refrigerants: BTreeMap<String, RefrigerantRate>,
    /// Price of a piece of material by name.
    pub materials: BTreeMap<String, Money>,
    /// Price range of a replacement, installed, by name.
    pub replacements: BTreeMap<String, PriceRange>,
    /// What is put on the card's prices, by kind of line; nothing where a kind is not named.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub uplift: BTreeMap<LineKind, Uplift>,
    /// Taxes, in the order in which they are printed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub taxes: Vec<Tax>,
    /// What everybody gets off, in the order in which it is taken.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub discounts: Vec<Discount>,
    /// What members get off, by the name of the membership.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub memberships: BTreeMap<String, Membership>,
    /// What is asked when a way is agreed on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deposit: Option<Deposit>,
    /// The shop's own warranty words, by the name of the way.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub warranty: BTreeMap<String, Vec<String>>,
    /// The shop's own ways, offered after the built-in ones.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ways: Vec<ShopWay>,
    /// What can be done at the same visit, whichever way is chosen.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub additions: Vec<Addition>,
    /// The shop's own words in other languages: by language, then by what the card says.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub labels: BTreeMap<Language, BTreeMap<String, String>>,
}

/// What a refrigerant costs and how its weight is billed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RefrigerantRate {
    /// Price of one unit of weight.
    pub price: Money,
    /// The unit of weight.
    pub per: WeightUnit,
    /// By started unit, or by exact weight to a step.
    pub billed: BillingStep,
}

/// The unit in which a shop sells refrigerant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
pub enum WeightUnit {
    /// Avoirdupois pound.
    #[serde(rename = "lb")]
    Pound,
    /// Kilogram.
    #[serde(rename = "kg")]
    Kilogram,
}

impl From<WeightUnit> for BilledUnit {
    fn from(unit: WeightUnit) -> Self {
        match unit {
            WeightUnit::Pound => Self::Pound,
            WeightUnit::Kilogram => Self::Kilogram,
        }
    }
}

impl RateCard {
    /// Reads and validates a card.
    ///
    /// # Errors
    /// JSON that cannot be read, a field that is unknown, missing or written twice, a price that is negative or in
    /// another currency: each names the field.
    pub fn from_json(text: &str) -> Result<Self> {
        let card: Self = json::read("a rate card", text)?;
        card.validate()?;
        Ok(card)
    }

    /// The JSON Schema (draft 2020-12) of a card: what [`from_json`](Self::from_json) reads.
    ///
    /// # Errors
    /// None in practice: a schema holds nothing that JSON cannot.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::RateCard;
    /// assert!(RateCard::schema()?.contains("hours_billed"));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn schema() -> Result<String> {
        json::schema::<Self>()
    }

    /// The card as indented JSON, the same bytes for the same card.
    ///
    /// # Errors
    /// None in practice: a card holds nothing that JSON cannot.
    pub fn to_json(&self) -> Result<String> {
        serde_json::to_string_pretty(self)
            .map_err(|error| Error::inconsistent("rate card", error.to_string(), "report this"))
    }

    /// Price of an hour of `role` in a time `band`.
    ///
    /// # Errors
    /// A role or band that is not on the card.
    pub fn labor_rate(&self, role: &str, band: &str) -> Result<Money> {
        let bands = entry("role on the rate card", &self.labor, role)?;
        entry("time band on the rate card", bands, band).copied()
    }

    /// Price of a fixed fee.
    ///
    /// # Errors
    /// A fee that is not on the card.
    pub fn fee(&self, name: &str) -> Result<Money> {
        entry("fee on the rate card", &self.fees, name).copied()
    }

    /// Price and billing of a refrigerant.
    ///
    /// # Errors
    /// A designation that is not on the card.
    pub fn refrigerant(&self, designation: &str) -> Result<RefrigerantRate> {
        entry("refrigerant on the rate card", &self.refrigerants, designation).copied()
    }

    /// Price of a piece of material.
    ///
    /// # Errors
    /// A material that is not on the card.
    pub fn material(&self, name: &str) -> Result<Money> {
        entry("material on the rate card", &self.materials, name).copied()
    }

    /// Price range of a replacement, installed.
    ///
    /// # Errors
    /// A replacement that is not on the card.
    pub fn replacement(&self, name: &str) -> Result<PriceRange> {
        entry("replacement on the rate card", &self.replacements, name).copied()
    }

    /// Something that can be done at the same visit.
    ///
    /// # Errors
    /// An addition that is not on the card.
    pub fn addition(&self, name: &str) -> Result<&Addition> {
        let known = || self.additions.iter().map(|addition| addition.name.as_str());
        let found = self.additions.iter().find(|addition| addition.name == name);
        found.ok_or_else(|| Error::unknown("addition on the rate card", name, known()))
    }

    /// The card for a member: with the discounts of the membership, and none left to choose.
    ///
    /// # Errors
    /// A membership that is not on the card.
    pub fn for_member(&self, membership: &str) -> Result<Self> {
        let mut card = self.clone();
        let taken = entry("membership on the rate card", &self.memberships, membership)?.taken(membership)?;
        card.discounts.extend(taken);
        card.memberships.clear();
        Ok(card)
    }

    /// The card for a place: taxes of the jurisdictions named, and those that name none.
    ///
    /// # Errors
    /// A jurisdiction that no tax on the card names: a misspelt one would be a tax forgotten.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::RateCard;
    /// # let card = RateCard::from_json(include_str!("../../../../examples/data/rate_card.json"))?;
    /// assert_eq!(card.for_place(&["an invented county"])?.taxes.len(), 1);
    /// assert!(card.for_place(&["an invented cuonty"]).unwrap_err().is_unknown_name());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn for_place<S: AsRef<str>>(&self, jurisdictions: &[S]) -> Result<Self> {
        let levied = || self.taxes.iter().filter_map(|tax| tax.jurisdiction.as_deref());
        if let Some(stray) = jurisdictions.iter().find(|name| levied().all(|known| known != name.as_ref())) {
            return Err(Error::unknown("jurisdiction on the rate card", stray.as_ref(), levied()));
        }
        let here = |tax: &Tax| {
            tax.jurisdiction
                .as_ref()
                .is_none_or(|levier| jurisdictions.iter().any(|name| name.as_ref() == levier))
        };
        let mut card = self.clone();
        card.taxes.retain(here);
        Ok(card)
    }

    /// The price a customer is charged for one unit: the card's price with the uplift of its kind, payable if there is one.
    ///
    /// # Errors
    /// A price out of range once it is raised.
    pub fn unit_price(&self, kind: LineKind, price: Money) -> Result<Money> {
        self.uplift.get(&kind).map_or(Ok(price), |uplift| uplift.on(price, self.rounding))
    }
}

fn entry<'a, T>(what: &str, entries: &'a BTreeMap<String, T>, name: &str) -> Result<&'a T> {
    entries.get(name).ok_or_else(|| Error::unknown(what, name, entries.keys().map(String::as_str)))
}
