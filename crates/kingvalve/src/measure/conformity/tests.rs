//! Laws of priors and risks; published examples are in the workspace's `tests`.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use super::*;
use crate::measure::{Interval, Level, Limits, Measured};
use crate::quantity::*;

fn read(value: f64, u: f64) -> Measured<ElectricPotential> {
    Measured::from_standard(volts(value), volts(u), "meter").unwrap()
}

/// JCGM 106:2012, 6.2: a normal prior and a normal reading give a normal posterior, weighted by their precision.
#[test]
fn normal_prior_and_reading_have_the_known_posterior() {
    let prior = Prior::normal(volts(10.0), volts(2.0)).unwrap();
    let limits = Limits::between(volts(9.0), volts(12.0)).unwrap();
    let verdict = limits.judge_knowing(&prior, read(13.0, 1.0), Level::default()).unwrap();
    let weight: f64 = 4.0 / 5.0;
    let posterior = read(10.0 + weight * 3.0, weight.sqrt());
    let expected = limits.judge(&posterior, Level::default()).unwrap();
    let [found, wanted] = [&verdict, &expected].map(|v| v.judgement().probability_within().fraction());
    assert!((found - wanted).abs() < 1e-9, "{found} is not {wanted}");
    let [found, wanted] = [&verdict, &expected].map(|v| v.judgement().probability_below().fraction());
    assert!((found - wanted).abs() < 1e-9, "{found} is not {wanted}");
}

/// A prior so wide that it says nothing changes nothing.
#[test]
fn a_prior_that_says_nothing_changes_nothing() {
    let wide = Prior::rectangular(Interval::new(volts(-1e3), volts(1e3)).unwrap()).unwrap();
    let limits = Limits::at_least(volts(4.5)).unwrap();
    let value = read(4.29, 0.2);
    let plain = limits.judge(&value, Level::default()).unwrap();
    let knowing = limits.judge_knowing(&wide, &value, Level::default()).unwrap();
    let [a, b] = [&plain, &knowing].map(|v| v.judgement().probability_within().fraction());
    assert!((a - b).abs() < 1e-9, "{a} {b}");
}

#[test]
fn a_verdict_says_that_it_knew_beforehand() {
    let prior = Prior::normal(volts(10.0), volts(0.5)).unwrap().from_source("a made-up population");
    let limits = Limits::at_most(volts(11.0)).unwrap();
    let verdict = limits.judge_knowing(&prior, read(10.8, 1.0), Level::default()).unwrap();
    assert!(
        verdict.is_within() && verdict.to_string().contains("knowing how such parts are spread"),
        "{verdict}"
    );
    let near = limits.judge_knowing(&prior, read(13.5, 1.0), Level::default()).unwrap();
    assert!(near.is_unresolved() && near.judgement().settle().is_none(), "{near}");
}

#[test]
fn a_reading_the_prior_forbids_is_an_error() {
    let prior = Prior::rectangular(Interval::new(volts(1.0), volts(2.0)).unwrap()).unwrap();
    let limits = Limits::at_most(volts(1.5)).unwrap();
    let error = limits.judge_knowing(&prior, read(500.0, 0.1), Level::default()).unwrap_err();
    assert!(error.is_inconsistent() && error.to_string().contains("population"), "{error}");
}

/// A wider guard never lets more bad parts through, and never rejects fewer good ones.
#[test]
fn a_guard_trades_one_risk_for_the_other() {
    let prior = Prior::normal(volts(0.0), volts(1.0)).unwrap();
    let rule = |guard: f64| {
        let limits = Limits::between(volts(-2.0), volts(2.0)).unwrap();
        let rule = Acceptance::simple(limits).guarded(volts(guard)).unwrap();
        rule.global_risks(&prior, volts(0.25)).unwrap()
    };
    let steps = [-0.2, 0.0, 0.1, 0.3, 1.0, 1.9].map(rule);
    for pair in steps.windows(2) {
        let [less, more] = pair else { panic!("two") };
        assert!(more.consumer <= less.consumer && more.producer >= less.producer);
    }
}

#[test]
fn specific_risks_are_those_of_the_decision_taken() {
    let rule = Acceptance::simple(Limits::at_most(volts(10.0)).unwrap());
    let SpecificRisk::Consumer(risk) = rule.specific_risk(read(9.0, 1.0), None).unwrap() else {
        panic!("9 V is accepted")
    };
    assert!((risk.fraction() - 0.158_655_253_931_457).abs() < 1e-9);
    let guarded = rule.guarded_at(Level::default(), volts(1.0)).unwrap();
    let SpecificRisk::Producer(risk) = guarded.specific_risk(read(9.0, 1.0), None).unwrap() else {
        panic!("9 V is inside the guard band")
    };
    assert!((risk.fraction() - 0.841_344_746_068_543).abs() < 1e-9);
}

#[test]
fn what_cannot_be_is_refused() {
    assert!(Prior::normal(volts(1.0), volts(0.0)).unwrap_err().is_out_of_range());
    assert!(Prior::gamma(volts(1.0), volts(2.0)).unwrap_err().is_out_of_range());
    assert!(Prior::rectangular(Interval::exactly(volts(1.0)).unwrap()).is_err());
    let limits = Limits::between(volts(0.0), volts(2.0)).unwrap();
    let error = Acceptance::simple(limits.clone()).guarded(volts(1.0)).unwrap_err();
    assert!(error.to_string().contains("better meter"), "{error}");
    let prior = Prior::normal(volts(1.0), volts(1.0)).unwrap();
    assert!(Acceptance::simple(limits).global_risks(&prior, volts(0.0)).is_err());
}
