//! One service visit, from raw readings to the report, the options sheet and the completed record.

#![allow(clippy::print_stdout, reason = "a program speaks on standard output")]

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use kingvalve::visit::{Visit, write_whole};
use kingvalve_examples::sheets::sheets;

const HELP: &str = "\
no_cool_call - evaluate one visit with kingvalve

usage: no_cool_call VISIT.json [FOLDER]

  VISIT.json  the readings of a visit; see examples/data/ for two invented ones
  FOLDER      where to write (default: target/demo)

writes into FOLDER
  report.txt    for the technician: what the readings say, what they do not, what to measure next
  options.html  for the customer: one printed page, options side by side, to be signed
  options.md    the same as Markdown
  outlook.html  what each way is expected to cost over years, where the visit asks for it
  work.html     the work report: readings against where they should be, what was done
  invoice.html  the invoice, where work was billed
  *.es.html     the same pages in Spanish, in kilograms and °C
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
            println!("\nWritten to {}: report.txt, record.json and the sheets", folder.display());
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
    let mut outputs =
        vec![("report.txt".to_owned(), report.clone()), ("record.json".to_owned(), evaluation.to_json()?)];
    outputs.extend(sheets(&evaluation)?);
    std::fs::create_dir_all(folder)?;
    for (name, text) in outputs {
        write_whole(&folder.join(name), &text)?;
    }
    Ok(report)
}
