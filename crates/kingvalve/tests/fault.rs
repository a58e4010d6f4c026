//! Laws of the fault ranking and of the penalties.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "how a test fails")]

use kingvalve::fault::*;
use kingvalve::measure::{Generator, Instrument, Level, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use proptest::prelude::*;

fn off(feature: Feature, value: f64, standard: f64) -> Residual {
    let seen = Measured::from_standard(delta_fahrenheit(value), delta_fahrenheit(standard), "meter").unwrap();
    Residual::new(feature, seen, TemperatureDifference::ZERO).unwrap()
}

fn patterns() -> impl Strategy<Value = Patterns> {
    prop_oneof![Just(Patterns::fixed_orifice()), Just(Patterns::valve())]
}

/// Some features, each with a residual and the doubt of its reading.
fn residuals() -> impl Strategy<Value = Vec<(Feature, f64, f64)>> {
    proptest::sample::subsequence(Feature::ALL.to_vec(), 1..=8).prop_flat_map(|features| {
        let each = features.into_iter().map(|feature| (Just(feature), -40.0..40.0f64, 0.05..6.0f64));
        each.collect::<Vec<_>>()
    })
}

fn read(given: &[(Feature, f64, f64)]) -> Vec<Residual> {
    given.iter().map(|&(feature, value, standard)| off(feature, value, standard)).collect()
}

fn probabilities(ranking: &Ranking) -> [f64; 10] {
    Fault::ALL.map(|fault| ranking.probability(fault).fraction())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn probabilities_are_such_and_sum_to_one(given in residuals(), patterns in patterns()) {
        let ranking = Ranking::of(&read(&given), &patterns, &Priors::default()).unwrap();
        let all = probabilities(&ranking);
        prop_assert!(all.iter().all(|p| (0.0..=1.0).contains(p)));
        prop_assert!((all.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        prop_assert!(ranking.ranked().windows(2).all(|pair| pair[0].probability >= pair[1].probability));
        prop_assert!((0.0..=1.0).contains(&ranking.fit().fraction()));
    }

    #[test]
    fn the_order_of_the_readings_changes_nothing(
        (given, shuffled) in residuals().prop_flat_map(|g| (Just(g.clone()), Just(g).prop_shuffle())),
        patterns in patterns(),
    ) {
        let of = |given: &[_]| Ranking::of(&read(given), &patterns, &Priors::default()).unwrap();
        let (one, other) = (of(&given), of(&shuffled));
        prop_assert_eq!(probabilities(&one), probabilities(&other));
        prop_assert_eq!(one.next_readings(&Spreads::default()), other.next_readings(&Spreads::default()));
    }

    /// Something that no fault moves tells nothing, whatever it shows, of a system that is like the expected one. (Where
    /// it may be unlike, an odd reading says so, and all probabilities draw nearer to the priors.)
    #[test]
    fn an_unrelated_reading_changes_nothing(
        given in residuals(),
        value in -40.0..40.0f64,
        patterns in patterns(),
    ) {
        let unrelated = Feature::StandingExcess;
        let deaf = patterns.with(Fault::NonCondensables, unrelated, TemperatureDifference::ZERO).unwrap();
        let deaf = deaf.with_unlike(percent(0.0)).unwrap();
        let given: Vec<_> = given.into_iter().filter(|(feature, ..)| *feature != unrelated).collect();
        let mut more = given.clone();
        more.push((unrelated, value, 1.0));
        let of = |given: &[_]| Ranking::of(&read(given), &deaf, &Priors::default()).unwrap();
        for (one, other) in probabilities(&of(&given)).iter().zip(probabilities(&of(&more))) {
            prop_assert!((one - other).abs() < 1e-12);
        }
    }

    /// A meter too coarse to tell anything leaves the priors as they were.
    #[test]
    fn a_useless_meter_proves_nothing(given in residuals(), patterns in patterns()) {
        let useless: Vec<_> = given.iter().map(|&(feature, value, _)| (feature, value, 1e5)).collect();
        let priors = Priors::default();
        let ranking = Ranking::of(&read(&useless), &patterns, &priors).unwrap();
        for fault in Fault::ALL {
            prop_assert!((ranking.probability(fault).fraction() - priors.of(fault).fraction()).abs() < 1e-3);
        }
    }

    /// The odds of two faults are their prior odds times what the readings say.
    #[test]
    fn priors_multiply_the_odds(given in residuals(), patterns in patterns(), weight in 1.0..80.0f64) {
        let residuals = read(&given);
        let (a, b) = (Fault::LowCharge, Fault::StarvingValve);
        let odds = |priors: &Priors| {
            let ranking = Ranking::of(&residuals, &patterns, priors).unwrap();
            ranking.probability(a).fraction() / ranking.probability(b).fraction()
        };
        let even = odds(&Priors::even());
        let priors = Priors::even().with(a, percent(weight)).unwrap();
        prop_assume!(even.is_finite() && even > 1e-200);
        prop_assert!((odds(&priors) / (even * weight) - 1.0).abs() < 1e-9);
        let without = Priors::default().with(a, percent(0.0)).unwrap();
        prop_assert_eq!(Ranking::of(&residuals, &patterns, &without).unwrap().probability(a), percent(0.0));
    }

    /// A coarser meter is never expected to tell more, nor to leave the right fault ahead more often.
    #[test]
    fn a_coarser_meter_is_never_expected_to_tell_more(
        given in residuals(),
        patterns in patterns(),
        fine in 0.1..4.0f64,
        coarser in 1.0..5.0f64,
    ) {
        let given = &given[..given.len().min(4)];
        let ranking = Ranking::of(&read(given), &patterns, &Priors::default()).unwrap();
        for feature in Feature::ALL {
            let told = |spread: f64| {
                let spreads = Spreads::default().with(feature, delta_fahrenheit(spread)).unwrap();
                let next = ranking.next_readings(&spreads);
                let own = next.into_iter().find(|next| next.feature == feature);
                own.map_or((0.01, 0.0), |next| (next.bits, next.right_after.fraction()))
            };
            let (fine, coarse) = (told(fine), told(fine * coarser));
            prop_assert!(coarse.0 <= fine.0 + 1e-4 && coarse.1 <= fine.1 + 1e-4, "{feature}: {fine:?} {coarse:?}");
        }
    }

    /// On readings that lie on a fault's own pattern, faults equally likely before, a coarser set of meters never makes
    /// that fault likelier.
    #[test]
    fn coarser_meters_never_firm_up_a_fault_on_its_own_pattern(
        patterns in patterns(),
        at in 1usize..10,
        fine in 0.1..3.0f64,
        coarser in 1.0..20.0f64,
    ) {
        let fault = Fault::ALL[at];
        let seen = |standard: f64| {
            let on: Vec<_> = Feature::ALL
                .map(|feature| off(feature, patterns.effect(fault, feature).delta_fahrenheit(), standard))
                .to_vec();
            Ranking::of(&on, &patterns, &Priors::even()).unwrap()
        };
        let (fine, coarse) = (seen(fine), seen(fine * coarser));
        prop_assert_eq!(fine.top().fault, fault);
        prop_assert!(coarse.probability(fault) <= fine.probability(fault) + fraction(1e-12));
    }

    /// Nothing panics, and what is not finite is refused.
    #[test]
    fn any_number_is_ranked_or_refused(value in any::<f64>(), standard in any::<f64>()) {
        let seen = Measured::from_standard(delta_fahrenheit(value), delta_fahrenheit(standard), "meter");
        if let Ok(seen) = seen
            && let Ok(residual) = Residual::new(Feature::Superheat, seen, delta_fahrenheit(10.0))
        {
            let ranking = Ranking::of(&[residual], &Patterns::valve(), &Priors::default()).unwrap();
            prop_assert!(probabilities(&ranking).iter().all(|p| p.is_finite()));
        }
    }

    #[test]
    fn penalties_meet_at_the_right_charge_and_are_refused_outside(
        share in -0.6..0.6f64,
        indoor in 16.0..31.0f64,
        outdoor in 16.0..19.0f64,
    ) {
        for mode in [Mode::Cooling, Mode::Heating] {
            let at = |share: f64| charge_penalty(mode, fraction(share), celsius(indoor), celsius(outdoor));
            let none = at(0.0).unwrap();
            prop_assert_eq!((none.capacity, none.power, none.cop), (fraction(1.0), fraction(1.0), fraction(1.0)));
            match at(share) {
                Ok(penalty) => {
                    prop_assert!(share.abs() <= 0.3 + 1e-12);
                    prop_assert!((penalty.cop.fraction() * penalty.power.fraction() - penalty.capacity.fraction()).abs() < 1e-12);
                }
                Err(error) => prop_assert!(error.is_out_of_range() && share.abs() > 0.3),
            }
        }
    }
}

/// The directions of Rossi and Braun (HVAC&R Research 3 (1997) 19) as quoted by Li and Braun, Table 1-1: evaporating
/// temperature, superheat, condensing temperature, subcooling, discharge temperature, evaporator air difference.
#[test]
fn directions_are_those_published() {
    let rules = [
        (Fault::LowCharge, "-+--+-"),
        (Fault::WeakCompressor, "+-----"),
        (Fault::LiquidLineRestriction, "-+-++-"),
        (Fault::DirtyOutdoorCoil, "+-+-+-"),
        (Fault::LowIndoorAirflow, "-----+"),
    ];
    let features = [
        Feature::EvaporatingDepression,
        Feature::Superheat,
        Feature::CondensingOverAmbient,
        Feature::Subcooling,
        Feature::DischargeTemperature,
        Feature::AirSplit,
    ];
    let orifice = Patterns::fixed_orifice();
    for (fault, signs) in rules {
        for (feature, sign) in features.into_iter().zip(signs.chars()) {
            let effect = orifice.effect(fault, feature).delta_fahrenheit();
            // A warmer coil is less depressed below the air.
            let raised = if feature == Feature::EvaporatingDepression { effect < 0.0 } else { effect > 0.0 };
            assert!(effect != 0.0 && raised == (sign == '+'), "{fault}, {feature}: {effect} is not {sign}");
            assert_eq!(orifice.basis(fault, feature), Basis::Published);
            assert_eq!(Patterns::valve().basis(fault, feature), Basis::Memory);
        }
    }
    assert_eq!(orifice.basis(Fault::Overcharge, Feature::Superheat), Basis::Memory);
}

/// A valve holds superheat: high superheat speaks for low charge far more firmly with an orifice.
#[test]
fn the_metering_device_decides_what_superheat_means() {
    let low = |patterns: &Patterns| {
        let high = off(Feature::Superheat, 16.0, 1.0);
        Ranking::of(&[high], patterns, &Priors::default()).unwrap().probability(Fault::LowCharge)
    };
    assert!(low(&Patterns::fixed_orifice()) > percent(60.0));
    assert!(low(&Patterns::valve()) < percent(50.0), "{}", low(&Patterns::valve()));
    // Overcharge and low charge part by subcooling with a valve.
    let by_subcooling = |value| {
        let read = [off(Feature::Superheat, 0.0, 1.0), off(Feature::Subcooling, value, 1.0)];
        Ranking::of(&read, &Patterns::valve(), &Priors::default()).unwrap().top().fault
    };
    assert_eq!(by_subcooling(-8.0), Fault::LowCharge);
    assert_eq!(by_subcooling(9.0), Fault::Overcharge);
    assert_eq!(by_subcooling(0.0), Fault::NoFault);
}

/// Overcharge and non-condensables look alike running; the pressure at rest parts them. A restricted line and a starving
/// valve look alike but for the drop along the line.
#[test]
fn the_next_reading_is_the_one_that_parts_them() {
    let separator = |fault: Fault, other: Fault| {
        let patterns = Patterns::valve();
        let mut priors = Priors::even();
        for out in Fault::ALL.into_iter().filter(|f| *f != fault && *f != other) {
            priors = priors.with(out, percent(0.0)).unwrap();
        }
        let seen: Vec<_> = [Feature::Superheat, Feature::Subcooling, Feature::CondensingOverAmbient]
            .map(|feature| off(feature, patterns.effect(fault, feature).delta_fahrenheit(), 1.0))
            .to_vec();
        let ranking = Ranking::of(&seen, &patterns, &priors).unwrap();
        let next = ranking.next_readings(&Spreads::default());
        assert!(next[0].right_after > next[0].right_now);
        next[0].feature
    };
    assert_eq!(separator(Fault::NonCondensables, Fault::Overcharge), Feature::StandingExcess);
    assert_eq!(separator(Fault::LiquidLineRestriction, Fault::StarvingValve), Feature::LiquidLineDrop);
}

/// One gauge that reads low moves superheat up and subcooling not at all: what two features share is known as shared.
#[test]
fn one_gauge_behind_two_features_counts_once() {
    let gauge = Instrument::resolution(psi(0.1)).accuracy(psi(6.0));
    let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(0.3));
    let at = |t| Some(Reading::new(fahrenheit(t), clamp.clone()).unwrap());
    let operation = Operation {
        suction_pressure: Some(Reading::new(psig(108.0), gauge).unwrap()),
        suction_line: at(58.0),
        return_air: at(75.0),
        ..Operation::default()
    };
    let expected = Expected {
        superheat: Some(delta_fahrenheit(12.0)),
        evaporating_depression: Some(delta_fahrenheit(36.0)),
        ..Expected::default()
    };
    let r = Refrigerant::named("R-410A").unwrap();
    let together = operation.residuals(&r, &Site::sea_level(), &expected).unwrap();
    let features: Vec<_> = together.iter().map(Residual::feature).collect();
    assert_eq!(features, [Feature::Superheat, Feature::EvaporatingDepression]);
    assert!(together[0].value().correlation(together[1].value()) > 0.9);
    let apart: Vec<_> = together
        .iter()
        .map(|r| {
            let own = r.value().standard_uncertainty().delta_fahrenheit();
            off(r.feature(), r.value().value().delta_fahrenheit(), own)
        })
        .collect();
    let of = |given: &[_]| Ranking::of(given, &Patterns::fixed_orifice(), &Priors::default()).unwrap();
    // Both are up together, as a wrong gauge alone would have it: less is proved than by two gauges.
    let (one, two) = (of(&together), of(&apart));
    assert!(one.probability(Fault::NoFault) > two.probability(Fault::NoFault));
}

#[test]
fn what_no_fault_explains_is_said() {
    let odd = [
        off(Feature::Superheat, 35.0, 1.0),
        off(Feature::Subcooling, 30.0, 1.0),
        off(Feature::AirSplit, 15.0, 0.5),
    ];
    let ranking = Ranking::of(&odd, &Patterns::valve(), &Priors::default()).unwrap();
    assert!(ranking.fit() < percent(1.0));
    let finding = ranking.finding(&Spreads::default()).unwrap();
    assert!(finding.text().contains("None of these faults alone explains"), "{}", finding.text());
    let plain = [off(Feature::Superheat, 1.0, 1.0), off(Feature::Subcooling, -1.0, 1.0)];
    let ranking = Ranking::of(&plain, &Patterns::valve(), &Priors::default()).unwrap();
    assert!(ranking.fit() > percent(50.0));
    assert!(!ranking.finding(&Spreads::default()).unwrap().text().contains("None of these"));
}

#[test]
fn mistakes_are_refused() {
    let twice = [off(Feature::Superheat, 5.0, 1.0), off(Feature::Superheat, 6.0, 1.0)];
    let error = Ranking::of(&twice, &Patterns::valve(), &Priors::default()).unwrap_err();
    assert!(error.is_inconsistent() && error.to_string().contains("superheat"));
    assert!(Patterns::valve().with(Fault::NoFault, Feature::Superheat, delta_fahrenheit(1.0)).is_err());
    assert!(Patterns::valve().with_scatter(Feature::Superheat, delta_fahrenheit(0.0)).is_err());
    assert!(Patterns::valve().with_variation(percent(120.0)).is_err());
    assert!(Patterns::valve().with_severities(&[]).is_err());
    assert!(Patterns::valve().with_unlike(percent(60.0)).is_err());
    assert!(Priors::default().with(Fault::LowCharge, percent(-1.0)).is_err());
    assert!(Spreads::default().with(Feature::AirSplit, delta_fahrenheit(f64::NAN)).is_err());
    assert!(airflow_penalty(Mode::Cooling, percent(40.0)).unwrap_err().is_out_of_range());
    assert!(charge_penalty(Mode::Cooling, percent(-10.0), celsius(25.0), celsius(-5.0)).is_err());
}

/// The doubt of the charge goes through with the slope of the curve.
#[test]
fn doubt_of_the_charge_is_carried() {
    let off = Measured::from_standard(percent(-20.0), percent(2.0), "inventory").unwrap();
    let at =
        |share: f64| charge_penalty(Mode::Cooling, percent(share), celsius(26.67), celsius(35.0)).unwrap();
    let read = charge_penalty(Mode::Cooling, &off, celsius(26.67), celsius(35.0)).unwrap();
    for (measured, low, high) in [
        (&read.capacity, at(-21.0).capacity, at(-19.0).capacity),
        (&read.power, at(-21.0).power, at(-19.0).power),
        (&read.cop, at(-21.0).cop, at(-19.0).cop),
    ] {
        let slope = (high - low).fraction() / 0.02;
        let doubt = measured.standard_uncertainty().fraction();
        assert!((doubt - slope.abs() * 0.02).abs() < 1e-5, "{doubt} {slope}");
        assert!(measured.expanded(Level::default()) > Ratio::ZERO);
    }
}

#[test]
fn with_nothing_read_the_priors_stand() {
    let ranking = Ranking::of(&[], &Patterns::valve(), &Priors::default()).unwrap();
    for fault in Fault::ALL {
        assert!((ranking.probability(fault) - Priors::default().of(fault)).abs() < fraction(1e-12));
    }
    assert!(ranking.finding(&Spreads::default()).unwrap().text().starts_with("Nothing was read yet"));
}

/// Drawn from the priors and patterns, read with error: of the cases in which the first fault has about some
/// probability, it is the true one about that often.
#[test]
fn probabilities_are_those_with_which_the_first_is_right() {
    let (severities, weights) = ([0.5, 1.0, 2.0], [0.3, 0.4, 0.3]);
    let named: Vec<_> = severities.iter().zip(weights).map(|(s, w)| (fraction(*s), fraction(w))).collect();
    let priors = Priors::default();
    let mut random = Generator::seeded(20_260_101);
    for metering in [Metering::FixedOrifice, Metering::Valve] {
        let patterns =
            Patterns::of(metering).with_severities(&named).unwrap().with_unlike(percent(0.0)).unwrap();
        let mut bins = [(0.0, 0.0, 0.0); 4];
        for _ in 0..2500 {
            let fault = chosen(&mut random, Fault::ALL.map(|f| priors.of(f).fraction()), Fault::ALL);
            let severity = chosen(&mut random, weights, severities);
            let seen: Vec<_> =
                [Feature::Superheat, Feature::Subcooling, Feature::CondensingOverAmbient, Feature::AirSplit]
                    .into_iter()
                    .map(|feature| {
                        let mean = severity * patterns.effect(fault, feature).delta_fahrenheit();
                        let vary = patterns.variation().fraction() * mean * random.normal();
                        let scatter = patterns.scatter(feature).delta_fahrenheit() * random.normal();
                        off(feature, mean + vary + scatter + 1.2 * random.normal(), 1.2)
                    })
                    .collect();
            let top = Ranking::of(&seen, &patterns, &priors).unwrap().top();
            let probability = top.probability.fraction();
            let bin = &mut bins[((probability * 4.0) as usize).min(3)];
            *bin = (bin.0 + 1.0, bin.1 + probability, bin.2 + f64::from(u8::from(top.fault == fault)));
        }
        for (count, claimed, right) in bins.into_iter().filter(|bin| bin.0 > 100.0) {
            let (claimed, right): (f64, f64) = (claimed / count, right / count);
            let chance = (claimed * (1.0 - claimed) / count).sqrt();
            assert!(
                (claimed - right).abs() < 4.0 * chance,
                "{metering:?}: {claimed:.3} claimed, {right:.3} right"
            );
        }
    }
}

fn chosen<T: Copy, const N: usize>(random: &mut Generator, weights: [f64; N], of: [T; N]) -> T {
    let mut left = random.uniform() * weights.iter().sum::<f64>();
    let taken = |weight: &f64| {
        left -= weight;
        left <= 0.0
    };
    of[weights.iter().position(taken).unwrap_or(N - 1)]
}
