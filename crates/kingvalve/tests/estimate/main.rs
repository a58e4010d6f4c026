//! Laws and truth tables of the estimate.
#![allow(clippy::unwrap_used, clippy::panic)]

mod card;
#[path = "../common/mod.rs"]
mod common;
mod money;
mod support;
mod tax;
