//! The record: what is read, refused, kept, signed, amended and compared; many of them in a ledger.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeMap;

use kingvalve::quantity::*;
use kingvalve::refrigerant::Assessment;
use kingvalve::visit::{Amendment, Ledger, Signature, Stock, Visit, visits, write_whole};
use serde_json::{Value, json};

const EXAMPLE: &str = include_str!("../../../examples/data/no_cool_r454b.json");
const OTHER: &str = include_str!("../../../examples/data/low_cooling_r410a.json");
const STEPS: &str = include_str!("../../../examples/data/charged_by_steps_r454b.json");
/// As the first release of the form wrote it.
const FIRST: &str = include_str!("data/visit_1_first_release.json");

fn changed(change: impl FnOnce(&mut Value)) -> String {
    let mut record: Value = serde_json::from_str(EXAMPLE).unwrap();
    change(&mut record);
    record.to_string()
}

fn read(text: &str) -> Visit {
    Visit::from_json(text).unwrap()
}

fn signature() -> Signature {
    Signature { by: "A. Example".into(), on: "2026-07-14".into() }
}

#[test]
fn a_record_of_the_first_release_still_reads_and_evaluates_alike() {
    let (first, now) = (read(FIRST).evaluate().unwrap(), read(EXAMPLE).evaluate().unwrap());
    assert_eq!(first.results().missing, now.results().missing);
    let charged = |evaluation: &kingvalve::visit::Evaluation| {
        evaluation.results().charged.as_ref().unwrap().total.value()
    };
    assert_eq!(charged(&first), charged(&now));
    let totals = |evaluation: &kingvalve::visit::Evaluation| -> Vec<String> {
        evaluation.results().ways.iter().take(5).map(|way| way.total().to_string()).collect()
    };
    assert_eq!(totals(&first), totals(&now));
}

#[test]
fn what_is_written_reads_back_to_the_same_bytes() {
    for text in [EXAMPLE, OTHER, STEPS, FIRST] {
        let once = read(text).to_json().unwrap();
        assert_eq!(read(&once).to_json().unwrap(), once);
        let completed = read(text).evaluate().unwrap().to_json().unwrap();
        assert_eq!(read(&completed).to_json().unwrap(), completed);
        let line = read(text).to_json_line().unwrap();
        assert!(!line.contains('\n'));
        assert_eq!(read(&line).to_json().unwrap(), once);
    }
}

#[test]
fn an_unknown_field_is_refused_but_under_extensions() {
    let stray = changed(|record| record["intake"]["mood"] = json!("good"));
    let error = Visit::from_json(&stray).unwrap_err();
    assert!(error.is_unreadable() && error.to_string().starts_with("intake.mood: "), "{error}");
    let kept = changed(|record| record["extensions"] = json!({"crm": {"mood": ["good", 7, null]}}));
    let visit = read(&kept);
    assert_eq!(visit.record().extensions["crm"]["mood"][1], 7);
    assert!(visit.to_json().unwrap().contains("\"mood\""));
}

#[test]
fn a_newer_form_keeps_what_is_not_known_here() {
    let newer = changed(|record| {
        record["schema"] = json!("kingvalve/visit/7");
        record["weather"] = json!({"sky": "clear"});
        record["intake"]["mood"] = json!("good");
        record["cylinders"][1]["color"] = json!("grey");
    });
    let visit = read(&newer);
    let written = visit.to_json().unwrap();
    let (before, after): (Value, Value) =
        (serde_json::from_str(&newer).unwrap(), serde_json::from_str(&written).unwrap());
    assert_eq!(after["weather"], before["weather"]);
    assert_eq!(after["intake"]["mood"], "good");
    assert_eq!(after["cylinders"][1]["color"], "grey");
    assert_eq!(read(&written).to_json().unwrap(), written);
    let completed = visit.evaluate().unwrap().to_json().unwrap();
    assert!(completed.contains("\"weather\"") && completed.contains("\"results\""));
    // What is wrong is still wrong.
    let wrong = changed(|record| {
        record["schema"] = json!("kingvalve/visit/7");
        record["standing"]["pressure"]["value"] = json!("62 psia");
    });
    assert!(Visit::from_json(&wrong).unwrap_err().to_string().contains("standing.pressure.value"));
    for schema in ["kingvalve/visit/0", "kingvalve/visit/x", "other/9", "kingvalve/visit/-1", ""] {
        let other = changed(|record| record["schema"] = json!(schema));
        assert!(Visit::from_json(&other).unwrap_err().is_unknown_name(), "{schema}");
    }
}

#[test]
fn a_broken_file_is_an_error_and_never_a_panic() {
    let bytes = EXAMPLE.trim_end();
    for length in (0..bytes.len()).step_by(7) {
        if let Some(cut) = bytes.get(..length) {
            assert!(Visit::from_json(cut).unwrap_err().is_unreadable());
        }
    }
    let twice = EXAMPLE.replacen("\"date\":", "\"date\": \"2020-01-01\",\n  \"date\":", 1);
    assert!(Visit::from_json(&twice).unwrap_err().to_string().contains("the name \"date\" stands twice"));
    let deep_twice = changed(|record| record["extensions"] = json!({"a": {"b": 1}})).replacen(
        r#""b":1"#,
        r#""b":1,"b":2"#,
        1,
    );
    assert!(Visit::from_json(&deep_twice).unwrap_err().to_string().contains("stands twice"));
    assert!(Visit::from_json(&"[".repeat(200_000)).unwrap_err().is_unreadable());
    let nested = changed(|record| {
        record["extensions"] = json!({"deep": (0..140).fold(json!(1), |inner, _| json!([inner]))});
    });
    assert!(Visit::from_json(&nested).unwrap_err().to_string().contains("recursion limit"));
    let huge = changed(|record| record["note"] = json!("x".repeat(5 << 20)));
    assert!(Visit::from_json(&huge).unwrap_err().is_out_of_range());
    for number in ["NaN", "Infinity", "-Infinity", "1e999"] {
        let bad = EXAMPLE.replacen("\"62.0 psig\"", &format!(r#"{{"value": {number}, "unit": "psig"}}"#), 1);
        assert!(Visit::from_json(&bad).unwrap_err().is_unreadable(), "{number}");
        let bad = EXAMPLE.replacen("\"62.0 psig\"", &format!("\"{number} psig\""), 1);
        assert!(Visit::from_json(&bad).and_then(|visit| visit.evaluate()).is_err(), "{number}");
    }
    assert!(Visit::from_json(&format!("{EXAMPLE}{{}}")).unwrap_err().is_unreadable());
}

#[test]
fn signed_results_stay_as_they_were_and_differences_are_flagged() {
    let signed = read(EXAMPLE).evaluate().unwrap().signed(signature()).unwrap();
    let again = signed.evaluate().unwrap();
    assert!(again.differences().is_empty());
    // A result that another version computed otherwise.
    let mut record: Value = serde_json::from_str(&signed.to_json().unwrap()).unwrap();
    let charge = record["results"]["charge_due"]["value"].as_f64().unwrap();
    record["results"]["charge_due"]["value"] = json!(charge * 1.001);
    let altered = read(&record.to_string());
    let evaluation = altered.evaluate().unwrap();
    let said: Vec<String> = evaluation.differences().iter().map(ToString::to_string).collect();
    assert_eq!(said, [format!("charge due: {} lb before, {charge} lb now", charge * 1.001)]);
    let written: Value = serde_json::from_str(&evaluation.to_json().unwrap()).unwrap();
    assert_eq!(written["results"]["charge_due"]["value"], record["results"]["charge_due"]["value"]);
    assert_eq!(written["recomputed"]["charge_due"]["value"], charge);
    assert_eq!(written["differences"][0]["field"], "/charge_due");
    // Within the tolerance nothing is said.
    record["results"]["charge_due"]["value"] = json!(charge * (1.0 + 1e-9));
    assert!(read(&record.to_string()).evaluate().unwrap().differences().is_empty());
    assert!(again.signed(signature()).unwrap_err().is_inconsistent());
}

#[test]
fn amendments_are_added_and_rewrite_nothing() {
    let signed = read(EXAMPLE).evaluate().unwrap().signed(signature()).unwrap();
    let amendment = |field: &str, value: Option<Value>| Amendment {
        on: "2026-07-15".into(),
        by: "A. Example".into(),
        why: "misread".into(),
        field: field.into(),
        value,
    };
    let once = signed.amended(amendment("/standing/pressure/value", Some(json!("70.0 psig")))).unwrap();
    let twice = once.amended(amendment("/capacitors/1/under_load/0", None)).unwrap();
    assert!(
        once.continues(&signed).unwrap()
            && twice.continues(&once).unwrap()
            && twice.continues(&signed).unwrap()
    );
    assert!(!once.continues(&twice).unwrap());
    let rewritten = read(&twice.to_json().unwrap().replacen("misread", "misheard", 1));
    assert!(!rewritten.continues(&twice).unwrap());
    assert_eq!(twice.record().results, signed.record().results);
    let evaluation = twice.evaluate().unwrap();
    assert!(!evaluation.differences().is_empty(), "the amended pressure changes what is missing");
    let fields: Vec<&str> = evaluation.differences().iter().map(|one| one.field.as_str()).collect();
    assert!(fields.iter().any(|field| field.starts_with("/missing")), "{fields:?}");
    let said: Vec<String> = signed.differences(&twice).unwrap().iter().map(ToString::to_string).collect();
    assert_eq!(said.len(), 1, "one field differs: the amendments");
    for (field, value) in [
        ("/results/charge_due", Some(json!(1))),
        ("/signed", None),
        ("/amendments/0", None),
        ("/nowhere/at/all", Some(json!(1))),
        ("standing", Some(json!(1))),
        ("", Some(json!(1))),
        ("/cylinders/9", None),
        ("/standing/pressure/value", Some(json!("70 furlongs"))),
    ] {
        assert!(signed.amended(amendment(field, value)).is_err(), "{field}");
    }
}

#[test]
fn a_difference_says_itself_in_words() {
    let other = changed(|record| {
        record["standing"]["pressure"]["value"] = json!("64.0 psig");
        record["cylinders"][0]["weights"][2]["value"] = json!("10.5 lb");
        record["customer"]["site"] = json!("S-1");
        record.as_object_mut().unwrap().remove("follow_up");
        record["consent"]["up_to"] = json!("950.00 USD");
    });
    let said: Vec<String> =
        read(EXAMPLE).differences(&read(&other)).unwrap().iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "consent, up to: 904.47 USD before, 950.00 USD now",
            "customer, site: added, S-1",
            "cylinders 1, weights 3, value: 11 lb before, 10.5 lb now",
            "follow up: taken away, was 2026-08-14",
            "standing, pressure, value: 62 psig before, 64 psig now",
        ]
    );
    assert!(read(EXAMPLE).differences(&read(EXAMPLE)).unwrap().is_empty());
}

#[test]
fn lines_are_read_one_by_one() {
    let line = read(EXAMPLE).to_json_line().unwrap();
    let bad = line.replacen("\"date\"", "\"dat\"", 1);
    let stream = format!("{line}\n\n{bad}\n   \r\n{line}");
    let read: Vec<_> = visits(stream.as_bytes()).collect();
    assert_eq!(read.len(), 3);
    assert!(read[0].is_ok() && read[2].is_ok());
    let error = read[1].as_ref().unwrap_err();
    assert!(
        error.to_string().starts_with("line 3.dat: ") && error.to_string().contains("did you mean date?"),
        "{error}"
    );
    let latin: Vec<_> = visits(&b"{\"a\": \"\xff\"}\n{}\n"[..]).collect();
    assert!(latin.len() == 2 && latin.iter().all(Result::is_err));
    let endless: Vec<_> = visits(std::io::BufReader::new(std::io::repeat(b'x'))).collect();
    assert!(endless.len() == 1 && endless[0].is_err());
}

#[test]
fn a_file_is_whole_or_as_it_was() {
    let folder = std::env::temp_dir().join(format!("kingvalve-test-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let place = folder.join("record.json");
    write_whole(&place, "one").unwrap();
    write_whole(&place, "two").unwrap();
    assert_eq!(std::fs::read_to_string(&place).unwrap(), "two");
    assert!(write_whole(&folder.join("no such folder/record.json"), "three").is_err());
    assert!(write_whole(&folder, "four").is_err());
    let names: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(names, ["record.json"], "nothing half-written is left");
    std::fs::remove_dir_all(folder).unwrap();
}

/// The example's system at a site, with so much charged on a date from one cylinder, perhaps with some recovered.
fn visit_on(date: &str, charged: f64, recovered: Option<f64>) -> Visit {
    let weight = |pounds: f64| json!({"value": {"value": pounds, "unit": "lb"}, "with": "platform scale, 0.05 lb steps"});
    read(&changed(|record| {
        record["date"] = json!(date);
        record["cylinders"] = json!([{"name": "A", "weights": [weight(20.0), weight(20.0 - charged)]}]);
        if let Some(recovered) = recovered {
            record["recovered"] = json!([{"name": "R", "weights": [weight(30.0), weight(30.0 + recovered)]}]);
        }
        for field in ["done", "consent"] {
            record.as_object_mut().unwrap().remove(field);
        }
    }))
}

#[test]
fn the_ledger_is_the_sum_of_its_visits() {
    let mut ledger = Ledger::default();
    for (date, charged, recovered) in
        [("2024-05-01", 2.0, None), ("2025-01-10", 1.0, Some(0.5)), ("2025-04-20", 0.75, None)]
    {
        ledger.add(&visit_on(date, charged, recovered).evaluate().unwrap());
    }
    let flow = ledger.flow("R-454B").unwrap();
    assert!((flow.charged.mass - pounds(3.75)).pounds().abs() < 1e-9);
    assert!((flow.recovered.mass - pounds(0.5)).pounds().abs() < 1e-9);
    assert_eq!(ledger.visits(), 3);
    // 40 CFR 84.102 by hand, full charge 6.9375 lb: 0.75 lb over 100 days; 1.75 lb within the year before (354 days back
    // is 2024-05-01, so all three are within 365 days).
    let (_, _, site) = ledger.sites().next().unwrap();
    let rate = site.leak_rate().unwrap();
    assert!((rate.annualizing.unwrap().percent() - 100.0 * 0.75 / 6.9375 * 365.0 / 100.0).abs() < 1e-6);
    assert!((rate.rolling.percent() - 100.0 * 3.75 / 6.9375).abs() < 1e-6);
    // 3.25 lb net at 465.3 kg/kg (68.9 % of 675 and 31.1 % of 1, AR4 weights): 40 CFR 84.64's product.
    let gwp = kingvalve::refrigerant::Refrigerant::named("R-454B").unwrap().gwp(Assessment::Ar4).unwrap();
    let equivalent = ledger.carbon_dioxide_equivalent(Assessment::Ar4).unwrap();
    assert!((equivalent.kilograms() - 3.25 * 0.453_592_37 * gwp.kilograms_per_kilogram()).abs() < 1e-6);
}

#[test]
fn an_addition_more_than_a_year_after_the_last_counts_a_whole_year() {
    let mut ledger = Ledger::default();
    for date in ["2023-01-01", "2025-06-01"] {
        ledger.add(&visit_on(date, 1.0, None).evaluate().unwrap());
    }
    let (_, _, site) = ledger.sites().next().unwrap();
    let rate = site.leak_rate().unwrap();
    let share = 100.0 / 6.9375;
    assert!((rate.annualizing.unwrap().percent() - share).abs() < 1e-6);
    assert!((rate.rolling.percent() - share).abs() < 1e-6);
}

#[test]
fn shrinkage_counts_everything_and_knows_the_scales() {
    let mut ledger = Ledger::default();
    ledger.add(&visit_on("2025-01-01", 4.0, Some(1.5)).evaluate().unwrap());
    let stock = |shelf: &str| {
        Stock::from_json(&format!(
            r#"{{"R-454B": {{"opening": "40 lb", "bought": "25 lb", "on_the_shelf": "{shelf}", "doubt": "0.1 lb",
                "sent_out": {{"reclaimed": "1 lb", "destroyed": "0.5 lb", "heel": "0.25 lb"}}}}}}"#
        ))
        .unwrap()
    };
    // 40 + 25 + 1.5 − 4 − 1.75 = 60.75
    let lost = ledger.shrinkage(&stock("58.75 lb")).unwrap()["R-454B"];
    assert!((lost.mass - pounds(2.0)).pounds().abs() < 1e-9);
    assert!(lost.beyond_doubt());
    let even = ledger.shrinkage(&stock("60.70 lb")).unwrap()["R-454B"];
    assert!(!even.beyond_doubt() && even.mass > Mass::ZERO);
    assert!(ledger.shrinkage(&BTreeMap::new()).unwrap_err().is_unknown_name());
    assert!(
        Stock::from_json(
            r#"{"R-32": {"opening": "-1 lb", "bought": "0 lb", "on_the_shelf": "0 lb", "doubt": "0 lb"}}"#
        )
        .unwrap_err()
        .to_string()
        .starts_with("R-32.opening: ")
    );
}

#[test]
fn checks_of_the_registry_run_inside_a_visit() {
    let input: Value = serde_json::from_str(kingvalve::check::example("superheat").unwrap()).unwrap();
    let with =
        changed(|record| record["checks"] = json!([{"check": "superheat", "at": "10:40", "input": input}]));
    let evaluation = read(&with).evaluate().unwrap();
    assert_eq!(evaluation.results().checks[0].check(), "superheat");
    assert!(
        evaluation
            .work_report()
            .unwrap()
            .to_text()
            .contains(evaluation.results().checks[0].text().split(' ').next().unwrap())
    );
    let stray = changed(|record| record["checks"] = json!([{"check": "superheet", "input": {}}]));
    let error = read(&stray).evaluate().unwrap_err();
    assert!(error.to_string().starts_with("checks[0]: unknown check"), "{error}");
}

#[test]
fn membership_and_place_reach_the_prices() {
    let of = |change: &dyn Fn(&mut Value)| {
        let text = changed(|record| change(record));
        read(&text).evaluate().map(|evaluation| evaluation.results().ways[0].total().to_string())
    };
    assert_eq!(of(&|_| {}).unwrap(), "149.00 USD");
    assert_eq!(of(&|record| record["membership"] = json!("comfort plan")).unwrap(), "54.00 USD");
    let error = of(&|record| record["membership"] = json!("comfort plam")).unwrap_err();
    assert!(
        error.to_string().starts_with("membership: ")
            && error.to_string().contains("did you mean comfort plan?")
    );
    assert!(of(&|record| record["jurisdictions"] = json!(["nowhere"])).unwrap_err().is_unknown_name());
    assert_eq!(of(&|record| record["jurisdictions"] = json!([])).unwrap(), "149.00 USD");
}

#[test]
fn a_bill_beyond_the_consent_is_no_invoice() {
    let over = changed(|record| record["consent"]["up_to"] = json!("798.71 USD"));
    let evaluation = read(&over).evaluate().unwrap();
    assert!(evaluation.invoice().unwrap().to_html().unwrap_err().is_out_of_range());
    assert!(read(EXAMPLE).evaluate().unwrap().invoice().unwrap().to_html().is_ok());
}
