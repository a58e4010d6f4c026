//! Saturation and density: solved from the equations of state, and looked up on the fitted curves.
//!
//! Every call gets another temperature of a ring, so that no branch or cache knows the answer.
//! `benches/peers.py` times the same calls in peer libraries and divides.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench stops where it cannot go on")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve_fluid::{Fluid, Line};

/// Kelvins: evaporating and condensing temperatures of air conditioning.
const RING: [f64; 16] = [
    262.0, 310.0, 275.0, 318.0, 281.0, 303.0, 269.0, 314.0, 285.0, 306.0, 278.0, 321.0, 272.0, 299.0, 266.0,
    291.0,
];
/// Name of the bench group, and the designated blend or pure refrigerant behind it.
const NAMES: [&str; 5] = ["R-32", "R-410A", "R-454B", "R-407C", "R-448A"];

fn fluid(name: &str) -> Fluid {
    kingvalve::refrigerant::Refrigerant::named(name).unwrap().fluid().clone()
}

/// Times `call` on the values of a ring in turn.
fn bench(criterion: &mut Criterion, group: &str, name: &str, ring: &[f64], call: impl Fn(f64) -> f64) {
    let mut turn = ring.iter().cycle();
    let mut group = criterion.benchmark_group(group);
    group.bench_function(name, |bencher| {
        bencher.iter(|| call(black_box(*turn.next().unwrap())));
    });
    group.finish();
}

/// Bubble and dew points solved from the equation of state.
fn solved(criterion: &mut Criterion) {
    for name in NAMES {
        let fluid = fluid(name);
        bench(criterion, "bubble_solved", name, &RING, |t| fluid.bubble_at_temperature(t).unwrap().pressure);
        bench(criterion, "dew_solved", name, &RING, |t| fluid.dew_at_temperature(t).unwrap().pressure);
    }
}

/// The same on the fitted curves.
fn looked_up(criterion: &mut Criterion) {
    for name in NAMES {
        let fluid = fluid(name);
        let curve = fluid.curve(Line::Bubble).unwrap();
        let pressures = RING.map(|t| curve.pressure(t).unwrap());
        bench(criterion, "bubble_pressure_looked_up", name, &RING, |t| curve.pressure(t).unwrap());
        bench(criterion, "bubble_temperature_looked_up", name, &pressures, |p| curve.temperature(p).unwrap());
    }
}

/// Vapour density at half the dew pressure.
fn density(criterion: &mut Criterion) {
    for name in NAMES {
        let fluid = fluid(name);
        let states = RING.map(|t| (t, 0.5 * fluid.dew_at_temperature(t).unwrap().pressure));
        let mut turn = states.iter().cycle();
        let mut group = criterion.benchmark_group("vapour_density");
        group.bench_function(name, |bencher| {
            bencher.iter(|| {
                let (t, p) = black_box(*turn.next().unwrap());
                fluid.density(t, p).unwrap()
            });
        });
        group.finish();
    }
}

/// Everything a refrigerant needs once: both curves, fitted from the equation of state.
fn first_use(criterion: &mut Criterion) {
    for name in NAMES {
        let listed = fluid(name);
        let composition: Vec<(String, f64)> =
            listed.components().map(str::to_owned).zip(listed.mass_fractions().iter().copied()).collect();
        let composition: Vec<(&str, f64)> = composition.iter().map(|(name, w)| (name.as_str(), *w)).collect();
        let mut group = criterion.benchmark_group("first_use");
        group.sample_size(10);
        group.bench_function(name, |bencher| {
            bencher.iter(|| {
                let fresh = Fluid::blend(&composition, kingvalve_fluid::Basis::Mass).unwrap();
                let p = fresh.curve(Line::Bubble).unwrap().pressure(RING[0]).unwrap();
                p + fresh.curve(Line::Dew).unwrap().pressure(RING[0]).unwrap()
            });
        });
        group.finish();
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default()
        .warm_up_time(Duration::from_millis(300))
        .measurement_time(Duration::from_secs(1))
        .without_plots();
    targets = solved, looked_up, density, first_use
}
criterion_main!(benches);
