//! What a finding must say beside its numbers.

use serde_json::{Value, json};

use super::super::{example, find, names};

/// An example with one place changed.
fn changed(name: &str, place: &str, value: Value) -> String {
    let mut input: Value = serde_json::from_str(example(name).unwrap()).unwrap();
    *input.pointer_mut(place).unwrap_or_else(|| panic!("{name} has no {place}")) = value;
    input.to_string()
}

fn hazards(name: &str, input: &str) -> Vec<&'static str> {
    find(name, input).unwrap().cautions().iter().map(|caution| caution.name()).collect()
}

#[test]
fn what_is_not_decided_has_something_to_do_next() {
    for name in names() {
        let finding = find(name, example(name).unwrap()).unwrap();
        assert!(
            finding.verdict() != Some("unresolved") || !finding.next().is_empty(),
            "{name}: {}",
            finding.text()
        );
    }
}

/// A superheat or subcooling below zero is a finding, with what to do.
#[test]
fn below_zero_is_said_to_be_so() {
    let cold = find("superheat", &changed("superheat", "/suction_line/value", json!("20 °F"))).unwrap();
    assert!(cold.text().contains("liquid reaches the compressor"), "{}", cold.text());
    assert!(cold.next()[0].contains("probe contact"), "{:?}", cold.next());
    let warm =
        find("subcooling", &changed("subcooling", "/liquid_line/repeats", json!(["130 °F", "130.2 °F"])))
            .unwrap();
    assert!(warm.text().contains("there is vapour in it"), "{}", warm.text());
    assert!(warm.next()[0].contains("standing pressure"), "{:?}", warm.next());
}

/// An empty or open system is not topped up, by the check of the pressure or by the plan.
#[test]
fn no_top_up_at_or_below_the_atmosphere() {
    for (pressure, said) in
        [("0.0 psig", "not shown to be above the atmosphere"), ("-5.0 psig", "have been drawn in")]
    {
        let input = changed("standing_pressure", "/pressure/value", json!(pressure));
        let finding = find("standing_pressure", &input).unwrap();
        assert!(finding.text().contains(said), "{}", finding.text());
        assert!(finding.next()[0].starts_with("Do not run it and do not top it up"), "{:?}", finding.next());
        let input = changed("charge_plan", "/known/evidence/0/standing/pressure", json!(pressure));
        let finding = find("charge_plan", &input).unwrap();
        assert!(
            finding.text().contains("Add nothing.") && finding.text().contains(said),
            "{}",
            finding.text()
        );
        assert!(finding.next().iter().any(|line| line.contains("nitrogen")), "{:?}", finding.next());
        assert!(!finding.text().contains("Weigh in 0"), "{}", finding.text());
    }
}

#[test]
fn flammable_and_toxic_refrigerants_are_said_to_be() {
    for (name, place) in
        [("leak_size", "/refrigerant"), ("cylinder_fill", "/refrigerant"), ("weigh_in", "/refrigerant")]
    {
        let of = |designation: &str| hazards(name, &changed(name, place, json!(designation)));
        assert!(of("R-32").contains(&"flammable_refrigerant"), "{name}");
        assert!(!of("R-410A").contains(&"flammable_refrigerant"), "{name}");
        assert!(of("R-717").contains(&"toxic_refrigerant"), "{name}");
    }
    // A heel that shifted has no designation any more, and burns all the same.
    let mut heel: Value = serde_json::from_str(example("cylinder_heel").unwrap()).unwrap();
    heel["refrigerant"] = json!("R-454C");
    heel["emptied_as_vapour_from"] = json!("15 lb");
    assert!(hazards("cylinder_heel", &heel.to_string()).contains(&"flammable_refrigerant"));
}

/// A rule is not said not to apply because a potential is not known here.
#[test]
fn an_unknown_warming_potential_exempts_nothing() {
    let input = changed("leak_rate", "/refrigerant", json!("R-1132(E)"));
    let finding = find("leak_rate", &input).unwrap();
    assert!(finding.text().contains("No warming potential is known here"), "{}", finding.text());
    assert_eq!(finding.verdict(), Some("outside"));
}

/// A log that held its ten minutes but shows a leak says which of the two decides.
#[test]
fn a_leak_that_held_is_a_leak() {
    let finding = find("vacuum_decay", example("vacuum_decay").unwrap()).unwrap();
    assert_eq!(finding.verdict(), Some("within"));
    assert!(finding.text().contains("the leak shown decides"), "{}", finding.text());
}

/// A pressure that stays where it was after a weighed step: it is refused, or the answer says that it does not fit
/// and what to look at; it never passes for a charge.
#[test]
fn a_step_without_a_response_is_questioned() {
    let mut input: Value = serde_json::from_str(example("charge_inventory").unwrap()).unwrap();
    let standing = json!({"standing": {"pressure": "62 psig", "temperatures": ["88 °F"]}});
    let step = json!({"weighed": {"before": "20.0 lb", "after": "19.5 lb"}});
    input["parts"] = json!([]);
    input["evidence"] = json!([standing, step, standing]);
    let finding = find("charge_inventory", &input.to_string()).unwrap();
    assert!(
        finding.text().contains("does not rise") && finding.text().contains("widened"),
        "{}",
        finding.text()
    );
    assert!(finding.next()[0].contains("cylinder is empty"), "{:?}", finding.next());
}

/// What came out counts: recovered by weight, lost by an interval; what cannot be is named where it stands.
#[test]
fn what_came_out_counts() {
    let mut input: Value = serde_json::from_str(example("charge_inventory").unwrap()).unwrap();
    let mut with = |removed: Value| {
        input["evidence"][3] = json!({ "removed": removed });
        find("charge_inventory", &input.to_string())
    };
    let median = |finding: &crate::measure::Finding| {
        let value = serde_json::to_value(finding).unwrap();
        let pounds: crate::quantity::Mass = serde_json::from_value(value["measured"][0].clone())
            .or_else(|_| {
                serde_json::from_value(
                    json!({"value": value["measured"][0]["value"], "unit": value["measured"][0]["unit"]}),
                )
            })
            .unwrap();
        pounds.pounds()
    };
    let none = median(&with(json!({"lost": {"low": "0 lb", "high": "0 lb"}})).unwrap());
    let recovered = median(&with(json!({"before": "20.0 lb", "after": "20.5 lb"})).unwrap());
    assert!((none - recovered - 0.5).abs() < 0.02, "{none} {recovered}");
    let both = median(
        &with(json!({"before": "20.0 lb", "after": "20.5 lb", "lost": {"low": "1 oz", "high": "3 oz"}}))
            .unwrap(),
    );
    assert!((recovered - both - 0.125).abs() < 0.02, "{recovered} {both}");
    for (removed, said) in [
        (json!({"before": "20.0 lb", "after": "19.5 lb"}), "falls from 20 lb to 19.5 lb"),
        (json!({"before": "20.0 lb"}), "without the other"),
        (json!({}), "neither weights nor a loss"),
        (json!({"lost": {"low": "-1 oz", "high": "3 oz"}}), "evidence[3].removed.lost"),
        (json!({"before": "20.0 lb", "after": "25.0 lb"}), "more than can have been in the system"),
    ] {
        let error = with(removed).unwrap_err().to_string();
        assert!(error.contains(said) && error.starts_with("evidence[3]"), "{error}");
    }
}

/// The way on after an open system: evacuated, the whole charge weighed in, nothing missing.
#[test]
fn evacuated_and_charged_by_weight() {
    let mut input: Value = serde_json::from_str(example("charge_plan").unwrap()).unwrap();
    input["situation"].as_object_mut().unwrap().remove("showing");
    input["known"]["evidence"] = json!([
        {"standing": {"pressure": "-6 psig", "temperatures": ["88 °F"]}},
        {"evacuated": {}}
    ]);
    let finding = find("charge_plan", &input.to_string()).unwrap();
    assert!(finding.text().contains("Weigh in 6.49 lb"), "{}", finding.text());
    let charged = json!({"weighed": {"before": "30.0 lb", "after": "23.5 lb"}});
    input["known"]["evidence"].as_array_mut().unwrap().push(charged);
    let finding = find("charge_plan", &input.to_string()).unwrap();
    assert!(finding.text().contains("the data plate's charge is in"), "{}", finding.text());
}

/// A probability of nothing is 0, not −0.
#[test]
fn nothing_is_not_negative() {
    let mut input: Value = serde_json::from_str(example("charge_inventory").unwrap()).unwrap();
    input["evidence"] = json!([]);
    let text = serde_json::to_string(&find("charge_inventory", &input.to_string()).unwrap()).unwrap();
    assert!(!text.contains("-0.0") && !text.contains("\"-0"), "{text}");
}
