//! Everything that weighs on the charge, gathered for weighing.

use serde::{Deserialize, Serialize};

use super::moved::Moved;
use super::particle::{Evidence, Spread};
use super::product::Product;
use super::running::{Running, Says};
use super::standing::Standing;
use super::system::System;
use crate::quantity::Quantity;

/// What was weighed, kg.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Weighed {
    /// All that went in less what came out.
    pub added: f64,
    /// So much of that may not have arrived: what was weighed up to a reading that contradicts it.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub in_doubt: f64,
    /// Where the system was evacuated: what went in since.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub since_evacuated: Option<SinceEvacuated>,
}

/// What an evacuated system holds, kg.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SinceEvacuated {
    /// The most that stayed in it, anything up to that as likely.
    pub left: f64,
    pub since: Moved,
}

fn is_zero(x: &f64) -> bool {
    *x == 0.0
}

impl Weighed {
    pub fn and(mut self, more: Moved) -> Weighed {
        self.added += more.mass;
        if let Some(evacuated) = &mut self.since_evacuated {
            evacuated.since = evacuated.since.and(more);
        }
        self
    }
}

/// The evidence on a system.
pub(super) fn of<'a>(
    system: &System,
    standing: &'a [Standing],
    running: Option<&'a Running>,
    weighed: &Weighed,
) -> Evidence<'a> {
    let assumed = &system.assumptions;
    let mut known = Product::new(1.0);
    if let Some((charge, variance)) =
        running.filter(|running| running.says == Says::About).map(Running::known)
    {
        known.known(charge, variance);
    }
    let spread = match weighed.since_evacuated {
        None => {
            let found = found(system);
            let Spread { low, high, beyond, .. } = found;
            match weighed.in_doubt {
                0.0 => found,
                doubt => Spread::of(low - doubt, high, beyond, system.assumptions.beyond.fraction()),
            }
        }
        Some(SinceEvacuated { left, since }) => {
            known.known(since.mass + 0.5 * left, since.variance + left * left / 12.0);
            let reach = system.nominal_at_most().base();
            Spread::of(-reach, reach, 2.0 * reach, 0.0)
        }
    };
    Evidence {
        standing,
        running,
        known,
        spread,
        added: weighed.added,
        gas: assumed.gas.fraction(),
        gas_density: 1.0 / assumed.gas_pressure.pascals(),
    }
}

/// How the charge is spread as found.
pub(super) fn found(system: &System) -> Spread {
    let assumed = &system.assumptions;
    let full = system.nominal_at_most().base();
    let (low, high) = (assumed.charge.low().fraction() * full, assumed.charge.high().fraction() * full);
    Spread::of(low, high, 1.5 * high, assumed.beyond.fraction())
}
