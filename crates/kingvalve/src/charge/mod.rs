//! What is in the system, what is missing, what to add next.

pub mod forecast;
mod ingress;
pub mod inventory;
mod oil;
mod plate;
pub mod plan;
mod standing;
mod tube;
mod virtual_charge;
mod weigh_in;

pub use ingress::AirIngress;
pub use oil::{COMMON_STEEPENING, COMMON_UPTAKE, Oil};
pub use plate::{LineAllowance, PlateCharge};
pub use standing::{Space, Standing, StandingFinding};
pub use tube::{Temper, Tube, USUAL_LIQUID, liquid_line_allowance};
pub use virtual_charge::{COMMON_RANGE, FullCharge, VirtualCharge};
pub use weigh_in::{Accessory, Basis, Part, WeighIn};
