//! Moist air and airflow.
//!
//! [`MoistAir`] is a dry bulb, a humidity ratio and the pressure of a [`Site`](crate::quantity::Site); made of readings
//! it carries their doubt into every property.

mod carry;
mod properties;
mod psychrometric;
mod state;
mod water;

pub use state::MoistAir;
pub use water::saturation_pressure;
