//! The JSON Schemas that the Python package carries: a line for each, its name, a tab, the schema.

use kingvalve::visit::Visit;
use kingvalve::{Result, check};

/// The lines of `bindings/python/schemas.tsv`.
///
/// # Errors
/// None in practice: a schema holds nothing that JSON cannot.
pub fn schemas() -> Result<String> {
    let mut lines = line("visit", &Visit::schema()?);
    for name in check::names() {
        lines += &line(name, &check::schema(name)?);
    }
    Ok(lines)
}

/// The schema without its indents: a line break in JSON stands between its parts, never in a text.
fn line(name: &str, schema: &str) -> String {
    let schema: String = schema.lines().map(str::trim_start).collect();
    format!("{name}\t{schema}\n")
}
