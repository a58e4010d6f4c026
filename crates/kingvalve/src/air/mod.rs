//! Moist air, airflow, and what a coil delivers.
//!
//! [`MoistAir`] is a dry bulb, a humidity ratio and the pressure of a [`Site`](crate::quantity::Site); made of readings
//! it carries their doubt into every property. Airflow comes from a temperature rise ([`airflow_from_heat`]), from static
//! pressure and the user's own [`FanTable`], or from a traverse ([`airflow_from_traverse`]); with the states before and
//! after the coil it gives the capacity [`delivered`] and the coil's [`bypass`] factor. [`AirflowCheck`] says whether the
//! charge may be judged at all, [`SplitCheck`] whether the split is what it should be, [`BeforeAfter`] whether a piece of
//! work changed anything by more than the doubt.

mod airflow;
mod allowance;
mod bypass;
mod capacity;
mod carry;
mod enough;
mod fan;
mod properties;
mod psychrometric;
mod split;
mod split_table;
mod standard;
mod state;
mod water;
mod work;

pub use airflow::{airflow_from_heat, airflow_from_traverse, total_external_static, velocity_from_pressure};
pub use allowance::{Allowance, Response};
pub use bypass::{Bypass, bypass};
pub use capacity::{Capacity, FlowAt, delivered};
pub use enough::{AirflowCheck, california_airflow_per_ton, usual_airflow_per_ton};
pub use fan::{FanPoint, FanTable};
pub use split::{SplitCheck, installer_split_limits, rater_split_limits, split_by_model, usual_bypass};
pub use split_table::SplitTable;
pub use standard::StandardAir;
pub use state::MoistAir;
pub use water::saturation_pressure;
pub use work::{BeforeAfter, Compared, RunReadings, Shift};
