//! Laws of combining.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use super::*;
use crate::measure::{Instrument, Reading};
use crate::quantity::*;

fn stated(value: f64, u: f64) -> Measured<ElectricPotential> {
    Measured::from_standard(volts(value), volts(u), "stated").unwrap()
}

/// Inverse-variance weights, 1/u² = Σ 1/uᵢ², where nothing is shared (JCGM 100:2008, H.5 note: textbook).
#[test]
fn independent_measurements_are_weighted_by_inverse_variance() {
    let combined = Combined::of(&[stated(10.0, 1.0), stated(11.0, 0.5)], Level::default()).unwrap();
    assert!((combined.mean().value().volts() - 10.8).abs() < 1e-12);
    assert!((combined.mean().standard_uncertainty().volts() - 0.2f64.sqrt()).abs() < 1e-12);
    assert!((combined.chi_square() - 0.8).abs() < 1e-12);
    assert!((combined.birge_ratio() - 0.8f64.sqrt()).abs() < 1e-12);
    let sum: f64 = combined.weights().iter().map(|w| w.fraction()).sum();
    assert!((sum - 1.0).abs() < 1e-12);
}

/// One meter's accuracy does not average out, two meters' does.
#[test]
fn one_meter_read_twice_keeps_its_accuracy() {
    let meter = || Instrument::resolution(volts(0.001)).accuracy(volts(1.0));
    let mean_of = |a: Instrument<ElectricPotential>, b: Instrument<ElectricPotential>| {
        let read = |meter| Reading::new(volts(230.0), meter).unwrap().measured();
        Combined::of(&[read(a), read(b)], Level::default()).unwrap().mean().standard_uncertainty().volts()
    };
    let one = meter();
    let alone = 1.0 / 3f64.sqrt();
    assert!((mean_of(one.clone(), one) - alone).abs() < 1e-6);
    assert!((mean_of(meter(), meter()) - alone / 2f64.sqrt()).abs() < 1e-6);
}

/// Where one measurement's doubt is part of another's, the better one is taken, not an answer outside both.
#[test]
fn strong_correlation_gives_no_answer_outside_the_measurements() {
    let shared = stated(0.0, 1.0);
    let a = Measured::exact(volts(10.0)) + shared.clone() * 0.1;
    let b = Measured::exact(volts(11.0)) + shared * 2.0 + stated(0.0, 0.01);
    let combined = Combined::of(&[a, b], Level::default()).unwrap();
    assert_eq!(combined.mean().value(), volts(10.0));
}

#[test]
fn the_same_reading_twice_is_that_reading() {
    let read = Reading::new(volts(230.0), Instrument::resolution(volts(1.0))).unwrap().measured();
    let combined = Combined::of(&[read.clone(), read.clone()], Level::default()).unwrap();
    assert!(combined.is_consistent());
    assert_eq!(combined.chi_square(), 0.0);
    assert!((combined.mean().standard_uncertainty() / read.standard_uncertainty() - 1.0).abs() < 1e-12);
}

#[test]
fn disagreement_names_the_pair_and_the_technique() {
    let combined =
        Combined::of(&[stated(10.0, 0.1), stated(10.1, 0.1), stated(12.0, 0.1)], Level::default()).unwrap();
    let pairs: Vec<_> = combined.disagreements().iter().map(|d| (d.first, d.second)).collect();
    assert_eq!(pairs, [(0, 2), (1, 2)]);
    assert!(combined.chance() < percent(0.1));
    let text = combined.to_string();
    assert!(
        text.starts_with("Measurements 1 and 3 are 2.000 V apart; their doubt allows 0.277 V."),
        "{text}"
    );
    assert!(text.contains("the technique, not of the part"), "{text}");
}

/// Scaling units changes nothing.
#[test]
fn units_do_not_matter() {
    let of = |k: f64| {
        let both = [stated(10.0 * k, 0.3 * k), stated(10.5 * k, 0.2 * k)];
        Combined::of(&both, Level::default()).unwrap()
    };
    let (one, milli) = (of(1.0), of(1e-3));
    assert!((one.chi_square() / milli.chi_square() - 1.0).abs() < 1e-9);
    assert!((one.mean().value().volts() / milli.mean().value().millivolts() - 1.0).abs() < 1e-12);
}

#[test]
fn what_cannot_be_combined_is_refused() {
    assert!(Combined::of(&[stated(1.0, 1.0)], Level::default()).unwrap_err().is_out_of_range());
}
