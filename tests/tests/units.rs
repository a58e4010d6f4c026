//! Conversion factors against NIST SP 811 and pint, and the gauge corrections of the same table.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::quantity::*;
use kingvalve_tests::{Answer, Row, Table};

#[test]
fn factors_and_conversions_are_those_of_nist_sp_811() {
    Table::open("units").check(|row| {
        let value = row.number("in_value");
        match row.text("case") {
            "psi" | "psi_exact" => psi(value).delta_pascals().into(),
            "inHg_32F" | "inHg_conventional" => inches_of_mercury(value).pascals().into(),
            "torr" => torr(value).pascals().into(),
            "mmHg_conventional" => millimeters_of_mercury(value).pascals().into(),
            "inH2O_conventional" => inches_of_water(value).delta_pascals().into(),
            "atm" => atmospheres(value).pascals().into(),
            "micron_Hg" => microns(value).pascals().into(),
            "micron_Hg_500" => microns(500.0 * value).pascals().into(),
            "ton_refrigeration" | "ton_exact" => tons_of_refrigeration(value).watts().into(),
            "Btu_IT" | "BtuIT_exact" => btu(value).joules().into(),
            "BtuIT_per_h" => btu_per_hour(value).watts().into(),
            "Btu_per_lb" => btu_per_pound(value).joules_per_kilogram().into(),
            "horsepower" => horsepower(value).watts().into(),
            "kWh" => kilowatt_hours(value).joules().into(),
            "cfm" | "cfm_exact" => cfm(value).cubic_meters_per_second().into(),
            "cfm_Lps" => cfm(value).liters_per_second().into(),
            "ft3" => cubic_feet(value).cubic_meters().into(),
            "gal_US" | "gal_exact" => gallons(value).cubic_meters().into(),
            "gpm" => gallons_per_minute(value).cubic_meters_per_second().into(),
            "lb" | "lb_exact" => pounds(value).kilograms().into(),
            "oz" | "oz_exact" => ounces(value).kilograms().into(),
            "grain" => grains(value).kilograms().into(),
            "gr_per_lb" => pounds(value).grains().into(),
            "inch" => inches(value).meters().into(),
            "foot" => feet(value).meters().into(),
            "fpm" => feet_per_minute(value).meters_per_second().into(),
            "inHg_60F" | "inH2O_39F" | "inH2O_60F" => {
                Answer::LeftOut("only the conventional column is a unit")
            }
            "Btu_th" => Answer::LeftOut("the Btu of the library is the International Table one"),
            case if case.starts_with("degF_") => fahrenheit(value).celsius().into(),
            "dT_18F" => delta_fahrenheit(value).delta_kelvins().into(),
            case if case.ends_with("_vac") => {
                let air = kilopascals(row.number("in_atmosphere_kPa"));
                absolute(inches_of_mercury_vacuum(value), air).kilopascals().into()
            }
            "psig_to_psia_sea" => absolute(psig(value), psia(row.number("in_atmosphere_psi"))).psia().into(),
            other => panic!("{other} is not answered"),
        }
    });
}

fn absolute(gauge: GaugePressure, air: Pressure) -> Pressure {
    Site::with_barometer(air).unwrap().absolute(gauge).unwrap()
}

#[test]
fn factors_are_those_of_pint() {
    Table::open("units_pint").check(|row| {
        let units = match row.text("in_quantity") {
            Pressure::NAME => Pressure::units(),
            GaugePressure::NAME => GaugePressure::units(),
            PressureDifference::NAME => PressureDifference::units(),
            TemperatureDifference::NAME => TemperatureDifference::units(),
            Mass::NAME => Mass::units(),
            Length::NAME => Length::units(),
            Area::NAME => Area::units(),
            Volume::NAME => Volume::units(),
            Density::NAME => Density::units(),
            Time::NAME => Time::units(),
            VolumeFlow::NAME => VolumeFlow::units(),
            MassFlow::NAME => MassFlow::units(),
            Velocity::NAME => Velocity::units(),
            Energy::NAME => Energy::units(),
            Power::NAME => Power::units(),
            ElectricPotential::NAME => ElectricPotential::units(),
            Resistance::NAME => Resistance::units(),
            Capacitance::NAME => Capacitance::units(),
            Frequency::NAME => Frequency::units(),
            Ratio::NAME => Ratio::units(),
            other => panic!("{other} is not answered"),
        };
        named(units, row).factor.into()
    });
}

fn named(units: &'static [Unit], row: &Row) -> &'static Unit {
    let symbol = row.text("in_unit");
    units.iter().find(|unit| unit.symbol == symbol).unwrap_or_else(|| panic!("{}: no {symbol}", row.place()))
}
