//! The calibration of verdicts, on fewer parts than `make calibration`.
#![allow(clippy::unwrap_used, reason = "how a test fails")]

use kingvalve_tests::calibration::{charge::Population, coverage::Coverage, run};

#[test]
fn verdicts_and_intervals_keep_what_they_claim() {
    let calibration = run(8_000, 20, 2).unwrap();
    let report = calibration.report();
    assert!(calibration.holds(), "{report}");
    let total = calibration.total();
    assert!(
        total.plain.within > 500 && total.plain.outside > 300,
        "too few firm verdicts to tell:\n{report}"
    );
    // 90 % within what 2,000 intervals scatter, and no wider than bounded errors make it.
    assert!(
        calibration.coverage.iter().map(Coverage::share).all(|share| (0.88..0.97).contains(&share)),
        "{report}"
    );
    // A few systems of each class: together within what they scatter.
    for population in [Population::Prior, Population::Independent] {
        let (held, all) = calibration
            .charges
            .of(population)
            .fold((0, 0), |(held, all), (_, score)| (held + score.held, all + score.answered));
        let share = held as f64 / all as f64;
        assert!(all >= 110 && (0.84..=0.98).contains(&share), "{held} of {all}\n{report}");
    }
    let narrowed = calibration.charges.narrowed(Population::Prior);
    assert!(narrowed > 1.5, "a weighed step narrows by {narrowed}\n{report}");
    let last = report.lines().last().unwrap();
    assert!(
        last.starts_with("worst coverage of a claimed 90 % interval: ") && last.ends_with(" %"),
        "{last}"
    );
}

#[test]
fn the_same_seed_gives_the_same_report() {
    assert_eq!(run(400, 2, 3).unwrap().report(), run(400, 2, 3).unwrap().report());
}
