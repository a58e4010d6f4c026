//! What became of work that was tried, counted over many visits: what a shop's own chances are learned from.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Record;
use crate::estimate::outlook::{FailureRecords, ShopRecords, Tried};
use crate::quantity::Time;

/// What a visit found of earlier work: every field is left out where nothing can be said.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Outcome {
    /// Whether a sealant put in earlier has held.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sealant_held: Option<bool>,
    /// Whether a repair made earlier has held.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub repair_held: Option<bool>,
    /// Hours that this visit searched for a leak, begun ones counted whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hours_searched: Option<u32>,
    /// Where the leak was found, where it was.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leak_found: Option<FoundAt>,
    /// How the equipment fared since a visit before.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub equipment: Option<Watched>,
}

/// Equipment that was seen at one age and seen again at a later one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Watched {
    /// Its age at the visit before.
    pub from_age: Time,
    /// Its age at this one, or when it failed.
    pub to_age: Time,
    /// Whether it failed for good in between.
    pub failed: bool,
}

/// Where a leak turned out to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FoundAt {
    /// A joint, a valve or a line that can be reached.
    Reachable,
    /// The indoor coil.
    IndoorCoil,
    /// The outdoor unit.
    OutdoorUnit,
}

/// Outcomes counted over many visits.
///
/// # Example
/// ```
/// use kingvalve::visit::{Outcomes, Visit};
/// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
/// let mut outcomes = Outcomes::default();
/// outcomes.add(Visit::from_json(text)?.record());
/// assert_eq!(outcomes, Outcomes::default()); // a first visit tells nothing of earlier work
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Outcomes {
    /// Sealants that held, and that did not.
    pub sealants: [u64; 2],
    /// Repairs that held, and that did not.
    pub repairs: [u64; 2],
    /// Hours of searching: those in which the leak was found, and those in vain.
    pub search_hours: [u64; 2],
    /// Leaks found: reachable, at the indoor coil, in the outdoor unit.
    pub places: [u64; 3],
    /// Equipment watched from one age to another.
    pub equipment: Vec<Watched>,
}

impl Outcomes {
    /// Counts what a visit says of earlier work.
    pub fn add(&mut self, record: &Record) {
        let Some(outcome) = record.outcome else { return };
        for (held, [yes, no]) in
            [(outcome.sealant_held, &mut self.sealants), (outcome.repair_held, &mut self.repairs)]
        {
            *yes += u64::from(held == Some(true));
            *no += u64::from(held == Some(false));
        }
        let [found, vain] = &mut self.search_hours;
        let hours = u64::from(outcome.hours_searched.unwrap_or(0));
        let success = u64::from(outcome.leak_found.is_some() && hours > 0);
        *found += success;
        *vain += hours - success;
        let [reachable, coil, outdoor] = &mut self.places;
        match outcome.leak_found {
            Some(FoundAt::Reachable) => *reachable += 1,
            Some(FoundAt::IndoorCoil) => *coil += 1,
            Some(FoundAt::OutdoorUnit) => *outdoor += 1,
            None => {}
        }
        self.equipment.extend(outcome.equipment);
    }

    /// The same as records that [teach](crate::estimate::outlook::Chances::learned) the chances of an outlook.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::outlook::Chances;
    /// use kingvalve::visit::Outcomes;
    /// let outcomes = Outcomes { repairs: [9, 1], ..Outcomes::default() };
    /// let ours = Chances::default().learned(&outcomes.records())?;
    /// assert_eq!(ours.repair_holds.records(), 10);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn records(&self) -> ShopRecords {
        let tried = |[worked, failed]: [u64; 2]| Tried { worked, failed };
        let one = |seen: &Watched| FailureRecords {
            watched: 1,
            from_age: seen.from_age,
            to_age: seen.to_age,
            failed: u64::from(seen.failed),
        };
        ShopRecords {
            sealants: tried(self.sealants),
            search_hours: tried(self.search_hours),
            places: self.places,
            repairs: tried(self.repairs),
            failures: self.equipment.iter().map(one).collect(),
        }
    }
}
