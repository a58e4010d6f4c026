//! What an outlook rests on, in words.

use std::fmt;

use serde::Serialize;

use super::{Chance, Chances, Habits, Prospect};
use crate::quantity::Ratio;

/// One input of an outlook with what it rests on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Assumption {
    /// What it is.
    pub what: String,
    /// What it is taken to be.
    pub value: String,
    /// How many of the shop's own records are in it.
    pub records: u64,
    /// What it rests on.
    pub basis: String,
}

impl Assumption {
    /// A belief, or a habit, that is the default or was set, and then perhaps taught by records.
    fn of(what: &str, value: String, is_default: bool, records: u64) -> Assumption {
        let basis = match records {
            0 if is_default => "common practice, no source".into(),
            0 => "as given, no records".into(),
            1 => "a belief taught by 1 record of the shop".into(),
            n => format!("a belief taught by {n} records of the shop"),
        };
        Assumption { what: what.into(), value, records, basis }
    }
}

impl Prospect {
    /// Every chance and habit with its value, the number of records behind it, and what it rests on.
    pub fn assumptions(&self) -> Vec<Assumption> {
        let (chances, habits) = (&self.chances, &self.habits);
        let (usual, usually) = (Chances::default(), Habits::default());
        let chance = |what, chance: Chance, usual: Chance| {
            Assumption::of(what, format!("{:.0}", chance.mean()), chance == usual, chance.records())
        };
        let [reachable, indoor, outdoor] = chances.places.means();
        let places = format!("reachable {reachable:.0}, indoor coil {indoor:.0}, outdoor unit {outdoor:.0}");
        let aging = chances.aging;
        let life = if aging.can_fail() {
            format!("{:.1} years", aging.typical_life().years())
        } else {
            "taken not to fail".into()
        };
        let habit = |what, value: String, is_default| Assumption::of(what, value, is_default, 0);
        let share = |what, value: Ratio, usual: Ratio| habit(what, format!("{value:.1}"), value == usual);
        let number = |what, value: f64, usual: f64| habit(what, value.to_string(), value == usual);
        let mut all = vec![
            chance("a sealant holds", chances.sealant_holds, usual.sealant_holds),
            chance("an hour of searching finds the leak", chances.found_in_an_hour, usual.found_in_an_hour),
            Assumption::of("where leaks are", places, chances.places == usual.places, chances.places.records),
            chance("a repair holds", chances.repair_holds, usual.repair_holds),
            Assumption::of("typical life of equipment", life, aging == usual.aging, aging.records()),
            share("charge missing when cooling fails", habits.called_at, usually.called_at),
            number("hours searched at most", f64::from(habits.search_hours), f64::from(usually.search_hours)),
            share(
                "rise of the refrigerant's price, yearly, above other prices",
                habits.refrigerant_trend,
                usually.refrigerant_trend,
            ),
            share("discount rate, yearly", habits.discount, usually.discount),
        ];
        if self.comfort_per_day.is_some() {
            all.push(number("days without cooling at a call", habits.days_waiting, usually.days_waiting));
            all.push(number("days a year that want cooling", habits.cooling_days, usually.cooling_days));
        }
        if self.energy.is_some() {
            all.push(Assumption {
                what: "extra energy of a low charge".into(),
                value: "at one indoor and one outdoor temperature".into(),
                records: 0,
                basis: "OpenStudio-HPXML installation-quality regressions (NIST TN 1848, from memory)".into(),
            });
        }
        if self.prices.replacement.is_none() {
            all.push(Assumption {
                what: "failure of the equipment".into(),
                value: "left out".into(),
                records: 0,
                basis: "no price of new equipment was given".into(),
            });
        }
        all
    }
}

impl fmt::Display for Assumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {} ({})", self.what, self.value, self.basis)
    }
}
