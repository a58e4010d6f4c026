//! The capacitor's story as a process: one page, a plot on request, help, refusals.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;
use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_borderline_capacitor")).args(arguments).output().unwrap()
}

#[test]
fn one_page_tells_why_one_reading_cannot_decide() {
    let output = run(&[]);
    assert!(output.status.success());
    let page = String::from_utf8(output.stdout).unwrap();
    assert!(page.lines().count() <= 66 && page.lines().all(|line| line.chars().count() <= 78), "{page}");
    assert!(page.contains("invented scenario") && page.contains("licence"));
    let verdicts: Vec<&str> =
        page.split_whitespace().filter(|w| ["Unresolved:", "Outside:", "Within:"].contains(w)).collect();
    assert_eq!(verdicts, ["Unresolved:", "Unresolved:", "Unresolved:", "Outside:", "Outside:"]);
    assert_eq!(page.as_bytes(), run(&[]).stdout);
}

#[test]
fn the_plot_is_drawn_on_request() {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("borderline_capacitor.svg");
    let _ = std::fs::remove_file(&file);
    assert!(run(&["--svg", file.to_str().unwrap()]).status.success());
    let svg = std::fs::read_to_string(&file).unwrap();
    assert!(svg.starts_with("<svg") && svg.trim_end().ends_with("</svg>") && svg.contains("invented"));
    assert_eq!(svg.matches("<circle").count(), 5);
}

#[test]
fn help_is_help_and_the_rest_is_refused() {
    let help = run(&["--help"]);
    assert!(help.status.success());
    assert!(String::from_utf8(help.stdout).unwrap().contains("usage: borderline_capacitor [--svg FILE]"));
    assert_eq!(run(&["--svg"]).status.code(), Some(2));
    assert_eq!(run(&["--svg", "/no/such/folder/x.svg"]).status.code(), Some(1));
}
