//! Ranking faults from six residuals, what to read next, and the penalty of a wrong charge.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench stops where it cannot go on")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve::fault::*;
use kingvalve::measure::Measured;
use kingvalve::quantity::*;

fn fault(criterion: &mut Criterion) {
    let off = [16.0, -7.0, -4.0, 8.0, -4.0, 12.0];
    let residuals: Vec<Residual> = Feature::ALL
        .into_iter()
        .zip(off)
        .map(|(feature, off)| {
            let seen =
                Measured::from_standard(delta_fahrenheit(off), delta_fahrenheit(1.0), "meter").unwrap();
            Residual::new(feature, seen, TemperatureDifference::ZERO).unwrap()
        })
        .collect();
    let (patterns, priors) = (Patterns::fixed_orifice(), Priors::default());
    let ranking = Ranking::of(&residuals, &patterns, &priors).unwrap();
    let mut group = criterion.benchmark_group("fault");
    group.bench_function("ranking", |bencher| {
        bencher.iter(|| Ranking::of(black_box(&residuals), &patterns, &priors).unwrap());
    });
    group.bench_function("next_readings", |bencher| {
        bencher.iter(|| black_box(&ranking).next_readings(&Spreads::default()));
    });
    group.bench_function("charge_penalty", |bencher| {
        bencher.iter(|| {
            charge_penalty(Mode::Cooling, black_box(percent(-15.0)), celsius(26.0), celsius(35.0)).unwrap()
        });
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_millis(300)).measurement_time(Duration::from_secs(1));
    targets = fault
}
criterion_main!(benches);
