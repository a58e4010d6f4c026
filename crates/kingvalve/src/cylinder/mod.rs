//! Refrigerant cylinders: what was weighed out of them, how full they may be, and what stays in them.
//!
//! [`Tally`] sums the falls of weight over all cylinders used; [`into_system`] takes off what the hoses took. A
//! [`Cylinder`] by its stamps has a net weight and a [`FillLimit`]; [`Heel`] reads what an "empty" one still holds, and
//! [`left_after_vapour`] what a blend becomes when it is drawn as vapour.

mod fill;
mod filling;
mod heel;
mod hose;
mod tally;
mod vessel;

pub use fill::{
    FillCheck, FillLimit, FillRule, HOTTEST_BY_RULE, HOTTEST_IN_PRACTICE, USUAL_FILL, USUAL_FILL_TEMPERATURE,
    usual_fill,
};
pub use filling::{FillingDensity, filling_density};
pub use heel::{Heel, HeelState, left_after_vapour};
pub use hose::{Hose, USUAL_BORE, into_system, purge_allowance};
pub use tally::{CylinderUse, Tally};
pub use vessel::Cylinder;
