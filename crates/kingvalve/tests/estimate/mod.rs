//! Laws and truth tables of the estimate.
#![allow(clippy::unwrap_used, clippy::panic)]

mod card;
mod discount;
mod invoice;
mod likely;
mod money;
mod outlook;
mod report;
mod sheet;
mod support;
mod tax;
mod ways;
