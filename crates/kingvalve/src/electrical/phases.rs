//! Single-phase or three-phase.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How many phases a circuit has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Phases {
    /// Two wires, out and back.
    Single,
    /// Three wires, balanced.
    Three,
}

impl Phases {
    /// What the power of one conductor's current at the voltage between conductors is multiplied by: 1 or √3.
    pub(super) fn power_factor_of_wires(self) -> f64 {
        match self {
            Phases::Single => 1.0,
            Phases::Three => 3f64.sqrt(),
        }
    }

    /// What the drop along one conductor is multiplied by: 2 or √3.
    pub(super) fn drop_factor(self) -> f64 {
        match self {
            Phases::Single => 2.0,
            Phases::Three => 3f64.sqrt(),
        }
    }
}
