//! The ways forward from a system that is short of refrigerant.

mod shop;

use serde::{Deserialize, Serialize};

pub use shop::{Addition, After, ShopWay};

use super::price::REGULAR;
use super::{Charge, Item, Language, RateCard, Task, UnitSystem, Way, Work};
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
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Situation {
    /// The refrigerant's designation on the rate card.
    pub refrigerant: String,
    /// How much of it is missing. An end below nothing counts as nothing.
    pub missing: Interval<Mass>,
    /// The replacement on the rate card that fits this system; without one there is no fifth way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub replacement: Option<String>,
    /// The coil on the rate card that fits; without one its replacement is not offered once a leak is found there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub coil: Option<String>,
    /// The outdoor unit on the rate card that fits; without one its replacement is not offered once a leak is found there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outdoor_unit: Option<String>,
    /// How long each work takes.
    #[serde(default)]
    pub hours: WorkHours,
    /// What the rate card calls what the ways ask for.
    #[serde(default)]
    pub names: CardNames,
    /// The language of titles and words.
    #[serde(default)]
    pub language: Language,
    /// The units of the words.
    #[serde(default)]
    pub units: UnitSystem,
}

/// How long each work takes in this shop.
///
/// # Source
/// The default values are common practice, no source: a shop replaces them by its own records.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
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
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
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
        Self {
            refrigerant: refrigerant.into(),
            missing,
            replacement: None,
            coil: None,
            outdoor_unit: None,
            hours: WorkHours::default(),
            names: CardNames::default(),
            language: Language::default(),
            units: UnitSystem::default(),
        }
    }

    /// The five ways, in the order in which they are offered; four where no replacement is named.
    pub fn ways(&self) -> Vec<Way> {
        let four = [self.leave_as_is(), self.recharge(), self.recharge_with_sealant(), self.leak_search()];
        four.into_iter().chain(self.replace()).collect()
    }

    /// Leave it as it is: the trip and the diagnosis, which are done.
    pub fn leave_as_is(&self) -> Way {
        self.way("leave as is", self.done_already())
    }

    /// Weigh in what is missing.
    pub fn recharge(&self) -> Way {
        self.way("recharge", self.done_already().and(self.weighed_in()))
    }

    /// Weigh in what is missing, with a sealant for small leaks and a dye that shows where they are.
    pub fn recharge_with_sealant(&self) -> Way {
        let sealant = Work {
            tasks: vec![self.task("sealant", self.hours.sealant_and_dye)],
            materials: vec![Item::one(&self.names.sealant_and_dye)],
            ..Work::default()
        };
        self.way("recharge with sealant and dye", self.recharge().work.and(sealant))
    }

    /// Search for the leak on time and material, and repair it where it can be reached.
    ///
    /// The low end is the search alone: it may end at a leak that needs a price of its own.
    pub fn leak_search(&self) -> Way {
        let repair = Interval::spanning(Time::ZERO, self.hours.leak_repair.high());
        let refill = Interval::spanning(Mass::ZERO, self.addable().high());
        let as_found = Work {
            tasks: vec![self.task("search", self.hours.leak_search), self.task("repair as found", repair)],
            refrigerants: vec![self.charge(refill)],
            materials: vec![Item::perhaps(&self.names.filter_drier)],
            fees: vec![Item::perhaps(&self.names.recovery)],
            ..Work::default()
        };
        self.way("leak search", self.done_already().and(as_found))
    }

    /// Replace the equipment, if the situation names a replacement.
    pub fn replace(&self) -> Option<Way> {
        let replacement = self.replacement.as_ref()?;
        let new = Work {
            fees: vec![Item::one(&self.names.recovery), Item::one(&self.names.disposal)],
            replacements: vec![Item::one(replacement)],
            ..Work::default()
        };
        Some(self.way("replace", self.done_already().and(new)))
    }

    /// The ways once the leak is found: repair it, and replace the coil or the outdoor unit where one is named.
    ///
    /// The trip and the search are on the way that found it, so neither is on these. What is recovered is the customer's and
    /// goes back; what is missing besides is weighed in.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::{RateCard, Situation};
    /// use kingvalve::measure::Interval;
    /// use kingvalve::quantity::pounds;
    /// # let card = RateCard::from_json(include_str!("../../../../examples/data/rate_card.json"))?;
    /// let mut situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?);
    /// situation.coil = Some("indoor coil, 3 tons".into());
    /// let found = situation.once_found();
    /// assert_eq!((found[0].name.as_str(), found[1].name.as_str()), ("repair the leak", "replace the coil"));
    /// assert_eq!(found[0].price(&card)?.total().to_string(), "773.03–1196.02 USD");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn once_found(&self) -> Vec<Way> {
        let opened = || Work {
            fees: vec![Item::one(&self.names.recovery)],
            materials: vec![Item::one(&self.names.filter_drier)],
            refrigerants: vec![self.charge(self.addable())],
            ..Work::default()
        };
        let repair = Work { tasks: vec![self.task("repair", self.hours.leak_repair)], ..opened() };
        let new = |name: &'static str, part: &Option<String>, fees: Vec<Item>| {
            let replacements = vec![Item::one(part.as_ref()?)];
            Some(self.way(name, opened().and(Work { fees, replacements, ..Work::default() })))
        };
        let away = vec![Item::one(&self.names.disposal)];
        let coil = new("replace the coil", &self.coil, away.clone());
        let outdoor = new("replace the outdoor unit", &self.outdoor_unit, away);
        [Some(self.way("repair the leak", repair)), coil, outdoor].into_iter().flatten().collect()
    }

    /// The ways with the shop's own after them.
    pub fn ways_of(&self, card: &RateCard) -> Vec<Way> {
        let mut ways = self.ways();
        ways.extend(self.shop_ways(card));
        ways
    }

    /// A built-in way, its title and words in the situation's language.
    fn way(&self, name: &str, work: Work) -> Way {
        let mass = self.units.range(self.addable(), self.language);
        let (title, words) = self.language.way(name, &[("mass", &mass)]);
        Way { name: name.into(), title, work, words }
    }

    /// The trip and the diagnosis: every way starts after them.
    fn done_already(&self) -> Work {
        let fees = [&self.names.trip, &self.names.diagnosis].map(Item::one);
        Work { fees: fees.into(), ..Work::default() }
    }

    fn weighed_in(&self) -> Work {
        Work {
            tasks: vec![self.task("recharge", self.hours.recharge)],
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
        Task {
            what: self.language.task(what),
            role: self.names.role.clone(),
            band: self.names.band.clone(),
            hours,
        }
    }
}

fn between(low: f64, high: f64) -> Interval<Time> {
    Interval::spanning(hours(low), hours(high))
}
