//! JSON Schemas, as the library makes them, but written ahead: an extension that makes them itself is a third of a
//! megabyte larger. `make schemas` writes the file, and a test of the workspace holds it to the library.

/// A line for each: the name, a tab, the schema.
const WRITTEN: &str = include_str!("../schemas.tsv");

/// The schema of that name, in one line: a check's, or "visit" for the record of one.
pub fn schema(name: &str) -> &'static str {
    let line = WRITTEN.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix('\t'));
    line.unwrap_or_default()
}
