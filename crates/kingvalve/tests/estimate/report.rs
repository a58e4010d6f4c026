//! The work report: readings against limits, in words and pictures.

use kingvalve::estimate::{Fact, Language, ReadingRow, UnitSystem, WorkReport};
use kingvalve::measure::{Interval, Level, Limits, Measured, Verdict};
use kingvalve::quantity::*;
use proptest::prelude::*;

use super::support::golden;

fn superheat(value: f64, doubt: f64) -> Verdict<TemperatureDifference> {
    let measured =
        Measured::from_standard(delta_fahrenheit(value), delta_fahrenheit(doubt), "gauge").unwrap();
    let limits = Limits::between(delta_fahrenheit(8.0), delta_fahrenheit(12.0)).unwrap();
    limits.judge(&measured, Level::default()).unwrap()
}

fn capacitor() -> Verdict<Capacitance> {
    let measured = Measured::from_standard(microfarads(6.2), microfarads(0.1), "meter").unwrap();
    Limits::at_least(microfarads(6.75)).unwrap().judge(&measured, Level::default()).unwrap()
}

fn report(units: UnitSystem) -> WorkReport {
    let suction = Measured::from_standard(psig(119.0), psi(1.2), "gauge").unwrap();
    WorkReport {
        shop: "Invented Air Service".into(),
        facts: vec![Fact::new("Prepared for", "A. Sample")],
        said: vec!["It runs but does not cool.".into()],
        readings: vec![
            ReadingRow::judged("Superheat", &superheat(10.0, 0.5), units),
            ReadingRow::judged("Superheat again", &superheat(12.1, 0.5), units),
            ReadingRow::judged("Run capacitor, fan", &capacitor(), units),
            ReadingRow::measured("Suction pressure", &suction, units),
            ReadingRow::between(
                "Charge",
                Interval::new(pounds(0.4), pounds(1.2)).unwrap(),
                Some(pounds(6.9)),
                units,
            ),
        ],
        found: vec!["The fan section is weak.".into()],
        open: vec!["Where the refrigerant went.".into()],
        charged: vec![Fact::new("Put in", units.text(pounds(6.35)))],
        done: vec!["Weighed in refrigerant.".into()],
        next: vec!["Superheat, in 30 days.".into()],
        recommendation: Some("Find the leak.".into()),
        follow_up: Some("2026-08-14".into()),
        cautions: vec!["Live voltage.".into()],
        ..WorkReport::default()
    }
}

#[test]
fn the_forms_are_these() {
    golden("report.en.txt", &report(UnitSystem::Us).to_text());
    golden("report.en.md", &report(UnitSystem::Us).to_markdown());
    let spanish = WorkReport { language: Language::Spanish, ..report(UnitSystem::Si) };
    golden("report.es.txt", &spanish.to_text());
}

#[test]
fn a_picture_says_what_the_row_says() {
    let html = report(UnitSystem::Us).to_html().unwrap();
    assert_eq!(html.matches("<svg").count(), 5);
    assert!(html.contains(r#"aria-label="10.0 ± 1.0 °F, should be 8.0 to 12.0 °F: within""#));
    assert!(html.contains(r#"aria-label="0.4–1.2 lb, should be at least 6.9 lb: outside""#));
    assert_eq!(html.matches(r#"class="verdict outside""#).count(), 2);
    assert_eq!(html.matches(r#"class="verdict unresolved""#).count(), 1);
    for outside in ["<script", "<link", "http:", "https:", "url(", "@import", "src="] {
        assert!(!html.contains(outside), "{outside}");
    }
}

#[test]
fn hostile_text_stays_text() {
    let hostile = "<script>alert(1)</script>\u{202E}\u{0}# [x](javascript:y) **b** {{ shop }}";
    let mut report = report(UnitSystem::Us);
    report.shop = hostile.into();
    report.found = vec![hostile.into()];
    report.readings = vec![ReadingRow::judged(hostile, &capacitor(), UnitSystem::Us)];
    let html = report.to_html().unwrap();
    assert!(!html.contains("<script") && html.contains("{{ shop }}"));
    let markdown = report.to_markdown();
    assert!(
        markdown.contains(r"\<script\>") && markdown.contains(r"\[x\](javascript:y) \*\*b\*\*"),
        "{markdown}"
    );
    for text in [html, report.to_text(), markdown] {
        assert!(!text.chars().any(|c| (c.is_control() && c != '\n') || c == '\u{202E}'));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn any_reading_has_a_picture_that_stays_inside(value in -1e6..1e6_f64, doubt in 0.0..1e5_f64) {
        let row = ReadingRow::judged("x", &superheat(value, doubt), UnitSystem::Us);
        let html = WorkReport { readings: vec![row], ..WorkReport::default() }.to_html().unwrap();
        prop_assert!(html.contains("<svg") && !html.contains("NaN") && !html.contains("inf"));
        for part in html.split("x=\"").skip(1).chain(html.split("width=\"").skip(1)) {
            let number = part.split('"').next().and_then(|text| text.parse::<f64>().ok());
            if let Some(number) = number {
                prop_assert!((0.0..=200.0).contains(&number), "{}", number);
            }
        }
    }
}
