//! Pure numbers that mean a share.

use super::class::prelude::*;

quantity_class! {
    additive Ratio, "A share of something: a tolerance, a relative humidity, a charge level.";
    percent, fraction, parts_per_million;
    mul [], div []
}

quantity_class! {
    additive HumidityRatio, "The water vapour in moist air: its mass per mass of dry air.";
    grains_per_pound, pounds_per_pound, kilograms_per_kilogram, grams_per_kilogram;
    mul [], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    Ratio::register(module)?;
    HumidityRatio::register(module)
}
