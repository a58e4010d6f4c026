//! The saturation chart as a process: its three forms, and what it refuses.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;
use std::process::{Command, Output};

use kingvalve::quantity::*;
use kingvalve::refrigerant::{Refrigerant, designations};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_pressure_temperature")).args(arguments).output().unwrap()
}

fn said(arguments: &[&str]) -> String {
    let output = run(arguments);
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn csv_has_the_librarys_numbers_at_the_sites_elevation() {
    let table = said(&["R-454B", "--form", "csv", "--elevation", "5200 ft"]);
    let (r, site) = (Refrigerant::named("R-454B").unwrap(), Site::at_elevation(feet(5200.0)).unwrap());
    let mut lines = table.lines();
    assert_eq!(lines.next(), Some("temperature_f,bubble_psig,dew_psig"));
    let mut count = 0;
    for line in lines {
        let numbers: Vec<f64> = line.split(',').map(|text| text.parse().unwrap()).collect();
        let t = fahrenheit(numbers[0]);
        let psig = |p: Pressure| site.gauge(p).unwrap().psig();
        assert!((psig(r.bubble_pressure(t).unwrap()) - numbers[1]).abs() < 6e-4, "{line}");
        assert!((psig(r.dew_pressure(t).unwrap()) - numbers[2]).abs() < 6e-4, "{line}");
        count += 1;
    }
    assert_eq!(count, 39);
}

#[test]
fn a_gauge_reads_more_where_the_air_is_thinner() {
    let at = |elevation| {
        said(&[
            "R-32",
            "--form",
            "csv",
            "--units",
            "si",
            "--from",
            "20",
            "--to",
            "20",
            "--elevation",
            elevation,
        ])
    };
    let pressure =
        |table: String| table.lines().nth(1).unwrap().split(',').nth(1).unwrap().parse::<f64>().unwrap();
    let difference = pressure(at("1600 m")) - pressure(at("0 m"));
    assert!((difference - 17.8).abs() < 0.1, "{difference}"); // kPa; U.S. Standard Atmosphere, 1976
}

#[test]
fn text_has_one_column_for_a_pure_refrigerant_and_two_for_a_blend() {
    let pure = said(&["propane"]);
    assert!(pure.starts_with("R-290 saturation, gauge at 0 ft (14.70 psia)\n"), "{pure}");
    assert!(!pure.contains("bubble") && pure.contains("psig"));
    let blend = said(&["407c", "--units", "si", "--step", "10"]);
    assert!(blend.contains("bubble") && blend.contains("dew") && blend.contains("kPa gauge"));
    assert!(blend.lines().all(|line| line.chars().count() <= 100));
}

#[test]
fn a_drawing_is_written_to_a_file() {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("pressure_temperature.svg");
    let _ = std::fs::remove_file(&file);
    said(&["R-410A", "--form", "svg", "--output", file.to_str().unwrap()]);
    let svg = std::fs::read_to_string(&file).unwrap();
    assert!(svg.starts_with("<svg") && svg.trim_end().ends_with("</svg>"));
    assert_eq!(svg.matches("<polyline").count(), 2);
    assert_eq!(said(&["R-22", "--form", "svg"]).matches("<polyline").count(), 1);
}

#[test]
fn every_refrigerant_has_a_chart() {
    for name in designations() {
        let table = said(&[name, "--form", "csv", "--from", "-300", "--step", "25"]);
        assert!(table.lines().count() > 1, "{name}");
    }
}

#[test]
fn what_cannot_be_is_refused_with_a_reason() {
    for (arguments, code, reason) in [
        (&["R-454D"][..], 1, "did you mean R-454A, R-454B or R-454C?"),
        (&["R-32", "--elevation", "40000 ft"], 1, "elevation"),
        (&["R-32", "--from", "200", "--to", "300"], 1, "R-32"),
        (&["R-32", "--output", "/no/such/folder/chart.txt"], 1, "/no/such/folder"),
        (&[], 2, "a refrigerant is wanted"),
        (&["R-32", "R-22"], 2, "one refrigerant"),
        (&["R-32", "--elevation", "5200"], 2, "--elevation"),
        (&["R-32", "--elevation"], 2, "needs a value"),
        (&["R-32", "--units", "metric"], 2, "none of us, si"),
        (&["R-32", "--form", "pdf"], 2, "none of text, csv, svg"),
        (&["R-32", "--step", "0"], 2, "steps of 0"),
        (&["R-32", "--step", "nan"], 2, "is no number"),
        (&["R-32", "--step", "1e-9"], 2, "rows"),
        (&["R-32", "--from", "100", "--to", "0"], 2, "no chart"),
        (&["R-32", "--colour", "rose"], 2, "is no option"),
    ] {
        let output = run(arguments);
        let why = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(code), "{arguments:?}: {why}");
        assert!(why.contains(reason), "{arguments:?}: {why}");
        assert!(output.stdout.is_empty());
    }
    assert!(said(&["--help"]).contains("usage: pressure_temperature REFRIGERANT"));
}
