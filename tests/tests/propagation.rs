//! Linear propagation against the Python package uncertainties.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::measure::Measured;
use kingvalve::quantity::*;
use kingvalve_tests::{Row, Table};

#[test]
fn values_and_doubts_are_those_of_uncertainties() {
    Table::open("propagation").check(|row| {
        let [x, y, z] = [("in_x", "in_ux"), ("in_y", "in_uy"), ("in_z", "in_uz")];
        match row.text("in_formula") {
            "x-y" => answer(row, read(row, x, volts) - read(row, y, volts), ElectricPotential::volts),
            "x*y" => answer(row, read(row, x, volts) * read(row, y, amperes), Power::watts),
            "x/y" => answer(row, read(row, x, volts) / read(row, y, amperes), Resistance::ohms),
            "x*y/z" => {
                let power = read(row, x, volts) * read(row, y, amperes);
                answer(row, power / read(row, z, volts), Current::amperes)
            }
            "x/(y*z)" => {
                let power = read(row, y, volts) * read(row, z, amperes);
                answer(row, read(row, x, watts).share_of(power), Ratio::fraction)
            }
            "x-x*y/y" => {
                let (x, y) = (read(row, x, volts), read(row, y, amperes));
                answer(row, x.clone() - x * y.clone() / y, ElectricPotential::volts)
            }
            "(x-y)*z" => {
                let difference = read(row, x, volts) - read(row, y, volts);
                answer(row, difference * read(row, z, amperes), Power::watts)
            }
            "x*x/y" => {
                let x = read(row, x, meters);
                answer(row, x.clone() * x / read(row, y, meters), Length::meters)
            }
            other => panic!("{other} is not answered"),
        }
        .into()
    });
}

fn read<Q>(row: &Row, (value, standard): (&str, &str), unit: fn(f64) -> Q) -> Measured<Q>
where
    Q: Quantity<Difference = Q>,
{
    Measured::from_standard(unit(row.number(value)), unit(row.number(standard)), value.to_owned()).unwrap()
}

fn answer<Q: Quantity<Difference = Q>>(row: &Row, result: Measured<Q>, unit: fn(Q) -> f64) -> f64 {
    if row.get("exp_value").is_some() { unit(result.value()) } else { unit(result.standard_uncertainty()) }
}
