//! What charge and airflow faults take, against published coefficients and their evaluation.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::fault::{Mode, Side, airflow_penalty, charge_coefficients, charge_penalty};
use kingvalve::quantity::*;
use kingvalve_tests::{Answer, Row, Table};

fn mode(row: &Row) -> Mode {
    let words = row.get("in_mode").unwrap_or_else(|| row.text("in_quantity"));
    if words.starts_with("heating") { Mode::Heating } else { Mode::Cooling }
}

/// A coefficient of the charge regressions as it is coded.
fn coefficient(row: &Row) -> f64 {
    let side = if row.text("in_side") == "undercharge" { Side::Under } else { Side::Over };
    let [capacity, power] = charge_coefficients(mode(row), side);
    let of = if row.text("in_quantity") == "gross_capacity" { capacity } else { power };
    *of.get(row.number("in_index") as usize - 1).unwrap()
}

/// A coefficient of an airflow curve, from its values at three airflows: a parabola has no other.
fn airflow_coefficient(row: &Row) -> f64 {
    let y = |x: f64| airflow(row, x);
    // Divided differences at 0.5, 0.75 and 1.
    let (first, second) = ((y(0.75) - y(0.5)) / 0.25, (y(1.0) - y(0.75)) / 0.25);
    let third = (second - first) / 0.5;
    match row.number("in_index") as u32 {
        1 => y(0.5) - 0.5 * first + 0.5 * 0.75 * third,
        2 => first - (0.5 + 0.75) * third,
        3 => third,
        other => panic!("coefficient {other}"),
    }
}

fn airflow(row: &Row, share: f64) -> f64 {
    let penalty = airflow_penalty(mode(row), fraction(share)).unwrap();
    let ratio = if row.text("in_quantity").ends_with("eir") { penalty.input_ratio } else { penalty.capacity };
    ratio.fraction()
}

#[test]
fn penalties_are_those_published() {
    Table::open("faults").check(|row| {
        let case = row.text("case");
        let expected = row.filled("exp_").next().unwrap().0;
        if case.starts_with("coef_airflow_") {
            return airflow_coefficient(row).into();
        }
        if case.starts_with("coef_") {
            return coefficient(row).into();
        }
        if case.starts_with("airflow_") {
            return airflow(row, row.number("in_airflow_fraction")).into();
        }
        if case.starts_with("vrc_") {
            return Answer::LeftOut("the virtual charge relation belongs to the inventory of charge");
        }
        match case {
            "tn1848_cooling_uc30" | "tn1848_heating_uc30" => {
                return Answer::LeftOut("an annual figure: it takes a year of weather and load");
            }
            "tn1848_combined" | "winkler_national" => {
                return Answer::LeftOut("a figure for a stock of houses, no formula");
            }
            _ => {}
        }
        let (indoor, outdoor) =
            (celsius(row.number("in_t_indoor_degC")), celsius(row.number("in_t_outdoor_degC")));
        let penalty =
            charge_penalty(mode(row), fraction(row.number("in_F_charge")), indoor, outdoor).unwrap();
        match expected {
            "exp_capacity_ratio" => penalty.capacity.fraction(),
            "exp_power_ratio" => penalty.power.fraction(),
            "exp_cop_ratio" => penalty.cop.fraction(),
            other => panic!("{case}: nothing computes {other}"),
        }
        .into()
    });
}
