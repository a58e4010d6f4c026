//! The plan: its order of work, its stop rules, its steps, and what it refuses.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use kingvalve::charge::FullCharge;
use kingvalve::charge::inventory::{Inventory, StandingReading, System};
use kingvalve::charge::plan::{
    Action, Before, Cause, Form, Look, Metering, OnTarget, OutdoorCoil, Plan, Response, Showing, Situation,
    Stop,
};
use kingvalve::measure::{Instrument, Level, Limits, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

const FULL: FullCharge = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };

fn standing(name: &str, pressure: f64, t: f64) -> Inventory {
    let system = System::of_plate(&Refrigerant::named(name).unwrap(), pounds(6.5)).unwrap();
    let gauge = Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(500.0));
    let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    let p = Site::sea_level().absolute(&Reading::new(psig(pressure), gauge).unwrap()).unwrap();
    let reading = StandingReading::at(p, Reading::new(fahrenheit(t), clamp).unwrap());
    Inventory::prior(&system).unwrap().standing(&reading).unwrap()
}

fn ready() -> Situation {
    Situation { standing_at: vec![fahrenheit(88.0)], ..Situation::ready(Metering::Valve, pounds(10.0)) }
}

fn showing(against_target: OnTarget) -> Showing {
    Showing {
        superheat: delta_fahrenheit(20.0),
        subcooling: delta_fahrenheit(4.0),
        full: FULL,
        against_target,
    }
}

fn weighed(mass: f64) -> Measured<Mass> {
    Measured::from_standard(pounds(mass), ounces(0.2), "scale").unwrap()
}

fn action(inventory: &Inventory, situation: &Situation) -> Action {
    Plan::next(inventory, situation).unwrap().action().clone()
}

#[test]
fn what_is_not_the_refrigerant_is_ruled_out_first() {
    let inventory = standing("R-454B", 62.0, 88.0);
    let fan = Before { outdoor_fan: Look::AtFault, ..Before::all_fine() };
    let plan = Plan::next(&inventory, &Situation { before: fan, ..ready() }).unwrap();
    assert_eq!(plan.action(), &Action::RuleOut { at_fault: vec![Cause::OutdoorFan], look_at: Vec::new() });
    assert!(plan.next_steps()[0].contains("capacitor"));
    let nobody = Situation { before: Before::default(), ..ready() };
    let Action::RuleOut { look_at, .. } = action(&inventory, &nobody) else { panic!() };
    assert_eq!(look_at.first(), Some(&Cause::FrozenIndoorCoil)); // thaw before anything is read
    assert_eq!(look_at.len(), 6);
}

#[test]
fn blends_go_in_as_liquid_and_pure_refrigerants_as_they_like() {
    for (name, form) in [
        ("R-454B", Form::LiquidThrottled),
        ("R-410A", Form::LiquidThrottled),
        ("R-32", Form::VapourOrLiquid),
        ("R-22", Form::VapourOrLiquid),
    ] {
        let Action::Weigh { step, form: found, .. } = action(&standing(name, 55.0, 88.0), &ready()) else {
            panic!()
        };
        assert_eq!((step, found), (pounds(0.5), form), "{name}");
    }
}

#[test]
fn the_coil_is_cleaned_before_the_final_charge_and_readings_before_that_set_nothing() {
    let nearly_full = standing("R-454B", 62.0, 88.0).weighed_in(weighed(5.0)).unwrap();
    let dirty = |coil, on| Situation { outdoor_coil: coil, showing: Some(showing(on)), ..ready() };
    // What says "met" with a dirty coil does not stop the charge, and "too little" adds nothing.
    for on in [OnTarget::Met, OnTarget::TooLittle] {
        let plan = Plan::next(&nearly_full, &dirty(OutdoorCoil::Dirty, on)).unwrap();
        assert_eq!(plan.action(), &Action::CleanCoil);
        assert!(plan.text().contains("set nothing"), "{}", plan.text());
        assert_eq!(action(&nearly_full, &dirty(OutdoorCoil::Wet, on)), Action::DryAndSteady);
    }
    let met = action(&nearly_full, &dirty(OutdoorCoil::DrySteady, OnTarget::Met));
    assert_eq!(met, Action::Stop { because: Stop::TargetMet });
    // Nearly empty, the first steps may go in before.
    let empty = standing("R-454B", 62.0, 88.0);
    assert!(matches!(action(&empty, &dirty(OutdoorCoil::Dirty, OnTarget::TooLittle)), Action::Weigh { .. }));
}

#[test]
fn every_stop_rule_stops() {
    let inventory = standing("R-454B", 62.0, 88.0);
    let stops = |inventory: &Inventory, situation: Situation, because| {
        assert_eq!(action(inventory, &situation), Action::Stop { because });
    };
    let on = |on| Situation { showing: Some(showing(on)), ..ready() };
    stops(&inventory, on(OnTarget::Met), Stop::TargetMet);
    stops(&inventory, on(OnTarget::TooMuch), Stop::TooMuch);
    stops(&inventory, Situation { as_predicted: false, ..ready() }, Stop::NotAsPredicted);
    stops(&inventory, Situation { cylinder: pounds(0.0), ..ready() }, Stop::CylinderEmpty);
    stops(&inventory.weighed_in(weighed(6.5)).unwrap(), ready(), Stop::PlateReached);
    stops(&standing("R-410A", 62.0, -15.0), ready(), Stop::NotThisRefrigerantAlone);
    let said =
        Plan::next(&inventory, &Situation { as_predicted: false, ..ready() }).unwrap().next_steps().join(" ");
    for word in ["Restriction", "Metering device", "Non-condensables", "Compressor"] {
        assert!(said.contains(word), "{said}");
    }
}

#[test]
fn steps_never_pass_what_is_missing_nor_what_the_cylinder_holds() {
    let inventory = standing("R-454B", 62.0, 88.0);
    let held = Situation { cylinder: pounds(0.3), ..ready() };
    let Action::Weigh { step, .. } = action(&inventory, &held) else { panic!() };
    assert_eq!(step, pounds(0.3));
    let near = inventory.weighed_in(weighed(5.6)).unwrap();
    let Action::Weigh { step, .. } = action(&near, &ready()) else { panic!() };
    assert!(step < pounds(0.5) && step == near.missing(pounds(6.5)).median);
}

#[test]
fn the_next_reading_is_predicted_and_then_judged() {
    let inventory = standing("R-454B", 62.0, 88.0);
    let plan = Plan::next(&inventory, &ready()).unwrap();
    let expected = plan.expected_standing().unwrap();
    assert!(expected.median > psia(90.0) && expected.ninety.high() < psia(235.0), "{expected:?}");
    let read = |p: f64| Measured::from_standard(psia(p), psi(1.0), "gauge").unwrap();
    assert!(Response::standing(expected, &read(expected.median.psia())).is_as_predicted());
    assert!(!Response::standing(expected, &read(77.0)).is_as_predicted());
    // Running: a valve answers with subcooling, an orifice with superheat.
    let with = |metering| Situation { metering, showing: Some(showing(OnTarget::TooLittle)), ..ready() };
    let valve = *Plan::next(&inventory, &with(Metering::Valve)).unwrap().expected_running().unwrap();
    assert!(valve.subcooling.median > delta_fahrenheit(6.0));
    assert_eq!(valve.superheat.median, delta_fahrenheit(20.0));
    let orifice = *Plan::next(&inventory, &with(Metering::Orifice)).unwrap().expected_running().unwrap();
    assert!(orifice.superheat.median < delta_fahrenheit(17.0));
}

#[test]
fn a_verdict_becomes_too_little_or_too_much_by_the_metering_device() {
    let limits = Limits::between(delta_fahrenheit(7.0), delta_fahrenheit(13.0)).unwrap();
    let judge = |x: f64| {
        let read = Measured::from_standard(delta_fahrenheit(x), delta_fahrenheit(0.5), "clamp").unwrap();
        limits.judge(&read, Level::default()).unwrap()
    };
    assert_eq!(OnTarget::by_subcooling(&judge(3.0)), OnTarget::TooLittle);
    assert_eq!(OnTarget::by_subcooling(&judge(17.0)), OnTarget::TooMuch);
    assert_eq!(OnTarget::by_superheat(&judge(17.0)), OnTarget::TooLittle);
    assert_eq!(OnTarget::by_superheat(&judge(10.0)), OnTarget::Met);
    assert_eq!(OnTarget::by_superheat(&judge(13.2)), OnTarget::Unresolved);
}

#[test]
fn bad_input_is_named() {
    let inventory = standing("R-454B", 62.0, 88.0);
    let refused = |situation: Situation| Plan::next(&inventory, &situation).unwrap_err();
    let error = refused(Situation { step: Some(pounds(11.0)), ..ready() });
    assert!(error.field() == Some("step") && error.to_string().contains("next cylinder"), "{error}");
    let error = refused(Situation { step: Some(pounds(8.0)), ..ready() });
    assert!(error.to_string().contains("missing to the data plate"), "{error}");
    assert_eq!(refused(Situation { step: Some(pounds(0.0)), ..ready() }).field(), Some("step"));
    assert_eq!(refused(Situation { cylinder: pounds(-2.0), ..ready() }).field(), Some("cylinder"));
}
