//! Money and taxes against Python's `decimal`, ISO 4217 and published guidance.
#![allow(clippy::unwrap_used)]

use kingvalve::estimate::{Currency, Decimal, LineKind, Money, Rounding, Tax, TaxBasis};
use kingvalve_tests::{Answer, Row, Table};

fn money(amount: &str, row: &Row) -> Money {
    format!("{amount} {}", row.text("in_currency")).parse().unwrap()
}

fn decimal(row: &Row, column: &str) -> Decimal {
    row.text(column).parse().unwrap()
}

fn rounding(row: &Row) -> Rounding {
    serde_json::from_value(row.text("in_rule").into()).unwrap()
}

/// The amount alone, as the tables write it.
fn digits(money: Money) -> Answer {
    let text = money.to_string();
    Answer::Text(text.split(' ').next().unwrap().to_owned())
}

#[test]
fn products_and_shares_round_as_in_python() {
    Table::open("estimate_rounding").check(|row| {
        let (amount, rounding) = (money(row.text("in_amount"), row), rounding(row));
        let (part, whole) = (decimal(row, "in_part"), decimal(row, "in_whole"));
        let share = amount.share(part, whole, rounding).unwrap();
        if whole == Decimal::ONE {
            assert_eq!(amount.times(part, rounding).unwrap(), share, "{}", row.place());
        }
        digits(share)
    });
}

#[test]
fn minor_units_are_those_of_the_published_list() {
    let mut listed = 0;
    Table::open("iso4217_minor_units").check(|row| match (row.text("in_code"), row.get("exp_minor_units")) {
        (code, None) => {
            assert!(code.parse::<Currency>().unwrap_err().is_unknown_name(), "{code}");
            Answer::LeftOut("the list states no minor unit, and nobody is billed in it")
        }
        (code, Some(_)) => {
            listed += 1;
            let currency: Currency = code.parse().unwrap();
            Answer::Text(currency.minor_units().to_string())
        }
    });
    assert_eq!(Currency::all().count(), listed);
}

#[test]
fn published_tax_examples_come_out_to_the_cent() {
    Table::open("tax_examples").check(|row| {
        let currency: Currency = row.text("in_currency").parse().unwrap();
        let amounts: Vec<Money> =
            row.text("in_amounts").split(';').map(|amount| money(amount, row)).collect();
        let basis: TaxBasis = serde_json::from_value(row.text("in_basis").into()).unwrap();
        let taxes = row.text("in_rates").split(';').map(|rate| {
            let tax = Tax {
                name: "tax".into(),
                jurisdiction: None,
                rate: rate.parse().unwrap(),
                on: LineKind::ALL.into(),
                rounding: rounding(row),
                basis,
                included: false,
            };
            tax.amount(currency, amounts.iter().copied()).unwrap()
        });
        let tax = Money::sum(currency, taxes).unwrap();
        let before = Money::sum(currency, amounts.iter().copied()).unwrap();
        digits(if row.get("exp_tax").is_some() { tax } else { before.plus(tax).unwrap() })
    });
}
