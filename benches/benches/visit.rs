//! A whole visit, JSON to JSON: what shop software pays for the answer.
#![allow(missing_docs, clippy::unwrap_used)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve::visit::Visit;

fn visit(c: &mut Criterion) {
    let text = include_str!("../../examples/data/no_cool_r454b.json");
    c.bench_function("visit: JSON in, results and sheet out", |b| {
        b.iter(|| {
            let evaluation = Visit::from_json(black_box(text)).unwrap().evaluate().unwrap();
            (evaluation.to_json().unwrap(), evaluation.sheet().to_html().unwrap())
        });
    });
}

criterion_group!(benches, visit);
criterion_main!(benches);
