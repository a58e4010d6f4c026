//! What an outlook rests on: names and values. Their words stand in the files of the languages.

use std::fmt;

use serde::Serialize;

use super::{Chance, Chances, Habits, LeakRange, Prospect};
use crate::estimate::{Language, Money, PriceRange, UnitSystem};
use crate::quantity::{Ratio, Time, years};

/// One input of an outlook with what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Assumption {
    /// What it is, by name: `sealant_holds`.
    pub what: &'static str,
    /// What it is taken to be.
    pub value: Assumed,
    /// How many of the shop's own records are in it.
    pub records: u64,
    /// What it rests on.
    pub basis: Basis,
}

/// What an assumption is taken to be.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Assumed {
    /// A chance, known to whole percents at best.
    Chance(Ratio),
    /// A share or a rate.
    Share(Ratio),
    /// A count.
    Count(f64),
    /// A time.
    Time(Time),
    /// How fast it leaks.
    Leak(LeakRange),
    /// An amount.
    Amount(Money),
    /// An amount that is not known to the cent.
    Price(PriceRange),
    /// Where leaks are: reachable, at the indoor coil, in the outdoor unit.
    Places([Ratio; 3]),
    /// Only words say it.
    Words,
}

/// What an assumption rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Basis {
    /// A belief taught by the shop's own records.
    Records,
    /// It was given.
    Given,
    /// The default: common practice, no source.
    CommonPractice,
    /// OpenStudio-HPXML installation-quality regressions (NIST TN 1848, from memory).
    Regressions,
    /// No price of new equipment was given.
    NoPrice,
}

impl Basis {
    /// Every one, the firmest first.
    pub const ALL: [Basis; 5] =
        [Basis::Records, Basis::Given, Basis::CommonPractice, Basis::Regressions, Basis::NoPrice];

    /// Its name, as in JSON.
    pub const fn name(self) -> &'static str {
        match self {
            Basis::Records => "records",
            Basis::Given => "given",
            Basis::CommonPractice => "common_practice",
            Basis::Regressions => "regressions",
            Basis::NoPrice => "no_price",
        }
    }
}

impl Assumption {
    /// A belief or a habit: the default or one that was set, perhaps taught by records since.
    fn of(what: &'static str, value: Assumed, is_default: bool, records: u64) -> Assumption {
        let basis = match records {
            0 if is_default => Basis::CommonPractice,
            0 => Basis::Given,
            _ => Basis::Records,
        };
        Assumption { what, value, records, basis }
    }

    /// What it is, in words.
    pub fn label(&self, language: Language) -> String {
        language.outlook(&format!("assume_{}", self.what), &[])
    }

    /// What it is taken to be, in words and units.
    pub fn value(&self, language: Language, units: UnitSystem) -> String {
        let one = |key: &str, value: String| language.outlook(key, &[("value", &value)]);
        match &self.value {
            Assumed::Chance(chance) => format!("{chance:.0}"),
            Assumed::Share(share) => format!("{share:.1}").replace(".0 ", " "),
            Assumed::Count(count) => count.to_string(),
            Assumed::Time(time) => one("years", format!("{:.0}", time.years())),
            Assumed::Leak(leak) => leak.told(language, units),
            Assumed::Amount(amount) => amount.to_string(),
            Assumed::Price(range) => range.to_string(),
            Assumed::Places(places) => {
                let [reachable, indoor, outdoor] = places.map(|share| format!("{share:.0}"));
                let places = [("reachable", &*reachable), ("indoor", &*indoor), ("outdoor", &*outdoor)];
                language.outlook("places", &places)
            }
            Assumed::Words => language.outlook(&format!("said_{}", self.what), &[]),
        }
    }

    /// What it rests on, in words.
    pub fn rests_on(&self, language: Language) -> String {
        let records = self.records.to_string();
        let key =
            if self.records == 1 { "basis_record".into() } else { format!("basis_{}", self.basis.name()) };
        language.outlook(&key, &[("records", &records)])
    }
}

/// The age that equipment is taken to have where it is not given: common practice, no source.
pub(crate) fn usual_age() -> Time {
    years(10.0)
}

impl Prospect {
    /// Every belief, habit and rate with its value, the number of records behind it, and what it rests on.
    pub fn assumptions(&self) -> Vec<Assumption> {
        let (chances, habits) = (&self.chances, &self.habits);
        let (usual, usually) = (Chances::default(), Habits::default());
        let chance = |what, chance: Chance, usual: Chance| {
            Assumption::of(what, Assumed::Chance(chance.mean()), chance == usual, chance.records())
        };
        let aging = chances.aging;
        let life = if aging.can_fail() { Assumed::Time(aging.typical_life()) } else { Assumed::Words };
        let places = Assumed::Places(chances.places.means());
        let habit = |what, value, is_default| Assumption::of(what, value, is_default, 0);
        let share = |what, value: Ratio, usual: Ratio| habit(what, Assumed::Share(value), value == usual);
        let count = |what, value: f64, usual: f64| habit(what, Assumed::Count(value), value == usual);
        let usual_leak = LeakRange::usual(self.charge).is_ok_and(|usual| usual == self.leak);
        let mut all = vec![
            habit("leak", Assumed::Leak(self.leak), usual_leak),
            habit("age", Assumed::Time(self.age), self.age == usual_age()),
            chance("sealant_holds", chances.sealant_holds, usual.sealant_holds),
            chance("found_in_an_hour", chances.found_in_an_hour, usual.found_in_an_hour),
            Assumption::of("places", places, chances.places == usual.places, chances.places.records),
            chance("repair_holds", chances.repair_holds, usual.repair_holds),
            Assumption::of("life", life, aging == usual.aging, aging.records()),
            share("called_at", habits.called_at, usually.called_at),
            count("search_hours", f64::from(habits.search_hours), f64::from(usually.search_hours)),
            share("refrigerant_trend", habits.refrigerant_trend, usually.refrigerant_trend),
            share("discount", habits.discount, usually.discount),
        ];
        if let Some(comfort) = self.comfort_per_day {
            all.push(habit("comfort_per_day", Assumed::Amount(comfort), false));
            all.push(count("days_waiting", habits.days_waiting, usually.days_waiting));
            all.push(count("cooling_days", habits.cooling_days, usually.cooling_days));
        }
        let words = |what, basis| Assumption { what, value: Assumed::Words, records: 0, basis };
        if self.energy.is_some() {
            all.push(words("extra_energy", Basis::Regressions));
        }
        if self.prices.replacement.is_none() {
            all.push(words("no_failures", Basis::NoPrice));
        }
        all
    }
}

impl fmt::Display for Assumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let language = Language::English;
        let value = self.value(language, UnitSystem::Us);
        write!(f, "{}: {value} ({})", self.label(language), self.rests_on(language))
    }
}
