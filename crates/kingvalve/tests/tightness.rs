//! Laws of the pressure test, its limits, and the size of a leak.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::measure::{Caution, Instrument, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use kingvalve::tightness::{
    Cause, DecayLog, DecayTest, Flow, GasState, Leak, LeakGas, PressureTest, Regime, TestPressure,
};
use proptest::prelude::*;

fn exactly(p: Pressure, t: Temperature) -> GasState {
    GasState { pressure: Measured::exact(p), temperature: Measured::exact(t) }
}

fn leak(q: f64) -> Leak {
    let q = Measured::exact(pascal_cubic_meters_per_second(q));
    Leak::new(q, LeakGas::nitrogen(), psia(314.7), psia(14.7), celsius(20.0)).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// What a tight system shows at the second temperature is no loss; going there and back changes nothing.
    #[test]
    fn a_tight_system_loses_nothing(p in 0.2f64..5.0, t1 in -20.0f64..50.0, t2 in -20.0f64..50.0) {
        let start = exactly(megapascals(p), celsius(t1));
        let there = PressureTest::new(start.clone(), exactly(megapascals(p), celsius(t2))).check().unwrap();
        let end = exactly(there.expected().value(), celsius(t2));
        let tight = PressureTest::new(start, end.clone()).check().unwrap();
        prop_assert!(tight.loss().value().delta_pascals().abs() < 1e-6 * p * 1e6);
        let back = PressureTest::new(end, exactly(megapascals(p), celsius(t1))).check().unwrap();
        prop_assert!((back.expected().value() / megapascals(p) - 1.0).abs() < 1e-9);
    }

    /// Nitrogen is ideal to a hundredth in each MPa, over these temperatures.
    #[test]
    fn the_correction_is_near_that_of_an_ideal_gas(p in 0.2f64..4.0, t1 in -20.0f64..50.0, t2 in -20.0f64..50.0) {
        let check = PressureTest::new(exactly(megapascals(p), celsius(t1)), exactly(megapascals(p), celsius(t2)));
        let ratio = check.check().unwrap().expected().value() / megapascals(p);
        let ideal = (t2 + 273.15) / (t1 + 273.15);
        prop_assert!((ratio / ideal - 1.0).abs() < 0.01 * p.max(1.0), "{ratio} {ideal}");
    }

    /// The doubt carried is that of finite differences.
    #[test]
    fn doubt_follows_the_slopes(p in 0.5f64..4.0, t1 in 0.0f64..40.0, t2 in 0.0f64..40.0) {
        let expected = |p: f64, t1: f64, t2: f64| {
            let test = PressureTest::new(exactly(pascals(p), celsius(t1)), exactly(pascals(p), celsius(t2)));
            test.check().unwrap().expected().value().pascals()
        };
        let p = p * 1e6;
        let slopes = [
            (expected(p + 10.0, t1, t2) - expected(p - 10.0, t1, t2)) / 20.0,
            (expected(p, t1 + 0.01, t2) - expected(p, t1 - 0.01, t2)) / 0.02,
            (expected(p, t1, t2 + 0.01) - expected(p, t1, t2 - 0.01)) / 0.02,
        ];
        let by_hand = (slopes[0] * 100.0).hypot(slopes[1] * 0.5).hypot(slopes[2] * 0.3).hypot(100.0);
        let of = |p: f64, t: f64, u: f64| GasState {
            pressure: Measured::from_standard(pascals(p), delta_pascals(100.0), "gauge").unwrap(),
            temperature: Measured::from_standard(celsius(t), delta_kelvins(u), "thermometer").unwrap(),
        };
        let check = PressureTest::new(of(p, t1, 0.5), of(p, t2, 0.3)).check().unwrap();
        let carried = check.loss().standard_uncertainty().delta_pascals();
        prop_assert!((carried / by_hand - 1.0).abs() < 1e-5, "{carried} {by_hand}");
    }

    /// Converting to another gas and back is identity; more pressure is more leak; no unit matters.
    #[test]
    fn a_leak_converted_there_and_back_is_the_same(exponent in -9.0f64..-3.0, inside in 30.0f64..600.0) {
        let q = 10f64.powf(exponent);
        for flow in [Flow::Viscous, Flow::Molecular] {
            let helium = leak(q).of_gas(&LeakGas::helium(), psia(inside), psia(14.7), flow).unwrap();
            let as_found = Leak::new(
                helium.throughput().clone(), LeakGas::helium(), psia(inside), psia(14.7), celsius(20.0),
            ).unwrap();
            let back = as_found.of_gas(&LeakGas::nitrogen(), psia(314.7), psia(14.7), flow).unwrap();
            prop_assert!((back.throughput().value().pascal_cubic_meters_per_second() / q - 1.0).abs() < 1e-12);
            let more = leak(q).of_gas(&LeakGas::helium(), psia(inside + 1.0), psia(14.7), flow).unwrap();
            prop_assert!(more.throughput().value() > helium.throughput().value());
        }
    }
}

#[test]
fn one_gauge_for_both_readings_proves_more_than_two_of_the_same_kind() {
    let gauge = || Instrument::resolution(psi(0.1)).accuracy_percent_of_span(1.0, psi(800.0));
    let thermometer = || Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(2.0));
    let state = |p, t, gauge: Instrument<GaugePressure>, thermometer: Instrument<Temperature>| GasState {
        pressure: Site::sea_level().absolute(Reading::new(psig(p), gauge).unwrap()).unwrap(),
        temperature: Reading::new(fahrenheit(t), thermometer).unwrap().measured(),
    };
    let (g, t) = (gauge(), thermometer());
    let one = PressureTest::new(state(300.0, 75.0, g.clone(), t.clone()), state(299.8, 75.0, g, t));
    let two = PressureTest::new(
        state(300.0, 75.0, gauge(), thermometer()),
        state(299.8, 75.0, gauge(), thermometer()),
    );
    let (one, two) = (one.check().unwrap(), two.check().unwrap());
    assert!(one.verdict().is_within(), "{}", one.verdict());
    assert!(two.verdict().is_unresolved(), "{}", two.verdict());
    assert!(one.loss().standard_uncertainty() < two.loss().standard_uncertainty() * 0.05);
}

#[test]
fn a_gain_beyond_doubt_is_a_finding_of_its_own() {
    let state = |p: f64| GasState {
        pressure: Measured::from_standard(psia(p), psi(0.2), "gauge").unwrap(),
        temperature: Measured::exact(fahrenheit(75.0)),
    };
    let check = PressureTest::new(state(300.0), state(305.0)).check().unwrap();
    assert!(check.gained());
    let finding = check.finding().unwrap();
    assert!(finding.text().contains("gained"), "{}", finding.text());
    assert!(finding.cautions().contains(&Caution::TestGas));
    assert!(Caution::TestGas.text().contains("Never oxygen"));
    assert!(finding.cautions().contains(&Caution::Asphyxiation));
}

#[test]
fn a_loss_becomes_the_size_of_a_leak() {
    let start = exactly(psia(314.7), celsius(20.0));
    let end = exactly(psia(304.7), celsius(20.0));
    let test = PressureTest::new(start.clone(), end.clone());
    let sized = test.clone().sized(Measured::exact(liters(10.0)), hours(24.0), Site::sea_level()).unwrap();
    let q = sized.check().unwrap().leak().unwrap().throughput().value().pascal_cubic_meters_per_second();
    // 10 psi × 10 L ÷ 24 h, by hand.
    assert!((q - 68_947.57 * 0.010 / 86_400.0).abs() < 1e-8, "{q}");
    let gained =
        PressureTest::new(end, start).sized(Measured::exact(liters(10.0)), hours(24.0), Site::sea_level());
    assert!(gained.unwrap().check().unwrap().leak().is_none());
    let error = test.sized(Measured::exact(liters(10.0)), hours(-1.0), Site::sea_level()).unwrap_err();
    assert!(error.to_string().starts_with("duration of the test -60 min"), "{error}");
}

#[test]
fn what_cannot_be_a_pressure_test_is_refused() {
    let good = || exactly(psia(300.0), celsius(20.0));
    let refused = |start, end| PressureTest::new(start, end).check().unwrap_err().to_string();
    assert!(
        refused(exactly(psia(-3.0), celsius(20.0)), good()).starts_with("start.pressure: absolute pressure")
    );
    assert!(refused(good(), exactly(psia(f64::NAN), celsius(20.0))).starts_with("end.pressure"));
    assert!(refused(good(), exactly(psia(300.0), celsius(200.0))).starts_with("end.temperature"));
    let error = PressureTest::new(good(), good()).allowing(psi(-1.0)).check().unwrap_err();
    assert!(error.to_string().starts_with("allowed loss -1 psi"), "{error}");
    assert!(Site::sea_level().absolute(psig(-20.0)).unwrap_err().is_out_of_range());
}

#[test]
fn a_test_pressure_is_held_to_the_lowest_limit_and_to_the_sun() {
    let plate = TestPressure::of_plate(psig(450.0)).unwrap().low_side(psig(236.0)).unwrap();
    assert_eq!(plate.limit(), (psig(236.0), "data plate, low side"));
    let plate = plate.relief(psig(200.0)).unwrap();
    assert_eq!(plate.limit(), (psig(200.0), "relief device"));
    let gauge = Instrument::resolution(psi(1.0)).accuracy_percent_of_span(1.0, psi(800.0));
    let near = plate.check(Reading::new(psig(198.0), gauge).unwrap(), None).unwrap();
    assert!(near.verdict().is_unresolved());
    let finding = near.finding().unwrap();
    assert!(finding.next()[0].starts_with("Do not apply"));
    assert!(finding.cautions().contains(&Caution::TestGas));
    // 150 psig at 50 °F, at 110 °F: 164.696 × 569.67/509.67 − 14.696 = 169.39 for an ideal gas.
    let sun = (Site::sea_level(), fahrenheit(50.0), fahrenheit(110.0));
    let warmed = plate.check(psig(150.0), Some(sun)).unwrap();
    let warmed = warmed.warmed().unwrap().value().psig();
    // The real gas rises 0.3 % more: CoolProp 8.0.0 at constant density.
    assert!((warmed - 169.959).abs() < 0.01, "{warmed}");
    assert!(TestPressure::of_plate(psig(-5.0)).is_err());
    assert!(plate.check(psig(-5.0), None).is_err());
    assert!(plate.check(psig(150.0), Some((Site::sea_level(), fahrenheit(90.0), fahrenheit(60.0)))).is_err());
}

#[test]
fn what_cannot_be_a_leak_is_refused() {
    let q = |x: f64| Measured::exact(pascal_cubic_meters_per_second(x));
    let new = |x: f64, inside: f64, outside: f64| {
        Leak::new(q(x), LeakGas::air(), psia(inside), psia(outside), celsius(20.0)).unwrap_err().to_string()
    };
    assert!(new(0.0, 100.0, 14.7).starts_with("leak 0 Pa·m³/s is out of range"), "{}", new(0.0, 100.0, 14.7));
    assert!(new(1e-6, -2.0, 14.7).starts_with("absolute pressure inside"));
    assert!(new(1e-6, 14.7, 14.7).starts_with("pressures across the leak"));
    // A component without a listed viscosity says which, and takes one.
    let gas = LeakGas::of(&Refrigerant::named("R-1233zd(E)").unwrap());
    let error = leak(1e-5).of_gas(&gas, psia(100.0), psia(14.7), Flow::Viscous).unwrap_err().to_string();
    assert!(error.contains("R-1233zd(E)") && error.contains("with_viscosity"), "{error}");
    let gas = gas.with_viscosity(micropascal_seconds(10.8)).unwrap();
    assert!(leak(1e-5).of_gas(&gas, psia(100.0), psia(14.7), Flow::Viscous).is_ok());
    assert!(LeakGas::helium().with_viscosity(micropascal_seconds(0.0)).is_err());
}

#[test]
fn regimes_are_told_by_size() {
    let of = |q: f64| leak(q).regime();
    assert_eq!(
        [of(1e-9), of(1e-6), of(1e-4), of(1e-2)],
        [Regime::Molecular, Regime::Transitional, Regime::Viscous, Regime::Turbulent]
    );
    let gas = LeakGas::of(&Refrigerant::named("R-410A").unwrap());
    let size = leak(1e-4).of_gas(&gas, psia(250.0), psia(14.7), Flow::Viscous).unwrap();
    let finding = size.finding().unwrap();
    assert!(finding.text().contains("oz/yr"), "{}", finding.text());
    assert!(finding.cautions().contains(&Caution::Venting));
}

/// Steady, but never pulled down: no leave to let refrigerant in; steady for less than the hold: watch on.
#[test]
fn a_steady_vacuum_is_not_yet_a_deep_one() {
    let next = |level: f64, lasts: f64| {
        let gauge = Instrument::resolution(delta_microns(1.0));
        let log = (0..31).map(|n| (minutes(lasts * f64::from(n) / 30.0), microns(level + f64::from(n % 2))));
        let test = DecayTest::new(DecayLog::new(log, gauge).unwrap(), Measured::exact(fahrenheit(75.0)));
        let check = test.check().unwrap();
        assert_eq!(check.cause(), Cause::Steady, "{}", check.reason());
        check.finding().unwrap().next().join(" ")
    };
    assert!(next(400.0, 15.0).contains("Break the vacuum with refrigerant"), "{}", next(400.0, 15.0));
    assert!(next(900.0, 15.0).contains("Pump longer"), "{}", next(900.0, 15.0));
    assert!(next(400.0, 6.0).contains("log on to the end of the hold"), "{}", next(400.0, 6.0));
}
