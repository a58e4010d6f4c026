//! Support for the tests of kingvalve: truth tables read from `tests/reference/*.csv`.
//!
//! A table's rows are facts with a source: `case`, inputs (`in_…`, the unit at the end of the name), one
//! expected value (`exp_…`), a tolerance, the source and a mark. A test walks a whole [`Table`] and answers
//! every row, so that no row is left unused in silence.
#![allow(clippy::panic, clippy::print_stdout, reason = "what a test reports with")]

pub mod calibration;
pub mod rig;
mod csv;
mod draw;
mod every;
mod property_page;
mod schemas;
mod table;

pub use csv::{Row, Sheet};
pub use draw::Draw;
pub use every::{ask_every_refrigerant, close, close_on_scale, every_refrigerant, hold_every_refrigerant};
pub use property_page::{not_listed_is_right, property_page};
pub use schemas::schemas;
pub use table::{Answer, Table};

/// The README's Rust examples, run as doc tests.
#[doc = include_str!("../../README.md")]
#[cfg(doctest)]
pub struct Readme;
