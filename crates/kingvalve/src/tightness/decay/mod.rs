//! Why the pressure rises in a system that was evacuated and shut off.
//!
//! A leak lets air in at a steady rate, whatever the pressure inside. Liquid water boils until the pressure is that of
//! water vapour at the coldest wet point, and stops. Surfaces, oil and hoses give off gas ever more slowly. The three
//! shapes differ only where the log is long enough, and the gauge quiet enough, to show it: whether it is, is part of
//! the answer.
//!
//! How it is decided: the rise is written as a share `f` of a straight line and the rest of one of the other shapes;
//! for each `f` from 0 to 1 the best fit is found; the shares whose fit is not significantly worse than the best of
//! all remain. A cause is *shown* where every remaining share gives it more than a [trace](DecayRule::trace),
//! *excluded* where none gives it more than a [material](DecayRule::material) part, and otherwise open, which makes
//! the whole [`Cause::Unresolved`].

mod check;
mod log;
mod profile;
mod rule;
mod run;
mod series;
mod shape;

pub use check::{Cause, DecayCheck, Presence};
pub use log::{DecayLog, Sample};
pub use rule::{COOLING_BY_EVAPORATION, DecayRule, PUMPED, VacuumTarget};
pub use run::DecayTest;
