//! The examples of JCGM 101:2008 section 9, a million draws each.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use std::collections::BTreeMap;

use kingvalve::measure::{Distribution, Input, Level, Measured, Simulated, Simulation};
use kingvalve::quantity::*;
use kingvalve_tests::Table;

#[test]
fn examples_of_jcgm_101() {
    let mut done: BTreeMap<String, Simulated<Ratio>> = BTreeMap::new();
    Table::open("monte_carlo").check(|row| {
        let example = row.text("in_example");
        let simulated = done.entry(example.to_owned()).or_insert_with(|| match example {
            "additive_normal" => additive([Distribution::Normal { standard: fraction(1.0) }; 4]),
            "additive_rectangular" => additive([rectangular(3f64.sqrt()); 4]),
            "additive_one_wide" => {
                let one = rectangular(3f64.sqrt());
                additive([one, one, one, rectangular(10.0 * 3f64.sqrt())])
            }
            "mass" => mass(),
            "gauge_block" => gauge_block(),
            loss => {
                let x1 = loss.split('_').nth(1).unwrap().parse().unwrap();
                comparison_loss(x1, if loss.ends_with("correlated") { 0.9 } else { 0.0 })
            }
        });
        let level = Level::new(percent(if example == "gauge_block" { 99.0 } else { 95.0 })).unwrap();
        // Clause 9.4 gives shortest intervals, the others probabilistically symmetric ones.
        let interval =
            if example.starts_with("loss") { simulated.shortest(level) } else { simulated.symmetric(level) };
        let value = match row.text("in_what") {
            "mean" => simulated.mean(),
            "standard" => simulated.standard_uncertainty(),
            "low" => interval.unwrap().low(),
            "high" => interval.unwrap().high(),
            "width" => interval.unwrap().width(),
            other => panic!("{other} is not answered"),
        };
        value.fraction().into()
    });
}

fn rectangular(half_width: f64) -> Distribution<Ratio> {
    Distribution::Rectangular { half_width: fraction(half_width) }
}

/// 9.2: Y = X1 + X2 + X3 + X4, all about zero.
fn additive(distributions: [Distribution<Ratio>; 4]) -> Simulated<Ratio> {
    let mut simulation = Simulation::seeded(92);
    let inputs = distributions.map(|each| simulation.drawn(fraction(0.0), each).unwrap());
    simulation.run(|draw| fraction(inputs.iter().map(|x| draw.of(*x).fraction()).sum())).unwrap()
}

/// 9.3: deviation of a weight from nominal, mg; densities in kg/m³.
fn mass() -> Simulated<Ratio> {
    let mut simulation = Simulation::seeded(93);
    let mut drawn = |value: f64, distribution| simulation.drawn(fraction(value), distribution).unwrap();
    let normal = |standard| Distribution::Normal { standard: fraction(standard) };
    let reference = drawn(100_000.0, normal(0.050));
    let added = drawn(1.234, normal(0.020));
    let air = drawn(1.2, rectangular(0.1));
    let weight = drawn(8000.0, rectangular(1000.0));
    let standard = drawn(8000.0, rectangular(50.0));
    simulation
        .run(|draw| {
            let of = |input: Input<Ratio>| draw.of(input).fraction();
            let buoyancy = 1.0 + (of(air) - 1.2) * (1.0 / of(weight) - 1.0 / of(standard));
            fraction((of(reference) + of(added)) * buoyancy - 100_000.0)
        })
        .unwrap()
}

/// 9.4: Y = X1² + X2², u = 0.005 each, in units of 1e-6; `x1` in units of 0.001.
fn comparison_loss(x1: f64, correlation: f64) -> Simulated<Ratio> {
    let own = |label| Measured::from_standard(fraction(0.0), fraction(5.0), label).unwrap();
    let (a, b) = (own("first"), own("second"));
    let second = a.clone() * correlation + b * (1.0 - correlation * correlation).sqrt();
    let first = Measured::exact(fraction(x1)) + a;
    let mut simulation = Simulation::seeded(94);
    let (first, second) = (simulation.input(&first).unwrap(), simulation.input(&second).unwrap());
    simulation
        .run(|draw| fraction(draw.of(first).fraction().powi(2) + draw.of(second).fraction().powi(2)))
        .unwrap()
}

/// 9.5: deviation of a gauge block from nominal, nm; the model of second order.
fn gauge_block() -> Simulated<Ratio> {
    let mut simulation = Simulation::seeded(95);
    let mut drawn = |value: f64, distribution| simulation.drawn(fraction(value), distribution).unwrap();
    let student =
        |scale, degrees_of_freedom| Distribution::Student { scale: fraction(scale), degrees_of_freedom };
    let trapezoid = |half_width, inexactness| Distribution::CurvilinearTrapezoid {
        half_width: fraction(half_width),
        inexactness: fraction(inexactness),
    };
    let standard = drawn(50_000_623.0, student(25.0, 18.0));
    let difference = drawn(215.0, student(6.0, 24.0));
    let random = drawn(0.0, student(4.0, 5.0));
    let systematic = drawn(0.0, student(7.0, 8.0));
    let expansion = drawn(11.5e-6, rectangular(2e-6));
    let mean = drawn(-0.1, Distribution::Normal { standard: fraction(0.2) });
    let cyclic = drawn(0.0, Distribution::Arcsine { half_width: fraction(0.5) });
    let of_expansion = drawn(0.0, trapezoid(1e-6, 0.1e-6));
    let of_temperature = drawn(0.0, trapezoid(0.05, 0.025));
    simulation
        .run(|draw| {
            let of = |input: Input<Ratio>| draw.of(input).fraction();
            let comparison = of(difference) + of(random) + of(systematic);
            let warmth = of(of_expansion) * (of(mean) + of(cyclic)) + of(expansion) * of(of_temperature);
            fraction(of(standard) * (1.0 - warmth) + comparison - 50_000_000.0)
        })
        .unwrap()
}
