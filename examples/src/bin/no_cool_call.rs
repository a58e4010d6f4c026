//! One service visit, from raw readings to the report, the options sheet and the completed record.

#![allow(clippy::print_stdout, reason = "a program speaks on standard output")]

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use kingvalve::visit::Visit;

const HELP: &str = "\
no_cool_call - evaluate one visit with kingvalve

usage: no_cool_call VISIT.json [FOLDER]

  VISIT.json  the readings of a visit; see examples/data/ for two invented ones
  FOLDER      where to write (default: target/demo)

writes into FOLDER
  report.txt    for the technician: what the readings say, what they do not, what to measure next
  options.html  for the customer: one printed page, options side by side, to be signed
  record.json   the visit with its results inside

Nothing is written unless everything could be computed.";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    if arguments.iter().any(|argument| argument == "--help" || argument == "-h") {
        println!("{HELP}");
        return ExitCode::SUCCESS;
    }
    let (visit, folder) = match arguments.as_slice() {
        [visit] => (PathBuf::from(visit), PathBuf::from("target/demo")),
        [visit, folder] => (PathBuf::from(visit), PathBuf::from(folder)),
        _ => {
            eprintln!("no_cool_call: one visit, and perhaps a folder, are wanted\n\n{HELP}");
            return ExitCode::from(2);
        }
    };
    match run(&visit, &folder) {
        Ok(report) => {
            print!("{report}");
            println!("\nWritten to {}: report.txt, options.html, record.json", folder.display());
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("no_cool_call: {}: {error}", visit.display());
            ExitCode::FAILURE
        }
    }
}

fn run(visit: &Path, folder: &Path) -> Result<String, Box<dyn std::error::Error>> {
    let evaluation = Visit::from_json(&std::fs::read_to_string(visit)?)?.evaluate()?;
    let report = evaluation.report()?;
    let outputs = [
        ("report.txt", report.clone()),
        ("options.html", evaluation.sheet().to_html()?),
        ("record.json", evaluation.to_json()?),
    ];
    std::fs::create_dir_all(folder)?;
    // Each file is written beside its place and moved there, so that none is ever half-finished.
    for (name, text) in outputs {
        let place = folder.join(name);
        let beside = folder.join(format!(".{name}.partial"));
        std::fs::write(&beside, text)?;
        std::fs::rename(&beside, &place)?;
    }
    Ok(report)
}
