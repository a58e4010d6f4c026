//! Leak rates and thresholds of the rules, and what a cylinder may hold, against where they come from.
//!
//! Evacuation levels and the charge limits of flammable refrigerants are other topics: their rows are not in the table.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::charge::forecast::*;
use kingvalve::cylinder::*;
use kingvalve::quantity::*;
use kingvalve_tests::{Row, Table};

fn threshold(row: &Row) -> LeakThreshold {
    let rule = if row.text("case").contains("_84") { LeakRule::Part84 } else { LeakRule::Part82 };
    let appliance = match row.get("in_category") {
        Some("commercial_refrigeration") => Appliance::CommercialRefrigeration,
        Some("industrial_process") => Appliance::IndustrialProcess,
        _ => Appliance::ComfortCooling,
    };
    leak_threshold(rule, appliance)
}

fn rolling(row: &Row) -> f64 {
    let first: Day = "2026-01-01".parse().unwrap();
    let masses = row.text("in_added_list_lb").split(';').map(|mass| pounds(mass.parse().unwrap()));
    let added: Vec<_> = masses.zip(0..).map(|(mass, at)| (first.after(30 * at).unwrap(), mass)).collect();
    let full = pounds(row.number("in_full_charge_lb"));
    rolling_leak_rate(&added, first.after(200).unwrap(), None, full).unwrap().percent()
}

/// Temperatures are kept in kelvins, so a whole °F comes back with the rounding of that.
fn whole(t: Temperature) -> f64 {
    (t.fahrenheit() * 1e9).round() / 1e9
}

#[test]
fn rules_and_filling_are_the_published_ones() {
    Table::open("leak_and_filling").check(|row| {
        let number = |column: &str| row.number(column);
        match row.text("case") {
            case if case.starts_with("annualizing") => {
                let since = days(number("in_days_since_last_addition"));
                let (added, full) = (pounds(number("in_added_lb")), pounds(number("in_full_charge_lb")));
                annualized_leak_rate(added, full, since).unwrap().percent()
            }
            case if case.starts_with("rolling") => rolling(row),
            case if case.starts_with("threshold") => threshold(row).rate.percent(),
            case if case.starts_with("full_charge") => threshold(row).full_charge.pounds(),
            "gwp_84" => threshold(row).gwp_above.unwrap(),
            "chronic" => CHRONIC_LEAK.percent(),
            "repair_days" => REPAIR_TIME.days(),
            "fill_definition" => (pounds(number("in_water_capacity_lb"))
                * percent(number("in_filling_density_percent")))
            .pounds(),
            "liquid_full_temperature" => whole(HOTTEST_BY_RULE),
            "fill_80_rule" | "fill_80_gross" => {
                let water = pounds(number("in_water_capacity_lb"));
                let share = fraction(number("in_fill_fraction"));
                let net = usual_fill(water, number("in_specific_gravity"), share);
                (net + row.maybe_number("in_tare_lb").map_or(Mass::ZERO, pounds)).pounds()
            }
            case if case.starts_with("fill_") => {
                let density = filling_density(row.text("in_refrigerant")).unwrap();
                let pressure = row.maybe_number("in_service_pressure_psi");
                assert_eq!(density.service_pressure.map(|p| p.psi().round()), pressure, "{case}");
                density.share.percent()
            }
            case => panic!("{case}: nothing computes it"),
        }
        .into()
    });
}
