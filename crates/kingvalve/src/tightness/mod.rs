//! Pressure tests, vacuum decay, and the size of a leak.
//!
//! Three questions, each answered with its doubt:
//! - *May I put this pressure on it?* [`TestPressure`]: the planned pressure, and what it becomes when the system
//!   warms, against the data plate.
//! - *Did it hold?* [`PressureTest`]: a standing nitrogen test, corrected for temperature in absolute pressures.
//! - *Why does the vacuum rise?* [`DecayTest`]: leak, moisture, outgassing, or not to be told from this log.
//!
//! A [`Leak`] found with one gas is converted to any refrigerant, in Pa·m³/s and in mass a year.

mod decay;
mod gas;
mod leak;
mod nitrogen;
mod nitrogen_check;
mod plate;
mod viscosity;

pub use decay::{
    COOLING_BY_EVAPORATION, Cause, DecayCheck, DecayLog, DecayRule, DecayTest, PUMPED, Presence, Sample,
    VacuumTarget,
};
pub use gas::LeakGas;
pub use leak::{Flow, Leak, LeakSize, Regime};
pub use nitrogen::{ALLOWED_LOSS, GasState, PressureTest};
pub use nitrogen_check::PressureTestCheck;
pub use plate::{TestPressure, TestPressureCheck};
