//! Laws of the simulation; published examples are in the workspace's `tests`.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use super::*;
use crate::measure::{Instrument, Level, Limits, Reading, Together};
use crate::quantity::*;

#[test]
fn the_same_seed_gives_the_same_result() {
    let read = Reading::new(volts(230.0), Instrument::resolution(volts(1.0))).unwrap();
    let run = |seed| {
        let mut simulation = Simulation::seeded(seed).draws(1000);
        let v = simulation.input(&read).unwrap();
        simulation.run(|draw| draw.of(v) * 2.0).unwrap()
    };
    assert_eq!(run(3), run(3));
    assert_ne!(run(3), run(4));
}

/// One meter's accuracy cancels in a difference of two of its readings; two meters' does not.
#[test]
fn what_two_readings_share_they_share_in_every_draw() {
    let scale = || Instrument::resolution(pounds(0.01)).accuracy(pounds(1.0));
    let fall = |first: Instrument<Mass>, second: Instrument<Mass>| {
        let mut simulation = Simulation::seeded(1).draws(20_000);
        let before = simulation.input(Reading::new(pounds(30.0), first).unwrap()).unwrap();
        let after = simulation.input(Reading::new(pounds(20.0), second).unwrap()).unwrap();
        simulation.run(|draw| draw.of(before) - draw.of(after)).unwrap().standard_uncertainty()
    };
    let one = scale();
    assert!(fall(one.clone(), one) < pounds(0.005));
    assert!((fall(scale(), scale()).pounds() - (2f64 / 3.0).sqrt()).abs() < 0.02);
}

/// A linear result of bell-shaped inputs agrees with the linear form to two digits.
#[test]
fn linear_results_agree_with_the_linear_form() {
    let a = Measured::from_standard(volts(10.0), volts(0.3), "a").unwrap();
    let b = Measured::from_standard(volts(5.0), volts(0.4), "b").unwrap();
    let mut simulation = Simulation::seeded(5);
    let (x, y) = (simulation.input(&a).unwrap(), simulation.input(&b).unwrap());
    let difference = simulation.run(|draw| draw.of(x) - draw.of(y)).unwrap();
    let agreement = difference.agreement(&(a - b), Level::default(), 2).unwrap();
    assert!(agreement.holds(), "{agreement:?}");
}

/// JCGM 100 H.2: what was read together keeps its correlation, with the wider spread of five observations.
#[test]
fn readings_taken_together_stay_correlated() {
    let set = Together::of(5).unwrap();
    let v = set.mean(&[5.007, 4.994, 5.005, 4.990, 4.999].map(volts)).unwrap();
    let i = set.mean(&[19.663, 19.639, 19.640, 19.685, 19.678].map(milliamperes)).unwrap();
    let linear = (v.clone() / i.clone()).standard_uncertainty();
    let mut simulation = Simulation::seeded(2).draws(200_000);
    let (x, y) = (simulation.input(&v).unwrap(), simulation.input(&i).unwrap());
    let ratio = simulation.run(|draw| draw.of(x) / draw.of(y)).unwrap();
    let wider = ratio.standard_uncertainty() / linear;
    // A t distribution of four degrees of freedom has variance 2.
    assert!((wider - 2f64.sqrt()).abs() < 0.05, "{wider}");
}

#[test]
fn intervals_and_probabilities_count_draws() {
    let mut simulation = Simulation::seeded(9).draws(100_000);
    let within = Distribution::Rectangular { half_width: volts(1.0) };
    let v = simulation.drawn(volts(0.0), within).unwrap();
    let square = simulation.run(|draw| volts(draw.of(v).volts().powi(2))).unwrap();
    let level = Level::new(percent(90.0)).unwrap();
    // v² of a rectangular v has the quantile p²: shortest from zero, symmetric from 0.05² to 0.95².
    let (shortest, symmetric) = (square.shortest(level).unwrap(), square.symmetric(level).unwrap());
    assert!(shortest.low() < volts(1e-4) && (shortest.high().volts() - 0.81).abs() < 0.01);
    assert!((symmetric.low().volts() - 0.0025).abs() < 2e-4, "{symmetric:?}");
    assert!((symmetric.high().volts() - 0.9025).abs() < 0.01);
    assert!(shortest.width() <= symmetric.width());
    let half = square.probability_within(&Limits::at_most(volts(0.25)).unwrap());
    assert!((half.fraction() - 0.5).abs() < 0.01);
}

#[test]
fn what_cannot_be_drawn_is_refused() {
    let mut simulation = Simulation::seeded(1);
    let pair = Reading::repeated(&[volts(1.0), volts(1.1)], Instrument::resolution(volts(0.1))).unwrap();
    let error = simulation.input(&pair).unwrap_err();
    assert!(error.is_out_of_range() && error.to_string().contains("four times"), "{error}");
    let inexact = Distribution::CurvilinearTrapezoid { half_width: volts(1.0), inexactness: volts(2.0) };
    assert!(simulation.drawn(volts(1.0), inexact).is_err());
    assert!(simulation.drawn(volts(1.0), Distribution::Normal { standard: volts(-1.0) }).is_err());
    let v = simulation.drawn(volts(0.0), Distribution::Normal { standard: volts(1.0) }).unwrap();
    let error = simulation.run(|draw| ohms(draw.of(v).volts().sqrt())).unwrap_err();
    assert!(error.to_string().contains("not a finite number"), "{error}");
}

/// Every shape has the standard deviation JCGM 101 gives it.
#[test]
fn shapes_have_their_standard_deviation() {
    let a = volts(1.0);
    let expected = [
        (Distribution::Normal { standard: a }, 1.0),
        (Distribution::Rectangular { half_width: a }, 1.0 / 3.0),
        (Distribution::Triangular { half_width: a }, 1.0 / 6.0),
        (Distribution::Arcsine { half_width: a }, 0.5),
        (Distribution::Student { scale: a, degrees_of_freedom: 10.0 }, 10.0 / 8.0),
        // (b − a)²/12 + d²/9 with b − a = 2.
        (
            Distribution::CurvilinearTrapezoid { half_width: a, inexactness: volts(0.5) },
            1.0 / 3.0 + 0.25 / 9.0,
        ),
    ];
    for (distribution, variance) in expected {
        let mut simulation = Simulation::seeded(11).draws(200_000);
        let v = simulation.drawn(volts(3.0), distribution).unwrap();
        let drawn = simulation.run(|draw| draw.of(v)).unwrap();
        assert!((drawn.mean().volts() - 3.0).abs() < 0.01, "{distribution:?}");
        let found = drawn.standard_uncertainty().volts().powi(2);
        assert!((found / variance - 1.0).abs() < 0.02, "{distribution:?}: {found} is not {variance}");
    }
}
