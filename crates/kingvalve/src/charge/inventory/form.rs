//! An inventory in JSON: the evidence in SI units, from which the same answer is computed again.

use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

use super::belief::nothing_left;
use super::evidence::Weighed;
use super::moved::Moved;
use super::proposal::Proposal;
use super::running::Running;
use super::standing::{Shared, Standing};
use super::{Conflict, Contribution, Inventory, System};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Form {
    system: System,
    /// As of the last reading.
    standing: Vec<Standing>,
    running: Option<Running>,
    weighed: Weighed,
    /// Since the last reading.
    #[serde(default, skip_serializing_if = "Moved::is_nothing")]
    moved: Moved,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    conflict: Option<Conflict>,
    contributions: Vec<Contribution>,
    sought_from: Proposal,
}

impl Serialize for Inventory {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Form {
            system: self.system.clone(),
            standing: self.standing.clone(),
            running: self.running,
            weighed: self.weighed,
            moved: self.belief.moved,
            conflict: self.conflict,
            contributions: self.contributions.clone(),
            sought_from: self.from,
        }
        .serialize(serializer)
    }
}

/// A gauge is recognised by its identity in the running program: readings added after loading count as another gauge's,
/// which errs on the wide side.
impl<'de> Deserialize<'de> for Inventory {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let form = Form::deserialize(deserializer)?;
        let first = if form.standing.is_empty() { Shared::default() } else { Shared::closed() };
        let prior = Inventory::prior(&form.system).map_err(D::Error::custom)?;
        let mut inventory = Inventory {
            system: form.system,
            standing: form.standing,
            running: form.running,
            gauge: first.clone(),
            thermometer: first,
            weighed: form.weighed,
            conflict: form.conflict,
            contributions: form.contributions,
            from: form.sought_from,
            belief: prior.belief,
        };
        let belief = inventory.believed(0.0).map_err(D::Error::custom)?;
        let belief = belief.and_then(|belief| belief.moved(form.moved));
        inventory.belief = Arc::new(belief.ok_or_else(nothing_left).map_err(D::Error::custom)?);
        Ok(inventory)
    }
}
