//! What is in the system, what is missing, what to add next.

pub mod inventory;
mod oil;
mod plate;
mod standing;
mod virtual_charge;

pub use oil::{COMMON_UPTAKE, Oil};
pub use plate::{LineAllowance, PlateCharge};
pub use standing::{Space, Standing, StandingFinding};
pub use virtual_charge::{FullCharge, VirtualCharge};
