//! Sealant and dye: how much, by the shop's own rule, and what to know before either goes in.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Power, Volume};
use crate::{Error, Result};

/// What is put in besides refrigerant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum AdditiveKind {
    /// A leak sealant.
    Sealant,
    /// A leak-detection dye.
    Dye,
}

/// The shop's rule for an additive: so much for so much cooling capacity.
///
/// # Example
/// ```
/// use kingvalve::charge::plan::{Additive, AdditiveKind};
/// use kingvalve::quantity::*;
/// let shop = Additive { kind: AdditiveKind::Dye, volume: fluid_ounces(0.25), per: tons_of_refrigeration(1.0) };
/// let dose = shop.dose(tons_of_refrigeration(3.0))?;
/// assert_eq!(format!("{:.2}", dose.in_unit("fl oz")?), "0.75 fl oz");
/// assert!(shop.cautions().iter().any(|text| text.contains("warranty")));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Additive {
    /// Sealant or dye.
    pub kind: AdditiveKind,
    /// So much …
    pub volume: Volume,
    /// … for so much cooling capacity.
    pub per: Power,
}

impl Additive {
    /// How much for a system of that cooling capacity.
    ///
    /// # Units
    /// Cooling capacity in, volume out.
    /// # Source
    /// The shop's own rule, in proportion; the maker's instructions go before it.
    /// # Valid range
    /// Capacities above zero.
    /// # Accuracy
    /// That of the rule.
    /// # Errors
    /// A capacity, a volume or a per that is not above zero.
    /// # Example
    /// See [`Additive`].
    pub fn dose(&self, capacity: Power) -> Result<Volume> {
        let positive = |what: &str, value: String, sound: bool| {
            if sound {
                return Ok(());
            }
            Err(Error::out_of_range(
                what,
                value,
                "it is above zero",
                "take it from the shop's rule or the data plate",
            ))
        };
        let above = |power: Power| power > Power::ZERO && power.is_finite();
        positive("cooling capacity", capacity.to_string(), above(capacity))?;
        positive("capacity that one dose is for", self.per.to_string(), above(self.per))?;
        let sound = self.volume > Volume::ZERO && self.volume.is_finite();
        positive("volume of one dose", self.volume.to_string(), sound)?;
        Ok(self.volume * (capacity / self.per))
    }

    /// What to know before it goes in.
    pub fn cautions(&self) -> &'static [&'static str] {
        match self.kind {
            AdditiveKind::Sealant => &[
                "Sealant can harm recovery machines and gauges and spoil recovered refrigerant: mark the system, and \
                 recover from it only with equipment kept for that.",
                "Sealant can void the equipment's warranty: ask the maker and get the owner's consent first.",
                "Some sealants harden with moisture or air: evacuate and follow their maker's instructions.",
            ],
            AdditiveKind::Dye => &[
                "Dye must suit the system's oil; the equipment's warranty may not allow it: ask the maker.",
                "Mark the system, and tell whoever recovers from it: dye stays in recovered refrigerant and in the \
                 recovery machine's oil.",
            ],
        }
    }
}
