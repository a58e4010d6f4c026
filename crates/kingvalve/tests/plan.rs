//! The plan: its order of work, its stop rules, its steps, and what it refuses.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use kingvalve::charge::FullCharge;
use kingvalve::charge::inventory::{Inventory, StandingReading, System};
use kingvalve::charge::plan::{
    Action, Before, Cause, Form, Look, Metering, OnTarget, OutdoorCoil, Plan, Response, Showing, Situation,
    Stop,
};
use kingvalve::measure::{Caution, Instrument, Level, Limits, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

const FULL: FullCharge = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };

fn standing(name: &str, pressure: f64, t: f64) -> Inventory {
    let system = System::of_plate(&Refrigerant::named(name).unwrap(), pounds(6.5)).unwrap();
    Inventory::prior(&system).unwrap().standing(&reading(pressure, t)).unwrap()
}

fn reading(pressure: f64, t: f64) -> StandingReading {
    let gauge = Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(500.0));
    let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    let p = Site::sea_level().absolute(&Reading::new(psig(pressure), gauge).unwrap()).unwrap();
    StandingReading::at(p, Reading::new(fahrenheit(t), clamp).unwrap())
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

fn planned(inventory: &Inventory, situation: &Situation) -> Plan {
    Plan::next(inventory, situation, &Site::sea_level()).unwrap()
}

fn action(inventory: &Inventory, situation: &Situation) -> Action {
    planned(inventory, situation).action().clone()
}

#[test]
fn what_is_not_the_refrigerant_is_ruled_out_first() {
    let inventory = standing("R-454B", 62.0, 88.0);
    let fan = Before { outdoor_fan: Look::AtFault, ..Before::all_fine() };
    let plan = planned(&inventory, &Situation { before: fan, ..ready() });
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
        let plan = planned(&nearly_full, &dirty(OutdoorCoil::Dirty, on));
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
    let said = planned(&inventory, &Situation { as_predicted: false, ..ready() }).next_steps().join(" ");
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
    let plan = planned(&inventory, &ready());
    let expected = plan.expected_standing().unwrap();
    assert!(expected.median > psia(90.0) && expected.ninety.high() < psia(235.0), "{expected:?}");
    let read = |p: f64| Measured::from_standard(psia(p), psi(1.0), "gauge").unwrap();
    assert!(Response::standing(expected, &read(expected.median.psia())).is_as_predicted());
    assert!(!Response::standing(expected, &read(77.0)).is_as_predicted());
    // Running: a valve answers with subcooling, an orifice with superheat.
    let with = |metering| Situation { metering, showing: Some(showing(OnTarget::TooLittle)), ..ready() };
    let valve = *planned(&inventory, &with(Metering::Valve)).expected_running().unwrap();
    assert!(valve.subcooling.median > delta_fahrenheit(6.0));
    assert_eq!(valve.superheat.median, delta_fahrenheit(20.0));
    let orifice = *planned(&inventory, &with(Metering::Orifice)).expected_running().unwrap();
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

/// In a vacuum air and moisture have been drawn in: nothing is added, whatever else was looked at, and a later pressure
/// above the atmosphere's does not undo it.
#[test]
fn a_system_that_may_have_drawn_in_air_is_not_topped_up() {
    use kingvalve::charge::AirIngress::{DrawnIn, Possible};
    let evacuate = |air| Action::RepairAndEvacuate { air };
    for (shown, air) in
        [(-14.0, DrawnIn), (-5.0, DrawnIn), (-1.0, Possible), (0.0, Possible), (2.0, Possible)]
    {
        let inventory = standing("R-454B", shown, 88.0);
        for situation in [ready(), Situation { before: Before::default(), ..ready() }] {
            assert_eq!(action(&inventory, &situation), evacuate(air), "{shown} psig");
        }
        let plan = planned(&inventory, &ready());
        let said = plan.text() + &plan.next_steps().join(" ");
        for word in ["Add nothing", "Recover", "leak", "nitrogen", "evacuate", "whole charge"] {
            assert!(said.contains(word), "{said}");
        }
        assert_eq!(said.contains("finer gauge"), air == Possible);
        assert!(plan.cautions().contains(&Caution::TestGas));
    }
    assert!(matches!(action(&standing("R-454B", 5.0, 88.0), &ready()), Action::Weigh { .. }));
    let topped_up = standing("R-454B", -5.0, 88.0).weighed_in(weighed(0.5)).unwrap();
    let topped_up = topped_up.standing(&reading(60.0, 88.0)).unwrap();
    assert_eq!(action(&topped_up, &ready()), evacuate(DrawnIn));
}

/// The atmosphere is the site's: 0 psig is 0 psig at any elevation, and an absolute pressure is not.
#[test]
fn the_atmosphere_is_that_of_the_site() {
    let high = Site::at_elevation(feet(7000.0)).unwrap();
    let system = System::of_plate(&Refrigerant::named("R-32").unwrap(), pounds(6.5)).unwrap();
    let transducer = Measured::from_standard(psia(13.0), psi(0.1), "transducer").unwrap();
    let clamp = Measured::from_standard(fahrenheit(60.0), delta_fahrenheit(1.0), "clamp").unwrap();
    let inventory =
        Inventory::prior(&system).unwrap().standing(&StandingReading::at(transducer, clamp)).unwrap();
    let at = |site: &Site| Plan::next(&inventory, &ready(), site).unwrap().action().clone();
    assert!(matches!(at(&Site::sea_level()), Action::RepairAndEvacuate { .. }));
    assert!(matches!(at(&high), Action::Weigh { .. }));
}

#[test]
fn what_burns_or_poisons_is_said_and_what_is_not_known_too() {
    let cautions = |name: &str| planned(&standing(name, 40.0, 88.0), &ready()).cautions();
    assert!(!cautions("R-410A").contains(&Caution::FlammableRefrigerant));
    assert!(cautions("R-454B").contains(&Caution::FlammableRefrigerant));
    let ammonia = cautions("R-717");
    assert!(ammonia.contains(&Caution::FlammableRefrigerant) && ammonia.contains(&Caution::ToxicRefrigerant));
    assert!(cautions("R-161").contains(&Caution::UnknownSafetyGroup));
    // Also where the work ends before any refrigerant is handled.
    let nobody = Situation { before: Before::default(), ..ready() };
    assert!(planned(&standing("R-717", 40.0, 88.0), &nobody).cautions().contains(&Caution::ToxicRefrigerant));
}

#[test]
fn with_nothing_read_the_pressure_is_asked_for_first() {
    let system = System::of_plate(&Refrigerant::named("R-454B").unwrap(), pounds(6.5)).unwrap();
    let steps = planned(&Inventory::prior(&system).unwrap(), &ready()).next_steps();
    assert!(steps[0].contains("read the standing pressure"), "{steps:?}");
    assert!(
        !planned(&standing("R-454B", 62.0, 88.0), &ready()).next_steps()[0].contains("read the standing")
    );
}

#[test]
fn bad_input_is_named() {
    let inventory = standing("R-454B", 62.0, 88.0);
    let refused = |situation: Situation| Plan::next(&inventory, &situation, &Site::sea_level()).unwrap_err();
    let error = refused(Situation { step: Some(pounds(11.0)), ..ready() });
    assert!(error.field() == Some("step") && error.to_string().contains("next cylinder"), "{error}");
    let error = refused(Situation { step: Some(pounds(8.0)), ..ready() });
    assert!(error.to_string().contains("missing to the data plate"), "{error}");
    assert_eq!(refused(Situation { step: Some(pounds(0.0)), ..ready() }).field(), Some("step"));
    assert_eq!(refused(Situation { cylinder: pounds(-2.0), ..ready() }).field(), Some("cylinder"));
}
