//! A visit from JSON to JSON, and what bad input is answered with.
#![allow(clippy::unwrap_used, clippy::panic)]

use kingvalve::Error;
use kingvalve::charge::StandingFinding;
use kingvalve::quantity::*;
use kingvalve::visit::Visit;
use serde_json::{Value, json};

const EMPTY: &str = include_str!("../../../examples/data/no_cool_r454b.json");
const SATURATED: &str = include_str!("../../../examples/data/low_cooling_r410a.json");

/// The first example with one value changed, or taken away by `null`.
fn changed(pointer: &str, value: Value) -> Result<String, Error> {
    let mut record: Value = serde_json::from_str(EMPTY).unwrap();
    let (parent, name) = pointer.rsplit_once('/').unwrap();
    match record.pointer_mut(parent).unwrap() {
        Value::Object(fields) if value.is_null() => drop(fields.remove(name)),
        Value::Object(fields) => drop(fields.insert(name.to_owned(), value)),
        Value::Array(items) => items[name.parse::<usize>().unwrap()] = value,
        other => panic!("{other}"),
    }
    Visit::from_json(&record.to_string())?.evaluate()?.to_json()
}

fn refusal(pointer: &str, value: Value) -> String {
    changed(pointer, value).unwrap_err().to_string()
}

#[test]
fn an_empty_system_is_found_empty() {
    let evaluation = Visit::from_json(EMPTY).unwrap().evaluate().unwrap();
    let results = evaluation.results();
    // Factory 6 lb and 25 ft beyond the included line at 0.6 oz/ft, by hand.
    assert!((results.charge_due.pounds() - (6.0 + 25.0 * 0.6 / 16.0)).abs() < 1e-12);
    let StandingFinding::AllVapour { mass, vapour, dissolved } =
        results.standing.as_ref().unwrap().finding.clone()
    else {
        panic!("{:?}", results.standing)
    };
    assert_eq!(mass, vapour.plus(dissolved).unwrap());
    let missing = results.missing.unwrap();
    assert!((missing.low() + mass.high() - results.charge_due).abs() < pounds(1e-9));
    assert!((missing.high() + mass.low() - results.charge_due).abs() < pounds(1e-9));
    // What went in, by hand: (14.50 − 11.00) + (33.25 − 30.40).
    assert!((results.charged.as_ref().unwrap().total.value() - pounds(6.35)).abs() < pounds(1e-9));
    assert_eq!(results.ways.len(), 5);
    // The fan section: 0.9 A on a meter of 0.1 A steps decides nothing, 0.87 A on a better one does.
    let fan = &results.capacitors[1].checks;
    assert!(fan[0].verdict().is_unresolved() && fan[0].policy_verdict().unwrap().is_unresolved());
    assert!(fan[1].verdict().is_outside() && fan[1].policy_verdict().unwrap().is_outside());
}

#[test]
fn at_saturation_the_pressure_gives_a_lower_bound_only() {
    let evaluation = Visit::from_json(SATURATED).unwrap().evaluate().unwrap();
    let standing = evaluation.results().standing.as_ref().unwrap();
    assert!(matches!(standing.finding, StandingFinding::LiquidPossible { .. }), "{standing:?}");
    assert!(standing.text.contains("cannot say how much"));
    assert!(evaluation.results().missing.unwrap().low() == Mass::ZERO);
}

#[test]
fn above_saturation_something_else_is_in_there() {
    let completed = changed("/standing/pressure/value", json!("240 psig")).unwrap();
    let record: Value = serde_json::from_str(&completed).unwrap();
    assert_eq!(record.pointer("/results/standing/finding/state").unwrap(), "not_this_refrigerant_alone");
    assert!(record.pointer("/results/missing").is_none());
}

#[test]
fn an_open_system_is_not_to_be_topped_up() {
    for (pressure, said) in [("-8 psig", "have been drawn in"), ("0.4 psig", "not shown to be above")] {
        let completed = changed("/standing/pressure/value", json!(pressure)).unwrap();
        let record: Value = serde_json::from_str(&completed).unwrap();
        let standing = &record["results"]["standing"];
        assert!(standing["text"].as_str().unwrap().contains(said), "{standing}");
        assert!(standing["next"].as_str().unwrap().contains("do not top it up"), "{standing}");
    }
}

#[test]
fn the_completed_record_is_a_record_and_evaluates_to_itself() {
    for text in [EMPTY, SATURATED] {
        let once = Visit::from_json(text).unwrap().evaluate().unwrap().to_json().unwrap();
        let twice = Visit::from_json(&once).unwrap().evaluate().unwrap().to_json().unwrap();
        assert_eq!(once, twice);
    }
}

#[test]
fn the_sheet_and_the_report_say_the_same_prices() {
    let evaluation = Visit::from_json(EMPTY).unwrap().evaluate().unwrap();
    let (report, sheet) = (evaluation.report().unwrap(), evaluation.sheet().to_text().unwrap());
    for way in &evaluation.results().ways {
        let unbroken = report.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(unbroken.contains(&format!("{}: {}", way.title(), way.total())), "{report}");
        assert!(sheet.contains(way.title()));
    }
}

#[test]
fn bad_input_is_refused_with_field_value_unit_and_limit() {
    let refused = [
        (
            "/equipment/refrigerant",
            json!("R-454"),
            vec!["equipment.refrigerant", "R-454", "did you mean R-454A"],
        ),
        (
            "/standing/pressure/value",
            json!("-20 psig"),
            vec!["standing.pressure", "-20 psig", "vacuum", "-14.6"],
        ),
        ("/standing/pressure/value", json!("62 psia"), vec!["standing.pressure.value", "psia", "gauge"]),
        (
            "/standing/pressure/value",
            json!("62 furlongs"),
            vec!["standing.pressure.value", "furlongs", "psig"],
        ),
        (
            "/running/0/liquid_pressure/value",
            json!("780 psig"),
            vec!["running[0].liquid_pressure", "critical"],
        ),
        (
            "/running/0/liquid_line/value",
            json!("60 °F"),
            vec!["running[0].liquid_line", "60 °F", "91 °F", "colder"],
        ),
        (
            "/cylinders/0/weights/0/value",
            json!("-1 lb"),
            vec!["cylinders[0].weights", "-1 lb", "more than nothing"],
        ),
        (
            "/cylinders/1/weights/2/value",
            json!("35 lb"),
            vec!["cylinders[1].weights", "rises from 31.75 lb to 35 lb"],
        ),
        (
            "/capacitors/1/under_load/0/voltage/value",
            json!("0 V"),
            vec!["capacitors[1].under_load[0]", "0 V"],
        ),
        ("/equipment/charge/factory", json!("0 lb"), vec!["equipment.charge.factory", "0 lb", "data plate"]),
        (
            "/standing/pressure/with",
            json!("digital gauge, 0.1 psi step"),
            vec!["standing.pressure.with", "did you mean"],
        ),
        ("/site/elevaton", json!("130 ft"), vec!["site", "elevaton"]),
        ("/standing/presure", json!("62 psig"), vec!["standing", "presure", "did you mean pressure"]),
        ("/date", Value::Null, vec!["date"]),
        ("/schema", json!("kingvalve/visits/1"), vec!["schema", "did you mean kingvalve/visit/1"]),
    ];
    for (pointer, value, wanted) in refused {
        let said = refusal(pointer, value.clone());
        for part in wanted {
            assert!(said.contains(part), "{pointer} = {value}: {said:?} lacks {part:?}");
        }
    }
}

#[test]
fn text_that_is_no_record_is_refused() {
    for text in ["", "{", "[]", "null", "{\"schema\": NaN}", &"[".repeat(100_000), &EMPTY[..EMPTY.len() / 2]]
    {
        assert!(Visit::from_json(text).unwrap_err().is_unreadable());
    }
    let twice = EMPTY.replacen("\"date\"", "\"date\": \"2026-07-13\", \"date\"", 1);
    assert!(Visit::from_json(&twice).unwrap_err().to_string().contains("the name \"date\" stands twice"));
}
