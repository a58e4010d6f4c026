//! Energy, power, and energy per mass.

use super::class::prelude::*;
use super::{Current, ElectricPotential, Mass, MassFlow, TemperatureDifference, Time};

quantity_class! {
    additive Energy, "An energy.";
    btu, joules, kilojoules, megajoules, watt_hours, kilowatt_hours;
    mul [], div [Power, Time, SpecificEnergy, Mass]
}

quantity_class! {
    additive Power, "A power or a capacity.";
    watts, kilowatts, btu_per_hour, tons_of_refrigeration, horsepower;
    mul [Time], div [SpecificEnergy, MassFlow, ElectricPotential, Current]
}

quantity_class! {
    additive SpecificEnergy, "An energy per mass: enthalpy, latent heat.";
    btu_per_pound, joules_per_kilogram, kilojoules_per_kilogram;
    mul [Mass, MassFlow], div [SpecificEntropy, TemperatureDifference]
}

quantity_class! {
    additive SpecificEntropy, "An entropy or a heat capacity per mass.";
    btu_per_pound_fahrenheit, joules_per_kilogram_kelvin, kilojoules_per_kilogram_kelvin;
    mul [TemperatureDifference], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    Energy::register(module)?;
    Power::register(module)?;
    SpecificEnergy::register(module)?;
    SpecificEntropy::register(module)
}
