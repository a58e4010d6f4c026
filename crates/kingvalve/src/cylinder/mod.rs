//! Refrigerant cylinders: what was weighed out of them, over all that were used.

mod tally;

pub use tally::{CylinderUse, Tally};
