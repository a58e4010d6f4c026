//! The demo as a process: what it writes, and that it writes nothing when it fails.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    Command::new(env!("CARGO_BIN_EXE_no_cool_call")).args(arguments).current_dir(root).output().unwrap()
}

fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

#[test]
fn every_visit_is_written_by_changing_the_argument_only() {
    for visit in ["no_cool_r454b", "low_cooling_r410a", "charged_by_steps_r454b"] {
        let out = folder(visit);
        let output = run(&[&format!("examples/data/{visit}.json"), out.to_str().unwrap()]);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        let read = |name: &str| std::fs::read_to_string(out.join(name)).unwrap();
        assert!(String::from_utf8(output.stdout).unwrap().contains(&read("report.txt")));
        assert!(read("report.txt").lines().all(|line| line.chars().count() <= 78));
        assert!(read("options.html").contains("</html>"));
        let record = kingvalve::visit::Visit::from_json(&read("record.json")).unwrap();
        assert!(record.record().results.is_some());
        assert!(record.record().note.as_ref().unwrap().contains("invented"));
        for page in ["options.html", "options.es.html", "work.html", "work.es.html"] {
            assert!(read(page).ends_with("</html>\n") || read(page).ends_with("</html>"), "{page}");
        }
        assert_eq!(out.join("invoice.html").exists(), visit != "low_cooling_r410a");
        assert!(read("options.md").starts_with("# "));
    }
}

#[test]
fn bad_input_exits_with_an_error_and_writes_nothing() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
    let good = std::fs::read_to_string(root.join("no_cool_r454b.json")).unwrap();
    let changes = [
        ("\"R-454B\",\n    \"charge\"", "\"R-454\",\n    \"charge\"", "did you mean R-454A"),
        ("62.0 psig", "-62.0 psig", "vacuum"),
        ("62.0 psig", "62.0 lb", "standing.pressure.value"),
        ("\"standing\"", "\"standings\"", "did you mean standing"),
        ("30.40 lb", "40.30 lb", "rises"),
        ("370.4 V", "0 V", "capacitors[1]"),
    ];
    for (index, (from, to, wanted)) in changes.into_iter().enumerate() {
        assert!(good.contains(from), "{from}");
        let out = folder(&format!("bad-{index}"));
        let bad = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("bad-{index}.json"));
        std::fs::write(&bad, good.replacen(from, to, 1)).unwrap();
        let output = run(&[bad.to_str().unwrap(), out.to_str().unwrap()]);
        assert_eq!(output.status.code(), Some(1));
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(said.contains(wanted), "{said}");
        assert!(!out.exists());
    }
}

#[test]
fn help_is_help_and_too_much_is_refused() {
    let help = run(&["--help"]);
    assert!(help.status.success());
    assert!(String::from_utf8(help.stdout).unwrap().contains("usage: no_cool_call VISIT.json [FOLDER]"));
    assert_eq!(run(&[]).status.code(), Some(2));
    assert_eq!(run(&["a", "b", "c"]).status.code(), Some(2));
    assert_eq!(run(&["no-such-file.json"]).status.code(), Some(1));
}
