//! A reading, a result with its doubt, a verdict; and the whole run-capacitor check.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench stops where it cannot go on")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve::electrical::{RunCapacitor, Tolerance};
use kingvalve::measure::{Distribution, Instrument, Level, Limits, Reading, Simulation};
use kingvalve::quantity::*;

fn measure(criterion: &mut Criterion) {
    let voltmeter = Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.0).counts(3.0);
    let ammeter = Instrument::resolution(amperes(0.1)).accuracy_percent_of_reading(2.0).counts(5.0);
    let part =
        RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0)).policy(Tolerance::percent(10.0));
    let voltage = Reading::new(volts(371.3), voltmeter).unwrap();
    let current = Reading::new(amperes(0.6), ammeter.clone()).unwrap();
    let limits = Limits::between(amperes(0.5), amperes(0.7)).unwrap().from_source("data plate");
    let mut group = criterion.benchmark_group("measure");
    group.bench_function("reading", |bencher| {
        bencher.iter(|| Reading::new(black_box(amperes(0.6)), ammeter.clone()).unwrap());
    });
    group.bench_function("judge", |bencher| {
        bencher.iter(|| limits.judge(black_box(&current), Level::default()).unwrap());
    });
    group.bench_function("capacitor_check", |bencher| {
        bencher.iter(|| part.under_load(black_box(&voltage), black_box(&current), hertz(60.0)).unwrap());
    });
    group.bench_function("capacitor_check_with_readings", |bencher| {
        bencher.iter(|| {
            let current = Reading::new(black_box(amperes(0.6)), ammeter.clone()).unwrap();
            part.under_load(black_box(&voltage), &current, hertz(60.0)).unwrap()
        });
    });
    group.sample_size(10);
    group.bench_function("monte_carlo_million_draws", |bencher| {
        let mut simulation = Simulation::seeded(1);
        let (v, i) = (simulation.input(&voltage).unwrap(), simulation.input(&current).unwrap());
        bencher.iter(|| {
            let farads = |v: ElectricPotential, i: Current| i.amperes() / (377.0 * v.volts());
            let c = simulation.run(|draw| microfarads(1e6 * farads(draw.of(v), draw.of(i)))).unwrap();
            c.symmetric(Level::default()).unwrap()
        });
    });
    group.bench_function("monte_carlo_million_draws_normal", |bencher| {
        let normal = |standard| Distribution::Normal { standard: volts(standard) };
        let mut simulation = Simulation::seeded(1);
        let inputs = [1.0, 2.0, 3.0].map(|u| simulation.drawn(volts(230.0), normal(u)).unwrap());
        bencher.iter(|| {
            let product = simulation.run(|draw| {
                let [a, b, c] = inputs.map(|input| draw.of(input).volts());
                volts(a * b / c)
            });
            product.unwrap().symmetric(Level::default()).unwrap()
        });
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_millis(300)).measurement_time(Duration::from_secs(1));
    targets = measure
}
criterion_main!(benches);
