//! Truth tables and laws across crates: one program, a module for each topic.

mod calibration;
mod charge_targets;
mod curves;
mod designations;
mod electrical;
mod eos_check_points;
mod estimate;
mod faults;
mod flash_failures;
mod gwp;
mod heat_and_air;
mod leak_and_filling;
mod leak_conversion;
mod monte_carlo;
mod phase_laws;
mod propagation;
mod property_page;
mod psychrometrics;
mod rig;
mod risk;
mod saturation_range;
mod standard_atmosphere;
mod state_laws;
mod uncertainty;
mod units;
mod withdrawal;
