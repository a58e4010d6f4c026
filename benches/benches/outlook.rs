//! The outlook of five ways over ten years: the tree with its spread, and a break-even.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench stops where it cannot go on")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve::estimate::outlook::*;
use kingvalve::estimate::{RateCard, Situation};
use kingvalve::measure::Interval;
use kingvalve::quantity::*;

fn outlook(criterion: &mut Criterion) {
    let card = RateCard::from_json(include_str!("../../examples/data/rate_card.json")).unwrap();
    let missing = Interval::new(pounds(4.1), pounds(6.5)).unwrap();
    let mut situation = Situation::new("R-454B", missing);
    situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
    let [low, median, high] = [0.5, 2.0, 6.0].map(pounds_per_year);
    let prospect = Prospect {
        years: 10,
        charge: pounds(8.0),
        missing,
        leak: LeakRange::new(low, median, high).unwrap(),
        age: years(9.0),
        prices: Prices::from_card(&card, &situation).unwrap(),
        chances: Chances::default(),
        habits: Habits::default(),
        energy: None,
        comfort_per_day: None,
    };
    let mut group = criterion.benchmark_group("outlook");
    group.bench_function("ten_years", |bencher| {
        bencher.iter(|| black_box(&prospect).outlook(1).unwrap());
    });
    group.bench_function("break_even_leak", |bencher| {
        bencher
            .iter(|| black_box(&prospect).break_even_leak(Forward::Recharge, Forward::LeakSearch).unwrap());
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_millis(300)).measurement_time(Duration::from_secs(1));
    targets = outlook
}
criterion_main!(benches);
