//! The charging story as a process: surer step by step, over two cylinders, to the finished charge.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;
use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_charging")).args(arguments).output().unwrap()
}

#[test]
fn the_visit_is_told_from_nearly_empty_to_the_target() {
    let output = run(&[]);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let page = String::from_utf8(output.stdout).unwrap();
    assert!(page.lines().all(|line| line.chars().count() <= 78), "{page}");
    for said in [
        "invented",
        "no liquid anywhere",
        "Weigh in 0.50 lb",
        "Put the next cylinder on the scale",
        "dirty coil: it does not enter the answer",
        "clean the outdoor coil",
        "over 2 cylinders",
        "Write down the charge by weight",
    ] {
        let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(said), "{said} in\n{page}");
    }
    let bars = page.lines().filter(|line| line.trim_start().starts_with('[')).count();
    assert_eq!(bars, 13);
}

#[test]
fn the_picture_has_a_bar_for_each_step() {
    let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join("charging.svg");
    let output = run(&["--svg", place.to_str().unwrap()]);
    assert!(output.status.success());
    let svg = std::fs::read_to_string(place).unwrap();
    assert!(svg.starts_with("<svg") && svg.trim_end().ends_with("</svg>"));
    assert_eq!(svg.matches("stroke-width=\"10\"").count(), 13); // what is assumed, and twelve that entered
}

#[test]
fn anything_else_is_refused() {
    assert_eq!(run(&["--png", "x"]).status.code(), Some(2));
    assert!(run(&["--help"]).status.success());
}
