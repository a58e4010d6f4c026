//! Electrical quantities.

use super::class::prelude::*;

quantity_class! {
    additive ElectricPotential, "A voltage.";
    volts, millivolts, kilovolts;
    mul [Current], div [Current, Resistance]
}

quantity_class! {
    additive Current, "An electric current.";
    amperes, milliamperes;
    mul [ElectricPotential, Resistance], div []
}

quantity_class! {
    additive Resistance, "An electric resistance.";
    ohms, milliohms, kilohms, megohms, gigohms;
    mul [Current], div []
}

quantity_class! {
    additive Capacitance, "A capacitance.";
    microfarads, farads, nanofarads;
    mul [], div []
}

quantity_class! {
    additive Frequency, "A frequency.";
    hertz, kilohertz;
    mul [], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    ElectricPotential::register(module)?;
    Current::register(module)?;
    Resistance::register(module)?;
    Capacitance::register(module)?;
    Frequency::register(module)
}
