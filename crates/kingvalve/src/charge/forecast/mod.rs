//! How fast a system leaks, when that shows, and what the rules make of it.
//!
//! A [`LeakRate`] comes from dated charges; [`Decline`] says what is left on a day and when it falls below a limit, at a
//! constant rate or driven by the pressure; [`Trend`] does the same for any reading taken on several days. The leak
//! rates of the regulations are definitions of their own ([`annualized_leak_rate`], [`rolling_leak_rate`]).
//!
//! # Example
//! ```
//! use kingvalve::charge::forecast::{DatedCharge, LeakRate};
//! use kingvalve::measure::Measured;
//! use kingvalve::quantity::*;
//! let on = |day: &str, added: f64| {
//!     Ok::<_, kingvalve::Error>(DatedCharge { day: day.parse()?, added: Measured::exact(pounds(added)) })
//! };
//! let charges = [on("2025-05-20", 2.0)?, on("2025-08-12", 0.8)?, on("2026-05-28", 2.6)?];
//! let leak = LeakRate::from_charges(&charges, ounces(4.0))?;
//! assert_eq!(format!("{:.2}", leak.per_year().value()), "3.33 lb");
//! # Ok::<(), kingvalve::Error>(())
//! ```

mod crossing;
mod day;
mod decline;
mod leak;
mod rule;
mod trend;

pub use crossing::{Crossing, USUAL_HORIZON};
pub use day::Day;
pub use decline::{Decline, LeakForm};
pub use leak::{DatedCharge, LeakRate};
pub use rule::{
    Appliance, CHRONIC_LEAK, LeakRule, LeakThreshold, REPAIR_TIME, REPAIR_TIME_WITH_SHUTDOWN,
    annualized_leak_rate, leak_threshold, rolling_leak_rate,
};
pub use trend::Trend;
