//! What an outlook found.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::cost::{money, number};
use super::flows::{Flows, LONGEST};
use super::node::Payoff;
use super::told::plainly;
use super::tree::Branch;
use super::{Assumption, ExpectedCost, Prospect, SearchValue};
use crate::estimate::{Currency, PriceRange};
use crate::measure::{Generator, Level, Simulation};
use crate::quantity::{fraction, percent};
use crate::{Error, Result};

/// A way forward, by the name it has among [`Situation::ways`](crate::estimate::Situation::ways).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Forward {
    /// Nothing is done.
    #[serde(rename = "leave as is")]
    LeaveAsIs,
    /// Filled now, and again whenever cooling fails.
    #[serde(rename = "recharge")]
    Recharge,
    /// Filled now with a sealant; if it does not hold, filled again whenever cooling fails.
    #[serde(rename = "recharge with sealant and dye")]
    RechargeWithSealant,
    /// Searched; then repaired, or whatever is cheapest by what was found.
    #[serde(rename = "leak search")]
    LeakSearch,
    /// New equipment.
    #[serde(rename = "replace")]
    Replace,
}

impl Forward {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Forward::LeaveAsIs => "leave as is",
            Forward::Recharge => "recharge",
            Forward::RechargeWithSealant => "recharge with sealant and dye",
            Forward::LeakSearch => "leak search",
            Forward::Replace => "replace",
        }
    }
}

impl fmt::Display for Forward {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

/// The expected cost of every way over the horizon, with its spread.
#[derive(Debug, Clone, Serialize)]
pub struct Outlook {
    years: u32,
    ways: Vec<WayOutlook>,
    search: SearchValue,
    assumptions: Vec<Assumption>,
}

/// One way's expected cost over the horizon.
#[derive(Debug, Clone, Serialize)]
pub struct WayOutlook {
    /// Which.
    pub forward: Forward,
    /// The expected cost of the whole horizon, in money of today.
    pub expected: ExpectedCost,
    /// Nine cases in ten cost between these, by simulation.
    pub nine_in_ten: PriceRange,
    /// The expected cost up to the end of each year, today first.
    pub by_year: Vec<ExpectedCost>,
    /// How many visits to fill it again are expected, on average.
    pub visits: f64,
    /// Of the expected cost, what the extra energy of a low charge comes to.
    pub energy: ExpectedCost,
    /// Whether it stands in the ranking: leaving it as it is does only where lost cooling was given a value.
    pub ranked: bool,
}

/// Draws where no other number is asked for: the ends of the spread to about 2 % of it.
const DRAWS: usize = 10_000;

impl Prospect {
    /// What each way is expected to cost.
    ///
    /// # Units
    /// Money of today; years.
    /// # Source
    /// The decision tree is rolled back exactly (H. Raiffa, Decision Analysis (1968), from memory); the spread is drawn
    /// from the same tree (JCGM 101:2008). Extra energy by [`charge_penalty`](crate::fault::charge_penalty).
    /// # Valid range
    /// 1 to 15 years; leaks up to a refill a week. New equipment is taken not to leak, and to fail at most once within the
    /// horizon.
    /// # Accuracy
    /// Exact for the inputs, which are not: most are common practice, no source, until a shop's own records have taught
    /// them. A leak is represented by three rates. The energy of a system that does not cool is not counted.
    /// # Errors
    /// An input outside its range, said of its field; two currencies.
    /// # Example
    /// ```
    /// use kingvalve::estimate::outlook::*;
    /// use kingvalve::estimate::{RateCard, Situation};
    /// use kingvalve::measure::Interval;
    /// use kingvalve::quantity::*;
    /// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
    /// let missing = Interval::new(pounds(4.1), pounds(6.5))?;
    /// let mut situation = Situation::new("R-454B", missing);
    /// situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
    /// let prospect = Prospect {
    ///     years: 5,
    ///     charge: pounds(8.0),
    ///     missing,
    ///     leak: LeakRange::new(pounds_per_year(0.5), pounds_per_year(2.0), pounds_per_year(6.0))?,
    ///     age: years(9.0),
    ///     prices: Prices::from_card(&card, &situation)?,
    ///     chances: Chances::default(),
    ///     habits: Habits::default(),
    ///     energy: None,
    ///     comfort_per_day: None,
    /// };
    /// let outlook = prospect.outlook(1)?;
    /// assert_eq!(outlook.ways().len(), 5);
    /// // Priced, but not ranked: a day without cooling was given no value.
    /// assert!(outlook.ranking().all(|way| way.forward != Forward::LeaveAsIs));
    /// let best = outlook.ranking().next().expect("four ways are ranked");
    /// assert!(outlook.ranking().all(|way| way.expected >= best.expected));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn outlook(&self, seed: u64) -> Result<Outlook> {
        self.outlook_drawn(seed, DRAWS)
    }

    /// The same, its spread from so many draws.
    ///
    /// # Errors
    /// As [`outlook`](Self::outlook).
    pub fn outlook_drawn(&self, seed: u64, draws: usize) -> Result<Outlook> {
        let tree = self.ways()?;
        let ways: Vec<WayOutlook> = tree
            .all
            .iter()
            .map(|(forward, node)| self.seen(*forward, node, Simulation::seeded(seed).draws(draws), seed))
            .collect::<Result<_>>()?;
        let search = self.search_value(&tree)?;
        Ok(Outlook { years: self.years, ways, search, assumptions: self.assumptions() })
    }

    fn seen(&self, forward: Forward, node: &Branch, simulation: Simulation, seed: u64) -> Result<WayOutlook> {
        let currency = self.prices.currency();
        let expected = node.expected();
        let mut random = Generator::seeded(seed);
        let simulated = simulation.run(|_| {
            let drawn = node.draw(&mut random);
            fraction(drawn.cost() + (2.0 * random.uniform() - 1.0) * drawn.half)
        })?;
        let spread = simulated.symmetric(Level::new(percent(90.0))?)?;
        let [low, high] = [spread.low(), spread.high()].map(|end| money(end.fraction().max(0.0), currency));
        Ok(WayOutlook {
            forward,
            expected: ExpectedCost::of(expected.cost(), currency)?,
            nine_in_ten: PriceRange::new(low?, high?)?,
            by_year: self.summed(expected, currency)?,
            visits: expected.visits,
            energy: ExpectedCost::of(expected.energy, currency)?,
            ranked: forward != Forward::LeaveAsIs || self.comfort_per_day.is_some(),
        })
    }

    fn summed(&self, flows: &Flows, currency: Currency) -> Result<Vec<ExpectedCost>> {
        let mut sum = 0.0;
        let years = (self.years as usize).min(LONGEST);
        let each = flows.by_year.iter().take(years + 1).map(|paid| {
            sum += paid;
            ExpectedCost::of(sum, currency)
        });
        each.collect()
    }
}

impl Outlook {
    /// How many years it looks ahead.
    pub fn years(&self) -> u32 {
        self.years
    }

    /// Every way, in the order in which they are offered.
    pub fn ways(&self) -> &[WayOutlook] {
        &self.ways
    }

    /// One way; replacing is there only where it has a price.
    ///
    /// # Errors
    /// A way that is not in this outlook.
    pub fn way(&self, forward: Forward) -> Result<&WayOutlook> {
        let found = self.ways.iter().find(|way| way.forward == forward);
        let known = || self.ways.iter().map(|way| way.forward.name());
        found.ok_or_else(|| Error::unknown("way forward", forward.name(), known()))
    }

    /// The ways that are ranked, least expected cost first.
    pub fn ranking(&self) -> impl Iterator<Item = &WayOutlook> {
        let mut ranked: Vec<&WayOutlook> = self.ways.iter().filter(|way| way.ranked).collect();
        ranked.sort_by(|a, b| number(a.expected.amount()).total_cmp(&number(b.expected.amount())));
        ranked.into_iter()
    }

    /// What searching for the leak is worth.
    pub fn search(&self) -> SearchValue {
        self.search
    }

    /// What it rests on.
    pub fn assumptions(&self) -> &[Assumption] {
        &self.assumptions
    }

    /// The same, resting on something else as well.
    #[must_use]
    pub fn assuming(mut self, more: impl IntoIterator<Item = Assumption>) -> Self {
        self.assumptions.extend(more);
        self
    }
}

/// A line for each way, best first; then what stands outside the ranking, the search, and what it rests on.
impl fmt::Display for Outlook {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        plainly(|told| {
            writeln!(f, "{}", told.lead(self))?;
            for way in self.ranking() {
                writeln!(f, "- {way}")?;
            }
            for way in self.ways.iter().filter(|way| !way.ranked) {
                writeln!(f, "- {}: {way}", told.language.outlook("not_ranked", &[]))?;
            }
            writeln!(f, "{}", self.search)?;
            if let Some(law) = told.law(self) {
                writeln!(f, "{law}")?;
            }
            write!(f, "{}:", told.language.outlook("rests_on", &[]))?;
            self.assumptions.iter().try_for_each(|assumption| write!(f, "\n- {assumption}"))
        })
    }
}

impl fmt::Display for WayOutlook {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&plainly(|told| told.way(self)))
    }
}
