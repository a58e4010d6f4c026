//! Limits of the charge test and the target superheat, against where they come from.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::cycle::target::*;
use kingvalve::measure::Limits;
use kingvalve::quantity::*;
use kingvalve_tests::Table;

/// Temperatures are kept in kelvins, so a whole °F comes back with the rounding of that.
fn whole(t: Temperature) -> f64 {
    (t.fahrenheit() * 1e9).round() / 1e9
}

#[test]
fn limits_and_formula_are_the_published_ones() {
    let (installer, rater) = (ChargeTolerance::california_installer(), ChargeTolerance::california_rater());
    let upper = |limits: &Limits<TemperatureDifference>| {
        assert_eq!(limits.lower(), limits.upper().map(|upper| -upper));
        limits.upper().unwrap().delta_fahrenheit()
    };
    let end = |limit: Option<TemperatureDifference>| limit.unwrap().delta_fahrenheit();
    Table::open("charge_targets").check(|row| {
        match row.text("case") {
            "ra3_sh_installer" => upper(&installer.superheat),
            "ra3_sh_rater" => upper(&rater.superheat),
            "ra3_sh_floor" => installer.lowest_target.delta_fahrenheit(),
            "ra3_sc_installer" => upper(&installer.subcooling),
            "ra3_sc_rater" => upper(&rater.subcooling),
            "ra3_txv_sh_low" => end(installer.valve_superheat.lower()),
            "ra3_txv_sh_high" => end(installer.valve_superheat.upper()),
            "ra3_txv_sh_low_rater" => end(rater.valve_superheat.lower()),
            "ra3_txv_sh_high_rater" => end(rater.valve_superheat.upper()),
            "ra3_outdoor_min" => whole(Requirements::usual().outdoor.lower().unwrap()),
            case => {
                let air = |column: &str| fahrenheit(row.number(column));
                let target = orifice_superheat(air("in_return_wb_F"), air("in_condenser_air_db_F"));
                target.unwrap_or_else(|error| panic!("{case}: {error}")).delta_fahrenheit()
            }
        }
        .into()
    });
}
