//! Temperature, and the difference of two temperatures.

use super::Quantity;
use super::define::{additive, affine, quantity};
use super::factor::{CELSIUS_ZERO, DEGREE_FAHRENHEIT, FAHRENHEIT_ZERO};
use super::unit::Unit;

quantity! {
    /// A temperature: a place on the scale. Printed in °F.
    ///
    /// ```compile_fail,E0369
    /// let _ = kingvalve::quantity::fahrenheit(50.0) * 2.0; // not twice as warm
    /// ```
    Temperature, "temperature", uom ThermodynamicTemperature, difference TemperatureDifference, mistaken mistaken_for_temperature;
    fahrenheit, "°F", ["degF", "F", "deg F", "°f"], DEGREE_FAHRENHEIT, offset FAHRENHEIT_ZERO;
    celsius, "°C", ["degC", "C", "deg C"], 1.0, offset CELSIUS_ZERO;
    kelvins, "K", ["kelvin"], 1.0;
    rankine, "°R", ["degR", "R", "deg R"], DEGREE_FAHRENHEIT;
}

quantity! {
    /// The difference of two temperatures: a superheat, a subcooling, a glide. Printed in Δ°F.
    TemperatureDifference, "temperature difference", uom TemperatureInterval, difference TemperatureDifference, mistaken mistaken_for_difference;
    delta_fahrenheit, "Δ°F", ["delta_degF", "delta degF", "ΔF", "delta F"], DEGREE_FAHRENHEIT;
    delta_celsius, "Δ°C", ["delta_degC", "delta degC", "ΔC", "delta C"], 1.0;
    delta_kelvins, "ΔK", ["K", "delta_K", "delta K", "kelvins", "kelvin"], 1.0;
}

/// What a temperature can be raised by: a temperature difference.
#[diagnostic::on_unimplemented(
    message = "`{Self}` cannot be added to a temperature",
    label = "a temperature can be raised by a `TemperatureDifference` only, such as `delta_fahrenheit(10.0)`",
    note = "two temperatures have a difference (`a - b`) but no sum"
)]
pub trait TemperatureStep: Quantity<Difference = TemperatureDifference> {}
impl TemperatureStep for TemperatureDifference {}

additive!(TemperatureDifference);
affine!(Temperature, TemperatureDifference, TemperatureStep);

impl std::ops::Div for Temperature {
    type Output = f64;
    /// The ratio of two absolute temperatures.
    #[inline]
    fn div(self, other: Temperature) -> f64 {
        self.si() / other.si()
    }
}

fn mistaken_for_temperature(unit: &str) -> Option<String> {
    Unit::find(TemperatureDifference::units(), unit)
        .map(|unit| format!("{} is a difference of temperatures, not a temperature", unit.symbol))
}

fn mistaken_for_difference(unit: &str) -> Option<String> {
    Unit::find(Temperature::units(), unit).map(|unit| {
        format!("{} is a temperature; for a difference write Δ°F (delta_degF), Δ°C or ΔK", unit.symbol)
    })
}
