//! `charge_inventory` and `charge_plan`.

mod evidence;
mod inventory;

use schemars::JsonSchema;
use serde::Deserialize;

use super::Check;
use crate::Result;
use crate::charge::plan::{Plan, Situation};
use crate::error::in_field;
use crate::measure::Finding;

pub(super) use self::inventory::ChargeInventory;

/// What to do next, and what to expect of it.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ChargePlan {
    /// What is known of the charge.
    known: ChargeInventory,
    /// Where the visit stands.
    situation: Situation,
}

impl Check for ChargePlan {
    const NAME: &'static str = "charge_plan";
    const EXAMPLE: &'static str = include_str!("../examples/charge_plan.json");

    fn find(self) -> Result<Finding> {
        let inventory = self.known.weighed().map_err(in_field("known"))?;
        let plan =
            Plan::next(&inventory, &self.situation, &self.known.site).map_err(in_field("situation"))?;
        plan.finding(Self::NAME)
    }
}
