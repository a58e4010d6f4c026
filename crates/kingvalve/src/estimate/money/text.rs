//! Money as text (`123.45 USD`) and as JSON (`{"amount": "123.45", "currency": "USD"}`).

use std::fmt;
use std::str::FromStr;

use rust_decimal::Decimal;
use serde::de::value::MapAccessDeserializer;
use serde::ser::SerializeStruct;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::Money;
use crate::estimate::Currency;
use crate::{Error, Result};

const ADVICE: &str = "write the amount, a space and the ISO 4217 code: 123.45 USD";

impl Money {
    /// The amount as written: every place of the minor unit, and more only if the amount is finer.
    pub(in crate::estimate) fn amount_text(self) -> String {
        let places = self.amount.scale().max(self.currency.minor_units()) as usize;
        format!("{:.places$}", self.amount)
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{} {}", self.amount_text(), self.currency))
    }
}

/// Reads a plain decimal: an optional minus, digits, an optional point and digits. No exponent, no separators.
pub(in crate::estimate) fn plain_decimal(text: &str) -> Option<Decimal> {
    let digits = text.strip_prefix('-').unwrap_or(text);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
    let plain = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    (plain(whole) && plain(part)).then(|| Decimal::from_str_exact(text).ok())?
}

impl FromStr for Money {
    type Err = Error;

    /// Reads `123.45 USD`.
    ///
    /// # Errors
    /// Not an amount and a code with one space between; an unknown code; an amount out of range.
    fn from_str(text: &str) -> Result<Self> {
        let unreadable = || Error::unreadable("money", text, ADVICE);
        let (amount, code) = text.split_once(' ').ok_or_else(unreadable)?;
        let amount = plain_decimal(amount).ok_or_else(unreadable)?;
        Self::new(amount, code.parse()?)
    }
}

impl Serialize for Money {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut object = serializer.serialize_struct("Money", 2)?;
        object.serialize_field("amount", &self.amount_text())?;
        object.serialize_field("currency", &self.currency)?;
        object.end()
    }
}

/// The object form, read.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Fields {
    amount: AmountText,
    currency: Currency,
}

/// A decimal that must be text: a JSON number may already have been through a binary float.
struct AmountText(Decimal);

impl<'de> Deserialize<'de> for AmountText {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = std::borrow::Cow::<str>::deserialize(deserializer)?;
        let unreadable = || Error::unreadable("a decimal amount", &*text, "write digits as text: \"123.45\"");
        plain_decimal(&text).map(Self).ok_or_else(unreadable).map_err(de::Error::custom)
    }
}

struct MoneyVisitor;

impl<'de> de::Visitor<'de> for MoneyVisitor {
    type Value = Money;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(r#"money as "123.45 USD" or {"amount": "123.45", "currency": "USD"}"#)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Money, E> {
        text.parse().map_err(E::custom)
    }

    fn visit_map<A: de::MapAccess<'de>>(self, map: A) -> Result<Money, A::Error> {
        let Fields { amount, currency } = Fields::deserialize(MapAccessDeserializer::new(map))?;
        Money::new(amount.0, currency).map_err(de::Error::custom)
    }
}

impl<'de> Deserialize<'de> for Money {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(MoneyVisitor)
    }
}
