//! Absolute pressure, gauge pressure, and the difference of two pressures.

use super::Ratio;
use super::VolumeFlow;
use super::class::prelude::*;

quantity_class! {
    affine Pressure, "An absolute pressure, counted from vacuum. A gauge reading becomes one by `Site.absolute`.";
    psia, pascals, hectopascals, kilopascals, megapascals, bars, atmospheres, inches_of_mercury,
    millimeters_of_mercury, torr, microns;
    step PressureDifference, mul [Ratio], div [Pressure], times [f64]
}

quantity_class! {
    affine GaugePressure, "A gauge pressure, counted from the atmosphere around the gauge; negative in vacuum.";
    psig, pascals_gauge, kilopascals_gauge, megapascals_gauge, bars_gauge, inches_of_mercury_vacuum;
    step PressureDifference, mul [], div [], times []
}

quantity_class! {
    additive PressureDifference, "The difference of two pressures, both gauge or both absolute; a gauge's span or step.";
    psi, delta_pascals, delta_kilopascals, delta_bars, delta_millibars, inches_of_water, delta_inches_of_mercury,
    delta_microns;
    mul [VolumeFlow], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    Pressure::register(module)?;
    GaugePressure::register(module)?;
    PressureDifference::register(module)
}
