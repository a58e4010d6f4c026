//! Units-safe math for refrigeration and air-conditioning service.
//!
//! One way only: a room imports rooms declared above it, never below.

mod error;
mod grid;
mod json;
pub use error::{Error, Result};

pub mod quantity;
pub mod measure;
pub mod refrigerant;
pub mod air;
pub mod electrical;
pub mod tightness;
pub mod cylinder;
pub mod cycle;
pub mod fault;
pub mod charge;
pub mod estimate;
pub mod check;
pub mod visit;
