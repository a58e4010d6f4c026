//! Money, currencies and rounding.

use kingvalve::estimate::{Currency, Decimal, Money, Percent, PriceRange, Rounding};
use proptest::prelude::*;

use super::support::{any_currency, any_decimal, any_money, any_rounding, decimal, money};

proptest! {
    #[test]
    fn what_is_printed_reads_back(amount in any_decimal(15, 9), currency in any_currency()) {
        let amount = Money::new(amount, currency).unwrap();
        prop_assert_eq!(amount.to_string().parse::<Money>().unwrap(), amount);
        let json = serde_json::to_string(&amount).unwrap();
        prop_assert_eq!(serde_json::from_str::<Money>(&json).unwrap(), amount);
        let text = serde_json::to_string(&amount.to_string()).unwrap();
        prop_assert_eq!(serde_json::from_str::<Money>(&text).unwrap(), amount);
    }

    #[test]
    fn a_rate_printed_reads_back(millionths in 0_i64..=1_000_000_000) {
        let rate = Percent::new(Decimal::new(millionths, 6)).unwrap();
        prop_assert_eq!(rate.to_string().parse::<Percent>().unwrap(), rate);
        prop_assert_eq!(rate.fraction() * Decimal::ONE_HUNDRED, Decimal::new(millionths, 6));
    }

    #[test]
    fn a_sum_taken_apart_leaves_its_parts(a in any_money(Currency::USD), b in any_money(Currency::USD)) {
        let sum = a.plus(b).unwrap();
        prop_assert_eq!(sum, b.plus(a).unwrap());
        prop_assert_eq!(sum.minus(b).unwrap(), a);
        prop_assert_eq!(sum.minus(a).unwrap(), b);
    }

    #[test]
    fn two_currencies_never_mix(a in any_money(Currency::USD), b in any_money(Currency::CAD)) {
        prop_assert!(a.plus(b).unwrap_err().is_inconsistent());
        prop_assert!(a.minus(b).unwrap_err().is_inconsistent());
        prop_assert!(PriceRange::new(a, b).unwrap_err().is_inconsistent());
        prop_assert!(Money::sum(Currency::USD, [a, b]).is_err());
        prop_assert_eq!(a.partial_cmp(&b), None);
    }

    #[test]
    fn rounding_is_payable_close_and_once(
        amount in any_decimal(13, 9), currency in any_currency(), rounding in any_rounding(),
    ) {
        let amount = Money::new(amount, currency).unwrap();
        let payable = amount.rounded(rounding).unwrap();
        prop_assert!(payable.is_payable());
        prop_assert_eq!(payable.rounded(rounding).unwrap(), payable);
        let unit = Decimal::new(1, currency.minor_units());
        let off = (payable.amount() - amount.amount()).abs();
        match rounding {
            Rounding::Up | Rounding::Down => prop_assert!(off < unit),
            _ => prop_assert!(off * Decimal::TWO <= unit),
        }
        if rounding == Rounding::Up { prop_assert!(payable.amount().abs() >= amount.amount().abs()) }
        if rounding == Rounding::Down { prop_assert!(payable.amount().abs() <= amount.amount().abs()) }
    }

    #[test]
    fn rounding_keeps_order(a in any_money(Currency::USD), b in any_money(Currency::USD), rounding in any_rounding()) {
        let (low, high) = if a <= b { (a, b) } else { (b, a) };
        prop_assert!(low.rounded(rounding).unwrap() <= high.rounded(rounding).unwrap());
    }

    #[test]
    fn a_share_of_one_is_the_product(
        amount in any_money(Currency::USD), part in any_decimal(1, 6), rounding in any_rounding(),
    ) {
        let product = amount.times(part, rounding).unwrap();
        prop_assert_eq!(amount.share(part, Decimal::ONE, rounding).unwrap(), product);
        prop_assert_eq!(amount.share(Decimal::TEN, Decimal::TEN, rounding).unwrap(), amount.rounded(rounding).unwrap());
    }

    #[test]
    fn twice_as_many_of_a_payable_price_is_twice_the_amount(cents in -9_999_999_i64..9_999_999, count in 0_i64..5_000) {
        let price = Money::new(Decimal::new(cents, 2), Currency::USD).unwrap();
        let once = price.times(count.into(), Rounding::HalfUp).unwrap();
        let twice = price.times((2 * count).into(), Rounding::HalfUp).unwrap();
        prop_assert_eq!(twice, once.plus(once).unwrap());
    }

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,40}") {
        let _ = text.parse::<Money>();
        let _ = text.parse::<Percent>();
        let _ = serde_json::from_str::<Money>(&text);
    }
}

#[test]
fn the_constants_are_those_of_the_list() {
    for currency in [Currency::USD, Currency::CAD, Currency::MXN, Currency::EUR, Currency::GBP] {
        assert_eq!(currency.code().parse::<Currency>().unwrap(), currency);
    }
}

#[test]
fn money_is_written_with_every_place_of_its_minor_unit() {
    for (given, written) in [
        ("5 USD", "5.00 USD"),
        ("5.10 USD", "5.10 USD"),
        ("18.625 USD", "18.625 USD"),
        ("-0 USD", "0.00 USD"),
        ("-0.5 KWD", "-0.500 KWD"),
        ("1234 JPY", "1234 JPY"),
    ] {
        assert_eq!(money(given).to_string(), written);
    }
    let json = serde_json::to_string(&money("5.1 USD")).unwrap();
    assert_eq!(json, r#"{"amount":"5.10","currency":"USD"}"#);
}

#[test]
fn unreadable_money_says_how_to_write_it() {
    for text in [
        "12",
        "USD 12",
        "12USD",
        "12  USD",
        "$12",
        "1,200.00 USD",
        "1e3 USD",
        ".5 USD",
        "5. USD",
        "+5 USD",
        "NaN USD",
        "",
    ] {
        let error = text.parse::<Money>().unwrap_err();
        assert!(error.is_unreadable() || error.is_unknown_name(), "{text}: {error}");
    }
    assert_eq!(
        "12 dollars".parse::<Money>().unwrap_err().to_string(),
        r#"unknown ISO 4217 currency "dollars""#
    );
    assert_eq!(
        "12,50 USD".parse::<Money>().unwrap_err().to_string(),
        r#"cannot read "12,50 USD" as money: write the amount, a space and the ISO 4217 code: 123.45 USD"#
    );
    assert_eq!(
        "1 usd".parse::<Money>().unwrap_err().to_string(),
        r#"unknown ISO 4217 currency "usd"; did you mean USD, BSD or RSD?"#
    );
}

#[test]
fn json_money_may_not_be_a_binary_number() {
    for json in [
        "12.5",
        r#"{"amount":12.5,"currency":"USD"}"#,
        r#"{"amount":"12.5"}"#,
        r#"{"amount":"12.5","currency":"USD","note":1}"#,
        r#"{"amount":"12.5","amount":"13","currency":"USD"}"#,
    ] {
        assert!(serde_json::from_str::<Money>(json).is_err(), "{json}");
    }
}

#[test]
fn amounts_out_of_range_are_refused_not_rounded() {
    assert!("1000000000000000 USD".parse::<Money>().unwrap_err().is_out_of_range());
    assert!("0.0000000001 USD".parse::<Money>().unwrap_err().is_out_of_range());
    let most = money("999999999999999.999999999 USD");
    assert!(most.plus(money("0.000000001 USD")).unwrap_err().is_out_of_range());
    assert!(most.times(decimal("1.0000001"), Rounding::HalfUp).unwrap_err().is_out_of_range());
    assert!(
        money("1 USD").share(Decimal::ONE, Decimal::ZERO, Rounding::HalfUp).unwrap_err().is_out_of_range()
    );
    for (text, reason) in [("-1 %", "negative"), ("1000.000001 %", "too much"), ("1.0000001 %", "too fine")] {
        assert!(text.parse::<Percent>().unwrap_err().is_out_of_range(), "{reason}");
    }
}
