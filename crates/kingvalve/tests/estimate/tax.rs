//! Taxes: rules of law by name, and what holds for any rate.

use kingvalve::estimate::{Currency, Decimal, LineKind, Money, Percent, Rounding, Tax, TaxBasis};
use proptest::prelude::*;

use super::support::{any_rounding, money};

fn tax(rate: &str, rounding: Rounding, basis: TaxBasis, included: bool) -> Tax {
    let rate = rate.parse().unwrap();
    Tax { name: "tax".into(), jurisdiction: None, rate, on: LineKind::ALL.into(), rounding, basis, included }
}

/// Streamlined Sales and Use Tax Agreement § 324: carried to the third place, up when that is greater than four; the
/// seller may compute on an item or an invoice basis.
#[test]
fn the_third_place_decides_and_the_basis_can_matter() {
    let lines = [money("0.50 USD"), money("0.50 USD")];
    let by_line = tax("7 %", Rounding::HalfUp, TaxBasis::Line, false);
    let by_invoice = tax("7 %", Rounding::HalfUp, TaxBasis::Invoice, false);
    assert_eq!(by_line.amount(Currency::USD, lines).unwrap(), money("0.08 USD")); // 0.035 + 0.035, each up
    assert_eq!(by_invoice.amount(Currency::USD, lines).unwrap(), money("0.07 USD"));
    let third_place_four = tax("8.45 %", Rounding::HalfUp, TaxBasis::Invoice, false);
    assert_eq!(third_place_four.amount(Currency::USD, [money("1.00 USD")]).unwrap(), money("0.08 USD"));
}

/// Goods and Services Tax Act 1985 (New Zealand) s 19O: half a cent may be disregarded, more counts as one.
/// VAT Notice 700 (United Kingdom) 17.5: the total may be rounded down to a whole penny.
#[test]
fn other_rules_of_law_have_a_name() {
    let half_a_cent = [money("0.70 NZD")];
    let new_zealand = tax("15 %", Rounding::HalfDown, TaxBasis::Invoice, false);
    assert_eq!(new_zealand.amount("NZD".parse().unwrap(), half_a_cent).unwrap(), money("0.10 NZD"));
    let britain = tax("20 %", Rounding::Down, TaxBasis::Invoice, false);
    assert_eq!(britain.amount(Currency::GBP, [money("704.88 GBP")]).unwrap(), money("140.97 GBP"));
}

/// A New Tax System (Goods and Services Tax) Act 1999 (Australia): one eleventh of a price that contains 10 %.
#[test]
fn a_contained_tax_is_its_share_of_the_price() {
    let contained = tax("10 %", Rounding::HalfUp, TaxBasis::Invoice, true);
    let aud = "AUD".parse().unwrap();
    assert_eq!(contained.amount(aud, [money("110.00 AUD")]).unwrap(), money("10.00 AUD"));
    assert_eq!(contained.amount(aud, [money("99.99 AUD")]).unwrap(), money("9.09 AUD"));
}

proptest! {
    #[test]
    fn more_to_tax_is_never_less_tax(
        cents in prop::collection::vec(0_i64..5_000_000, 0..8), more in 0_i64..5_000_000,
        rate in 0_i64..300_000, rounding in any_rounding(), by_line: bool, included: bool,
    ) {
        let rate = Percent::new(Decimal::new(rate, 4)).unwrap().to_string();
        let basis = if by_line { TaxBasis::Line } else { TaxBasis::Invoice };
        let tax = tax(&rate, rounding, basis, included);
        let usd = |cents: i64| Money::new(Decimal::new(cents, 2), Currency::USD).unwrap();
        let lines: Vec<Money> = cents.iter().copied().map(usd).collect();
        let before = tax.amount(Currency::USD, lines.iter().copied()).unwrap();
        let after = tax.amount(Currency::USD, lines.iter().copied().chain([usd(more)])).unwrap();
        prop_assert!(after >= before);
        prop_assert!(before.is_payable() && !before.is_negative());
        if included { prop_assert!(before <= Money::sum(Currency::USD, lines).unwrap()) }
    }
}
