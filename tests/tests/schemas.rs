//! The schemas the Python package carries are those the library makes.
#![allow(clippy::unwrap_used, reason = "how a test fails")]

use kingvalve_tests::schemas;

const WRITTEN: &str = include_str!("../../bindings/python/schemas.tsv");

#[test]
fn the_written_schemas_are_current() {
    let now = schemas().unwrap();
    for (written, now) in WRITTEN.lines().zip(now.lines()) {
        assert_eq!(written, now, "run `make schemas`");
    }
    assert_eq!(WRITTEN.lines().count(), now.lines().count(), "run `make schemas`");
}
