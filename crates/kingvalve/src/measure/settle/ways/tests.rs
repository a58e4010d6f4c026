//! What settles a verdict, and what does not.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use super::*;
use crate::measure::{Level, Limits, catalogue};
use crate::quantity::*;

fn at_least(lowest: f64) -> impl Fn(&Reading<Current>) -> Result<Verdict<Current>> {
    let limits = Limits::at_least(amperes(lowest)).unwrap();
    move |read| limits.judge(read, Level::default())
}

fn clamp(step: f64) -> Instrument<Current> {
    Instrument::resolution(amperes(step)).accuracy_percent_of_reading(2.0).counts(5.0)
}

/// Whatever is called cheapest makes the verdict firm, and nothing that does is cheaper.
#[test]
fn the_cheapest_settles_and_nothing_cheaper_does() {
    let offers = catalogue().unwrap().offers::<Current>().unwrap();
    for value in [0.5, 0.55, 0.6, 0.62, 0.7, 1.0] {
        let reading = Reading::new(amperes(value), clamp(0.1)).unwrap();
        let ways = Ways::default().instruments(&reading, &offers, at_least(0.6)).unwrap();
        let Some(cheapest) = ways.cheapest() else { continue };
        assert!(cheapest.settles());
        assert!(ways.all().iter().all(|way| !way.settles() || way.cost() >= cheapest.cost()));
    }
}

/// A value on the limit is settled by nothing.
#[test]
fn nothing_settles_a_value_on_the_limit() {
    let offers = catalogue().unwrap().offers::<Current>().unwrap();
    let reading = Reading::new(amperes(0.6), clamp(0.1)).unwrap();
    let ways = Ways::default().instruments(&reading, &offers, at_least(0.6)).unwrap();
    assert!(ways.cheapest().is_none());
    assert!(ways.to_string().starts_with("None of the 4 ways tried"), "{ways}");
}

/// Repeats help where scatter is the doubt, and stop at what the instrument leaves.
#[test]
fn repeats_reduce_scatter_only() {
    let scattered = [0.60, 0.66, 0.64, 0.70].map(amperes);
    let fine = Instrument::resolution(amperes(0.001)).accuracy(amperes(0.001));
    let reading = Reading::repeated(&scattered, fine).unwrap();
    let ways = Ways::default().repeats(&reading, 60, 0.1, at_least(0.62)).unwrap();
    let settled = ways.cheapest().unwrap();
    assert_eq!(settled.kind(), Change::Repeats);
    let coarse = Reading::repeated(&scattered, clamp(0.1)).unwrap();
    assert!(Ways::default().repeats(&coarse, 60, 0.1, at_least(0.62)).unwrap().cheapest().is_none());
    let planned = reading.repeated_planned(16).unwrap();
    let scatter = |r: &Reading<Current>| r.standard_uncertainty().amperes();
    assert!((scatter(&reading) / scatter(&planned) - 2.0).abs() < 0.01);
    assert!((planned.value().amperes() - reading.value().amperes()).abs() < 1e-12);
}

/// Where two readings leave doubt, both must improve.
#[test]
fn two_instruments_where_one_is_not_enough() {
    let instruments = catalogue().unwrap();
    let (clamps, meters) =
        (instruments.offers::<Current>().unwrap(), instruments.offers::<ElectricPotential>().unwrap());
    let volts_read =
        Reading::new(volts(240.0), Instrument::resolution(volts(1.0)).accuracy_percent_of_reading(3.0))
            .unwrap();
    let amps_read = Reading::new(amperes(5.0), clamp(0.1)).unwrap();
    let limits = Limits::at_least(watts(1176.0)).unwrap();
    let judge = |v: &Reading<ElectricPotential>, i: &Reading<Current>| {
        limits.judge(v.measured() * i.measured(), Level::default())
    };
    let one = Ways::default().instruments(&amps_read, &clamps, |i| judge(&volts_read, i)).unwrap();
    assert!(one.cheapest().is_none(), "{one}");
    let two = one.two_instruments((&volts_read, &meters), (&amps_read, &clamps), judge).unwrap();
    let way = two.cheapest().unwrap();
    assert_eq!(way.kind(), Change::TwoInstruments);
    assert_eq!(
        way.what(),
        "voltmeter, 0.1 V steps, 1 % + 3 counts; low-current clamp ammeter, 0.001 A steps, 1 % + 5 counts"
    );
}

/// An instrument that does not reach the value is not proposed.
#[test]
fn an_instrument_out_of_reach_is_left_out() {
    let offers = catalogue().unwrap().offers::<Current>().unwrap();
    let reading = Reading::new(amperes(30.0), clamp(0.1)).unwrap();
    let ways = Ways::default().instruments(&reading, &offers, at_least(29.0)).unwrap();
    assert_eq!(ways.all().len(), 2);
}
