//! The invented shop as a process: sixty visits, a ledger that adds up, the sheets; the same bytes each time.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::{Path, PathBuf};
use std::process::Command;

use kingvalve::visit::visits;

fn run(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    let output = Command::new(env!("CARGO_BIN_EXE_shop")).arg(&folder).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    folder
}

#[test]
fn sixty_visits_are_evaluated_and_written_alike_each_time() {
    let (once, again) = (run("shop-once"), run("shop-again"));
    let read = |folder: &Path, name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    for name in [
        "visits.jsonl",
        "evaluated.jsonl",
        "ledger.txt",
        "outlook.txt",
        "outlook.html",
        "outlook.es.html",
        "options.html",
        "options.es.html",
        "work.html",
        "invoice.html",
    ] {
        assert_eq!(read(&once, name), read(&again, name), "{name}");
    }
    let evaluated = read(&once, "evaluated.jsonl");
    let records: Vec<_> = visits(evaluated.as_bytes()).map(Result::unwrap).collect();
    assert_eq!(records.len(), 60);
    assert!(records.iter().all(|visit| visit.record().results.is_some()));
    assert!(records.iter().all(|visit| visit.record().note.as_deref().unwrap().contains("invented")));
    let ledger = read(&once, "ledger.txt");
    assert!(ledger.contains("60 invented visits") && ledger.contains("40 CFR 84.102"), "{ledger}");
    assert!(ledger.lines().all(|line| line.chars().count() <= 78), "{ledger}");
    // What the visits put in, added up apart from the ledger.
    let put_in: f64 = records
        .iter()
        .filter(|visit| visit.record().equipment.refrigerant == "R-454B")
        .flat_map(|visit| &visit.record().cylinders)
        .map(|cylinder| (cylinder.weights[0].value - cylinder.weights[1].value).pounds())
        .sum();
    let line = ledger.lines().find(|line| line.starts_with("R-454B")).unwrap();
    assert!(line.contains(&format!("{put_in:.2} lb")), "{line}: {put_in}");
}

/// The outlook shows how many records taught each chance: as many as the visits say, counted apart from the program.
#[test]
fn the_outlook_is_by_the_chances_the_visits_taught() {
    let folder = run("shop-outlook");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    let visits: Vec<_> = visits(read("visits.jsonl").as_bytes()).map(Result::unwrap).collect();
    let told = || visits.iter().filter_map(|visit| visit.record().outcome);
    let sealants = told().filter(|outcome| outcome.sealant_held.is_some()).count();
    let held = told().filter(|outcome| outcome.sealant_held == Some(true)).count();
    let hours: u32 = told().filter_map(|outcome| outcome.hours_searched).sum();
    let outlook = read("outlook.txt");
    let unbroken = outlook.split_whitespace().collect::<Vec<_>>().join(" ");
    // 40 % worth five cases, and the shop's own (Chances::default).
    let chance = 100.0 * (2.0 + held as f64) / (5.0 + sealants as f64);
    for line in [
        format!("a sealant holds: {chance:.0} % ({sealants} records)"),
        format!("({hours} records)"),
        "averages over what may happen, not prices".into(),
        "Common practice, no source:".into(),
    ] {
        assert!(unbroken.contains(&line), "{line}: {outlook}");
    }
    assert!(sealants > 5 && outlook.lines().all(|line| line.chars().count() <= 78), "{outlook}");
}

#[test]
fn too_many_arguments_are_refused() {
    let output = Command::new(env!("CARGO_BIN_EXE_shop")).args(["a", "b"]).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
}
