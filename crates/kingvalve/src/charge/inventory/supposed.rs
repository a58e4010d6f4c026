//! What is supposed of a system.

use crate::charge::oil::Uptake;

/// What is supposed of a system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Supposed {
    /// m³
    pub volume: f64,
    pub oil: Uptake,
    /// Standard deviations of the gauge's common doubt.
    pub gauge: f64,
    /// Standard deviations of the thermometer's common doubt.
    pub thermometer: f64,
    /// Share of the furthest shift of composition.
    pub shift: f64,
}
