//! The atmosphere of a site against the published standard atmosphere.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::quantity::*;
use kingvalve_tests::{Answer, Table};

#[test]
fn the_atmosphere_is_the_standard_one() {
    Table::open("standard_atmosphere").check(|row| {
        if row.get("exp_temperature_degC").is_some() {
            return Answer::LeftOut(
                "a site has the pressure of its elevation; its temperature is read, not assumed",
            );
        }
        let elevation = match row.maybe_number("in_altitude_m") {
            Some(height) => meters(height),
            None => feet(row.number("in_altitude_ft")),
        };
        let air = Site::at_elevation(elevation).unwrap().atmosphere();
        if row.get("exp_pressure_Pa").is_some() { air.pascals().into() } else { air.psia().into() }
    });
}
