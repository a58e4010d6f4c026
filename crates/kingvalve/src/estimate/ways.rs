//! The five ways forward from a system that is short of refrigerant.

use serde::{Deserialize, Serialize};

use super::price::REGULAR;
use super::{Charge, Item, Task, Way, Words, Work, words};
use crate::measure::Interval;
use crate::quantity::{Mass, Time, hours};

/// What a visit found, and how the shop works: enough to lay out the five ways.
///
/// # Example
/// ```
/// use kingvalve::estimate::{RateCard, Situation};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// # let card = RateCard::from_json(include_str!("../../../../examples/data/rate_card.json"))?;
/// let mut situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?);
/// situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
/// let ways = situation.ways();
/// assert_eq!(ways.len(), 5);
/// let recharge = ways[1].price(&card)?;
/// assert_eq!(recharge.total().to_string(), "593.23–871.22 USD");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Situation {
    /// The refrigerant's designation on the rate card.
    pub refrigerant: String,
    /// How much of it is missing. An end below nothing counts as nothing.
    pub missing: Interval<Mass>,
    /// The replacement on the rate card that fits this system; without one there is no fifth way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub replacement: Option<String>,
    /// How long each work takes.
    #[serde(default)]
    pub hours: WorkHours,
    /// What the rate card calls what the ways ask for.
    #[serde(default)]
    pub names: CardNames,
}

/// How long each work takes in this shop.
///
/// # Source
/// The default values are common practice, no source: a shop replaces them by its own records.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct WorkHours {
    /// To weigh in refrigerant and check the result. Default 1 to 2 h.
    pub recharge: Interval<Time>,
    /// To put in sealant and dye besides. Default 0.25 to 0.5 h.
    pub sealant_and_dye: Interval<Time>,
    /// To search for the leak. Default 1 to 3 h.
    pub leak_search: Interval<Time>,
    /// To recover, repair, evacuate and recharge, where the leak can be reached. Default 2 to 4 h.
    pub leak_repair: Interval<Time>,
}

impl Default for WorkHours {
    fn default() -> Self {
        Self {
            recharge: between(1.0, 2.0),
            sealant_and_dye: between(0.25, 0.5),
            leak_search: between(1.0, 3.0),
            leak_repair: between(2.0, 4.0),
        }
    }
}

/// What the rate card calls what the ways ask for.
///
/// # Example
/// ```
/// use kingvalve::estimate::CardNames;
/// let evening = CardNames { band: "evening".into(), ..CardNames::default() };
/// assert_eq!((evening.role.as_str(), evening.band.as_str()), ("technician", "evening"));
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct CardNames {
    /// Who does the work. Default `technician`.
    pub role: String,
    /// When it is done. Default `regular`, which goes unsaid on a line.
    pub band: String,
    /// The fee for coming. Default `trip`.
    pub trip: String,
    /// The fee for finding out. Default `diagnosis`.
    pub diagnosis: String,
    /// The fee for taking refrigerant out. Default `refrigerant recovery`.
    pub recovery: String,
    /// The fee for taking old equipment away. Default `disposal`.
    pub disposal: String,
    /// The drier that a repair puts in. Default `filter-drier`.
    pub filter_drier: String,
    /// The sealant with its dye. Default `sealant and dye`.
    pub sealant_and_dye: String,
}

impl Default for CardNames {
    fn default() -> Self {
        Self {
            role: "technician".into(),
            band: REGULAR.into(),
            trip: "trip".into(),
            diagnosis: "diagnosis".into(),
            recovery: "refrigerant recovery".into(),
            disposal: "disposal".into(),
            filter_drier: "filter-drier".into(),
            sealant_and_dye: "sealant and dye".into(),
        }
    }
}

impl Situation {
    /// A situation with hours of common practice, the default names, and no replacement.
    pub fn new(refrigerant: impl Into<String>, missing: Interval<Mass>) -> Self {
        let (hours, names) = (WorkHours::default(), CardNames::default());
        Self { refrigerant: refrigerant.into(), missing, replacement: None, hours, names }
    }

    /// The five ways, in the order in which they are offered; four where no replacement is named.
    pub fn ways(&self) -> Vec<Way> {
        let four = [self.leave_as_is(), self.recharge(), self.recharge_with_sealant(), self.leak_search()];
        four.into_iter().chain(self.replace()).collect()
    }

    /// Leave it as it is: the trip and the diagnosis, which are done.
    pub fn leave_as_is(&self) -> Way {
        way("leave as is", "Leave as is", self.done_already(), words::leave_as_is())
    }

    /// Weigh in what is missing.
    pub fn recharge(&self) -> Way {
        let work = self.done_already().and(self.weighed_in());
        way("recharge", "Recharge", work, words::recharge(self.addable()))
    }

    /// Weigh in what is missing, with a sealant for small leaks and a dye that shows where they are.
    pub fn recharge_with_sealant(&self) -> Way {
        let sealant = Work {
            tasks: vec![self.task("add sealant and dye", self.hours.sealant_and_dye)],
            materials: vec![Item::one(&self.names.sealant_and_dye)],
            ..Work::default()
        };
        let work = self.done_already().and(self.weighed_in()).and(sealant);
        let words = words::recharge(self.addable()).and(words::sealant());
        way("recharge with sealant and dye", "Recharge with sealant and dye", work, words)
    }

    /// Search for the leak on time and material, and repair it where it can be reached.
    ///
    /// The low end is the search alone: it may end at a leak that needs a price of its own.
    pub fn leak_search(&self) -> Way {
        let repair = Interval::spanning(Time::ZERO, self.hours.leak_repair.high());
        let refill = Interval::spanning(Mass::ZERO, self.addable().high());
        let as_found = Work {
            tasks: vec![
                self.task("leak search", self.hours.leak_search),
                self.task("repair as found", repair),
            ],
            refrigerants: vec![self.charge(refill)],
            materials: vec![Item::perhaps(&self.names.filter_drier)],
            fees: vec![Item::perhaps(&self.names.recovery)],
            ..Work::default()
        };
        let work = self.done_already().and(as_found);
        way("leak search", "Find the leak, repair as found", work, words::leak_search())
    }

    /// Replace the equipment, if the situation names a replacement.
    pub fn replace(&self) -> Option<Way> {
        let replacement = self.replacement.as_ref()?;
        let new = Work {
            fees: vec![Item::one(&self.names.recovery), Item::one(&self.names.disposal)],
            replacements: vec![Item::one(replacement)],
            ..Work::default()
        };
        Some(way("replace", "Replace", self.done_already().and(new), words::replace()))
    }

    /// The trip and the diagnosis: every way starts after them.
    fn done_already(&self) -> Work {
        let fees = [&self.names.trip, &self.names.diagnosis].map(Item::one);
        Work { fees: fees.into(), ..Work::default() }
    }

    fn weighed_in(&self) -> Work {
        Work {
            tasks: vec![self.task("recharge by weight", self.hours.recharge)],
            refrigerants: vec![self.charge(self.addable())],
            ..Work::default()
        }
    }

    /// What is missing, as far as it can be added.
    fn addable(&self) -> Interval<Mass> {
        Interval::spanning(self.missing.low().max(Mass::ZERO), self.missing.high().max(Mass::ZERO))
    }

    fn charge(&self, mass: Interval<Mass>) -> Charge {
        Charge { designation: self.refrigerant.clone(), mass }
    }

    fn task(&self, what: &str, hours: Interval<Time>) -> Task {
        Task { what: what.into(), role: self.names.role.clone(), band: self.names.band.clone(), hours }
    }
}

fn between(low: f64, high: f64) -> Interval<Time> {
    Interval::spanning(hours(low), hours(high))
}

fn way(name: &str, title: &str, work: Work, words: Words) -> Way {
    Way { name: name.into(), title: title.into(), work, words }
}
