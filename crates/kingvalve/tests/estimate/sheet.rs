//! The options sheet: what stands on it, and what can do no harm there.

use kingvalve::estimate::{
    Consent, Fact, Language, OptionsSheet, Paper, Percent, PricedWay, Situation, Templates, UnitSystem, Way,
    Words, Work,
};
use kingvalve::measure::Interval;
use kingvalve::quantity::pounds;
use proptest::prelude::*;

use super::support::{card, golden, money};

fn ways() -> Vec<PricedWay> {
    let mut situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5)).unwrap());
    situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
    situation.ways().iter().map(|way| way.price(&card()).unwrap()).collect()
}

fn sheet() -> OptionsSheet {
    OptionsSheet {
        shop: card().shop,
        shop_lines: vec![
            "12 Example Street, Anytown".into(),
            "An invented shop and an invented customer".into(),
        ],
        title: "Your options: no cooling".into(),
        facts: vec![Fact::new("Prepared for", "A. Sample"), Fact::new("Equipment", "3-ton split, R-454B")],
        known: vec![
            "The outdoor unit runs; the air is not cooled.".into(),
            "4.1 to 6.5 lb are missing.".into(),
        ],
        unknown: vec!["Where the refrigerant went.".into(), "How fast it leaks.".into()],
        ways: ways(),
        advice: Some("Find the leak first (D).".into()),
        cautions: vec!["R-454B is mildly flammable (A2L): no flames near the units.".into()],
        terms: vec!["Prices hold for 14 days.".into()],
        ..OptionsSheet::default()
    }
}

fn agreed() -> Consent {
    Consent {
        way: "recharge".into(),
        up_to: money("850.00 USD"),
        by: "A. Sample".into(),
        on: "2025-07-18".into(),
    }
}

#[test]
fn the_text_forms_are_these() {
    let sheet = OptionsSheet { consent: Some(agreed()), ..sheet() };
    golden("options.en.txt", &sheet.to_text().unwrap());
    golden("options.en.md", &sheet.to_markdown().unwrap());
}

/// In Spanish, in kilograms, with the capacitor besides and the likely price.
fn spanish() -> OptionsSheet {
    let missing = Interval::new(pounds(4.1), pounds(6.5)).unwrap();
    let mut situation =
        Situation { language: Language::Spanish, units: UnitSystem::Si, ..Situation::new("R-454B", missing) };
    situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
    let price = |way: &Way| {
        let priced = way.price_with(&card(), &card().additions).unwrap();
        priced.with_likely(way.likely(&card(), 500, 1).unwrap()).unwrap()
    };
    OptionsSheet {
        shop: card().shop,
        known: vec!["Faltan de 1.86 a 2.95 kg.".into()],
        unknown: vec!["Adónde fue.".into()],
        ways: situation.ways_of(&card()).iter().map(price).collect(),
        language: Language::Spanish,
        labels: card().labels[&Language::Spanish].clone(),
        ..OptionsSheet::default()
    }
}

#[test]
fn the_spanish_forms_are_these() {
    golden("options.es.txt", &spanish().to_text().unwrap());
    golden("options.es.md", &spanish().to_markdown().unwrap());
    let html = spanish().to_html().unwrap();
    assert!(
        html.contains("<html lang=\"es\">")
            && html.contains("Lo que sabemos")
            && html.contains("Filtro secador")
    );
    assert!(html.contains("90 % probable: $") && html.contains("un capacitor de marcha nuevo: $"));
    for english in ["What", "Sales tax", "Trip", "Not known", "up to ", "tax included"] {
        assert!(!html.contains(english), "{english}");
    }
}

#[test]
fn a_shop_replaces_a_template() {
    let own = Templates::new().unwrap().replaced("options.html", "{{ shop }}: {{ ways[1].price }}").unwrap();
    assert_eq!(sheet().to_html_by(&own).unwrap(), "Invented Air Service: $593.23–$871.22");
    let error = Templates::new().unwrap().replaced("option.html", "x").unwrap_err();
    assert!(error.to_string().contains("did you mean options.html?"), "{error}");
    assert!(Templates::new().unwrap().replaced("options.html", "{% if %}").unwrap_err().is_unreadable());
    for name in Templates::names() {
        assert!(!Templates::text(name).unwrap().is_empty());
    }
}

#[test]
fn the_text_form_keeps_to_its_width() {
    let long = "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch".repeat(4);
    let sheet = OptionsSheet { shop: long.clone(), known: vec![long], ..sheet() };
    assert!(sheet.to_text().unwrap().lines().all(|line| line.chars().count() <= 78));
}

#[test]
fn every_amount_stands_on_the_page() {
    let html = sheet().to_html().unwrap();
    for amount in [
        "$89.00",
        "$593.23–$871.22",
        "$20.23–$29.22",
        "$8,225.50–$10,853.13",
        "$7,400.00–$9,850.00",
        "up to $1,780.02",
    ] {
        assert!(html.contains(amount), "{amount}");
    }
    assert!(html.contains("4.5–6.5 lb × $62.00"));
    assert!(html.contains("in USD, tax included"));
}

#[test]
fn the_page_stands_alone_and_is_the_same_each_time() {
    let html = sheet().to_html().unwrap();
    assert_eq!(html, sheet().to_html().unwrap());
    assert!(html.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
    for outside in ["<script", "<link", "http:", "https:", "url(h", "@import", "src="] {
        assert!(!html.contains(outside), "{outside}");
    }
    for part in ["<caption>", "scope=\"col\"", "role=\"img\" aria-label=\"$149.00\"", "<h1>", "<main>"] {
        assert!(html.contains(part), "{part}");
    }
}

#[test]
fn the_paper_is_the_one_asked_for() {
    let page = |paper| OptionsSheet { paper, ..sheet() }.to_html().unwrap();
    assert!(page(Paper::Letter).contains("size: letter portrait"));
    assert!(page(Paper::A4).contains("size: A4 portrait"));
}

#[test]
fn a_consent_is_ticked_and_signed() {
    let html = OptionsSheet { consent: Some(agreed()), ..sheet() }.to_html().unwrap();
    assert_eq!(html.matches('✓').count(), 2); // beside the way, and in its box
    assert_eq!(html.matches("(chosen)").count(), 1);
    assert!(html.contains("up to $850.00") && html.contains("A. Sample") && html.contains("2025-07-18"));
    assert!(!sheet().to_html().unwrap().contains('✓'));
}

#[test]
fn a_sheet_that_does_not_hold_together_is_refused() {
    let refused = |sheet: OptionsSheet| sheet.to_html().unwrap_err().to_string();
    assert_eq!(
        refused(OptionsSheet { ways: Vec::new(), ..sheet() }),
        "ways: number of ways 0 is out of range: 1 to 26; offer at least one, and letter them all"
    );
    let twice = [ways(), ways()].concat();
    assert_eq!(
        refused(OptionsSheet { ways: twice, ..sheet() }),
        "ways[5]: way: two are named \"leave as is\"; rename one"
    );
    let unknown = Consent { way: "recharg".into(), ..agreed() };
    assert_eq!(
        refused(OptionsSheet { consent: Some(unknown), ..sheet() }),
        "consent.way: unknown way \"recharg\"; did you mean recharge?"
    );
    let too_little = Consent { up_to: money("100.00 USD"), ..agreed() };
    let error = refused(OptionsSheet { consent: Some(too_little), ..sheet() });
    assert!(
        error.starts_with("consent.not_to_exceed: not-to-exceed amount 100.00 USD is out of range"),
        "{error}"
    );
    let mut canadian = card();
    canadian.currency = "CAD".parse().unwrap();
    (canadian.labor, canadian.fees, canadian.materials) = Default::default();
    (canadian.refrigerants, canadian.replacements, canadian.memberships) = Default::default();
    canadian.deposit = None;
    canadian.additions.clear();
    let nothing =
        Way { name: "none".into(), title: "None".into(), work: Work::default(), words: Words::default() };
    let mixed = [ways(), vec![nothing.price(&canadian).unwrap()]].concat();
    assert_eq!(
        refused(OptionsSheet { ways: mixed, ..sheet() }),
        "ways[5]: money: 149.00 USD and 0.00 CAD are two currencies; keep one currency in an estimate"
    );
}

#[test]
fn a_sheet_written_reads_back() {
    let sheet = OptionsSheet { consent: Some(agreed()), ..sheet() };
    let json = serde_json::to_string(&sheet).unwrap();
    assert_eq!(serde_json::from_str::<OptionsSheet>(&json).unwrap(), sheet);
    assert!(serde_json::from_str::<OptionsSheet>(&json.replacen("\"known\"", "\"knwon\"", 1)).is_err());
}

#[test]
fn tax_that_prices_contain_is_shown_and_not_added() {
    let mut card = card();
    card.taxes[0].included = true;
    card.taxes[0].rate = "10 %".parse::<Percent>().unwrap();
    let ways: Vec<PricedWay> = ways_by(&card);
    assert_eq!(ways[1].total(), ways[1].subtotal());
    let html = OptionsSheet { ways, ..sheet() }.to_html().unwrap();
    assert!(html.contains("Sales tax 10%, contained in the lines"));
}

fn ways_by(card: &kingvalve::estimate::RateCard) -> Vec<PricedWay> {
    let situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5)).unwrap());
    situation.ways().iter().map(|way| way.price(card).unwrap()).collect()
}

#[test]
fn hostile_text_stays_text() {
    let hostile = "<script>alert('x')</script>\u{202E}&lt;\u{0}\u{7}\n{{ shop }}{% include 'x' %}\"><img src=x onerror=y>\u{200F}";
    let sheet = OptionsSheet {
        shop: hostile.into(),
        shop_lines: vec![hostile.into()],
        title: hostile.into(),
        facts: vec![Fact::new(hostile, hostile)],
        known: vec![hostile.into()],
        unknown: vec![hostile.into()],
        advice: Some(hostile.into()),
        cautions: vec![hostile.into()],
        terms: vec![hostile.into()],
        consent: Some(Consent { by: hostile.into(), on: hostile.into(), ..agreed() }),
        ..sheet()
    };
    let html = sheet.to_html().unwrap();
    assert!(!html.contains("<script") && !html.contains("<img"));
    assert!(html.contains("&lt;script&gt;") && html.contains("{{ shop }}") && html.contains("&amp;lt;"));
    for text in [html, sheet.to_text().unwrap()] {
        assert!(!text.chars().any(|c| (c.is_control() && c != '\n') || "\u{202E}\u{200F}".contains(c)));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn any_text_makes_a_page_with_the_same_tags(texts in prop::collection::vec(".{0,80}", 9)) {
        let filled = |texts: &[String]| OptionsSheet {
            shop: texts[0].clone(),
            shop_lines: vec![format!("a{}", texts[1])],
            title: texts[2].clone(),
            facts: vec![Fact::new(&texts[3], &texts[4])],
            known: vec![format!("a{}", texts[5])],
            unknown: vec![format!("a{}", texts[6])],
            advice: Some(format!("a{}", texts[7])),
            cautions: vec![format!("a{}", texts[8])],
            ..sheet()
        };
        let html = filled(&texts).to_html().unwrap();
        let plain = filled(&vec!["x".to_owned(); 9]).to_html().unwrap();
        prop_assert_eq!(html.matches('<').count(), plain.matches('<').count());
        prop_assert_eq!(html.matches('>').count(), plain.matches('>').count());
    }
}
