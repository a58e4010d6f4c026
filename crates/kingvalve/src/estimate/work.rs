//! What a way forward takes: fees, hours, refrigerant, material.

use serde::{Deserialize, Serialize};

use crate::measure::Interval;
use crate::quantity::{Mass, Time};

/// What has to be bought and done, before anything is priced. Names are those of the shop's rate card.
///
/// # Example
/// ```
/// use kingvalve::estimate::{Item, Work};
/// let work = Work { materials: vec![Item::one("filter-drier")], ..Work::default() };
/// assert!(work.tasks.is_empty());
/// ```
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Work {
    /// Fixed fees.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fees: Vec<Item>,
    /// Work by the hour.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tasks: Vec<Task>,
    /// Refrigerant put in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub refrigerants: Vec<Charge>,
    /// Parts and consumables.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub materials: Vec<Item>,
    /// Replacements, installed.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub replacements: Vec<Item>,
}

impl Work {
    /// This work and `more`.
    #[must_use]
    pub fn and(mut self, more: Self) -> Self {
        self.fees.extend(more.fees);
        self.tasks.extend(more.tasks);
        self.refrigerants.extend(more.refrigerants);
        self.materials.extend(more.materials);
        self.replacements.extend(more.replacements);
        self
    }
}

/// Pieces of something on the rate card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Item {
    /// Its name on the card.
    pub name: String,
    /// How many at least.
    pub least: u32,
    /// How many at most.
    pub most: u32,
}

impl Item {
    /// One, for certain.
    pub fn one(name: impl Into<String>) -> Self {
        Self { name: name.into(), least: 1, most: 1 }
    }

    /// One or none, as it turns out.
    pub fn perhaps(name: impl Into<String>) -> Self {
        Self { name: name.into(), least: 0, most: 1 }
    }
}

/// Work by the hour.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Task {
    /// What is done, in words that follow the role: "weigh in refrigerant".
    pub what: String,
    /// Who does it: a role on the card.
    pub role: String,
    /// When: a time band on the card.
    pub band: String,
    /// How long it takes.
    pub hours: Interval<Time>,
}

/// Refrigerant put in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Charge {
    /// Its designation on the card.
    pub designation: String,
    /// How much.
    pub mass: Interval<Mass>,
}
