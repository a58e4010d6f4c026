//! The likely part of a price range, simulated.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Currency, Decimal, Item, Money, Percent, PriceRange, RateCard, Way, Work, price};
use crate::measure::{Generator, Interval};
use crate::quantity::Quantity;
use crate::{Error, Result};

/// Where a price likely falls within its range, found by pricing the way many times over.
///
/// # Example
/// See [`Way::likely`].
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LikelyPrice {
    /// As many in a hundred lie in it.
    pub level: Percent,
    /// From which to which amount: two of the amounts drawn.
    pub range: PriceRange,
    /// How often the way was priced.
    pub draws: u32,
    /// The seed of the draws.
    pub seed: u64,
}

/// Percent of the draws between the ends.
const LEVEL: u32 = 90;
/// Fewer draws leave too little beyond a 5 % quantile.
const FEWEST: u32 = 100;
/// More take seconds and move nothing.
const MOST: u32 = 1_000_000;
/// Parts of a price range that a draw chooses among.
const PARTS: u32 = 10_000;

impl Way {
    /// The central 90 % of the way's price, where every quantity falls anywhere in its range alike and apart from the others.
    ///
    /// The range of [`price`](Self::price) has every quantity at its end, which seldom happens together: this one is
    /// narrower. Each draw is billed as a price would be: by started steps, with discounts and taxes, in decimals.
    ///
    /// # Units
    /// The currency of the card.
    ///
    /// # Source
    /// A quantity of which only limits are known is uniform between them: JCGM 101:2008, 6.4.2. That the quantities do
    /// not depend on one another is an assumption. Generator: [`Generator`].
    ///
    /// # Valid range
    /// 100 to 1 000 000 draws.
    ///
    /// # Accuracy
    /// Of the probability between the ends, ± 0.02 at 1000 draws (two standard deviations of a binomial share).
    ///
    /// # Errors
    /// As for [`price`](Self::price); a number of draws out of range.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::{RateCard, Situation};
    /// use kingvalve::measure::Interval;
    /// use kingvalve::quantity::pounds;
    /// # let card = RateCard::from_json(include_str!("../../../../examples/data/rate_card.json"))?;
    /// let recharge = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?).recharge();
    /// let (range, likely) = (recharge.price(&card)?.total(), recharge.likely(&card, 1000, 1)?.range);
    /// assert!(range.low() < likely.low() && likely.high() < range.high());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn likely(&self, card: &RateCard, draws: u32, seed: u64) -> Result<LikelyPrice> {
        if !(FEWEST..=MOST).contains(&draws) {
            let limit = format!("{FEWEST} to {MOST}");
            return Err(Error::out_of_range("number of draws", draws, limit, "1000 is plenty for a sheet"));
        }
        card.validate().map_err(|error| error.in_field("rate_card"))?;
        let mut generator = Generator::seeded(seed);
        let mut drawn_card = card.clone();
        let mut totals = Vec::with_capacity(draws as usize);
        for _ in 0..draws {
            let work = drawn(&self.work, &mut generator)?;
            for item in &work.replacements {
                let exact = part(card.replacement(&item.name)?, card, &mut generator)?;
                drawn_card.replacements.insert(item.name.clone(), exact);
            }
            totals.push(price::total(&work, &drawn_card)?.low());
        }
        let range = central(totals, card.currency)?;
        Ok(LikelyPrice { level: Percent::new(Decimal::from(LEVEL))?, range, draws, seed })
    }
}

/// Work of which every quantity is known: one of those that can happen.
fn drawn(work: &Work, generator: &mut Generator) -> Result<Work> {
    let mut drawn = work.clone();
    for task in &mut drawn.tasks {
        task.hours = within(task.hours, generator)?;
    }
    for charge in &mut drawn.refrigerants {
        charge.mass = within(charge.mass, generator)?;
    }
    for items in [&mut drawn.fees, &mut drawn.materials, &mut drawn.replacements] {
        items.iter_mut().for_each(|item| *item = count(item, generator));
    }
    Ok(drawn)
}

fn within<Q: Quantity>(interval: Interval<Q>, generator: &mut Generator) -> Result<Interval<Q>> {
    let (low, high) = (interval.low().base(), interval.high().base());
    let drawn = Q::from_base(low + (high - low) * generator.uniform());
    Interval::exactly(drawn)
}

/// Every count from least to most alike.
fn count(item: &Item, generator: &mut Generator) -> Item {
    let counts = f64::from(item.most.saturating_sub(item.least)) + 1.0;
    let count =
        item.least + ((counts * generator.uniform()) as u32).min(item.most.saturating_sub(item.least));
    Item { name: item.name.clone(), least: count, most: count }
}

/// A price within a range, in whole parts of it, so that it is decimal from the start.
fn part(range: PriceRange, card: &RateCard, generator: &mut Generator) -> Result<PriceRange> {
    let parts = (f64::from(PARTS + 1) * generator.uniform()) as u32;
    let width = range.high().minus(range.low())?;
    let more = width.share(Decimal::from(parts.min(PARTS)), Decimal::from(PARTS), card.rounding)?;
    PriceRange::exact(range.low().plus(more)?)
}

/// The amounts that leave 5 % of the draws below and 5 % above.
fn central(totals: Vec<Money>, currency: Currency) -> Result<PriceRange> {
    let mut amounts: Vec<Decimal> = totals.into_iter().map(Money::amount).collect();
    amounts.sort_unstable();
    let beyond = amounts.len() / 20;
    let at = |index: usize| Money::new(amounts.get(index).copied().unwrap_or_default(), currency);
    PriceRange::new(at(beyond)?, at(amounts.len().saturating_sub(beyond + 1))?)
}
