//! Cylinders: what was weighed out, how full they may be, and what stays in them.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::cylinder::*;
use kingvalve::measure::*;
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use proptest::prelude::*;

fn scale() -> Instrument<Mass> {
    Instrument::resolution(ounces(0.5)).accuracy_percent_of_reading(0.2)
}

fn weighed(name: &str, weights: &[f64], scale: &Instrument<Mass>) -> CylinderUse {
    let read = |w: &f64| Reading::new(pounds(*w), scale.clone()).unwrap();
    CylinderUse { name: name.into(), weights: weights.iter().map(read).collect() }
}

fn total(uses: &[CylinderUse]) -> f64 {
    Tally::of(uses).unwrap().total().value().pounds()
}

#[test]
fn a_scale_zeroed_with_the_cylinder_on_it_counts_from_zero() {
    let scale = scale();
    let gross = weighed("A", &[30.0, 28.5, 27.0], &scale);
    let zeroed = weighed("A", &[0.0, -1.5, -3.0], &scale);
    assert!((total(&[gross]) - 3.0).abs() < 1e-12);
    assert!((total(std::slice::from_ref(&zeroed)) - 3.0).abs() < 1e-12);
    let both = [weighed("A", &[30.0, 28.5], &scale), weighed("A", &[0.0, -1.5], &scale)];
    let tally = Tally::of(&both).unwrap();
    assert_eq!(tally.cylinders().len(), 1);
    assert!((tally.cylinders()[0].1.value().pounds() - 3.0).abs() < 1e-12);
    assert!(tally.gaps().is_empty());
    // Rising since the zero, or negative without one.
    assert!(Tally::of(&[weighed("A", &[0.0, 1.5], &scale)]).unwrap_err().is_inconsistent());
    let error = Tally::of(&[weighed("A", &[5.0, -1.5], &scale)]).unwrap_err();
    assert!(error.is_out_of_range() && error.to_string().contains("zero the scale"), "{error}");
}

#[test]
fn a_half_emptied_cylinder_may_come_back() {
    let scale = scale();
    let swap = |back: f64| {
        Tally::of(&[
            weighed("A", &[30.0, 27.0], &scale),
            weighed("B", &[25.0, 24.0], &scale),
            weighed("A", &[back, back - 2.0], &scale),
        ])
    };
    let tally = swap(27.0).unwrap();
    assert!((tally.total().value().pounds() - 6.0).abs() < 1e-12);
    let each: Vec<_> =
        tally.cylinders().iter().map(|(name, net)| (name.as_str(), net.value().pounds())).collect();
    assert_eq!(each.iter().map(|(name, _)| *name).collect::<Vec<_>>(), ["A", "B"]);
    assert!((each[0].1 - 5.0).abs() < 1e-12 && (each[1].1 - 1.0).abs() < 1e-12);
    assert_eq!(tally.gaps().len(), 1);
    // Half a pound went elsewhere in between: it is said, and is not in the total.
    let lost = swap(26.5).unwrap();
    assert!((lost.gaps()[0].1.value().pounds() - 0.5).abs() < 1e-12);
    assert!((lost.total().value().pounds() - 6.0).abs() < 1e-12);
    assert!(swap(28.0).unwrap_err().to_string().contains("rises"));
}

#[test]
fn the_scales_step_is_the_doubt_of_a_small_step() {
    let coarse = Instrument::resolution(ounces(2.0));
    let tally = Tally::of(&[weighed("A", &[30.0, 29.75], &coarse)]).unwrap();
    let standard = tally.total().standard_uncertainty().ounces();
    assert!((standard - (2.0f64 * 4.0 / 12.0).sqrt()).abs() < 1e-9, "{standard}"); // two steps of 2 oz: √2·2/√12
}

/// The density of water behind a water capacity is that of our own equation at 60 °F and one atmosphere.
#[test]
fn a_water_capacity_is_the_volume_of_water_at_60_degrees() {
    let cylinder = Cylinder::stamped(pounds(24.5), pounds(47.7)).unwrap();
    let water = Refrigerant::named("R-718").unwrap().density(kilopascals(101.325), fahrenheit(60.0)).unwrap();
    let mass = water * cylinder.volume().value();
    assert!((mass / pounds(47.7) - 1.0).abs() < 1e-5, "{mass}");
    assert!(cylinder.net(pounds(20.0)).unwrap_err().is_inconsistent());
    assert!(Cylinder::stamped(pounds(24.5), pounds(0.0)).unwrap_err().is_out_of_range());
}

/// The liquid-full limit by another way: at the limit, liquid at its bubble point takes the whole volume.
#[test]
fn liquid_full_is_density_times_volume() {
    let cylinder = Cylinder::stamped(pounds(24.5), pounds(47.7)).unwrap();
    for (name, expected) in [
        // kg/m³ at the bubble point at 54.4 °C (130 °F), CoolProp 8.0.0
        ("R-22", 1060.07),
        ("R-134a", 1081.05),
        ("R-32", 811.93),
    ] {
        let r = Refrigerant::named(name).unwrap();
        let limit = FillLimit::of(&r, &cylinder, HOTTEST_IN_PRACTICE).unwrap();
        let (_, full) = limit.all().find(|(rule, _)| *rule == FillRule::LiquidFull).unwrap();
        let by_hand = expected * cylinder.volume().value().cubic_meters();
        assert!((full.kilograms() / by_hand - 1.0).abs() < 1e-3, "{name} {} {by_hand}", full.kilograms());
        assert!(limit.net().value() < full);
    }
}

#[test]
fn a_cylinder_is_judged_by_its_lowest_limit() {
    let cylinder = Cylinder::stamped(pounds(24.5), pounds(47.7)).unwrap();
    let r = Refrigerant::named("R-410A").unwrap();
    let limit = FillLimit::of(&r, &cylinder, HOTTEST_BY_RULE).unwrap();
    let verdict = |gross: f64| {
        let read =
            Reading::new(pounds(gross), Instrument::resolution(pounds(0.1)).accuracy(pounds(0.3))).unwrap();
        limit.judge(&read, Level::default()).unwrap()
    };
    let most = limit.gross().value().pounds();
    assert!(verdict(most - 1.0).verdict().is_within());
    assert!(verdict(most + 1.0).verdict().is_outside());
    assert!(verdict(most + 0.1).verdict().is_unresolved());
    assert!(!verdict(most + 0.1).becomes_liquid_full());
    // R-410A swells so much that one pound past the usual fill is liquid-full at 131 °F.
    let full = verdict(most + 6.0);
    assert!(full.becomes_liquid_full() && full.next().contains("at once"));
    assert!(full.finding().unwrap().cautions().contains(&Caution::Overfilling));
    // A gas with no liquid at 77 °F goes by its filling density, and one without either is refused.
    let r13 = FillLimit::of(&Refrigerant::named("R-13").unwrap(), &cylinder, HOTTEST_BY_RULE).unwrap();
    assert!(r13.all().any(|(rule, _)| rule == FillRule::FillingDensity));
    assert!(FillLimit::of(&Refrigerant::named("R-14").unwrap(), &cylinder, HOTTEST_BY_RULE).is_err());
}

#[test]
fn a_heel_is_volume_times_vapour_density_and_liquid_is_not_guessed() {
    let r = Refrigerant::named("R-410A").unwrap();
    let cylinder = Cylinder::stamped(pounds(6.5), pounds(26.2)).unwrap();
    let heel = |psia_: f64| {
        let p = Measured::from_standard(psia(psia_), psi(1.0), "gauge").unwrap();
        let t = Measured::from_standard(fahrenheit(85.0), delta_fahrenheit(0.5), "thermometer").unwrap();
        Heel::of(&r, &cylinder, &p, &t, Level::default()).unwrap()
    };
    let low = heel(114.7);
    let by_hand = r.density(psia(114.7), fahrenheit(85.0)).unwrap() * cylinder.volume().value();
    assert_eq!(low.state(), HeelState::AllVapour);
    assert!((low.vapour().value() / by_hand - 1.0).abs() < 1e-12);
    let dew = r.dew_pressure(fahrenheit(85.0)).unwrap().psia();
    assert_eq!(heel(dew - 1.0).state(), HeelState::LiquidPossible);
    assert!(heel(dew - 1.0).next().contains("Weigh"));
    assert_eq!(heel(dew + 10.0).state(), HeelState::NotThisRefrigerantAlone);
}

#[test]
fn the_heel_of_a_zeotrope_is_what_its_vapour_left_behind() {
    let r = Refrigerant::named("R-407C").unwrap();
    let cylinder = Cylinder::stamped(pounds(6.5), pounds(26.2)).unwrap();
    let share = |r: &Refrigerant, name: &str| r.components().find(|(n, _)| *n == name).unwrap().1.percent();
    let mut before = 100.0;
    for left in [20.0, 15.0, 10.0, 5.0, 2.0] {
        let heel = left_after_vapour(&r, &cylinder, pounds(20.0), pounds(left), fahrenheit(75.0)).unwrap();
        let now = share(&heel, "R-32");
        assert!(now <= before, "{now} after {before}");
        assert!((heel.components().map(|(_, s)| s.percent()).sum::<f64>() - 100.0).abs() < 1e-6);
        before = now;
    }
    assert!(before < 0.7 * share(&r, "R-32"), "{before}");
    assert!(left_after_vapour(&r, &cylinder, pounds(2.0), pounds(3.0), fahrenheit(75.0)).is_err());
    let pure = Refrigerant::named("R-32").unwrap();
    assert_eq!(
        left_after_vapour(&pure, &cylinder, pounds(20.0), pounds(2.0), fahrenheit(75.0)).unwrap(),
        pure
    );
}

/// Mass and composition found together from the pressure are those of drawing the vapour down to that mass.
#[test]
fn a_heel_found_from_its_pressure_is_the_heel_drawn_down_to_it() {
    let r = Refrigerant::named("R-407C").unwrap();
    let cylinder = Cylinder::stamped(pounds(6.5), pounds(26.2)).unwrap();
    let (p, t) = (psia(60.0), fahrenheit(75.0));
    let heel = Heel::emptied_as_vapour(&r, &cylinder, pounds(20.0), p, t, Level::default()).unwrap();
    let drawn = left_after_vapour(&r, &cylinder, pounds(20.0), heel.vapour().value(), t).unwrap();
    for ((_, a), (_, b)) in heel.refrigerant().components().zip(drawn.components()) {
        assert!((a.percent() - b.percent()).abs() < 1e-3, "{a} {b}");
    }
    // The vapour of that composition at that density has that pressure.
    let mass = drawn.density(p, t).unwrap() * cylinder.volume().value();
    assert!((mass / heel.vapour().value() - 1.0).abs() < 1e-4);
}

#[test]
fn the_hoses_are_taken_off() {
    let r = Refrigerant::named("R-410A").unwrap();
    let hoses = [Hose::of(feet(5.0), USUAL_BORE).unwrap(); 2];
    let lost = purge_allowance(&hoses, &r, fahrenheit(80.0)).unwrap();
    let held: Mass = hoses.iter().map(|hose| hose.holds_liquid(&r, fahrenheit(80.0)).unwrap()).sum();
    let out = Measured::exact(pounds(4.0));
    let reached = into_system(&out, &lost, held).unwrap();
    assert!((reached.value() + lost.value() + held - pounds(4.0)).abs() < pounds(1e-12));
    assert!((reached.standard_uncertainty() - lost.standard_uncertainty()).abs() < pounds(1e-12));
    assert!(into_system(ounces(1.0), pounds(0.0), pounds(1.0)).unwrap_err().is_inconsistent());
    assert!(Hose::of(feet(0.0), USUAL_BORE).is_err());
}

#[test]
fn a_hose_full_of_vapour_holds_no_liquid() {
    let r = Refrigerant::named("R-410A").unwrap();
    let hose = Hose::of(feet(5.0), USUAL_BORE).unwrap();
    let full = hose.holds_vapour(&r, psia(100.0), fahrenheit(40.0)).unwrap();
    assert_eq!(full, r.density(psia(100.0), fahrenheit(40.0)).unwrap() * hose.volume());
    let text = hose.holds_vapour(&r, psia(300.0), fahrenheit(40.0)).unwrap_err().to_string();
    assert!(text.contains("R-410A at 300.0 psia and 40.0 °F is no vapour"), "{text}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// However the steps and swaps fall, the total is the sum over cylinders and the sum of the steps.
    #[test]
    fn nothing_is_lost_over_swaps(steps in proptest::collection::vec((0usize..3, 0.1..2.0f64), 1..9)) {
        let scale = scale();
        let mut weights = [50.0, 40.0, 30.0];
        let uses: Vec<CylinderUse> = steps.iter().map(|(which, step)| {
            let before = weights[*which];
            weights[*which] -= step;
            weighed(["A", "B", "C"][*which], &[before, weights[*which]], &scale)
        }).collect();
        let tally = Tally::of(&uses).unwrap();
        let by_steps: Mass = tally.steps().iter().map(|(_, step)| step.value()).sum();
        let by_cylinder: Mass = tally.cylinders().iter().map(|(_, net)| net.value()).sum();
        let all: f64 = steps.iter().map(|(_, step)| step).sum();
        for sum in [by_steps, by_cylinder, tally.total().value()] {
            prop_assert!((sum.pounds() - all).abs() < 1e-9);
        }
        prop_assert!(tally.gaps().iter().all(|(_, gap)| gap.value().abs() < pounds(1e-9)));
    }

    /// Colder, a cylinder may never hold more by the liquid-full limit than it may when it gets hotter.
    #[test]
    fn hotter_never_lets_more_in(t in 90.0..140.0f64, by in 1.0..10.0f64) {
        let cylinder = Cylinder::stamped(pounds(24.5), pounds(47.7)).unwrap();
        let r = Refrigerant::named("R-454B").unwrap();
        let net = |t: f64| FillLimit::of(&r, &cylinder, fahrenheit(t)).unwrap().net().value();
        prop_assert!(net(t + by) <= net(t));
    }
}

/// A hottest temperature that is no such thing would leave out the one limit that keeps a cylinder from bursting.
#[test]
fn the_hottest_must_be_a_temperature_a_cylinder_gets_to() {
    let r = Refrigerant::named("R-410A").unwrap();
    let cylinder = Cylinder::stamped(pounds(24.5), pounds(47.7)).unwrap();
    for hottest in [f64::NAN, f64::INFINITY, -40.0, 76.0, 201.0] {
        let error = FillLimit::of(&r, &cylinder, fahrenheit(hottest)).unwrap_err();
        assert!(error.is_out_of_range(), "{hottest}: {error}");
    }
}
