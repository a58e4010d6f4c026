//! The vacuum's story as a process: one page, a plot on request, help, refusals.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;
use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_vacuum_test")).args(arguments).output().unwrap()
}

#[test]
fn one_page_tells_water_from_a_leak() {
    let output = run(&[]);
    assert!(output.status.success());
    let page = String::from_utf8(output.stdout).unwrap();
    assert!(page.lines().count() <= 66 && page.lines().all(|line| line.chars().count() <= 78), "{page}");
    assert!(page.contains("invented scenario") && page.contains("Never oxygen"));
    let causes: Vec<&str> = page
        .split_whitespace()
        .filter(|word| ["Unresolved:", "Moisture:", "Leak:", "Steady:"].contains(word))
        .collect();
    assert_eq!(causes, ["Unresolved:", "Moisture:", "Leak:", "Steady:"], "{page}");
    let holds: Vec<&str> =
        page.split_whitespace().filter(|word| ["Outside:", "Within:"].contains(word)).collect();
    assert_eq!(holds, ["Outside:", "Within:", "Within:"], "{page}");
    assert!(page.contains("microns") && !page.contains("psia"), "a vacuum is spoken of in microns: {page}");
    assert_eq!(page.as_bytes(), run(&[]).stdout);
}

#[test]
fn the_plot_is_drawn_on_request() {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("vacuum_test.svg");
    let _ = std::fs::remove_file(&file);
    assert!(run(&["--svg", file.to_str().unwrap()]).status.success());
    let svg = std::fs::read_to_string(&file).unwrap();
    assert!(svg.starts_with("<svg") && svg.trim_end().ends_with("</svg>") && svg.contains("invented"));
    // Every reading of the logs, the first log's first 16 twice; a fit through each.
    assert_eq!(svg.matches("<circle").count(), 16 + 151 + 166 + 31);
    assert_eq!(svg.matches("<polyline").count(), 4);
}

#[test]
fn help_is_help_and_the_rest_is_refused() {
    let help = run(&["--help"]);
    assert!(help.status.success());
    assert!(String::from_utf8(help.stdout).unwrap().contains("usage: vacuum_test [--svg FILE]"));
    assert_eq!(run(&["--svg"]).status.code(), Some(2));
    assert_eq!(run(&["--svg", "/no/such/folder/x.svg"]).status.code(), Some(1));
}
