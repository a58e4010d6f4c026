//! The charge followed through a visit: only where it is asked for, step by step as the inventory itself does it.
#![allow(clippy::unwrap_used, clippy::panic)]

use kingvalve::charge::FullCharge;
use kingvalve::charge::inventory::{Conflict, Inventory, Part, RunningReading, StandingReading, System};
use kingvalve::estimate::{Language, UnitSystem};
use kingvalve::measure::{Interval, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use kingvalve::visit::{Evaluation, InventoryResult, Read, Record, Visit};
use serde_json::{Value, json};

const EXAMPLE: &str = include_str!("../../../examples/data/no_cool_r454b.json");
const OTHER: &str = include_str!("../../../examples/data/low_cooling_r410a.json");
const STEPS: &str = include_str!("../../../examples/data/charged_by_steps_r454b.json");
/// As the first release of the form wrote it.
const FIRST: &str = include_str!("data/visit_1_first_release.json");

fn changed(text: &str, change: impl FnOnce(&mut Value)) -> String {
    let mut record: Value = serde_json::from_str(text).unwrap();
    change(&mut record);
    record.to_string()
}

fn evaluate(text: &str) -> Evaluation {
    Visit::from_json(text).unwrap().evaluate().unwrap()
}

fn refusal(change: impl FnOnce(&mut Value)) -> String {
    Visit::from_json(&changed(STEPS, change)).and_then(|visit| visit.evaluate()).unwrap_err().to_string()
}

fn found(evaluation: &Evaluation) -> &InventoryResult {
    evaluation.results().inventory.as_ref().unwrap()
}

/// On one line, as it is read.
fn unbroken(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn it_is_there_only_where_it_is_asked_for() {
    for text in [EXAMPLE, OTHER, FIRST] {
        let without = evaluate(text);
        assert!(without.results().inventory.is_none());
        let written = without.to_json().unwrap();
        assert!(!written.contains("\"inventory\""));
        assert_eq!(evaluate(&written).to_json().unwrap(), written);
        let with = evaluate(&changed(text, |record| record["inventory"] = json!({})));
        assert!(with.results().inventory.is_some());
        // What does not rest on amounts does not move.
        let rest = |evaluation: &Evaluation| {
            let mut record: Value = serde_json::from_str(&evaluation.to_json().unwrap()).unwrap();
            let results = record["results"].as_object_mut().unwrap();
            for amount in ["inventory", "missing", "ways", "outlook"] {
                results.remove(amount);
            }
            results["standing"]["text"].take();
            results.get_mut("charged").and_then(|charged| charged.as_object_mut()?.remove("now"));
            results.clone()
        };
        assert_eq!(rest(&with), rest(&without));
    }
}

#[test]
fn asked_for_plainly_it_takes_the_first_pressure_and_all_that_was_weighed() {
    let evaluation = evaluate(&changed(EXAMPLE, |record| record["inventory"] = json!({})));
    let (results, inventory) = (evaluation.results(), found(&evaluation));
    let what: Vec<&str> = inventory.contributions.iter().map(|one| one.what.as_str()).collect();
    assert_eq!(what, ["standing pressure", "weighed in"]);
    // Held before and missing make what should be there; what was weighed in comes on top.
    let (before, after) = (&inventory.contributions[0].after, &inventory.contributions[1].after);
    assert_eq!(inventory.now, *after);
    assert!((inventory.missing_before.median + before.median - results.charge_due).abs() < pounds(1e-9));
    let charged = results.charged.as_ref().unwrap();
    assert!((after.median - before.median - charged.total.value()).abs() < pounds(0.01));
    assert_eq!(charged.now, Some(inventory.now.ninety));
    assert_eq!(results.missing, inventory.missing());
    // One answer: the standing pressure's own range, which knows of less, is not printed beside it.
    let standing = results.standing.as_ref().unwrap();
    assert!(!standing.text.contains(" lb"), "{}", standing.text);
}

/// The record's steps as they go into the inventory one by one.
fn by_hand(record: &Record) -> Inventory {
    let refrigerant = Refrigerant::named("R-454B").unwrap();
    let space = &record.equipment.spaces[0];
    let whole = Part { name: space.name.clone(), volume: space.volume };
    let system = System::of_plate(&refrigerant, pounds(6.5)).unwrap().with_parts(vec![whole]).unwrap();
    let instruments = &record.instruments;
    let pressure = |read: &Read<GaugePressure>| {
        let gauge = Reading::new(read.value, instruments.pressure[&read.with].clone()).unwrap();
        record.site.absolute(&gauge).unwrap()
    };
    let temperature = |read: &Read<Temperature>| {
        Reading::new(read.value, instruments.temperature[&read.with].clone()).unwrap()
    };
    let weight = |read: &Read<Mass>| {
        Reading::new(read.value, instruments.mass[&read.with].clone()).unwrap().measured()
    };
    let fall = |cylinder: usize, turn: usize| -> Measured<Mass> {
        let weights = &record.cylinders[cylinder].weights;
        weight(&weights[turn - 1]) - weight(&weights[turn])
    };
    let standing = |readings: &kingvalve::visit::StandingReadings| {
        StandingReading::at(pressure(&readings.pressure), temperature(&readings.temperatures[&space.name]))
    };
    // The middles of the record's targets.
    let full = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };
    let running = |index: usize| {
        let read = &record.running[index];
        let (suction, liquid) = (pressure(&read.suction_pressure), pressure(&read.liquid_pressure));
        let superheat = refrigerant.superheat(&suction, temperature(&read.suction_line)).unwrap();
        let subcooling = refrigerant.subcooling(&liquid, temperature(&read.liquid_line)).unwrap();
        RunningReading::of(superheat, subcooling, full)
    };
    let again = &record.inventory.as_ref().unwrap().standing;
    let mut inventory = Inventory::prior(&system).unwrap();
    inventory = inventory.standing(&standing(record.standing.as_ref().unwrap())).unwrap();
    inventory = inventory.weighed_in(fall(0, 1)).unwrap().standing(&standing(&again[0])).unwrap();
    inventory = inventory.weighed_in(fall(0, 2)).unwrap().standing(&standing(&again[1])).unwrap();
    inventory = inventory.weighed_in(fall(0, 3)).unwrap().weighed_in(fall(1, 1)).unwrap();
    inventory = inventory.running(&running(1)).unwrap();
    inventory = inventory.weighed_in(fall(1, 2)).unwrap().running(&running(2)).unwrap();
    inventory.weighed_in(fall(1, 3)).unwrap().running(&running(3)).unwrap()
}

#[test]
fn by_steps_it_is_the_inventory_step_by_step() {
    let visit = Visit::from_json(STEPS).unwrap();
    let evaluation = visit.evaluate().unwrap();
    let (inventory, by_hand) = (found(&evaluation), by_hand(visit.record()));
    assert_eq!(inventory.contributions.len(), by_hand.contributions().len());
    for (found, by_hand) in inventory.contributions.iter().zip(by_hand.contributions()) {
        assert!((found.after.median - by_hand.after.median).abs() < pounds(1e-9), "{}", found.text());
        assert!(
            (found.after.ninety.low() - by_hand.after.ninety.low()).abs() < pounds(1e-9),
            "{}",
            found.text()
        );
    }
    assert_eq!(inventory.conflict, None);
    assert!(!inventory.widened);
    // Each contribution carries the name of its step; the running reading without one says nothing of the charge.
    let steps = &visit.record().inventory.as_ref().unwrap().steps;
    let what: Vec<&str> = inventory.contributions.iter().map(|one| one.what.as_str()).collect();
    assert_eq!(
        what[..3],
        ["standing pressure", "first half pound, weighed in", "first half pound, standing pressure"]
    );
    assert_eq!(what.last(), Some(&"last half pound, superheat and subcooling"));
    let mut named: Vec<&str> = what[1..].iter().map(|what| what.rsplit_once(", ").unwrap().0).collect();
    named.dedup();
    assert_eq!(named, steps.iter().map(String::as_str).collect::<Vec<_>>());
    // What was learned about the volume narrows what was missing no more: that is told before anything was weighed.
    assert_eq!(evaluation.results().missing, inventory.missing());
}

#[test]
fn the_first_pressure_may_stand_among_the_steps_too() {
    // Off and settled again after the last step of the cylinder, without a weight of its own.
    let text = changed(STEPS, |record| {
        let steps = &mut record["inventory"]["steps"];
        steps.as_array_mut().unwrap().insert(1, json!("waited"));
        record["inventory"]["standing"][0]["pressure"]["step"] = json!("waited");
    });
    assert!((found(&evaluate(&text)).now.median - found(&evaluate(STEPS)).now.median).abs() < pounds(1e-9));
}

#[test]
fn what_has_no_place_among_the_steps_is_refused() {
    let error = refusal(|record| record["cylinders"][0]["weights"][1]["step"] = json!("first half-pound"));
    assert!(error.starts_with("cylinders[0].weights[1].step: "), "{error}");
    assert!(error.contains("did you mean first half pound"), "{error}");
    let error =
        refusal(|record| drop(record["cylinders"][1]["weights"][2].as_object_mut().unwrap().remove("step")));
    assert!(
        error.starts_with("cylinders[1].weights[2].step: ") && error.contains("name the step"),
        "{error}"
    );
    let again =
        |record: &mut Value, step: Value| record["inventory"]["standing"][1]["pressure"]["step"] = step;
    let error = refusal(|record| again(record, Value::Null));
    assert!(error.starts_with("inventory.standing[1].pressure.step: "), "{error}");
    let error = refusal(|record| again(record, json!("later")));
    assert!(
        error.starts_with("inventory.standing[1].pressure.step: ") && error.contains("\"later\""),
        "{error}"
    );
    let error = refusal(|record| record["running"][1]["suction_pressure"]["step"] = json!("coil cleaned"));
    assert!(error.starts_with("running[1].suction_pressure.step: "), "{error}");
    let error = refusal(|record| drop(record["inventory"].as_object_mut().unwrap().remove("steps")));
    assert!(
        error.starts_with("inventory.steps: ") && error.contains("name the steps of the visit"),
        "{error}"
    );
    let error = refusal(|record| record["inventory"]["step"] = json!([]));
    assert!(error.starts_with("inventory.step: ") && error.contains("did you mean steps?"), "{error}");
    let error = refusal(|record| record["inventory"]["standing"][0]["pressure"]["with"] = json!("gauge"));
    assert!(error.starts_with("inventory.standing[0].pressure.with: "), "{error}");
    let error = refusal(|record| record["inventory"]["standing"][0]["temperatures"] = json!({}));
    assert!(error.starts_with("inventory.standing[0].temperatures: "), "{error}");
    let error = refusal(|record| {
        record["inventory"]["steps"].as_array_mut().unwrap().push(json!("last half pound"));
    });
    assert!(error.starts_with("inventory.steps[7]: ") && error.contains("stands twice"), "{error}");
}

#[test]
fn missing_is_never_below_zero() {
    // Overcharged: hardly any superheat, much subcooling, before anything was weighed.
    let text = changed(STEPS, |record| {
        record["inventory"] = json!({"steps": ["found"]});
        for list in ["cylinders", "done"] {
            record.as_object_mut().unwrap().remove(list);
        }
        record["standing"]["pressure"]["value"] = json!("222 psig");
        let running = record["running"].as_array_mut().unwrap();
        running.truncate(1);
        running[0]["suction_pressure"] =
            json!({"value": "125 psig", "with": "digital gauge, 0.1 psi steps", "step": "found"});
        running[0]["suction_line"]["value"] = json!("48 °F");
        running[0]["liquid_pressure"]["value"] = json!("400 psig");
        running[0]["liquid_line"]["value"] = json!("95 °F");
    });
    let evaluation = evaluate(&text);
    assert!(found(&evaluation).missing_before.ninety.low() < Mass::ZERO);
    let missing = evaluation.results().missing.unwrap();
    assert!(missing.low() == Mass::ZERO && missing.high() >= Mass::ZERO, "{missing}");
}

#[test]
fn where_something_else_is_likelier_no_amount_is_told() {
    let text = changed(EXAMPLE, |record| {
        record["inventory"] = json!({});
        record["standing"]["pressure"]["value"] = json!("260 psig");
    });
    let evaluation = evaluate(&text);
    assert_eq!(evaluation.results().missing, None);
    assert_eq!(evaluation.results().charged.as_ref().unwrap().now, None);
    let report = unbroken(&evaluation.report().unwrap());
    assert!(report.contains("How much is missing cannot be said"), "{report}");
    assert!(report.contains("Something else than this refrigerant is likelier"), "{report}");
    assert!(!evaluation.work_report().unwrap().to_text().contains("Holds now"));
}

#[test]
fn a_contradiction_is_said_in_both_languages() {
    // Half a pound went in, and the pressure stays where it was.
    let text = changed(STEPS, |record| {
        record["inventory"]["standing"][0]["pressure"]["value"] = json!("62.3 psig");
        record["inventory"]["standing"].as_array_mut().unwrap().truncate(1);
        record["inventory"]["steps"] = json!(["first half pound"]);
        record["cylinders"].as_array_mut().unwrap().truncate(1);
        record["cylinders"][0]["weights"].as_array_mut().unwrap().truncate(2);
        record.as_object_mut().unwrap().remove("running");
    });
    let evaluation = evaluate(&text);
    assert_eq!(found(&evaluation).conflict, Some(Conflict::PressureTooLow));
    let report = unbroken(&evaluation.report().unwrap());
    assert!(report.contains(&unbroken(Conflict::PressureTooLow.text())), "{report}");
    assert!(report.contains(Conflict::PressureTooLow.alternatives()[0]), "{report}");
    for (language, said) in [
        (Language::English, "does not rise as what was weighed in should make it"),
        (Language::Spanish, "no sube como debería con lo cargado por peso"),
    ] {
        let printed = evaluation.printed_in(language, UnitSystem::Us).unwrap();
        assert!(unbroken(&printed.work_report().unwrap().to_text()).contains(said), "{language}");
    }
}

#[test]
fn report_and_work_report_say_what_is_held_and_how_sure_that_is() {
    let evaluation = evaluate(STEPS);
    let (now, due) = (found(&evaluation).now, evaluation.results().charge_due);
    let report = evaluation.report().unwrap();
    assert!(report.lines().all(|line| line.chars().count() <= 78));
    assert!(report.contains(&now.bar(due, 76)), "{report}");
    assert!(unbroken(&report).contains(&format!("{:.2}; one time in two {:.2}", now.median, now.half)));
    for (language, units, label) in [
        (Language::English, UnitSystem::Us, "Holds now, by all readings: 6."),
        (Language::Spanish, UnitSystem::Si, "Tiene ahora, según todas las lecturas: 2."),
    ] {
        let printed = evaluation.printed_in(language, units).unwrap().work_report().unwrap().to_text();
        assert!(unbroken(&printed).contains(label), "{printed}");
    }
}

#[test]
fn what_was_recovered_comes_out_first() {
    let out = |gain: &str| {
        changed(EXAMPLE, |record| {
            record["inventory"] = json!({});
            record["recovered"] = json!([{"name": "recovery cylinder", "weights": [
                {"value": "20.00 lb", "with": "platform scale, 0.05 lb steps"},
                {"value": gain, "with": "platform scale, 0.05 lb steps"}]}]);
        })
    };
    let evaluation = evaluate(&out("20.30 lb"));
    let what: Vec<&str> = found(&evaluation).contributions.iter().map(|one| one.what.as_str()).collect();
    assert_eq!(what, ["standing pressure", "removed", "weighed in"]);
    let without = evaluate(&changed(EXAMPLE, |record| record["inventory"] = json!({})));
    assert!(found(&evaluation).now.median < found(&without).now.median);
    // What was missing is told of before, whatever came out.
    assert_eq!(evaluation.results().missing, without.results().missing);
    // More than can have been in it.
    let error =
        Visit::from_json(&out("30.00 lb")).and_then(|visit| visit.evaluate()).unwrap_err().to_string();
    assert!(error.starts_with("recovered: "), "{error}");
}

#[test]
fn the_example_reads_back_to_the_same_bytes_and_evaluates_to_itself() {
    let completed = evaluate(STEPS).to_json().unwrap();
    assert_eq!(evaluate(&completed).to_json().unwrap(), completed);
    assert_eq!(Visit::from_json(&completed).unwrap().to_json().unwrap(), completed);
    let volume = found(&evaluate(STEPS)).volume;
    let room: Interval<Volume> = Visit::from_json(STEPS).unwrap().record().equipment.spaces[0].volume;
    assert!(volume.ninety.width() < 0.5 * room.width(), "two weighed steps in vapour tell the volume");
    assert!(Visit::schema().unwrap().contains("InventoryAsked"));
}
