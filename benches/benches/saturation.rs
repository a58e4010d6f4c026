//! Saturation and density: solved from the equations of state, and looked up on the fitted curves.
//!
//! Every call gets another temperature of a ring, so that no branch or cache knows the answer.
//! `benches/peers.py` times the same calls in peer libraries and divides.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench stops where it cannot go on")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve::quantity::{Temperature, kelvins, pascals};
use kingvalve::refrigerant::Refrigerant;
use kingvalve_fluid::{Fluid, Line};

/// Kelvins: evaporating and condensing temperatures of air conditioning.
const RING: [f64; 16] = [
    262.0, 310.0, 275.0, 318.0, 281.0, 303.0, 269.0, 314.0, 285.0, 306.0, 278.0, 321.0, 272.0, 299.0, 266.0,
    291.0,
];
/// Name of the bench group, and the designated blend or pure refrigerant behind it.
const NAMES: [&str; 5] = ["R-32", "R-410A", "R-454B", "R-407C", "R-448A"];

fn fluid(name: &str) -> Fluid {
    Refrigerant::named(name).unwrap().fluid().clone()
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

/// Bubble points and first use of blends of one to seven components, for the cost against their number.
const BY_COMPONENTS: [(&str, &str); 7] = [
    ("1", "R-32"),
    ("2", "R-454B"),
    ("3", "R-407C"),
    ("4", "R-444B/R-125"),
    ("5", "R-448A"),
    ("6", "R-453A"),
    ("7", "R-453A/R-1234yf"),
];

/// A designated blend, or one with a tenth of another component mixed in.
fn blend(name: &str) -> Fluid {
    let (base, extra) = name.split_once('/').map_or((name, None), |(base, extra)| (base, Some(extra)));
    let base = fluid(base);
    let Some(extra) = extra else { return base };
    let mut composition: Vec<(&str, f64)> =
        base.components().zip(base.mass_fractions().iter().map(|share| 0.9 * share)).collect();
    composition.push((extra, 0.1));
    Fluid::blend(&composition, kingvalve_fluid::Basis::Mass).unwrap()
}

fn by_components(criterion: &mut Criterion) {
    for (count, name) in BY_COMPONENTS {
        let fluid = blend(name);
        assert_eq!(fluid.components().count().to_string(), count);
        bench(criterion, "bubble_solved_by_components", count, &RING, |t| {
            fluid.bubble_at_temperature(t).unwrap().pressure
        });
        first_use_of(criterion, "first_use_by_components", count, &fluid);
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

/// Times a whole column.
fn whole(criterion: &mut Criterion, group: &str, name: &str, mut call: impl FnMut()) {
    let mut group = criterion.benchmark_group(group);
    group.bench_function(name, |bencher| bencher.iter(&mut call));
    group.finish();
}

/// A thousand points of a column at once; criterion prints the time of all, `peers.py` that of one.
fn slices(criterion: &mut Criterion) {
    for name in NAMES {
        let fluid = fluid(name);
        let curve = fluid.curve(Line::Bubble).unwrap();
        let temperatures: Vec<f64> = RING.iter().copied().cycle().take(1000).collect();
        let (mut pressures, mut back) = (vec![0.0; 1000], vec![0.0; 1000]);
        curve.pressures_into(&temperatures, &mut pressures);
        whole(criterion, "bubble_pressures_of_1000", name, || {
            curve.pressures_into(black_box(&temperatures), black_box(&mut back));
        });
        whole(criterion, "bubble_temperatures_of_1000", name, || {
            curve.temperatures_into(black_box(&pressures), black_box(&mut back));
        });
    }
}

/// A million rows of quantities, over more memory than any cache: what `peers.py` holds the same through Python against.
fn columns(criterion: &mut Criterion) {
    for name in ["R-32", "R-410A"] {
        let r = Refrigerant::named(name).unwrap();
        let temperatures: Vec<Temperature> =
            (0..1_000_000).map(|row| kelvins(262.0 + 59e-6 * f64::from(row))).collect();
        let (mut pressures, mut back) = (vec![pascals(0.0); 1_000_000], vec![kelvins(0.0); 1_000_000]);
        r.bubble_pressures(&temperatures, &mut pressures).unwrap();
        whole(criterion, "bubble_temperatures_of_1000000", name, || {
            r.bubble_temperatures(black_box(&pressures), black_box(&mut back)).unwrap();
        });
        whole(criterion, "bubble_pressures_of_1000000", name, || {
            r.bubble_pressures(black_box(&temperatures), black_box(&mut pressures)).unwrap();
        });
    }
}

/// Everything a refrigerant needs once: both curves, fitted from the equation of state.
fn first_use(criterion: &mut Criterion) {
    for name in NAMES {
        first_use_of(criterion, "first_use", name, &fluid(name));
    }
}

fn first_use_of(criterion: &mut Criterion, group: &str, name: &str, like: &Fluid) {
    let composition: Vec<(&str, f64)> =
        like.components().zip(like.mass_fractions().iter().copied()).collect();
    let mut group = criterion.benchmark_group(group);
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

criterion_group! {
    name = benches;
    config = Criterion::default()
        .warm_up_time(Duration::from_millis(300))
        .measurement_time(Duration::from_secs(1))
        .without_plots();
    targets = solved, looked_up, slices, columns, density, first_use, by_components
}
criterion_main!(benches);
