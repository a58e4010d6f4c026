//! An outlook in words: keys and numbers, said by the file of a language.

use super::report::{Forward, Outlook, WayOutlook};
use super::{SearchValue, WhatWouldChange};
use crate::estimate::{BilledUnit, Language, Money, PriceRange, UnitSystem};
use crate::quantity::years;

/// More visits than this are worth a word.
const FEWEST_VISITS: f64 = 0.05;

/// How an outlook is said: in which language and units, with which amounts and names of ways.
pub(in crate::estimate) struct Teller<'a> {
    pub language: Language,
    pub units: UnitSystem,
    pub amount: &'a dyn Fn(Money) -> String,
    pub title: &'a dyn Fn(Forward) -> String,
}

impl Teller<'_> {
    fn say(&self, key: &str, places: &[(&str, &str)]) -> String {
        self.language.outlook(key, places)
    }

    /// What the numbers are, and over how long.
    pub fn lead(&self, outlook: &Outlook) -> String {
        self.say("lead", &[("horizon", &self.horizon(outlook.years()))])
    }

    /// `10 years`.
    pub fn horizon(&self, count: u32) -> String {
        let key = if count == 1 { "year" } else { "years" };
        self.say(key, &[("value", &count.to_string())])
    }

    /// One way in a sentence.
    pub fn way(&self, way: &WayOutlook) -> String {
        let expected = (self.amount)(way.expected.amount());
        let visits = self.visits(way).map_or(String::new(), |visits| format!("; {visits}"));
        let energy = self.energy(way).map_or(String::new(), |energy| format!("; {energy}"));
        let title = (self.title)(way.forward);
        let spread = self.spread(way);
        let line = self.say("way", &[("title", &title), ("expected", &expected), ("spread", &spread)]);
        format!("{line}{visits}{energy}")
    }

    /// Between what nine cases in ten lie.
    pub fn spread(&self, way: &WayOutlook) -> String {
        match way.nine_in_ten {
            range if range.is_exact() => self.say("certain", &[]),
            range => self.say("nine_in_ten", &[("range", &self.range(range))]),
        }
    }

    pub fn range(&self, range: PriceRange) -> String {
        let [low, high] = [range.low(), range.high()].map(|end| (self.amount)(end));
        self.language.visit("to", &[("low", &low), ("high", &high)])
    }

    /// Further visits, where any are to speak of.
    pub fn visits(&self, way: &WayOutlook) -> Option<String> {
        let visits = format!("{:.1}", way.visits);
        (way.visits >= FEWEST_VISITS).then(|| self.say("visits", &[("visits", &visits)]))
    }

    /// What extra energy comes to, where it counts.
    pub fn energy(&self, way: &WayOutlook) -> Option<String> {
        let energy = way.energy.amount();
        (!energy.is_zero()).then(|| self.say("energy", &[("energy", &(self.amount)(energy))]))
    }

    /// What a search is worth.
    pub fn search(&self, search: SearchValue) -> String {
        let key = if search.pays() { "search_pays" } else { "search_does_not_pay" };
        let [information, cost] = [search.information, search.cost].map(|cost| (self.amount)(cost.amount()));
        self.say(key, &[("information", &information), ("cost", &cost)])
    }

    /// What would put the second way before the first.
    pub fn change(&self, change: &WhatWouldChange) -> [String; 2] {
        let [first, second] = [change.between.0, change.between.1].map(|way| (self.title)(way));
        let between =
            |key: &str, leak: &str| self.say(key, &[("first", &first), ("second", &second), ("leak", leak)]);
        let leak = match change.leak {
            Some(leak) => between("change_leak", &self.units.text(leak * years(1.0))),
            None => between("change_no_leak", ""),
        };
        let unit = BilledUnit::from(change.per).symbol();
        let price = match change.refrigerant {
            Some(price) => self.say("change_price", &[("price", &(self.amount)(price)), ("unit", unit)]),
            None => self.say("change_no_price", &[]),
        };
        [leak, price]
    }

    /// What the law says of filling again, wherever that is among what may happen.
    pub fn law(&self, outlook: &Outlook) -> Option<String> {
        let fills = outlook.ways().iter().any(|way| way.visits >= FEWEST_VISITS);
        fills.then(|| self.say("refill_law", &[]))
    }
}

/// In English, with exact amounts and the names that programs use.
pub(super) fn plainly<T>(told: impl FnOnce(&Teller) -> T) -> T {
    told(&Teller {
        language: Language::English,
        units: UnitSystem::Us,
        amount: &|amount| amount.to_string(),
        title: &|way| way.name().to_owned(),
    })
}
