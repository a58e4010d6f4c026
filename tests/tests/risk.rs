//! Producer's and consumer's risk against JCGM 106 examples and scipy.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::measure::{Acceptance, Interval, Limits, Prior};
use kingvalve::quantity::*;
use kingvalve_tests::{Row, Table};

#[test]
fn risks_over_all_parts() {
    Table::open("risk").check(|row| {
        let prior = prior(row);
        let standard = volts(row.number("in_u_V"));
        let rule = Acceptance::simple(limits(row)).guarded(volts(row.number("in_guard_V"))).unwrap();
        let risks = rule.global_risks(&prior, standard).unwrap();
        match row.text("in_what") {
            "consumer" => risks.consumer.fraction(),
            "producer" => risks.producer.fraction(),
            "conforming" => risks.conforming.fraction(),
            "nonconforming" => 1.0 - risks.conforming.fraction(),
            "guard" => {
                let target = fraction(row.number("in_target"));
                rule.guarded_for(&prior, standard, target).unwrap().guard().volts()
            }
            other => panic!("{other} is not answered"),
        }
        .into()
    });
}

/// The spread of a rectangular prior is given by its half-width.
fn prior(row: &Row) -> Prior<ElectricPotential> {
    let (mean, spread) = (volts(row.number("in_mean_V")), volts(row.number("in_spread_V")));
    match row.text("in_prior") {
        "normal" => Prior::normal(mean, spread),
        "gamma" => Prior::gamma(mean, spread),
        "rectangular" => Prior::rectangular(Interval::new(mean - spread, mean + spread).unwrap()),
        other => panic!("{other} is not answered"),
    }
    .unwrap()
}

fn limits(row: &Row) -> Limits<ElectricPotential> {
    let limit = |column: &str| row.maybe_number(column).map(volts);
    match (limit("in_lower_V"), limit("in_upper_V")) {
        (Some(lower), Some(upper)) => Limits::between(lower, upper),
        (Some(lower), None) => Limits::at_least(lower),
        (None, Some(upper)) => Limits::at_most(upper),
        (None, None) => panic!("{}: no limit", row.place()),
    }
    .unwrap()
}
