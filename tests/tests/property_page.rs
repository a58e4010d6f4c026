//! `docs/properties.md` says what the library says now.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve_tests::{not_listed_is_right, property_page};

#[test]
fn the_page_is_current() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../docs/properties.md");
    let written = std::fs::read_to_string(path).unwrap();
    let now = property_page().unwrap();
    assert_eq!(written.lines().count(), now.lines().count(), "run `make properties`");
    for (line, (written, now)) in written.lines().zip(now.lines()).enumerate() {
        let (a, b): (Vec<_>, Vec<_>) = (words(written), words(now));
        let same = a.len() == b.len() && a.iter().zip(&b).all(|(a, b)| same_within_rounding(a, b));
        assert!(same, "docs/properties.md:{} has\n{written}\nnow\n{now}\nrun `make properties`", line + 1);
    }
}

fn words(line: &str) -> Vec<&str> {
    line.split([' ', ';']).collect()
}

/// The same text, or numbers one unit apart in their last printed place, as rounding on another machine may leave them.
fn same_within_rounding(a: &str, b: &str) -> bool {
    let decimals = |text: &str| text.split_once('.').map(|(_, decimals)| decimals.len());
    match (a.parse::<f64>(), b.parse::<f64>()) {
        _ if a == b => true,
        (Ok(x), Ok(y)) => match (decimals(a), decimals(b)) {
            (Some(m), Some(n)) if m == n => (x - y).abs() < 1.01 * 0.1_f64.powi(m as i32),
            _ => false,
        },
        _ => false,
    }
}

#[test]
fn a_drift_is_seen() {
    assert!(same_within_rounding("-51.66", "-51.65"));
    assert!(!same_within_rounding("-51.66", "-51.64"));
    assert!(!same_within_rounding("R-32", "R-33"));
    assert!(!same_within_rounding("60", "61"));
}

#[test]
fn what_is_said_to_be_missing_is_missing() {
    not_listed_is_right().unwrap();
}
