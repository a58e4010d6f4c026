//! Run capacitors, supply and circuits.

mod capacitor;
mod check;
mod tolerance;

pub use capacitor::RunCapacitor;
pub use check::{CapacitorCheck, CapacitorNote};
pub use tolerance::Tolerance;
