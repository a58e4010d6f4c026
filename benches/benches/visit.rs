//! A whole visit, JSON to JSON: what shop software pays for the answer, with an outlook and without; and every sheet.
#![allow(missing_docs, clippy::unwrap_used)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use kingvalve::visit::Visit;

const EXAMPLE: &str = include_str!("../../examples/data/no_cool_r454b.json");

const STEPS: &str = include_str!("../../examples/data/charged_by_steps_r454b.json");

/// The example without the outlook it asks for.
fn plain() -> String {
    let mut record: serde_json::Value = serde_json::from_str(EXAMPLE).unwrap();
    record.as_object_mut().unwrap().remove("outlook").unwrap();
    record.to_string()
}

fn visit(c: &mut Criterion) {
    let text = plain();
    c.bench_function("visit: JSON in, results and sheet out", |b| {
        b.iter(|| {
            let evaluation = Visit::from_json(black_box(&text)).unwrap().evaluate().unwrap();
            (evaluation.to_json().unwrap(), evaluation.sheet().to_html().unwrap())
        });
    });
}

fn parts(c: &mut Criterion) {
    let text = plain();
    let visit = Visit::from_json(&text).unwrap();
    c.bench_function("visit: read from JSON", |b| b.iter(|| Visit::from_json(black_box(&text)).unwrap()));
    c.bench_function("visit: evaluate", |b| b.iter(|| black_box(&visit).evaluate().unwrap()));
    let asking = Visit::from_json(EXAMPLE).unwrap();
    c.bench_function("visit: evaluate with an outlook of 2000 draws", |b| {
        b.iter(|| black_box(&asking).evaluate().unwrap());
    });
    let by_steps = Visit::from_json(STEPS).unwrap();
    c.bench_function("visit: evaluate with an inventory of twelve steps", |b| {
        b.iter(|| black_box(&by_steps).evaluate().unwrap());
    });
}

fn sheets(c: &mut Criterion) {
    let evaluation = Visit::from_json(EXAMPLE).unwrap().evaluate().unwrap();
    let (options, outlook) = (evaluation.sheet(), evaluation.outlook_sheet().unwrap());
    let (report, invoice) = (evaluation.work_report().unwrap(), evaluation.invoice().unwrap());
    c.bench_function("sheet: options to HTML", |b| b.iter(|| black_box(&options).to_html().unwrap()));
    c.bench_function("sheet: outlook to HTML", |b| b.iter(|| black_box(&outlook).to_html().unwrap()));
    c.bench_function("sheet: work report to HTML", |b| b.iter(|| black_box(&report).to_html().unwrap()));
    c.bench_function("sheet: invoice to HTML", |b| b.iter(|| black_box(&invoice).to_html().unwrap()));
}

criterion_group!(benches, visit, parts, sheets);
criterion_main!(benches);
