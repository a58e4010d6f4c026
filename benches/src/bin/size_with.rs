//! A program that uses one refrigerant: pressure in psig at a temperature in °F; see `make size`.
#![allow(clippy::print_stdout, reason = "a program speaks on standard output")]

use kingvalve::quantity::{Site, fahrenheit};
use kingvalve::refrigerant::Refrigerant;

fn main() -> Result<(), kingvalve::Error> {
    if let Some(Ok(t)) = std::env::args().nth(1).map(|text| text.parse::<f64>()) {
        let p = Refrigerant::named("R-454B")?.bubble_pressure(fahrenheit(t))?;
        println!("{}", Site::sea_level().gauge(p)?);
    }
    Ok(())
}
