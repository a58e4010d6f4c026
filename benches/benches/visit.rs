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

fn parts(c: &mut Criterion) {
    let text = include_str!("../../examples/data/no_cool_r454b.json");
    let visit = Visit::from_json(text).unwrap();
    let evaluation = visit.evaluate().unwrap();
    c.bench_function("visit: read from JSON", |b| b.iter(|| Visit::from_json(black_box(text)).unwrap()));
    c.bench_function("visit: evaluate", |b| b.iter(|| black_box(&visit).evaluate().unwrap()));
    let (sheet, report) = (evaluation.sheet(), evaluation.work_report().unwrap());
    let invoice = evaluation.invoice().unwrap();
    c.bench_function("visit: options sheet to HTML", |b| b.iter(|| black_box(&sheet).to_html().unwrap()));
    c.bench_function("visit: work report to HTML", |b| b.iter(|| black_box(&report).to_html().unwrap()));
    c.bench_function("visit: invoice to HTML", |b| b.iter(|| black_box(&invoice).to_html().unwrap()));
}

criterion_group!(benches, visit, parts);
criterion_main!(benches);
