//! The checks of the air side: airflow for charge, split, before and after.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::air::*;
use kingvalve::measure::{Instrument, Known, Level, Measured, Reading};
use kingvalve::quantity::*;

fn flow(v: f64, u: f64) -> Measured<VolumeFlow> {
    Measured::from_standard(cfm(v), cfm(u), "flow").unwrap()
}

#[test]
fn only_airflow_firmly_within_its_limits_lets_one_judge_the_charge() {
    let of = |v: f64, u: f64| {
        AirflowCheck::of(flow(v, u), tons_of_refrigeration(3.0), usual_airflow_per_ton(), Level::default())
            .unwrap()
    };
    let good = of(1200.0, 40.0);
    assert!(good.lets_judge_charge() && good.finding().unwrap().verdict() == Some("within"));
    let unsure = of(1080.0, 60.0);
    assert!(unsure.verdict().is_unresolved() && !unsure.lets_judge_charge());
    assert!(unsure.finding().unwrap().next()[0].starts_with("Measure the airflow better"));
    let starved = of(900.0, 40.0);
    assert!(starved.next().contains("filter"));
    let windy = of(1500.0, 40.0);
    assert!(windy.verdict().is_outside() && windy.next().contains("speed tap"));
    let useless = of(1200.0, 900.0);
    assert!(useless.verdict().is_unresolved());
    let lenient = california_airflow_per_ton().unwrap();
    let check = AirflowCheck::of(flow(1050.0, 40.0), tons_of_refrigeration(3.0), lenient, Level::default());
    assert!(check.unwrap().lets_judge_charge());
    let none =
        AirflowCheck::of(cfm(0.0), tons_of_refrigeration(3.0), usual_airflow_per_ton(), Level::default());
    assert!(none.unwrap_err().is_out_of_range());
}

#[test]
fn a_split_says_which_way_it_is_off() {
    let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(0.5));
    let of = |supply: f64| {
        let read = |t| Reading::new(fahrenheit(t), probe.clone()).unwrap();
        let (limits, target) = (installer_split_limits(), delta_fahrenheit(19.0));
        SplitCheck::of(read(75.0), read(supply), target, "shop's table", limits, Level::default()).unwrap()
    };
    assert!(of(56.0).verdict().is_within());
    assert!(of(62.0).next().contains("too small"));
    assert!(of(50.0).next().contains("too large"));
    let finding = of(56.0).finding().unwrap();
    assert_eq!(finding.check(), "temperature_split");
    assert!(finding.sources().iter().any(|source| source == "shop's table"));
    assert!(finding.text().contains("against 19.0 Δ°F (shop's table)"), "{}", finding.text());
}

/// Outdoor, return dry and wet bulb, condensing, supply in °F, and amperes: all by probes shared between both times.
fn set(probe: &Instrument<Temperature>, clamp: &Instrument<Current>, x: [f64; 6]) -> RunReadings {
    let read = |t: f64| Reading::new(fahrenheit(t), probe.clone()).unwrap();
    let [outdoor, dry, wet, condensing, supply, amps] = x;
    RunReadings::at(read(outdoor), read(dry), read(wet))
        .condensing(read(condensing))
        .supply(read(supply))
        .current(Reading::new(amperes(amps), clamp.clone()).unwrap())
}

fn shared() -> (Instrument<Temperature>, Instrument<Current>) {
    let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(2.0));
    (probe, Instrument::resolution(amperes(0.01)).accuracy_percent_of_reading(2.0))
}

fn compared(before: [f64; 6], after: [f64; 6]) -> BeforeAfter {
    let (probe, clamp) = shared();
    let [before, after] = [before, after].map(|x| set(&probe, &clamp, x));
    BeforeAfter::of("coil washed", &before, &after, &Allowance::default(), Level::default()).unwrap()
}

#[test]
fn the_same_readings_show_no_change() {
    let same = [91.0, 76.0, 64.0, 118.0, 58.0, 12.0];
    let found = compared(same, same);
    assert_eq!(found.condensing_over_ambient().unwrap().shift(), Shift::WithinDoubt);
    assert_eq!(found.split().unwrap().shift(), Shift::WithinDoubt);
    assert_eq!(found.current().unwrap().shift(), Shift::WithinDoubt);
    assert!(found.capacity().is_none());
    assert!(found.to_string().contains("did not change by more than its doubt"));
}

#[test]
fn one_probe_both_times_shows_what_two_would_not() {
    let found = compared([91.0, 76.0, 64.0, 119.0, 58.0, 12.0], [91.0, 76.0, 64.0, 118.0, 58.0, 12.0]);
    let change = found.condensing_over_ambient().unwrap();
    assert_eq!(change.shift(), Shift::Fell);
    assert!(change.change().standard_uncertainty() < delta_fahrenheit(0.1));
    // A probe of its own each time: its 2 °F may be all of it.
    let (probe, clamp) = shared();
    let (other, _) = shared();
    let before = set(&probe, &clamp, [91.0, 76.0, 64.0, 119.0, 58.0, 12.0]);
    let after = RunReadings::at(fahrenheit(91.0), fahrenheit(76.0), fahrenheit(64.0))
        .condensing(Reading::new(fahrenheit(118.0), other).unwrap());
    let found =
        BeforeAfter::of("coil washed", &before, &after, &Allowance::default(), Level::default()).unwrap();
    assert_eq!(found.condensing_over_ambient().unwrap().shift(), Shift::WithinDoubt);
}

#[test]
fn what_the_weather_explains_is_not_claimed() {
    // Ten degrees warmer out: a rise of current by 12 % is the weather's.
    let found = compared([85.0, 76.0, 64.0, 105.0, 58.0, 10.0], [95.0, 76.0, 64.0, 115.0, 58.0, 11.2]);
    let current = found.current().unwrap();
    assert_eq!(current.shift(), Shift::WithinDoubt);
    assert!((current.allowed().amperes() - 1.2).abs() < 1e-9);
    // The same rise in the same weather is not.
    let found = compared([85.0, 76.0, 64.0, 105.0, 58.0, 10.0], [85.0, 76.0, 64.0, 105.0, 58.0, 11.2]);
    assert_eq!(found.current().unwrap().shift(), Shift::Rose);
    assert!(found.current().unwrap().verdict().is_outside());
    // The condenser, named first, did not move: its verdict is the finding's.
    assert_eq!(found.finding().unwrap().verdict(), Some("unresolved"));
}

#[test]
fn the_further_the_weather_moved_the_less_is_claimed() {
    let doubt = |outdoor: f64| {
        let found = compared(
            [85.0, 76.0, 64.0, 105.0, 58.0, 10.0],
            [outdoor, 76.0, 64.0, outdoor + 20.0, 58.0, 10.0],
        );
        found.current().unwrap().change().standard_uncertainty()
    };
    assert!(doubt(85.0) < doubt(90.0) && doubt(90.0) < doubt(100.0));
}

#[test]
fn conditions_too_far_apart_and_nothing_read_twice_are_refused() {
    let at = |outdoor: f64| RunReadings::at(fahrenheit(outdoor), fahrenheit(75.0), fahrenheit(63.0));
    let of = |a: &RunReadings, b: &RunReadings| {
        BeforeAfter::of("filter changed", a, b, &Allowance::default(), Level::default())
            .unwrap_err()
            .to_string()
    };
    let far = of(&at(60.0).supply(fahrenheit(55.0)), &at(95.0).supply(fahrenheit(55.0)));
    assert!(
        far.starts_with("difference in outdoor dry bulb before and after 35.0 Δ°F is out of range"),
        "{far}"
    );
    let nothing = of(&at(85.0).supply(fahrenheit(55.0)), &at(85.0).condensing(fahrenheit(105.0)));
    assert!(nothing.contains("no quantity was read both times"), "{nothing}");
}

#[test]
fn capacity_and_bypass_come_as_findings() {
    let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(0.5));
    let site = Site::sea_level();
    let air = |dry: f64, wet: f64| {
        let read = |t| Reading::new(fahrenheit(t), probe.clone()).unwrap();
        MoistAir::from_wet_bulb(read(dry), read(wet), &site).unwrap()
    };
    let (back, supply) = (air(76.0, 64.0), air(57.0, 55.6));
    let capacity = delivered(flow(1150.0, 40.0), FlowAt::Entering, &back, &supply).unwrap();
    let ratio = capacity.sensible_ratio().unwrap();
    assert!((0.6..0.95).contains(&ratio.value().fraction()));
    let finding = capacity.finding().unwrap();
    assert_eq!((finding.check(), finding.verdict()), ("delivered_capacity", None));
    assert!(finding.text().contains("known to ±"), "{}", finding.text());
    let text = serde_json::to_string(&bypass(&back, &supply).unwrap().finding().unwrap()).unwrap();
    assert!(text.contains(r#""what":"apparatus dew point""#), "{text}");
    // Plain in, plain out, and a finding that claims no doubt.
    let plain = delivered(cfm(1150.0), FlowAt::Entering, &back.plain(), &supply.plain()).unwrap();
    assert_eq!(plain.total().value(), capacity.total().value());
    assert!(plain.finding().unwrap().text().contains("±0 Btu/h"));
}
