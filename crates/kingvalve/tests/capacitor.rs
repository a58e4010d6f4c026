//! The run capacitor under load: facts of the trade, laws, and what is refused.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::electrical::{CapacitorNote, RunCapacitor, Tolerance};
use kingvalve::measure::*;
use kingvalve::quantity::*;
use proptest::prelude::*;

fn herm() -> RunCapacitor {
    RunCapacitor::rated(microfarads(45.0), Tolerance::percent(6.0))
}

fn fan() -> RunCapacitor {
    RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0)).policy(Tolerance::percent(10.0))
}

/// An ammeter of which only the 0.1 A step is counted.
fn step_alone(current: f64) -> Reading<Current> {
    Reading::new(amperes(current), Instrument::resolution(amperes(0.1))).unwrap()
}

/// With the accuracy such a clamp typically has: 2 % + 5 counts (common practice, no source).
fn clamp(current: f64, step: f64) -> Reading<Current> {
    let clamp = Instrument::resolution(amperes(step)).accuracy_percent_of_reading(2.0).counts(5.0);
    Reading::new(amperes(current), clamp.named("clamp ammeter")).unwrap()
}

// The three readings below are facts of the trade, no source.

#[test]
fn a_sound_herm_section_is_within_counting_the_step_alone() {
    let check = herm().under_load(volts(354.4), step_alone(5.8), hertz(60.0)).unwrap();
    assert_eq!(check.capacitance().to_string(), "43.41 ± 0.42 µF");
    assert_eq!(
        check.to_string(),
        "Within: 43.41 ± 0.42 µF against 42.3 µF to 47.7 µF (rated tolerance), with a probability of more than \
         99.9 %. Of the ammeter only the step is counted; its accuracy was not given."
    );
}

#[test]
fn with_a_clamps_usual_accuracy_even_that_is_not_firm() {
    let check = herm().under_load(volts(354.4), clamp(5.8, 0.1), hertz(60.0)).unwrap();
    assert!(check.verdict().is_unresolved());
    let settle = check.verdict().judgement().settle().unwrap();
    assert_eq!((settle.remedy(), settle.reading()), (Remedy::BetterAccuracy, "clamp ammeter"));
}

#[test]
fn a_small_fan_section_is_unresolved_and_says_why() {
    let check = fan().under_load(volts(371.3), step_alone(0.6), hertz(60.0)).unwrap();
    assert_eq!(
        check.policy_verdict().unwrap().to_string(),
        "Unresolved: 4.29 ± 0.40 µF against 4.5 µF to 5.5 µF (shop policy) is within with a probability of 15 %, \
         below with 85 %. The 0.1 A step of the ammeter is nearly all the doubt (100 %); to settle it takes a finer \
         step and better accuracy: a standard uncertainty of at most 0.018 A in all (now 0.029 A)."
    );
    let check = fan().under_load(volts(343.8), step_alone(0.6), hertz(60.0)).unwrap();
    assert_eq!(
        check.policy_verdict().unwrap().to_string(),
        "Unresolved: 4.63 ± 0.44 µF against 4.5 µF to 5.5 µF (shop policy) is within with a probability of 72 %, \
         below with 28 %. The 0.1 A step of the ammeter is nearly all the doubt (100 %); to settle it takes a finer \
         step and better accuracy: a standard uncertainty of at most 0.01 A in all (now 0.029 A)."
    );
}

#[test]
fn a_finer_step_alone_does_not_settle_it() {
    // 0.01 A steps and 2 % + 5 counts still leave about ±10 %.
    let check = fan().under_load(volts(371.3), clamp(0.6, 0.01), hertz(60.0)).unwrap();
    assert!(check.policy_verdict().unwrap().is_unresolved());
    let limits = clamp(0.6, 0.01).instrument().specified(amperes(0.6));
    assert!((limits / amperes(0.6) - 0.103).abs() < 0.001);
    let repeated = Reading::repeated(&[amperes(0.6); 10], clamp(0.6, 0.01).instrument().clone()).unwrap();
    let check = fan().under_load(volts(371.3), repeated, hertz(60.0)).unwrap();
    assert!(check.policy_verdict().unwrap().is_unresolved());
    // A meter that is fine and accurate: 0.001 A steps, 1 %.
    let fine = Instrument::resolution(amperes(0.001)).accuracy_percent_of_reading(1.0);
    let read = Reading::new(amperes(0.6), fine).unwrap();
    let check = fan().under_load(volts(371.3), read, hertz(60.0)).unwrap();
    assert!(check.policy_verdict().unwrap().is_outside() && check.verdict().is_outside());
}

#[test]
fn no_current_is_a_finding() {
    let check = fan().under_load(volts(371.3), step_alone(0.0), hertz(60.0)).unwrap();
    assert_eq!(check.notes(), [CapacitorNote::NoCurrent]);
    assert_eq!(check.capacitance().value(), microfarads(0.0));
    assert!(check.verdict().is_outside());
    assert!(check.to_string().ends_with(CapacitorNote::NoCurrent.text()));
    // With a meter whose first step is wider than the current of a sound part, nothing is known.
    let coarse = Reading::new(amperes(0.0), Instrument::resolution(amperes(3.0))).unwrap();
    let check = fan().under_load(volts(371.3), coarse, hertz(60.0)).unwrap();
    assert!(check.verdict().is_unresolved());
    assert_eq!(check.notes(), [CapacitorNote::NoCurrent]);
}

#[test]
fn an_unequal_tolerance_moves_the_limits() {
    let part = RunCapacitor::rated(microfarads(40.0), Tolerance::unequal(0.0, 10.0));
    let judge = |current: f64| {
        let fine = Instrument::resolution(amperes(0.001)).accuracy_percent_of_reading(0.5);
        let read = Reading::new(amperes(current), fine).unwrap();
        part.under_load(volts(370.0), read, hertz(60.0)).unwrap()
    };
    let per_microfarad = 370.0 * 60.0 * std::f64::consts::TAU * 1e-6;
    assert!(judge(42.0 * per_microfarad).verdict().is_within());
    assert!(judge(39.0 * per_microfarad).verdict().is_outside());
    assert!(judge(45.0 * per_microfarad).verdict().is_outside());
    assert!(judge(40.1 * per_microfarad).verdict().is_unresolved());
}

#[test]
fn plain_numbers_say_that_no_doubt_was_counted() {
    let check = fan().under_load(volts(371.3), amperes(0.6), hertz(60.0)).unwrap();
    assert_eq!(
        check.verdict().to_string(),
        "Outside: 4.28642 µF is below 4.7 µF (rated tolerance), counting no doubt."
    );
}

#[test]
fn cautions_come_along() {
    let check = fan().under_load(volts(371.3), step_alone(0.6), hertz(60.0)).unwrap();
    assert_eq!(check.cautions(), [Caution::LiveVoltage, Caution::StoredCharge]);
    let json = serde_json::to_value(&check).unwrap();
    assert_eq!(json["cautions"][1]["hazard"], "stored_charge");
    assert_eq!(json["policy"]["verdict"], "unresolved");
    assert_eq!(json["policy"]["limits"]["source"], "shop policy");
    assert_eq!(json["part"]["tolerance"], "±6 %");
    let part: RunCapacitor = serde_json::from_value(json["part"].clone()).unwrap();
    assert_eq!(part, fan());
}

#[test]
fn what_cannot_be_is_refused() {
    let refused = |v: f64, i: f64, f: f64| {
        let error = fan().under_load(volts(v), amperes(i), hertz(f)).unwrap_err();
        assert!(error.is_out_of_range());
        error.to_string()
    };
    assert_eq!(
        refused(0.0, 0.6, 60.0),
        "voltage across the capacitor 0 V is out of range: under load it is above zero; \
         measure across the terminals of this section with the motor running"
    );
    assert!(refused(-5.0, 0.6, 60.0).starts_with("voltage"));
    assert!(refused(f64::NAN, 0.6, 60.0).starts_with("voltage"));
    assert!(refused(370.0, -0.1, 60.0).starts_with("current"));
    assert!(refused(370.0, f64::INFINITY, 60.0).starts_with("current"));
    assert!(refused(370.0, 0.6, 400.0).contains("45 Hz to 65 Hz"));
    assert!(refused(370.0, 0.6, f64::NAN).starts_with("frequency"));
    let check = |part: RunCapacitor| part.under_load(volts(370.0), amperes(0.6), hertz(60.0));
    assert!(check(RunCapacitor::rated(microfarads(0.0), Tolerance::percent(6.0))).is_err());
    assert!(check(RunCapacitor::rated(farads(5.0), Tolerance::percent(6.0))).is_err());
    assert!(check(RunCapacitor::rated(microfarads(f64::NAN), Tolerance::percent(6.0))).is_err());
    for tolerance in [
        Tolerance::percent(0.0),
        Tolerance::percent(-6.0),
        Tolerance::percent(f64::NAN),
        Tolerance::unequal(100.0, 10.0),
    ] {
        assert!(check(RunCapacitor::rated(microfarads(5.0), tolerance)).unwrap_err().is_out_of_range());
        assert!(check(fan().policy(tolerance)).is_err());
    }
}

#[test]
fn tolerances_as_marked() {
    for (text, tolerance) in [
        ("±6 %", Tolerance::percent(6.0)),
        ("+/-6%", Tolerance::percent(6.0)),
        ("10 %", Tolerance::percent(10.0)),
        ("-0/+10 %", Tolerance::unequal(0.0, 10.0)),
        ("\u{2212}5/+10 %", Tolerance::unequal(5.0, 10.0)),
    ] {
        assert_eq!(text.parse::<Tolerance>().unwrap(), tolerance, "{text}");
        assert_eq!(tolerance.to_string().parse::<Tolerance>().unwrap(), tolerance);
    }
    for text in ["6", "", "%", "± %", "±-6 %", "-6 %", "+6 %", "-5/10 %", "5/+10 %", "±NaN %", "±inf %"] {
        assert!(text.parse::<Tolerance>().unwrap_err().is_unreadable(), "{text}");
    }
}

proptest! {
    #[test]
    fn doubt_is_that_of_the_inputs_in_quadrature(
        v in 100.0..450.0_f64,
        i in 0.1..20.0_f64,
        f in 48.0..62.0_f64,
        (a, b, c) in (0.001..0.1_f64, 0.001..0.1_f64, 0.001..0.01_f64),
    ) {
        let check = herm()
            .under_load(
                Measured::from_standard(volts(v), volts(v * a), "voltmeter").unwrap(),
                Measured::from_standard(amperes(i), amperes(i * b), "ammeter").unwrap(),
                Measured::from_standard(hertz(f), hertz(f * c), "frequency").unwrap(),
            )
            .unwrap();
        let relative = check.capacitance().standard_uncertainty() / check.capacitance().value();
        prop_assert!((relative / (a * a + b * b + c * c).sqrt() - 1.0).abs() < 1e-12);
        let farads = i / (std::f64::consts::TAU * f * v);
        prop_assert!((check.capacitance().value().farads() / farads - 1.0).abs() < 1e-14);
    }

    #[test]
    fn a_wider_policy_never_condemns_what_a_narrower_one_passes(
        current in 0.0..2.0_f64,
        narrow in 1.0..20.0_f64,
        extra in 0.1..20.0_f64,
    ) {
        let part = RunCapacitor::rated(microfarads(5.0), Tolerance::percent(narrow))
            .policy(Tolerance::percent(narrow + extra));
        let check = part.under_load(volts(370.0), clamp(current, 0.01), hertz(60.0)).unwrap();
        let policy = check.policy_verdict().unwrap();
        prop_assert!(!check.verdict().is_within() || policy.is_within());
        prop_assert!(!policy.is_outside() || check.verdict().is_outside());
    }
}
