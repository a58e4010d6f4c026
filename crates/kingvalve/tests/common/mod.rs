//! Reading the truth tables in `tests/reference`.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::HashMap;
use std::path::Path;

/// One row of a table: column name → text. Empty fields are left out.
pub type Row = HashMap<String, String>;

/// The rows of `tests/reference/<name>`, comment lines skipped.
pub fn table(name: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference").join(name);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let mut lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    let header = fields(lines.next().expect("a header line"));
    let rows: Vec<Row> = lines
        .map(|line| {
            let values = fields(line);
            assert_eq!(values.len(), header.len(), "{name}: {line}");
            header.iter().cloned().zip(values).filter(|(_, value)| !value.is_empty()).collect()
        })
        .collect();
    assert!(!rows.is_empty(), "{name} has no rows");
    rows
}

/// A number of a row.
#[allow(dead_code)]
pub fn number(row: &Row, column: &str) -> Option<f64> {
    row.get(column).map(|text| text.parse().unwrap_or_else(|_| panic!("{column}: {text}")))
}

/// Passes inside either tolerance of the row.
#[allow(dead_code)]
pub fn assert_row(row: &Row, got: f64, expected: f64) {
    let error = (got - expected).abs();
    let inside = number(row, "tol_abs").is_some_and(|tolerance| error <= tolerance)
        || number(row, "tol_rel").is_some_and(|tolerance| error <= tolerance * expected.abs());
    assert!(inside, "{}: got {got}, expected {expected}", row["case"]);
}

fn fields(line: &str) -> Vec<String> {
    let mut fields = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => fields.push(String::new()),
            c => fields.last_mut().expect("never empty").push(c),
        }
    }
    fields
}
