//! How much and how big: mass, length, area, volume, density.

use super::class::prelude::*;
use super::{MassFlow, SpecificEnergy, Time, Velocity, VolumeFlow};

quantity_class! {
    additive Mass, "A mass, or the difference of two weighings.";
    pounds, ounces, kilograms, grams, grains, metric_tons;
    mul [SpecificEnergy], div [Density, Volume, MassFlow, Time]
}

quantity_class! {
    additive Length, "A length, a height or an elevation.";
    feet, inches, meters, centimeters, millimeters;
    mul [Length, Area], div [Velocity, Time]
}

quantity_class! {
    additive Area, "An area.";
    square_feet, square_inches, square_meters, square_centimeters, square_millimeters, circular_mils;
    mul [Length, Velocity], div [Length]
}

quantity_class! {
    additive Volume, "A volume.";
    cubic_feet, cubic_inches, gallons, fluid_ounces, cubic_meters, liters, milliliters;
    mul [Density], div [Length, Area, VolumeFlow, Time]
}

quantity_class! {
    additive Density, "A density.";
    pounds_per_cubic_foot, kilograms_per_cubic_meter, grams_per_cubic_centimeter;
    mul [Volume, VolumeFlow], div []
}

quantity_class! {
    additive SpecificVolume, "The volume of a mass: of moist air per mass of dry air.";
    cubic_feet_per_pound, cubic_meters_per_kilogram;
    mul [Mass, MassFlow], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    Mass::register(module)?;
    Length::register(module)?;
    Area::register(module)?;
    Volume::register(module)?;
    Density::register(module)?;
    SpecificVolume::register(module)
}
