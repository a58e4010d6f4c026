//! Time, and what passes in a time: flows and velocity.

use super::class::prelude::*;
use super::{Area, Density, Power, PressureDifference, SpecificEnergy};

quantity_class! {
    additive Time, "A duration.";
    minutes, seconds, hours, days, years;
    mul [VolumeFlow, MassFlow, Velocity, Power], div []
}

quantity_class! {
    additive VolumeFlow, "A volume flow.";
    cubic_feet_per_minute, cfm, gallons_per_minute, cubic_meters_per_second, cubic_meters_per_hour,
    liters_per_second, liters_per_minute;
    mul [Time, Density, PressureDifference], div [Velocity, Area]
}

quantity_class! {
    additive MassFlow, "A mass flow, or a leak rate.";
    pounds_per_hour, pounds_per_minute, pounds_per_year, ounces_per_year, kilograms_per_second, kilograms_per_hour,
    kilograms_per_year, grams_per_second, grams_per_year;
    mul [Time, SpecificEnergy], div [Density, VolumeFlow]
}

quantity_class! {
    additive Velocity, "A speed, such as that of air at a grille.";
    feet_per_minute, feet_per_second, meters_per_second;
    mul [Time, Area], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    Time::register(module)?;
    VolumeFlow::register(module)?;
    MassFlow::register(module)?;
    Velocity::register(module)
}
