//! Everything that weighs on the charge, gathered for weighing.

use super::particle::{Evidence, Spread};
use super::running::Running;
use super::standing::Standing;
use super::system::System;
use crate::quantity::Quantity;

/// The evidence on a system to which `added` kg were weighed in.
pub(super) fn of<'a>(
    system: &System,
    standing: &'a [Standing],
    running: Option<&'a Running>,
    added: f64,
) -> Evidence<'a> {
    let assumed = &system.assumptions;
    let full = system.nominal_at_most().base();
    let (low, high) = (assumed.charge.low().fraction() * full, assumed.charge.high().fraction() * full);
    Evidence {
        standing,
        running,
        spread: Spread { low, high, beyond: 1.5 * high, chance_beyond: assumed.beyond.fraction() },
        added,
        gas: assumed.gas.fraction(),
        gas_density: 1.0 / assumed.gas_pressure.pascals(),
    }
}
