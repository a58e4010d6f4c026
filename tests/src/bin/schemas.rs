//! Writes the JSON Schemas that the Python package carries, `bindings/python/schemas.tsv`, to standard output.
#![allow(clippy::print_stdout, reason = "what it is for")]

fn main() -> kingvalve::Result<()> {
    print!("{}", kingvalve_tests::schemas()?);
    Ok(())
}
