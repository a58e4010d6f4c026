//! What is in the system, what is missing, what to add next.

mod forecast;
pub mod inventory;
mod oil;
mod plate;
pub mod plan;
mod standing;
mod tube;
mod virtual_charge;
mod weigh_in;

pub use forecast::{
    Appliance, CHRONIC_LEAK, Crossing, DatedCharge, Day, Decline, LeakForm, LeakRate, LeakRule,
    LeakThreshold, REPAIR_TIME, REPAIR_TIME_WITH_SHUTDOWN, Trend, USUAL_HORIZON, annualized_leak_rate,
    leak_threshold, rolling_leak_rate,
};
pub use oil::{COMMON_UPTAKE, Oil};
pub use plate::{LineAllowance, PlateCharge};
pub use standing::{Space, Standing, StandingFinding};
pub use tube::{Temper, Tube, USUAL_LIQUID, liquid_line_allowance};
pub use virtual_charge::{FullCharge, VirtualCharge};
pub use weigh_in::{Accessory, Basis, Part, WeighIn};
