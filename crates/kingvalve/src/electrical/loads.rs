//! What a circuit feeds.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Current, amperes};
use crate::{Error, Result};

/// A load of a circuit, with the current on its data plate.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Load {
    /// A hermetic motor-compressor.
    Compressor {
        /// Rated-load current.
        rla: Current,
        /// Branch-circuit selection current, where the plate has one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        selection: Option<Current>,
    },
    /// Another motor: its full-load current.
    Motor(Current),
    /// Anything else: its rated current.
    Other(Current),
}

impl Load {
    /// A compressor of that rated-load current.
    pub const fn compressor(rla: Current) -> Load {
        Load::Compressor { rla, selection: None }
    }

    /// The current that sizes the circuit: of a compressor the larger of its two (NEC 440.4(C), 440.6(A) exception).
    pub fn current(&self) -> Current {
        match *self {
            Load::Compressor { rla, selection } => selection.map_or(rla, |selection| selection.max(rla)),
            Load::Motor(current) | Load::Other(current) => current,
        }
    }

    /// Whether it is a motor of either kind.
    pub(super) fn is_motor(&self) -> bool {
        !matches!(self, Load::Other(_))
    }

    pub(super) fn check(&self) -> Result<()> {
        let currents = match *self {
            Load::Compressor { rla, selection } => [Some(rla), selection],
            Load::Motor(current) | Load::Other(current) => [Some(current), None],
        };
        match currents.into_iter().flatten().find(|i| !(*i > amperes(0.0) && i.is_finite())) {
            Some(bad) => Err(Error::out_of_range(
                "current on the data plate",
                bad,
                "it must be above zero and finite",
                "copy it from the plate, or leave the load out",
            )),
            None => Ok(()),
        }
    }
}
