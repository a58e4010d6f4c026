//! Saturation at states where another library's flash fails: solved, and looked up, as teqp has it.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::quantity::kelvins;
use kingvalve::refrigerant::Refrigerant;
use kingvalve_fluid::Line;
use kingvalve_tests::{Answer, Table, close};

#[test]
fn states_at_which_another_flash_fails_are_solved() {
    Table::open("flash_failures").check(|row| {
        assert_eq!(row.text("in_line"), "bubble");
        let r = Refrigerant::named(row.text("in_refrigerant")).unwrap();
        let t = row.number("in_temperature_k");
        let solved = r.fluid().bubble_at_temperature(t).unwrap();
        let looked_up = r.bubble_pressure(kelvins(t)).unwrap().pascals();
        close(row.text("case"), looked_up, solved.pressure, 2e-5).unwrap();
        assert!(solved.liquid.density > r.fluid().curve(Line::Dew).unwrap().density(t).unwrap());
        Answer::Number(solved.pressure)
    });
}
