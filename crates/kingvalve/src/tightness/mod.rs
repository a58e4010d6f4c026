//! Pressure tests, vacuum decay, and the size of a leak.
//!
//! Three questions, each answered with its doubt:
//! - *May I put this pressure on it?* [`TestPressure`]: the planned pressure, and what it becomes when the system
//!   warms, against the data plate.
//! - *Did it hold?* [`PressureTest`]: a standing nitrogen test, corrected for temperature in absolute pressures.
//! - *Why does the vacuum rise?* [`DecayTest`]: leak, moisture, outgassing, or not to be told from this log.
//!
//! A [`Leak`] found with one gas is converted to any refrigerant, in Pa·m³/s and in mass a year.
//!
//! # Source
//! Nitrogen at constant density: Span et al. 2000. Shapes of a vacuum's rise: texts of vacuum technique; vapour pressure
//! of water: ASHRAE Handbook—Fundamentals 2017, chapter 1. Viscous and molecular flow: Poiseuille and Knudsen, in the
//! terms of EN 1779. Vacuum target and allowed loss: common practice, named and replaceable.
//! # Valid range
//! Pressure tests to 10 MPa and −40 °C to 80 °C; vacuum logs to 10 kPa at one temperature; leaks of vapour from −30 °C
//! to 70 °C. Absolute pressures are a type of their own: a gauge reading does not compile where one is wanted.
//! # Accuracy
//! The temperature correction is good to 0.02 % of the pressure. Of simulated leaks, moisture, both and outgassing at
//! least 95 % are named right where the log is long enough, and at most 2 % wrong at any length. A leak converted to
//! another gas is good to a factor of two: real leaks are rarely one straight channel.

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
