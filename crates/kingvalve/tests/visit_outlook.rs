//! The outlook of a visit: only where it is asked for, the same each time, with every default marked.
#![allow(clippy::unwrap_used, clippy::panic)]

use kingvalve::estimate::outlook::{Basis, Chances, Forward, LeakRange, Outlook};
use kingvalve::quantity::*;
use kingvalve::visit::{Evaluation, Outcomes, OutlookAsked, Signature, Visit, Watched};
use serde_json::{Value, json};

const EXAMPLE: &str = include_str!("../../../examples/data/no_cool_r454b.json");
const OTHER: &str = include_str!("../../../examples/data/low_cooling_r410a.json");
/// As the first release of the form wrote it.
const FIRST: &str = include_str!("data/visit_1_first_release.json");

fn asking(asked: Value) -> String {
    let mut record: Value = serde_json::from_str(EXAMPLE).unwrap();
    record["outlook"] = asked;
    record.to_string()
}

fn evaluate(text: &str) -> Evaluation {
    Visit::from_json(text).unwrap().evaluate().unwrap()
}

fn outlook(evaluation: &Evaluation) -> &Outlook {
    &evaluation.results().outlook.as_ref().unwrap().outlook
}

#[test]
fn it_is_there_only_where_it_is_asked_for() {
    for text in [EXAMPLE, OTHER, FIRST] {
        let mut record: Value = serde_json::from_str(text).unwrap();
        record.as_object_mut().unwrap().remove("outlook");
        let evaluation = evaluate(&record.to_string());
        assert!(evaluation.results().outlook.is_none() && evaluation.outlook_sheet().is_none());
        assert!(!evaluation.to_json().unwrap().contains("\"outlook\""));
        record["outlook"] = json!({});
        let asked = evaluate(&record.to_string());
        assert!(asked.results().outlook.is_some() && asked.outlook_sheet().is_some());
        // Nothing else of the results moves.
        let rest = |evaluation: &Evaluation| {
            let mut results: Value = serde_json::from_str(&evaluation.to_json().unwrap()).unwrap();
            results["results"].as_object_mut().unwrap().remove("outlook");
            results["results"].clone()
        };
        assert_eq!(rest(&asked), rest(&evaluation));
    }
}

#[test]
fn the_same_record_gives_the_same_bytes_and_evaluates_to_itself() {
    let asked = json!({"years": 7, "age": "9 yr", "comfort_per_day": "12.00 USD", "seed": 3, "draws": 500,
        "chances": {"sealant_holds": {"mean": "35 %", "weight": 12, "records": 7}},
        "energy": {"per_year": "3000 kWh", "price": "0.18 USD"}});
    let text = asking(asked);
    let completed = evaluate(&text).to_json().unwrap();
    assert_eq!(evaluate(&text).to_json().unwrap(), completed);
    assert_eq!(evaluate(&completed).to_json().unwrap(), completed);
    let visit = Visit::from_json(&completed).unwrap();
    assert_eq!(visit.to_json().unwrap(), completed);
    assert_ne!(evaluate(&text.replacen("\"seed\":3", "\"seed\":4", 1)).to_json().unwrap(), completed);
}

#[test]
fn leaving_it_is_priced_and_ranked_only_where_lost_cooling_has_a_value() {
    let without = evaluate(&asking(json!({})));
    assert!(!outlook(&without).way(Forward::LeaveAsIs).unwrap().ranked);
    let with = evaluate(&asking(json!({"comfort_per_day": "10.00 USD"})));
    assert!(outlook(&with).way(Forward::LeaveAsIs).unwrap().ranked);
    assert_eq!(outlook(&with).ways().len(), 5);
    let nothing = evaluate(&asking(json!({"comfort_per_day": "0.00 USD"})));
    let leave = |evaluation| outlook(evaluation).way(Forward::LeaveAsIs).unwrap().expected.amount();
    assert_eq!(leave(&nothing), leave(&without));
    assert!(leave(&with) > leave(&without));
}

/// A blank request rests on common practice throughout, and every line says so; what is given says that.
#[test]
fn every_default_is_marked() {
    assert_eq!(serde_json::from_str::<OutlookAsked>("{}").unwrap(), OutlookAsked::default());
    let blank = evaluate(&asking(json!({})));
    for assumption in outlook(&blank).assumptions() {
        assert_eq!(assumption.basis, Basis::CommonPractice, "{assumption}");
    }
    let all = json!({"age": "4 yr", "leak": {"low": "0.2 lb/yr", "median": "1 lb/yr", "high": "3 lb/yr"},
        "coil": "indoor coil, 3 tons", "outdoor_unit": "outdoor unit, 3 tons", "habits": {"discount": "5 %"}});
    let given = evaluate(&asking(all));
    let basis =
        |what: &str| outlook(&given).assumptions().iter().find(|one| one.what == what).map(|one| one.basis);
    for what in ["age", "leak", "discount"] {
        assert_eq!(basis(what), Some(Basis::Given), "{what}");
    }
    assert_eq!((basis("indoor_coil"), basis("outdoor_unit")), (None, None));
    assert_eq!(basis("sealant_holds"), Some(Basis::CommonPractice));
    // The coil by hand: 2100 to 2900, recovery 95, disposal 45, drier 82.80, tax on coil and drier.
    let prices = &given.results().outlook.as_ref().unwrap().prospect.prices;
    assert_eq!(prices.repair.indoor_coil.to_string(), "2481.05–3339.05 USD");
}

#[test]
fn what_is_missing_left_since_it_was_full() {
    let asked = evaluate(&asking(json!({"last_full": "2 yr"})));
    let (missing, found) = (asked.results().missing.unwrap(), asked.results().outlook.as_ref().unwrap());
    let rate = |missing: Mass| missing / years(2.0);
    let by_hand = LeakRange::new(rate(missing.low()), rate(missing.middle()), rate(missing.high())).unwrap();
    assert_eq!(found.prospect.leak, by_hand);
}

#[test]
fn bad_input_is_refused_by_its_field() {
    for (asked, field) in [
        (json!({"years": 0}), "outlook.years"),
        (json!({"years": 16}), "outlook.years"),
        (json!({"age": "-1 yr"}), "outlook.age"),
        (json!({"draws": 99}), "outlook.draws"),
        (json!({"draws": 4_000_000_000_u32}), "outlook.draws"),
        (json!({"coil": "indoor coil, 3 tonnes"}), "outlook"),
        (json!({"last_full": "0 d"}), "outlook.last_full"),
        (json!({"last_full": "1 h"}), "outlook.leak"),
        (
            json!({"last_full": "1 yr", "leak": {"low": "0 lb/yr", "median": "1 lb/yr", "high": "2 lb/yr"}}),
            "outlook.leak",
        ),
        (json!({"comfort_per_day": "1.00 CAD"}), "outlook"),
        (json!({"comfort_per_day": "-1.00 USD"}), "outlook"),
        (json!({"habits": {"search_hours": 4000}}), "outlook.search_hours"),
        (json!({"habits": {"discount": "-2 %"}}), "outlook.discount"),
        (
            json!({"chances": {"places": {"reachable": -1.0, "indoor_coil": 1.0, "outdoor_unit": 1.0}}}),
            "outlook.chances",
        ),
        (json!({"chances": {"aging": {"shape": 3.0, "failures": 4.0, "exposure": 0.0}}}), "outlook.chances"),
    ] {
        let error = Visit::from_json(&asking(asked.clone())).unwrap().evaluate().unwrap_err();
        assert_eq!(error.field(), Some(field), "{asked}: {error}");
    }
    for asked in [
        json!({"yeers": 3}),
        json!({"years": -3}),
        json!({"years": 2.5}),
        json!({"age": "9 lb"}),
        json!({"leak": {"low": "3 lb/yr", "median": "1 lb/yr", "high": "2 lb/yr"}}),
        json!({"leak": {"low": "-1 lb/yr", "median": "1 lb/yr", "high": "2 lb/yr"}}),
        json!({"comfort_per_day": "12 XQQ"}),
        json!({"chances": {"sealant_holds": {"mean": "120 %", "weight": 5}}}),
        json!({"chances": {"sealant_holds": {"mean": "20 %", "weight": 0}}}),
        json!({"energy": {"per_year": "3000 kWh"}}),
        json!("yes"),
    ] {
        let error = Visit::from_json(&asking(asked.clone())).unwrap_err();
        assert!(error.is_unreadable() && error.to_string().starts_with("outlook"), "{asked}: {error}");
    }
    let misspelt = Visit::from_json(&asking(json!({"yeers": 3}))).unwrap_err().to_string();
    assert!(misspelt.contains("did you mean years?"), "{misspelt}");
}

#[test]
fn an_outlook_that_cannot_be_had_is_named_among_what_is_not_known() {
    let mut record: Value = serde_json::from_str(&asking(json!({}))).unwrap();
    let standing = record.as_object_mut().unwrap().remove("standing");
    assert!(standing.is_some());
    let evaluation = evaluate(&record.to_string());
    assert!(evaluation.results().outlook.is_none());
    assert!(evaluation.report().unwrap().contains("What each way costs over the years"));
    assert!(evaluate(&asking(json!({}))).report().unwrap().contains("The years ahead"));
}

#[test]
fn what_is_signed_is_left_alone_and_recomputes_to_the_same() {
    let signature = || Signature { by: "A. Example".into(), on: "2026-07-14".into() };
    let asked = OutlookAsked { years: 5, draws: 300, ..OutlookAsked::default() };
    let signed = evaluate(EXAMPLE).with_outlook(asked.clone()).unwrap().signed(signature()).unwrap();
    let again = signed.evaluate().unwrap();
    assert!(again.differences().is_empty() && again.results().outlook.is_some());
    assert!(again.with_outlook(asked).unwrap_err().is_inconsistent());
}

#[test]
fn the_schema_knows_the_request() {
    let schema: Value = serde_json::from_str(&Visit::schema().unwrap()).unwrap();
    let asked = schema["$defs"]["OutlookAsked"]["properties"].as_object().unwrap();
    for field in ["years", "age", "leak", "last_full", "comfort_per_day", "energy", "chances", "habits"] {
        assert!(asked.contains_key(field), "{field}");
    }
    assert!(schema["$defs"]["Chance"]["properties"].as_object().unwrap().contains_key("weight"));
}

#[test]
fn a_shops_outcomes_teach_its_chances() {
    let mut outcomes = Outcomes::default();
    for outcome in [
        json!({"sealant_held": true}),
        json!({"sealant_held": false}),
        json!({"repair_held": true, "hours_searched": 2, "leak_found": "indoor_coil"}),
        json!({"hours_searched": 1}),
        json!({"equipment": {"from_age": "8 yr", "to_age": "11 yr", "failed": true}}),
    ] {
        let mut record: Value = serde_json::from_str(EXAMPLE).unwrap();
        record["outcome"] = outcome;
        outcomes.add(Visit::from_json(&record.to_string()).unwrap().record());
    }
    assert_eq!(outcomes.equipment, [Watched { from_age: years(8.0), to_age: years(11.0), failed: true }]);
    let ours = Chances::default().learned(&outcomes.records()).unwrap();
    let usual = Chances::default();
    assert_eq!((ours.sealant_holds.records(), ours.repair_holds.records()), (2, 1));
    assert_eq!((ours.found_in_an_hour.records(), ours.places.records, ours.aging.records()), (3, 1, 1));
    assert!(ours.aging.typical_life() < usual.aging.typical_life()); // it failed young
    // Written into a record they read back to the same.
    let asked = OutlookAsked { chances: ours, ..OutlookAsked::default() };
    let read: OutlookAsked = serde_json::from_str(&serde_json::to_string(&asked).unwrap()).unwrap();
    assert_eq!(read, asked);
}
