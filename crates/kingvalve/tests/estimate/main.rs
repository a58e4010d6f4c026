//! Laws and truth tables of the estimate.
#![allow(clippy::unwrap_used, clippy::panic)]

mod card;
mod money;
mod sheet;
mod support;
mod tax;
mod ways;
