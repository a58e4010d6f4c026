//! What a leak is counted in: gas throughput, and the viscosity that converts it from gas to gas.

use super::class::prelude::*;

quantity_class! {
    additive Throughput, "A flow of gas counted as pressure times volume over time: the size of a leak.";
    pascal_cubic_meters_per_second, millibar_liters_per_second, atmosphere_cubic_centimeters_per_second,
    torr_liters_per_second, micron_liters_per_hour;
    mul [], div []
}

quantity_class! {
    additive Viscosity, "A dynamic viscosity.";
    micropascal_seconds, pascal_seconds, centipoises, pounds_per_foot_hour;
    mul [], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    Throughput::register(module)?;
    Viscosity::register(module)
}
