//! Moist air, airflow, and what a coil delivers.
//!
//! [`MoistAir`] is a dry bulb, a humidity ratio and the pressure of a [`Site`](crate::quantity::Site); made of readings
//! it carries their doubt into every property. Airflow comes from a temperature rise ([`airflow_from_heat`]), from static
//! pressure and the user's own [`FanTable`], or from a traverse ([`airflow_from_traverse`]); with the states before and
//! after the coil it gives the capacity [`delivered`] and the coil's [`bypass`] factor. [`AirflowCheck`] says whether the
//! charge may be judged at all, [`SplitCheck`] whether the split is what it should be, [`BeforeAfter`] whether a piece of
//! work changed anything by more than the doubt.
//!
//! # Source
//! ASHRAE Handbook—Fundamentals 2017, chapter 1; capacity by the air-enthalpy method of ANSI/ASHRAE Standard 37; bypass
//! by W. H. Carrier's apparatus dew point. Targets of split and airflow, and what weather explains, are named and
//! replaceable.
//! # Valid range
//! Dry bulb −60 °C to 90 °C up to saturation, at any site's pressure; steady operation, well-mixed air.
//! # Accuracy
//! The perfect-gas relations are good to 0.7 % (the Handbook's statement). On 10,000 random states the properties agree
//! with PsychroLib 2.5.0, its iterations run to 1e-9 K, to 1e-9 K in wet bulb and dew point and to 1e-9 in the rest.

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
