//! The inventory: what one more reading costs, and a prediction from it.
#![allow(missing_docs, clippy::unwrap_used)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve::charge::FullCharge;
use kingvalve::charge::inventory::{Inventory, RunningReading, StandingReading, System};
use kingvalve::measure::{Instrument, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

fn inventory(c: &mut Criterion) {
    let refrigerant = Refrigerant::named("R-454B").unwrap();
    let system = System::of_plate(&refrigerant, pounds(6.5)).unwrap();
    let gauge = Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(500.0));
    let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    let read = |pressure: f64| {
        let pressure = Reading::new(psig(pressure), gauge.clone()).unwrap();
        let pressure = Site::sea_level().absolute(&pressure).unwrap();
        StandingReading::at(pressure, Reading::new(fahrenheit(88.0), clamp.clone()).unwrap())
    };
    let step = Measured::from_standard(pounds(0.5), ounces(0.2), "scale").unwrap();
    let degrees = |value: f64| {
        Measured::from_standard(delta_fahrenheit(value), delta_fahrenheit(1.0), "clamp").unwrap()
    };
    let full = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };
    let running = RunningReading::of(degrees(18.0), degrees(6.0), full);

    let prior = Inventory::prior(&system).unwrap();
    let (first, second, saturated) = (read(62.0), read(118.0), read(222.0));
    let one = prior.standing(&first).unwrap();
    let stepped = one.weighed_in(step.clone()).unwrap();
    let two = stepped.standing(&second).unwrap();
    let charged =
        two.weighed_in(Measured::from_standard(pounds(4.0), ounces(0.2), "scale").unwrap()).unwrap();
    c.bench_function("inventory: standing pressure, in vapour", |b| {
        b.iter(|| prior.standing(black_box(&first)).unwrap());
    });
    c.bench_function("inventory: standing pressure, near saturation", |b| {
        b.iter(|| prior.standing(black_box(&saturated)).unwrap());
    });
    c.bench_function("inventory: a weighed step", |b| {
        b.iter(|| one.weighed_in(black_box(step.clone())).unwrap());
    });
    c.bench_function("inventory: second standing pressure, volume learned", |b| {
        b.iter(|| stepped.standing(black_box(&second)).unwrap());
    });
    c.bench_function("inventory: superheat and subcooling", |b| {
        b.iter(|| charged.running(black_box(&running)).unwrap());
    });
    c.bench_function("inventory: standing pressure to expect", |b| {
        b.iter(|| two.expect_standing(black_box(&[fahrenheit(88.0)])).unwrap());
    });
}

criterion_group!(benches, inventory);
criterion_main!(benches);
