//! Writes the page of every refrigerant's properties, `docs/properties.md`, to standard output.
#![allow(clippy::print_stdout, reason = "what it is for")]

use std::process::ExitCode;

fn main() -> ExitCode {
    match kingvalve_tests::property_page() {
        Ok(page) => {
            print!("{page}");
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("property_page: {why}");
            ExitCode::FAILURE
        }
    }
}
