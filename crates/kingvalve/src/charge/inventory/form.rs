//! An inventory in JSON: the evidence in SI units, from which the same answer is computed again.

use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

use super::belief::Belief;
use super::proposal::Proposal;
use super::running::Running;
use super::standing::{Gauge, Standing};
use super::{Contribution, Inventory, Prior, System, evidence};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Form {
    system: System,
    standing: Vec<Standing>,
    running: Option<Running>,
    added_kg: f64,
    contributions: Vec<Contribution>,
    sought_from: Proposal,
}

impl Serialize for Inventory {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Form {
            system: self.system.clone(),
            standing: self.standing.clone(),
            running: self.running,
            added_kg: self.added,
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
        let evidence = evidence::of(&form.system, &form.standing, form.running.as_ref(), form.added_kg);
        let belief =
            Belief::of(&Prior::of(&form.system), &evidence, form.sought_from).map_err(D::Error::custom)?;
        let gauge = if form.standing.is_empty() { Gauge::default() } else { Gauge::closed() };
        Ok(Inventory {
            system: form.system,
            standing: form.standing,
            running: form.running,
            gauge,
            added: form.added_kg,
            contributions: form.contributions,
            from: form.sought_from,
            belief: Arc::new(belief),
        })
    }
}
