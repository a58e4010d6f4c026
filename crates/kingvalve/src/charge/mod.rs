//! What is in the system, what is missing, what to add next.

pub mod inventory;
mod oil;
mod plate;
mod standing;
mod virtual_charge;
mod tube;
mod weigh_in;

pub use oil::{COMMON_UPTAKE, Oil};
pub use plate::{LineAllowance, PlateCharge};
pub use standing::{Space, Standing, StandingFinding};
pub use virtual_charge::{FullCharge, VirtualCharge};
pub use tube::{Temper, Tube, USUAL_LIQUID, liquid_line_allowance};
pub use weigh_in::{Accessory, Basis, Part, WeighIn};
