//! Money, what a shop charges, and ways forward with their prices.

mod money;
mod outlook;
mod way;

use pyo3::prelude::*;

pub use money::Money;
pub use way::PricedWay;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Money>()?;
    module.add_class::<way::RateCard>()?;
    module.add_class::<way::Situation>()?;
    module.add_class::<way::Way>()?;
    module.add_class::<PricedWay>()?;
    outlook::register(module)
}
