//! The invoice: one amount, within what was agreed, less what is paid.

use kingvalve::estimate::{
    Consent, Fact, Invoice, Item, Language, Payment, PricedWay, Situation, Way, Words, Work,
};
use kingvalve::measure::Interval;
use kingvalve::quantity::{hours, pounds};

use super::support::{card, golden, money};

/// 1.5 h and 6.35 lb: as it was done.
fn bill() -> PricedWay {
    let exactly = Interval::exactly(pounds(6.35)).unwrap();
    let mut situation = Situation::new("R-454B", exactly);
    situation.hours.recharge = Interval::exactly(hours(1.5)).unwrap();
    situation.recharge().price(&card().for_member("comfort plan").unwrap()).unwrap()
}

fn invoice() -> Invoice {
    Invoice {
        shop_lines: vec!["12 Example Street, Anytown".into()],
        facts: vec![Fact::new("Number", "2026-0001"), Fact::new("For", "A. Sample")],
        paid: vec![Payment {
            what: "deposit, card".into(),
            on: "2026-07-14".into(),
            amount: money("200.00 USD"),
        }],
        refrigerant: vec![Fact::new("Put in", "6.35 lb")],
        consent: Some(Consent {
            way: "recharge".into(),
            up_to: money("904.47 USD"),
            by: "A. Sample".into(),
            on: "2026-07-14".into(),
        }),
        terms: vec!["Payable within 14 days.".into()],
        ..Invoice::of(card().shop, bill())
    }
}

#[test]
fn the_forms_are_these() {
    golden("invoice.en.txt", &invoice().to_text().unwrap());
    golden("invoice.en.md", &invoice().to_markdown().unwrap());
    let labels = card().labels[&Language::Spanish].clone();
    let spanish = Invoice { language: Language::Spanish, labels, ..invoice() };
    golden("invoice.es.txt", &spanish.to_text().unwrap());
}

/// By hand: fees 149 less 89 less 6; 1.5 h at 145 less 10 %; 6.5 lb at 62; 7.25 % on 403.
#[test]
fn the_balance_is_what_is_left() {
    assert_eq!(bill().total().to_string(), "681.97 USD"); // 54 + 195.75 + 403 + 29.22
    assert_eq!(invoice().balance().unwrap(), money("481.97 USD"));
    let over = Payment { what: "card".into(), on: "now".into(), amount: money("500.00 USD") };
    let paid = Invoice { paid: vec![over.clone(), over], ..invoice() };
    assert_eq!(paid.balance().unwrap(), money("-318.03 USD"));
    assert!(paid.to_html().unwrap().contains("Owed to you"));
}

#[test]
fn a_range_is_no_bill() {
    let range = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5)).unwrap()).recharge();
    let error = Invoice::of("x", range.price(&card()).unwrap()).to_html().unwrap_err();
    assert!(error.is_inconsistent() && error.to_string().contains("bill what was done"), "{error}");
}

#[test]
fn nothing_is_billed_beyond_what_was_agreed() {
    let mut invoice = invoice();
    if let Some(consent) = &mut invoice.consent {
        consent.up_to = money("681.96 USD");
    }
    let error = invoice.to_html().unwrap_err();
    assert_eq!(
        error.to_string(),
        "consent.up_to: total 681.97 USD is out of range: A. Sample agreed to up to 681.96 USD; ask before more is done, \
         and put the new amount into the consent"
    );
}

#[test]
fn another_currency_is_no_payment() {
    let paid = vec![Payment { what: "cash".into(), on: "now".into(), amount: money("1.00 CAD") }];
    assert!(Invoice { paid, ..invoice() }.balance().unwrap_err().is_inconsistent());
}

#[test]
fn hostile_text_stays_text() {
    let hostile = "<img src=x onerror=y>\u{202E}\u{7}{% include 'x' %}";
    let work = Work { fees: vec![Item::one("trip")], ..Work::default() };
    let words = Words { warranty: vec![hostile.into()], ..Words::default() };
    let bill = Way { name: "x".into(), title: hostile.into(), work, words }.price(&card()).unwrap();
    let invoice = Invoice {
        facts: vec![Fact::new(hostile, hostile)],
        terms: vec![hostile.into()],
        ..Invoice::of(hostile, bill)
    };
    let html = invoice.to_html().unwrap();
    assert!(!html.contains("<img") && html.contains("&lt;img") && html.contains("{% include"));
    for text in [html, invoice.to_text().unwrap(), invoice.to_markdown().unwrap()] {
        assert!(!text.chars().any(|c| (c.is_control() && c != '\n') || c == '\u{202E}'));
    }
}
