//! Pure numbers that mean a share.

use super::class::prelude::*;

quantity_class! {
    additive Ratio, "A share of something: a tolerance, a relative humidity, a charge level.";
    percent, fraction, parts_per_million;
    mul [], div []
}

/// Adds the classes and their unit words to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    Ratio::register(module)
}
