//! What the tests of the estimate share.

use kingvalve::estimate::{Currency, Decimal, Money, RateCard, Rounding};
use proptest::prelude::*;

pub fn money(text: &str) -> Money {
    text.parse().unwrap()
}

/// Holds a sheet's text to the file of that name; `UPDATE_GOLDEN=1` writes the file instead.
pub fn golden(name: &str, text: &str) {
    let file = format!("{}/tests/estimate/golden/{name}", env!("CARGO_MANIFEST_DIR"));
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&file, text).unwrap();
    }
    assert_eq!(text, std::fs::read_to_string(&file).unwrap(), "{name}");
}

pub fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

/// The invented shop of the examples.
pub fn card() -> RateCard {
    RateCard::from_json(include_str!("../../../../examples/data/rate_card.json")).unwrap()
}

pub fn any_rounding() -> impl Strategy<Value = Rounding> {
    prop::sample::select(Rounding::ALL.to_vec())
}

pub fn any_currency() -> impl Strategy<Value = Currency> {
    prop::sample::select(Currency::all().collect::<Vec<_>>())
}

/// Decimals of up to `digits` digits and up to `places` places.
pub fn any_decimal(digits: u32, places: u32) -> impl Strategy<Value = Decimal> {
    let most = 10_i64.pow(digits) - 1;
    (-most..=most, 0..=places).prop_map(|(mantissa, places)| Decimal::new(mantissa, places))
}

pub fn any_money(currency: Currency) -> impl Strategy<Value = Money> {
    any_decimal(14, 9).prop_map(move |amount| Money::new(amount, currency).unwrap())
}
