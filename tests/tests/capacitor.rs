//! Run capacitors against worked values.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::electrical::{CapacitorCheck, RunCapacitor, Tolerance};
use kingvalve::quantity::*;
use kingvalve_tests::{Answer, Table};

#[test]
fn capacitance_and_limits_are_those_worked_out() {
    Table::open("capacitor").check(|row| {
        let case = row.text("case");
        if row.get("exp_capacitance_uF").is_some() {
            let voltage = volts(row.number("in_voltage_V"));
            let current = amperes(row.number("in_current_A"));
            under_load(voltage, current, hertz(row.number("in_frequency_Hz"))).into()
        } else if row.get("exp_factor_uF_V_per_A").is_some() {
            under_load(volts(1.0), amperes(1.0), hertz(row.number("in_frequency_Hz"))).into()
        } else if row.get("exp_lower_bound_uF").is_some() {
            let tolerance = Tolerance::percent(row.number("in_tolerance_percent"));
            let (lowest, _) = tolerance.bounds(microfarads(row.number("in_rated_uF"))).unwrap();
            lowest.microfarads().into()
        } else if case.starts_with("cap_class_") {
            Answer::LeftOut("the check does not use the class of operation")
        } else {
            panic!("{case} is not answered")
        }
    });
}

fn under_load(voltage: ElectricPotential, current: Current, frequency: Frequency) -> f64 {
    let part = RunCapacitor::rated(microfarads(40.0), Tolerance::percent(6.0));
    let check: CapacitorCheck = part.under_load(voltage, current, frequency).unwrap();
    check.capacitance().value().microfarads()
}
