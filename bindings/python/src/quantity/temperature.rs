//! Temperature, and the difference of two temperatures.

use super::SpecificEntropy;
use super::class::prelude::*;

quantity_class! {
    affine Temperature, "A temperature: a place on the scale.";
    fahrenheit, celsius, kelvins, rankine;
    step TemperatureDifference, mul [], div [Temperature], times []
}

quantity_class! {
    additive TemperatureDifference, "The difference of two temperatures: a superheat, a subcooling, a glide.";
    delta_fahrenheit, delta_celsius, delta_kelvins;
    mul [SpecificEntropy], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    Temperature::register(module)?;
    TemperatureDifference::register(module)
}
