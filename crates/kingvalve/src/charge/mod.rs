//! What is in the system, what is missing, what to add next.

mod oil;
mod plate;
mod standing;

pub use oil::{COMMON_UPTAKE, Oil};
pub use plate::{LineAllowance, PlateCharge};
pub use standing::{Space, Standing, StandingFinding};
