//! Amounts as people read them.

use rust_decimal::Decimal;

use crate::estimate::{Currency, Language, Money, PriceRange};

/// The sign in front of an amount, where a currency has one that its own country takes for granted; the code stands on the
/// sheet once besides. Common practice, no source.
fn sign(currency: Currency) -> &'static str {
    match currency.code() {
        "USD" | "CAD" | "MXN" | "AUD" | "NZD" => "$",
        "EUR" => "€",
        "GBP" => "£",
        _ => "",
    }
}

/// `$10,853.13`: a sign if there is one, and commas between thousands.
pub(super) fn amount(money: Money) -> String {
    let text = money.amount_text();
    let (minus, digits) = text.strip_prefix('-').map_or(("", text.as_str()), |digits| ("−", digits));
    let (whole, part) = digits.split_once('.').map_or((digits, None), |(whole, part)| (whole, Some(part)));
    let mut figure = format!("{minus}{}", sign(money.currency()));
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index) % 3 == 0 {
            figure.push(',');
        }
        figure.push(digit);
    }
    part.map_or_else(|| figure.clone(), |part| format!("{figure}.{part}"))
}

/// `593.23 to 871.22 USD`, for plain text.
pub(super) fn plain_range(range: PriceRange, language: Language) -> String {
    let text = range.to_string();
    match text.split_once('–') {
        Some((low, high)) => language.visit("to", &[("low", low), ("high", high)]),
        None => text,
    }
}

/// `$593.23–$871.22`, or one amount where both ends are the same.
pub(super) fn range(range: PriceRange) -> String {
    let low = amount(range.low());
    if range.is_exact() { low } else { format!("{low}–{}", amount(range.high())) }
}

/// A statistic as people take it in: whole units, and three digits of what is more than a thousand.
pub(super) fn about(money: Money) -> String {
    let whole = money.amount().round();
    let rounded =
        if whole.abs() < Decimal::ONE_THOUSAND { whole } else { whole.round_sf(3).unwrap_or(whole) };
    Money::new(rounded, money.currency()).map_or_else(|_| amount(money), |money| whole_units(&amount(money)))
}

/// A printed amount of whole units without its zero places.
pub(super) fn whole_units(printed: &str) -> String {
    printed.split_once('.').map_or(printed, |(whole, _)| whole).to_owned()
}
