//! Laws of measurement, whatever the numbers.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::measure::*;
use kingvalve::quantity::*;
use proptest::prelude::*;

/// How one looks at a value: the step and accuracy of the instrument, and how far repeats scatter, if any.
#[derive(Debug, Clone)]
struct Look {
    step: f64,
    accuracy: f64,
    scatter: Option<(f64, usize)>,
}

fn look() -> impl Strategy<Value = Look> {
    let size = prop_oneof![Just(0.0), 1e-3..10.0_f64];
    (1e-3..5.0_f64, size, prop::option::of((0.0..3.0_f64, 2..6_usize)))
        .prop_map(|(step, accuracy, scatter)| Look { step, accuracy, scatter })
}

/// A reading of `value`, exactly, by that look.
fn read(value: f64, look: &Look) -> Measured<Current> {
    let ammeter = Instrument::resolution(amperes(look.step)).accuracy(amperes(look.accuracy));
    let once = Reading::new(amperes(value), ammeter).unwrap().measured();
    match look.scatter {
        Some((scatter, count)) => {
            let nu = count as f64 - 1.0;
            once + Measured::from_sample(amperes(0.0), amperes(scatter), nu, "scatter").unwrap()
        }
        None => once,
    }
}

/// Limits of every kind around 5.
fn limits() -> impl Strategy<Value = Limits<Current>> {
    (3.0..4.99_f64, 5.01..7.0_f64, 0..3).prop_map(|(low, high, kind)| match kind {
        0 => Limits::between(amperes(low), amperes(high)).unwrap(),
        1 => Limits::at_least(amperes(low)).unwrap(),
        _ => Limits::at_most(amperes(high)).unwrap(),
    })
}

fn level() -> impl Strategy<Value = Level> {
    (50.5..99.9_f64).prop_map(|p| Level::new(percent(p)).unwrap())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn a_coarser_instrument_never_makes_a_verdict_firmer(
        value in 1.0..9.0_f64,
        fine in look(),
        (step, accuracy, scatter) in (1.0..20.0_f64, 1.0..20.0_f64, 1.0..20.0_f64),
        limits in limits(),
        level in level(),
    ) {
        let coarse = Look {
            step: fine.step * step,
            accuracy: fine.accuracy * accuracy,
            scatter: fine.scatter.map(|(s, n)| (s * scatter, n)),
        };
        let with_fine = limits.judge(read(value, &fine), level).unwrap();
        let with_coarse = limits.judge(read(value, &coarse), level).unwrap();
        let same = with_fine.name() == with_coarse.name();
        prop_assert!(same || with_coarse.is_unresolved(), "{with_fine}\n{with_coarse}");
    }

    #[test]
    fn a_scatter_with_few_repeats_is_never_firmer_than_one_with_many(
        value in 1.0..9.0_f64,
        scatter in 0.01..3.0_f64,
        (few, many) in (2..5_usize, 5..40_usize),
        limits in limits(),
    ) {
        let by = |count| Look { step: 0.1, accuracy: 0.1, scatter: Some((scatter, count)) };
        let few = limits.judge(read(value, &by(few)), Level::default()).unwrap();
        let many = limits.judge(read(value, &by(many)), Level::default()).unwrap();
        prop_assert!(few.name() == many.name() || few.is_unresolved(), "{few}\n{many}");
    }

    #[test]
    fn probabilities_add_up_and_settling_settles(
        value in 1.0..9.0_f64,
        look in look(),
        limits in limits(),
        level in level(),
    ) {
        let measured = read(value, &look);
        let verdict = limits.judge(&measured, level).unwrap();
        let judgement = verdict.judgement();
        let sum = judgement.probability_within() + judgement.probability_below() + judgement.probability_above();
        prop_assert!((sum.fraction() - 1.0).abs() < 1e-12);
        prop_assert_eq!(judgement.settle().is_some(), verdict.is_unresolved());
        if let Some(needed) = judgement.settle().and_then(|settle| settle.needed()) {
            prop_assert!(needed < judgement.standard_uncertainty() || look.scatter.is_some());
            let firm = |share: f64| {
                let better = Measured::from_standard(amperes(value), needed * share, "better").unwrap();
                !limits.judge(&better, level).unwrap().is_unresolved()
            };
            prop_assert!(firm(1.0 - 1e-9), "{}", verdict);
            prop_assert!(!firm(1.0 + 1e-6), "{}", verdict);
        }
        // Whatever it is, it can be said and written.
        prop_assert!(!verdict.to_string().is_empty());
        prop_assert!(serde_json::to_string(&verdict).is_ok());
    }

    #[test]
    fn the_unit_it_is_said_in_changes_nothing(
        value in 1.0..9.0_f64,
        standard in 0.01..3.0_f64,
        low in 2.0..4.9_f64,
        high in 5.1..8.0_f64,
    ) {
        let us = Limits::between(inches(low), inches(high)).unwrap();
        let us = us.judge(Measured::from_standard(inches(value), inches(standard), "x").unwrap(), Level::default());
        let mm = |x: f64| millimeters(25.4 * x);
        let si = Limits::between(mm(low), mm(high)).unwrap();
        let si = si.judge(Measured::from_standard(mm(value), mm(standard), "x").unwrap(), Level::default());
        let (us, si) = (us.unwrap(), si.unwrap());
        let difference = us.judgement().probability_within() - si.judgement().probability_within();
        prop_assert!(difference.fraction().abs() < 1e-12);
    }

    #[test]
    fn shares_sum_to_one_and_cancelling_cancels(
        values in prop::collection::vec((0.1..50.0_f64, look()), 1..12),
    ) {
        let readings: Vec<Measured<Current>> = values.iter().map(|(value, look)| read(*value, look)).collect();
        let zero = Measured::exact(amperes(0.0));
        let sum = readings.iter().fold(zero, |sum, reading| sum + reading.clone());
        let shares: f64 = sum.contributions().iter().map(|part| part.share.fraction()).sum();
        prop_assert!((shares - 1.0).abs() < 1e-12);
        let independent: f64 =
            readings.iter().map(|reading| reading.standard_uncertainty().amperes().powi(2)).sum();
        prop_assert!((sum.standard_uncertainty().amperes().powi(2) / independent - 1.0).abs() < 1e-12);
        let nothing = sum.clone() - sum.clone();
        prop_assert_eq!(nothing.standard_uncertainty(), amperes(0.0));
        prop_assert_eq!(nothing.value(), amperes(0.0));
        prop_assert!(nothing.contributions().is_empty());
        prop_assert!((sum.correlation(&sum) - 1.0).abs() < 1e-12);
        let doubled = sum.clone() * 2.0;
        let twice = sum.clone() + sum.clone();
        prop_assert!((doubled.standard_uncertainty() / twice.standard_uncertainty() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn intervals_keep_their_order(
        (a, b, c, d) in (-9.0..9.0_f64, -9.0..9.0_f64, -9.0..9.0_f64, -9.0..9.0_f64),
        factor in 0.0..5.0_f64,
    ) {
        let x = Interval::between(pounds(a), pounds(b)).unwrap();
        let y = Interval::between(pounds(c), pounds(d)).unwrap();
        for result in [x.plus(y).unwrap(), x.minus(y).unwrap(), x.times(factor).unwrap(), x.hull(&y)] {
            prop_assert!(result.low() <= result.high());
        }
        prop_assert!(x.hull(&y).covers(&x) && x.hull(&y).covers(&y));
        prop_assert!(x.contains(x.middle()));
        match x.intersection(&y) {
            Some(common) => prop_assert!(x.covers(&common) && y.covers(&common)),
            None => prop_assert!(x.high() < y.low() || y.high() < x.low()),
        }
        let sum = x.plus(y).unwrap();
        prop_assert!((sum.width() - x.width() - y.width()).abs() < pounds(1e-12));
        let again: Interval<Mass> = serde_json::from_str(&serde_json::to_string(&x).unwrap()).unwrap();
        prop_assert!((again.low() - x.low()).abs() < pounds(1e-14));
    }
}

#[test]
fn a_useless_meter_proves_nothing() {
    let limits = Limits::between(amperes(4.7), amperes(5.3)).unwrap();
    for doubt in [5.0, 50.0, 5e6] {
        let read = Measured::from_standard(amperes(5.0), amperes(doubt), "a guess").unwrap();
        assert!(limits.judge(&read, Level::default()).unwrap().is_unresolved());
        let low = Measured::from_standard(amperes(4.0), amperes(doubt), "a guess").unwrap();
        assert!(limits.judge(&low, Level::default()).unwrap().is_unresolved());
    }
}

#[test]
fn without_doubt_the_limit_itself_is_within() {
    let limits = Limits::between(amperes(4.7), amperes(5.3)).unwrap();
    let judge = |value| limits.judge(amperes(value), Level::default()).unwrap();
    assert!(judge(4.7).is_within() && judge(5.3).is_within());
    assert!(judge(4.7_f64.next_down()).is_outside() && judge(5.3_f64.next_up()).is_outside());
}

#[test]
fn readings_of_one_instrument_share_its_accuracy_and_not_its_step() {
    let scale = || Instrument::resolution(ounces(0.5)).accuracy(ounces(2.0)).named("charging scale");
    let one = scale();
    let before = Reading::new(pounds(31.0), one.clone()).unwrap();
    let after = Reading::new(pounds(28.5), one).unwrap();
    let with_one = before.measured() - after.measured();
    let step = 0.5 / 12f64.sqrt();
    assert!((with_one.standard_uncertainty().ounces() - step * 2f64.sqrt()).abs() < 1e-12);
    let other = Reading::new(pounds(28.5), scale()).unwrap();
    let with_two = before.measured() - other.measured();
    let accuracy = 2.0 / 3f64.sqrt();
    let expected = (2.0 * (step * step + accuracy * accuracy)).sqrt();
    assert!((with_two.standard_uncertainty().ounces() - expected).abs() < 1e-12);
    let nothing = before.measured() - before.measured();
    assert_eq!(nothing.standard_uncertainty(), ounces(0.0));
}

#[test]
fn repeats_reduce_the_scatter_alone() {
    let meter = || Instrument::resolution(amperes(0.01)).accuracy_percent_of_reading(2.0).counts(5.0);
    let once = Reading::new(amperes(0.6), meter()).unwrap();
    let same = Reading::repeated(&[amperes(0.6); 20], meter()).unwrap();
    assert_eq!(once.standard_uncertainty(), same.standard_uncertainty());
    assert_eq!(same.measured().degrees_of_freedom(), f64::INFINITY);
    let read = [0.58, 0.60, 0.62, 0.60].map(amperes);
    let scattered = Reading::repeated(&read, meter()).unwrap();
    let scatter = (0.0008_f64 / (4.0 * 3.0)).sqrt();
    let expected = once.standard_uncertainty().amperes().hypot(scatter);
    assert!((scattered.standard_uncertainty().amperes() - expected).abs() < 1e-12);
    assert!(scattered.measured().degrees_of_freedom() > 3.0);
    assert_eq!(scattered.repeats().len(), 4);
}

#[test]
fn percent_of_span_counts_and_fixed_parts_add_up() {
    let gauge = Instrument::resolution(psi(0.1))
        .accuracy_percent_of_reading(1.0)
        .accuracy_percent_of_span(0.5, psi(500.0))
        .counts(3.0)
        .accuracy(psi(0.2));
    let specified: PressureDifference = gauge.specified(psig(62.0));
    assert!((specified.psi() - (0.62 + 2.5 + 0.3 + 0.2)).abs() < 1e-12);
    let thermometer = Instrument::resolution(delta_fahrenheit(0.1)).accuracy_percent_of_reading(1.0);
    assert!((thermometer.specified(fahrenheit(-40.0)).delta_fahrenheit() - 0.4).abs() < 1e-9);
    assert!(thermometer.specified(fahrenheit(0.0)).delta_fahrenheit().abs() < 1e-9);
}

#[test]
fn cold_surroundings_widen_the_accuracy() {
    let meter = || {
        Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.0).temperature_coefficient(
            percent(10.0),
            celsius(18.0),
            celsius(28.0),
        )
    };
    let plain = Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.6);
    let read = |instrument| Reading::new(volts(240.0), instrument).unwrap();
    let same = |a: ElectricPotential, b: ElectricPotential| assert!((a / b - 1.0).abs() < 1e-9, "{a} {b}");
    same(
        read(meter()).at_ambient(celsius(34.0)).standard_uncertainty(),
        read(plain.clone()).standard_uncertainty(),
    );
    same(read(meter()).at_ambient(celsius(12.0)).standard_uncertainty(), read(plain).standard_uncertainty());
    same(
        read(meter()).at_ambient(celsius(20.0)).standard_uncertainty(),
        read(meter()).standard_uncertainty(),
    );
}

#[test]
fn welch_and_satterthwaite_between_one_and_all() {
    let a = Measured::from_sample(volts(1.0), volts(0.1), 3.0, "a").unwrap();
    let b = Measured::from_sample(volts(2.0), volts(0.1), 3.0, "b").unwrap();
    assert!((a.degrees_of_freedom() - 3.0).abs() < 1e-12);
    assert!(((a.clone() + b).degrees_of_freedom() - 6.0).abs() < 1e-12);
    let same = a.clone() + a;
    assert!((same.degrees_of_freedom() - 3.0).abs() < 1e-12);
    assert_eq!(Measured::exact(volts(1.0)).expanded(Level::default()), volts(0.0));
}

#[test]
fn more_than_eight_sources_are_all_kept() {
    let sum = (0..40).fold(Measured::exact(volts(0.0)), |sum, at| {
        sum + Measured::from_standard(volts(1.0), volts(0.5), format!("part {at:02}")).unwrap()
    });
    assert!((sum.standard_uncertainty().volts() - 0.5 * 40f64.sqrt()).abs() < 1e-12);
    let labels: Vec<String> = sum.contributions().into_iter().map(|part| part.label).collect();
    assert_eq!(labels.len(), 40);
    assert!(labels.is_sorted());
}
