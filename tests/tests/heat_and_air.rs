//! The trade's constants of standard air and the limits of airflow and split, against where they come from.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::air::*;
use kingvalve::quantity::*;
use kingvalve_tests::{Row, Table};

/// Standard air of the row's density and heat capacity, the usual ones where it gives none.
fn standard(row: &Row) -> StandardAir {
    let usual = StandardAir::default();
    let density = row.maybe_number("in_density_lb_per_ft3").map_or(usual.density(), pounds_per_cubic_foot);
    let heat = row.maybe_number("in_cp_Btu_per_lb_F");
    StandardAir::of(
        density,
        heat.map_or(usual.heat_capacity(), btu_per_pound_fahrenheit),
        usual.latent_heat(),
    )
}

#[test]
fn constants_and_limits_are_the_published_ones() {
    Table::open("heat_and_air").check(|row| {
        let air = standard(row);
        let flow = cfm(row.maybe_number("in_airflow_cfm").unwrap_or(1.0));
        let number = |column: &str| row.maybe_number(column);
        let upper = |limits: kingvalve::measure::Limits<TemperatureDifference>| {
            assert_eq!(limits.lower(), limits.upper().map(|upper| -upper));
            limits.upper().unwrap().delta_fahrenheit()
        };
        let case = row.text("case");
        match case {
            "ra3_split_installer" => upper(installer_split_limits()),
            "ra3_split_rater" => upper(rater_split_limits()),
            "ra3_min_airflow" => california_airflow_per_ton().unwrap().lower().unwrap().cfm(),
            _ => {
                let (expected, _) = row.filled("exp_").next().unwrap();
                match expected {
                    "exp_factor_Btu_per_h_cfm_F" => air.sensible(flow, delta_fahrenheit(1.0)).btu_per_hour(),
                    "exp_factor_lb_min_per_h_ft3" => air.total(flow, btu_per_pound(1.0)).btu_per_hour(),
                    "exp_factor_Btu_per_h_cfm_gr" => air.latent(flow, grains_per_pound(1.0)).btu_per_hour(),
                    "exp_factor_Btu_per_h_cfm_lb" => air.latent(flow, pounds_per_pound(1.0)).btu_per_hour(),
                    "exp_sensible_Btu_per_h" => {
                        air.sensible(flow, delta_fahrenheit(number("in_dT_F").unwrap())).btu_per_hour()
                    }
                    "exp_total_Btu_per_h" => {
                        air.total(flow, btu_per_pound(number("in_dh_Btu_per_lb").unwrap())).btu_per_hour()
                    }
                    "exp_density_factor" => {
                        let site = Site::at_elevation(feet(number("in_altitude_ft").unwrap())).unwrap();
                        StandardAir::at(&site).density() / StandardAir::default().density()
                    }
                    other => panic!("{case}: nothing computes {other}"),
                }
            }
        }
        .into()
    });
}
