//! Instruments, readings, their doubt, and verdicts.
//!
//! In Rust these are generic over the quantity; a Python object holds one of any kind behind a trait object.

mod combine;
mod instrument;
mod known;
mod limits;
mod measured;
mod reading;
mod risk;
mod simulation;
mod verdict;

use kingvalve::measure::Level;
use pyo3::prelude::*;

use crate::error::raise;
use crate::quantity::Ratio;

pub use instrument::Instrument;
pub use known::{Given, plain_value};
pub use limits::{Limits, LimitsOf};
pub use measured::Measured;
pub use reading::{Read, Reading};
pub use risk::Prior;
pub use verdict::Verdict;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Instrument>()?;
    module.add_class::<Reading>()?;
    module.add_class::<Measured>()?;
    module.add_class::<Limits>()?;
    module.add_class::<Verdict>()?;
    combine::register(module)?;
    simulation::register(module)?;
    risk::register(module)
}

/// The level of confidence asked for; 95 % where none is.
pub fn level(asked: Option<Ratio>) -> PyResult<Level> {
    asked.map_or(Ok(Level::default()), |share| Level::new(share.0).map_err(raise))
}
