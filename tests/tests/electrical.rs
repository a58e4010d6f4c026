//! Run capacitors, supply and circuits against published and worked values.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::electrical::*;
use kingvalve::measure::Level;
use kingvalve::quantity::*;
use kingvalve_tests::{Answer, Row, Table};

type Answers = [(&'static str, fn(&Row) -> Answer); 16];

#[test]
fn every_row_is_answered() {
    Table::open("electrical").check(|row| {
        let answers: Answers = [
            ("exp_capacitance_uF", |row| {
                under_load(volts(row.number("in_voltage_V")), amperes(row.number("in_current_A")), row).into()
            }),
            ("exp_factor_uF_V_per_A", |row| under_load(volts(1.0), amperes(1.0), row).into()),
            ("exp_lower_bound_uF", |row| {
                let tolerance = Tolerance::percent(row.number("in_tolerance_percent"));
                let (lowest, _) = tolerance.bounds(microfarads(row.number("in_rated_uF"))).unwrap();
                lowest.microfarads().into()
            }),
            ("exp_life_h", |row| {
                row.text("in_class").parse::<OperatingClass>().unwrap().life().hours().into()
            }),
            ("exp_voltage_unbalance_percent", unbalance),
            ("exp_derating_factor", |row| {
                let unbalance = percent(row.number("in_unbalance_percent"));
                Unbalance::derating_at(unbalance).unwrap().fraction().into()
            }),
            ("exp_min_conductor_ampacity_A", |row| circuit(row).minimum_ampacity().amperes().into()),
            ("exp_mca_A", |row| circuit(row).minimum_ampacity().amperes().into()),
            ("exp_max_ocpd_calculated_A", |row| protection(row).calculated.amperes().into()),
            ("exp_max_ocpd_standard_A", |row| protection(row).standard.amperes().into()),
            ("exp_mocp_calculated_A", |row| protection(row).calculated.amperes().into()),
            ("exp_mocp_standard_A", |row| protection(row).standard.amperes().into()),
            ("exp_standard_ratings_A", |_| {
                let small = STANDARD_RATINGS.iter().filter(|rating| **rating <= amperes(100.0));
                let small: Vec<String> = small.map(|rating| format!("{}", rating.amperes())).collect();
                Answer::Text(small.join(";"))
            }),
            ("exp_resistance_ohm_per_kft", |row| {
                let wire = Conductor::copper(row.text("in_awg").parse().unwrap());
                let wire = if row.text("in_construction") == "solid" { wire.solid() } else { wire };
                wire.resistance(feet(1000.0)).unwrap().ohms().into()
            }),
            ("exp_area_circular_mil", |row| {
                f64::from(row.text("in_awg").parse::<WireSize>().unwrap().circular_mils()).into()
            }),
            ("exp_voltage_drop_V", drop),
        ];
        let answer = answers.into_iter().find(|(column, _)| row.get(column).is_some());
        answer.unwrap_or_else(|| panic!("{} is not answered", row.text("case"))).1(row)
    });
}

fn under_load(voltage: ElectricPotential, current: Current, row: &Row) -> f64 {
    let part = RunCapacitor::rated(microfarads(40.0), Tolerance::percent(6.0));
    let check = part.under_load(voltage, current, hertz(row.number("in_frequency_Hz"))).unwrap();
    check.capacitance().value().microfarads()
}

fn unbalance(row: &Row) -> Answer {
    if row.text("case") == "unbalance_stop" {
        return UNBALANCE_STOP.percent().into();
    }
    let [a, b, c] = ["in_v1_V", "in_v2_V", "in_v3_V"].map(|column| volts(row.number(column)));
    Unbalance::of(a, b, c, Level::default()).unwrap().unbalance().value().percent().into()
}

/// The first of several currents is the compressor's.
fn circuit(row: &Row) -> Circuit {
    let loads = match row.get("in_currents_A") {
        Some(list) => {
            let currents = list.split(';').map(|text| amperes(text.parse().unwrap()));
            let load = |(at, i)| if at == 0 { Load::compressor(i) } else { Load::Motor(i) };
            currents.enumerate().map(load).collect()
        }
        None => vec![Load::Compressor {
            rla: amperes(row.number("in_rla_A")),
            selection: row.maybe_number("in_branch_circuit_selection_current_A").map(amperes),
        }],
    };
    Circuit::of(loads).unwrap()
}

fn protection(row: &Row) -> Overcurrent {
    circuit(row).maximum_protection(fraction(row.number("in_factor"))).unwrap()
}

fn drop(row: &Row) -> Answer {
    let wanted = row.number("in_resistance_ohm_per_kft");
    let resistance = |wire: &Conductor| wire.resistance(feet(1000.0)).unwrap().ohms();
    let sizes = ["12", "10", "6"].map(|size| Conductor::copper(size.parse().unwrap()));
    let wire = sizes.iter().find(|wire| (resistance(wire) - wanted).abs() < 1e-9).unwrap();
    let phases = if row.number("in_phases") == 3.0 { Phases::Three } else { Phases::Single };
    let length = feet(row.number("in_one_way_length_ft"));
    let current = amperes(row.number("in_current_A"));
    let found =
        VoltageDrop::along(wire, length, phases, current, volts(240.0), CONDUCTOR_DROP, Level::default());
    found.unwrap().drop().value().volts().into()
}
