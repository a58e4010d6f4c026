//! Instruments, readings, their doubt, and verdicts.

mod distribution;
mod known;
mod site;

pub use known::Known;
