//! Moist air: wet bulb and dew point from humidity ratio, and the state from two bulbs, plain and with doubt.
//!
//! `benches/peers.py` times PsychroLib on the same states and divides.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench stops where it cannot go on")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve::air::MoistAir;
use kingvalve::measure::{Instrument, Reading};
use kingvalve::quantity::*;

/// °C and relative humidity, at 95,461 Pa: air as it comes back to, and leaves, a coil, and outdoors.
const RING: [(f64, f64); 8] = [
    (24.0, 0.50),
    (13.0, 0.93),
    (35.0, 0.40),
    (27.0, 0.60),
    (21.0, 0.30),
    (-8.0, 0.70),
    (45.0, 0.10),
    (30.0, 0.75),
];
const PRESSURE: f64 = 95_461.0;

fn air(criterion: &mut Criterion) {
    let site = Site::with_barometer(pascals(PRESSURE)).unwrap();
    let ring = RING.map(|(t, rh)| MoistAir::from_relative_humidity(celsius(t), fraction(rh), &site).unwrap());
    let bulbs = ring.map(|air| (air.dry_bulb(), air.wet_bulb().unwrap()));
    let mut group = criterion.benchmark_group("air");
    let mut turn = ring.iter().cycle();
    group.bench_function("wet_bulb", |bencher| {
        bencher.iter(|| {
            let air = black_box(*turn.next().unwrap());
            let air = MoistAir::from_humidity_ratio(air.dry_bulb(), air.humidity_ratio(), &site).unwrap();
            air.wet_bulb().unwrap()
        });
    });
    group.bench_function("dew_point", |bencher| {
        bencher.iter(|| {
            let air = black_box(*turn.next().unwrap());
            let air = MoistAir::from_humidity_ratio(air.dry_bulb(), air.humidity_ratio(), &site).unwrap();
            air.dew_point().unwrap()
        });
    });
    let mut turn = bulbs.iter().cycle();
    group.bench_function("state_from_bulbs", |bencher| {
        bencher.iter(|| {
            let (dry, wet) = black_box(*turn.next().unwrap());
            MoistAir::from_wet_bulb(dry, wet, &site).unwrap().enthalpy()
        });
    });
    let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    let read = |t| Reading::new(t, probe.clone()).unwrap();
    let readings = bulbs.map(|(dry, wet)| (read(dry), read(wet)));
    let mut turn = readings.iter().cycle();
    group.bench_function("state_from_read_bulbs", |bencher| {
        bencher.iter(|| {
            let (dry, wet) = black_box(turn.next().unwrap());
            MoistAir::from_wet_bulb(dry, wet, &site).unwrap().enthalpy()
        });
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_millis(300)).measurement_time(Duration::from_secs(1));
    targets = air
}
criterion_main!(benches);
