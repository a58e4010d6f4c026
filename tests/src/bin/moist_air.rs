//! Properties of moist air for a peer to compare: a line of dry bulb in °C, humidity ratio and pressure in Pa in, a line
//! of wet bulb and dew point in °C, relative humidity, enthalpy in J/kg, volume in m³/kg and density in kg/m³ out.
#![allow(clippy::print_stdout, reason = "what it is for")]

use std::error::Error;
use std::io::stdin;

use kingvalve::air::MoistAir;
use kingvalve::quantity::*;

fn main() -> Result<(), Box<dyn Error>> {
    for line in stdin().lines() {
        let line = line?;
        let numbers = line.split_whitespace().map(str::parse).collect::<Result<Vec<f64>, _>>()?;
        let [t, w, p] = numbers[..] else { return Err(format!("three numbers a line, not {line:?}").into()) };
        let site = Site::with_barometer(pascals(p))?;
        let air = MoistAir::from_humidity_ratio(celsius(t), kilograms_per_kilogram(w), &site)?;
        println!(
            "{} {} {} {} {} {}",
            air.wet_bulb()?.celsius(),
            air.dew_point()?.celsius(),
            air.relative_humidity().fraction(),
            air.enthalpy().joules_per_kilogram(),
            air.specific_volume().cubic_meters_per_kilogram(),
            air.density().kilograms_per_cubic_meter()
        );
    }
    Ok(())
}
