//! What superheat, subcooling and approach should be, and whether they are.
//!
//! A [`Target`] comes from the data plate, from a maker's [`ChargingChart`], or for a fixed orifice from the common
//! formula ([`orifice_superheat`]). A [`TargetCheck`] holds a reading against it with the limits of a
//! [`ChargeTolerance`], and gives no verdict while a precondition of the method ([`Requirements`]) is not met: each
//! comes back as a reason, [`Unmet`]. [`ChargeRows`] does the same for columns of readings.
//!
//! # Example
//! ```
//! use kingvalve::cycle::target::*;
//! use kingvalve::measure::{Level, Measured};
//! use kingvalve::quantity::*;
//! let actual = Measured::from_standard(delta_fahrenheit(24.0), delta_fahrenheit(1.0), "superheat")?;
//! let target = Target::by_formula(fahrenheit(67.0), fahrenheit(95.0))?;
//! let check = TargetCheck::superheat(actual, &target, &ChargeTolerance::default(), Level::default())?;
//! assert!(check.verdict().is_some_and(|verdict| verdict.is_outside()));
//! assert!(check.next()[0].contains("add refrigerant"));
//! # Ok::<(), kingvalve::Error>(())
//! ```

mod chart;
mod check;
mod conditions;
mod note;
mod rows;
mod tolerance;
mod value;

pub use chart::ChargingChart;
pub use check::TargetCheck;
pub use conditions::{Condition, Conditions, Mode, Requirements, Unmet};
pub use note::TargetNote;
pub use rows::{ChargeColumns, ChargeInstruments, ChargeRow, ChargeRows};
pub use tolerance::ChargeTolerance;
pub use value::{Target, orifice_superheat};
