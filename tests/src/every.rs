//! A law held to every listed refrigerant.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use kingvalve::refrigerant::{Refrigerant, designations};
use proptest::array::uniform4;
use proptest::test_runner::{Config, TestCaseError, TestRunner};

/// Every listed refrigerant, pure ones first.
///
/// # Panics
/// Where one cannot be made.
pub fn every_refrigerant() -> Vec<Refrigerant> {
    designations().map(|name| Refrigerant::named(name).unwrap_or_else(|e| panic!("{name}: {e}"))).collect()
}

/// Asks `of` about every listed refrigerant, on all cores; the answers in the order of the list.
pub fn ask_every_refrigerant<R: Send>(of: impl Fn(&Refrigerant) -> R + Sync) -> Vec<(Refrigerant, R)> {
    let all = every_refrigerant();
    let next = AtomicUsize::new(0);
    let answers = Mutex::new(Vec::new());
    thread::scope(|scope| {
        for _ in 0..thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                while let Some(r) = all.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let answer = of(r);
                    if let Ok(mut answers) = answers.lock() {
                        answers.push((r.clone(), answer));
                    }
                }
            });
        }
    });
    let mut answers = answers.into_inner().unwrap_or_default();
    answers.sort_by_key(|(r, _)| all.iter().position(|listed| listed == r));
    answers
}

/// Holds `law` to every listed refrigerant, `cases` times each, with four random numbers from 0 to 1.
///
/// # Panics
/// With every refrigerant that breaks the law, and the simplest numbers found that show it.
pub fn hold_every_refrigerant(cases: u32, law: impl Fn(&Refrigerant, [f64; 4]) -> Result<(), String> + Sync) {
    let broken: Vec<String> = ask_every_refrigerant(|r| {
        let mut runner = TestRunner::new(Config { cases, failure_persistence: None, ..Config::default() });
        let one = |numbers| law(r, numbers).map_err(TestCaseError::fail);
        runner.run(&uniform4(0.0..1.0_f64), one).map_err(|why| format!("{r}: {why}"))
    })
    .into_iter()
    .filter_map(|(_, held)| held.err())
    .collect();
    assert!(broken.is_empty(), "{} refrigerants break it:\n{}", broken.len(), broken.join("\n"));
}

/// Nothing where `a` is within `tolerance` of `b`, relative to the larger; else what differs, as text.
///
/// # Errors
/// Where they are not that close, or one is no number.
pub fn close(what: &str, a: f64, b: f64, tolerance: f64) -> Result<(), String> {
    close_on_scale(what, a, b, tolerance * a.abs().max(b.abs()))
}

/// As [`close`], with an absolute tolerance.
///
/// # Errors
/// As [`close`].
pub fn close_on_scale(what: &str, a: f64, b: f64, tolerance: f64) -> Result<(), String> {
    if a == b || (a - b).abs() <= tolerance {
        Ok(())
    } else {
        Err(format!(
            "{what}: {a:e} against {b:e}, {:.1e} apart where {tolerance:.1e} is allowed",
            (a - b).abs()
        ))
    }
}
