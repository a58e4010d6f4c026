//! Discounts, memberships, deposits, jurisdictions: by hand.

use kingvalve::estimate::{
    Deposit, Discount, Item, LineKind, Off, PricedWay, RateCard, Rounding, Tax, TaxBasis, Way, Words, Work,
};

use super::support::{card, money};

/// Trip 89.00 and diagnosis 60.00, and a drier at 72.00 with 15 % on it: 82.80, taxed 7.25 %.
fn visit() -> Way {
    let work = Work {
        fees: vec![Item::one("trip"), Item::one("diagnosis")],
        materials: vec![Item::one("filter-drier")],
        ..Work::default()
    };
    Way { name: "drier".into(), title: "New drier".into(), work, words: Words::default() }
}

fn off(name: &str, off: Off, on: &[LineKind]) -> Discount {
    Discount {
        name: name.into(),
        off,
        on: on.iter().copied().collect(),
        fees: Default::default(),
        member: None,
    }
}

fn printed(priced: &PricedWay) -> Vec<String> {
    let lines = priced.lines().iter().map(|line| format!("{} {}", line.description(), line.amount()));
    let offs = priced.discounts().iter().map(|off| format!("{} -{}", off.name, off.amount));
    let taxes = priced.taxes().iter().map(|tax| format!("{} {}", tax.name, tax.amount));
    lines.chain(offs).chain(taxes).chain([format!("total {}", priced.total())]).collect()
}

#[test]
fn a_membership_takes_off_before_tax() {
    let priced = visit().price(&card().for_member("comfort plan").unwrap()).unwrap();
    assert_eq!(
        printed(&priced),
        [
            "Trip 89.00 USD",
            "Diagnosis 60.00 USD",
            "Filter-drier 82.80 USD",
            "comfort plan: no trip fee -89.00 USD",
            "comfort plan: 10 % off work and fees -6.00 USD",
            "Sales tax 6.00 USD", // 7.25 % of 82.80 is 6.003
            "total 142.80 USD",
        ]
    );
}

#[test]
fn tax_is_on_what_a_discount_leaves() {
    let discounts = vec![off("Ten off parts", Off::Amount(money("10.00 USD")), &[LineKind::Material])];
    let priced = visit().price(&RateCard { discounts, ..card() }).unwrap();
    assert_eq!(priced.taxes()[0].amount.to_string(), "5.28 USD"); // 7.25 % of 72.80
    assert_eq!(priced.total().to_string(), "227.08 USD");
}

#[test]
fn a_discount_takes_no_more_than_there_is() {
    let discounts = vec![off("Much", Off::Amount(money("500.00 USD")), &[LineKind::Fee])];
    let priced = visit().price(&RateCard { discounts, ..card() }).unwrap();
    assert_eq!(priced.discounts()[0].amount.to_string(), "149.00 USD");
    assert_eq!(priced.total().to_string(), "88.80 USD");
}

#[test]
fn shares_follow_one_another() {
    let half = Off::Share("50 %".parse().unwrap());
    let discounts = vec![off("a", half, &[LineKind::Fee]), off("b", half, &[LineKind::Fee])];
    let priced = visit().price(&RateCard { discounts, ..card() }).unwrap();
    let taken: Vec<String> = priced.discounts().iter().map(|off| off.amount.to_string()).collect();
    assert_eq!(taken, ["74.50 USD", "37.25 USD"]);
}

#[test]
fn a_deposit_is_part_of_what_is_due_for_certain() {
    let deposit = |deposit| visit().price(&RateCard { deposit, ..card() }).unwrap().deposit();
    let ask = |ask| Some(Deposit { ask, from: None });
    assert_eq!(deposit(None), None);
    assert_eq!(deposit(ask(Off::Amount(money("1000.00 USD")))), Some(money("237.80 USD")));
    let quarter = Off::Share("25 %".parse().unwrap());
    assert_eq!(deposit(ask(quarter)), Some(money("59.45 USD")));
    let from = |from| Some(Deposit { ask: quarter, from: Some(money(from)) });
    assert_eq!(deposit(from("237.80 USD")), Some(money("59.45 USD")));
    assert_eq!(deposit(from("237.81 USD")), None);
}

#[test]
fn a_place_has_its_own_taxes() {
    let tax = |name: &str, jurisdiction: Option<&str>| Tax {
        name: name.into(),
        jurisdiction: jurisdiction.map(str::to_owned),
        rate: "10 %".parse().unwrap(),
        on: [LineKind::Material].into(),
        rounding: Rounding::HalfUp,
        basis: TaxBasis::Line,
        included: false,
    };
    let taxes = vec![tax("everywhere", None), tax("of A", Some("A")), tax("of B", Some("B"))];
    let card = RateCard { taxes, ..card() };
    let names = |card: RateCard| card.taxes.into_iter().map(|tax| tax.name).collect::<Vec<_>>();
    assert_eq!(names(card.for_place(&["B"]).unwrap()), ["everywhere", "of B"]);
    assert_eq!(names(card.for_place::<&str>(&[]).unwrap()), ["everywhere"]);
    assert!(card.for_place(&["C"]).unwrap_err().is_unknown_name());
}

#[test]
fn a_card_with_an_impossible_discount_is_refused() {
    let refused = |discount: Discount| {
        RateCard { discounts: vec![discount], ..card() }.validate().unwrap_err().to_string()
    };
    let share = Off::Share("100.5 %".parse().unwrap());
    assert_eq!(
        refused(off("x", share, &[LineKind::Fee])),
        "discounts[0].off.share: share 100.5 % is out of range: up to 100 %; nothing can be more than free"
    );
    let canadian = Off::Amount(money("1.00 CAD"));
    assert!(
        refused(off("x", canadian, &[LineKind::Fee])).starts_with("discounts[0].off.amount: price: 1.00 CAD")
    );
    assert!(refused(off("x", Off::Amount(money("1.00 USD")), &[])).contains("it is on nothing"));
    let stray =
        Discount { fees: ["tripp".to_owned()].into(), ..off("x", Off::Amount(money("1.00 USD")), &[]) };
    assert!(refused(stray).contains("did you mean trip?"));
    assert!(card().for_member("gold").unwrap_err().is_unknown_name());
}
