//! Leaks converted between gases, and nitrogen in a closed volume, against published and reference values.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::measure::Measured;
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use kingvalve::tightness::{Flow, GasState, Leak, LeakGas, PressureTest};
use kingvalve_tests::{Row, Table};

#[test]
fn leaks_and_nitrogen_are_those_of_the_table() {
    Table::open("leak_conversion").check(|row| {
        if row.get("exp_factor_of_helium").is_some() {
            let size =
                helium(row, 10.0, 1e-7).of_gas(&gas(row), atmospheres(10.0), atmospheres(1.0), flow(row));
            (size.unwrap().throughput().value().pascal_cubic_meters_per_second() / 1e-7).into()
        } else if row.get("in_inside_atm").is_some() {
            let found = helium(
                row,
                10.0,
                atmosphere_cubic_centimeters_per_second(0.001).pascal_cubic_meters_per_second(),
            );
            let inside = atmospheres(row.number("in_inside_atm"));
            let size = found.of_gas(&gas(row), inside, atmospheres(1.0), flow(row)).unwrap();
            size.throughput().value().atmosphere_cubic_centimeters_per_second().into()
        } else if row.get("exp_leak_atm_cc_per_s").is_some() {
            let one = Leak::new(
                Measured::exact(atmosphere_cubic_centimeters_per_second(1.0)),
                gas(row),
                atmospheres(2.0),
                atmospheres(1.0),
                celsius(row.number("in_temperature_C")),
            );
            let size =
                one.unwrap().of_gas(&gas(row), atmospheres(2.0), atmospheres(1.0), Flow::Viscous).unwrap();
            (row.number("in_mass_flow_oz_per_yr") / size.mass_flow().value().ounces_per_year()).into()
        } else if row.get("exp_viscosity_uPa_s").is_some() {
            gas(row).viscosity(celsius(row.number("in_temperature_C"))).unwrap().micropascal_seconds().into()
        } else if row.get("exp_pressure_MPa").is_some() {
            let state = |t: &str| GasState {
                pressure: Measured::exact(megapascals(row.number("in_start_pressure_MPa"))),
                temperature: Measured::exact(kelvins(row.number(t))),
            };
            let test = PressureTest::new(state("in_start_temperature_K"), state("in_end_temperature_K"));
            test.check().unwrap().expected().value().megapascals().into()
        } else {
            panic!("{} is not answered", row.text("case"))
        }
    });
}

fn helium(row: &Row, inside: f64, q: f64) -> Leak {
    let q = Measured::exact(pascal_cubic_meters_per_second(q));
    let t = celsius(row.number("in_temperature_C"));
    Leak::new(q, LeakGas::helium(), atmospheres(inside), atmospheres(1.0), t).unwrap()
}

fn flow(row: &Row) -> Flow {
    match row.text("in_flow") {
        "viscous" => Flow::Viscous,
        "molecular" => Flow::Molecular,
        other => panic!("{other}"),
    }
}

fn gas(row: &Row) -> LeakGas {
    match row.text("in_gas") {
        "hydrogen" => LeakGas::hydrogen(),
        "helium" => LeakGas::helium(),
        "nitrogen" => LeakGas::nitrogen(),
        "air" => LeakGas::air(),
        name => LeakGas::of(&Refrigerant::named(name).unwrap()),
    }
}
