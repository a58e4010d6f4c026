//! Instruments, readings, their doubt, and verdicts.

mod known;
mod site;

pub use known::Known;
