//! The run-capacitor check: one reading with its full budget, and columns of readings.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench stops where it cannot go on")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use kingvalve::electrical::{CapacitorRow, RunCapacitor, Tolerance};
use kingvalve::measure::{Instrument, Reading};
use kingvalve::quantity::*;

const ROWS: usize = 10_000;

fn electrical(criterion: &mut Criterion) {
    let voltmeter = Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.0).counts(3.0);
    let ammeter = Instrument::resolution(amperes(0.01)).accuracy_percent_of_reading(2.0).counts(5.0);
    let part =
        RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0)).policy(Tolerance::percent(10.0));
    let mut group = criterion.benchmark_group("electrical");
    let voltage = Reading::new(volts(371.3), voltmeter.clone()).unwrap();
    let current = Reading::new(amperes(0.6), ammeter.clone()).unwrap();
    group.bench_function("capacitor_check", |bencher| {
        bencher.iter(|| part.under_load(black_box(&voltage), black_box(&current), hertz(60.0)).unwrap());
    });
    // Parts from 60 % to 140 % of their rating, so that every verdict comes up.
    let voltages: Vec<_> = (0..ROWS).map(|at| volts(330.0 + (at % 97) as f64)).collect();
    let currents: Vec<_> = (0..ROWS).map(|at| amperes(0.4 + 0.5 * (at % 101) as f64 / 100.0)).collect();
    let mut out = vec![CapacitorRow::NONE; ROWS];
    let rows = part.rows(&voltmeter, &ammeter, hertz(60.0)).unwrap();
    group.throughput(Throughput::Elements(ROWS as u64));
    group.bench_function("capacitor_rows", |bencher| {
        bencher.iter(|| rows.judge(black_box(&voltages), black_box(&currents), black_box(&mut out)).unwrap());
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_millis(300)).measurement_time(Duration::from_secs(1));
    targets = electrical
}
criterion_main!(benches);
