//! The charge judged by running readings: one system with its full budget, and columns of systems.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench stops where it cannot go on")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use kingvalve::cycle::target::*;
use kingvalve::measure::{Instrument, Level, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

const ROWS: usize = 10_000;

fn charge(criterion: &mut Criterion) {
    let kit = ChargeInstruments {
        gauge: Instrument::resolution(psi(0.1)).accuracy(psi(1.0)),
        thermometer: Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0)),
    };
    let (site, usual, level) = (Site::sea_level(), ChargeTolerance::default(), Level::default());
    let r = Refrigerant::named("R-410A").unwrap();
    let mut group = criterion.benchmark_group("charge");
    let pressure = site.absolute(Reading::new(psig(118.0), kit.gauge.clone()).unwrap()).unwrap();
    let [line, wet, dry] =
        [54.0, 67.0, 95.0].map(|t| Reading::new(fahrenheit(t), kit.thermometer.clone()).unwrap());
    group.bench_function("target_superheat", |bencher| {
        bencher.iter(|| {
            let superheat = r.superheat(black_box(&pressure), black_box(&line)).unwrap();
            let target = Target::by_formula(black_box(&wet), black_box(&dry)).unwrap();
            TargetCheck::superheat(superheat, &target, &usual, level).unwrap()
        });
    });
    // Superheats, subcoolings and targets from far below to far above, so that every verdict comes up.
    let column = |low: f64, high: f64, period: usize| -> Vec<f64> {
        (0..ROWS).map(|at| low + (high - low) * (at % period) as f64 / period as f64).collect()
    };
    let gauges = |low, high, period| column(low, high, period).into_iter().map(psig).collect::<Vec<_>>();
    let temperatures =
        |low, high, period| column(low, high, period).into_iter().map(fahrenheit).collect::<Vec<_>>();
    let (suction, liquid) = (gauges(95.0, 145.0, 97), gauges(290.0, 450.0, 101));
    let (suction_line, liquid_line) = (temperatures(40.0, 75.0, 89), temperatures(85.0, 120.0, 83));
    let (wet, dry) = (temperatures(60.0, 74.0, 79), temperatures(70.0, 105.0, 73));
    let columns = ChargeColumns {
        suction_pressure: &suction,
        suction_line: &suction_line,
        liquid_pressure: &liquid,
        liquid_line: &liquid_line,
        indoor_wet_bulb: &wet,
        outdoor: &dry,
    };
    let mut out = vec![ChargeRow::NONE; ROWS];
    group.throughput(Throughput::Elements(ROWS as u64));
    let rows = ChargeRows::orifice(&r, &site, &kit, &usual, level).unwrap();
    group.bench_function("orifice_rows", |bencher| {
        bencher.iter(|| rows.judge(black_box(&columns), black_box(&mut out)).unwrap());
    });
    let rows = ChargeRows::valve(&r, &site, &kit, delta_fahrenheit(10.0), &usual, level).unwrap();
    group.bench_function("valve_rows", |bencher| {
        bencher.iter(|| rows.judge(black_box(&columns), black_box(&mut out)).unwrap());
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_millis(300)).measurement_time(Duration::from_secs(1));
    targets = charge
}
criterion_main!(benches);
