//! What pattern of readings points to what, and what a wrong charge or airflow costs.
//!
//! A [`Residual`] is how far a reading lies from what it should be. [`Ranking::of`] weighs the residuals of a system
//! that runs steadily in cooling against the [`Patterns`] of nine faults and of none, and says which [`NextReading`]
//! would tell the two likeliest apart. One fault at a time: two together may look like a third.
//! [`charge_penalty`] and [`airflow_penalty`] say what a known fault takes from capacity and efficiency.
//!
//! # Example
//! ```
//! use kingvalve::fault::*;
//! use kingvalve::measure::Measured;
//! use kingvalve::quantity::*;
//! let read = |feature, off| {
//!     let seen = Measured::from_standard(delta_fahrenheit(off), delta_fahrenheit(1.0), "meter")?;
//!     Residual::new(feature, seen, TemperatureDifference::ZERO)
//! };
//! let residuals = [read(Feature::Superheat, 15.0)?, read(Feature::Subcooling, -8.0)?];
//! let ranking = Ranking::of(&residuals, &Patterns::fixed_orifice(), &Priors::default())?;
//! assert_eq!(ranking.top().fault, Fault::LowCharge);
//! assert!(ranking.probability(Fault::LowCharge) > percent(90.0));
//! # Ok::<(), kingvalve::Error>(())
//! ```

mod cause;
mod feature;
mod finding;
mod likelihood;
mod next;
mod operation;
mod patterns;
mod penalty;
mod priors;
mod ranking;
mod residual;

pub use cause::Fault;
pub use feature::{Feature, Spreads};
pub use next::NextReading;
pub use operation::{Expected, Operation};
pub use patterns::{Basis, Metering, Patterns};
pub use penalty::{
    AirflowPenalty, ChargePenalty, Mode, Side, airflow_penalty, charge_coefficients, charge_penalty,
};
pub use priors::Priors;
pub use ranking::{Ranked, Ranking};
pub use residual::Residual;
