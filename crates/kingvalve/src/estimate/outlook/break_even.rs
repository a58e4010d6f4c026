//! What would change the ranking.

use std::fmt;

use serde::Serialize;

use super::cost::{money, number};
use super::node::Payoff;
use super::report::{Forward, Outlook};
use super::told::plainly;
use super::tree::Ways;
use super::{ExpectedCost, LeakRange, Prospect};
use crate::estimate::{Currency, Decimal, Money, WeightUnit};
use crate::quantity::{MassFlow, kilograms_per_year};
use crate::{Error, Result};

/// What searching for the leak is worth.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SearchValue {
    /// How much less the future would cost on average, were the search free: choosing by what it finds, against the
    /// cheapest way without it.
    pub information: ExpectedCost,
    /// What the search costs on average.
    pub cost: ExpectedCost,
}

impl SearchValue {
    /// Whether it is expected to bring more than it costs.
    pub fn pays(self) -> bool {
        self.information > self.cost
    }
}

impl fmt::Display for SearchValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&plainly(|told| told.search(*self)))
    }
}

/// What would put the second of two ways before the first.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct WhatWouldChange {
    /// The cheapest way by expectation, and the one after it.
    pub between: (Forward, Forward),
    /// The lowest leak rate, were it known, at which their order changes.
    pub leak: Option<MassFlow>,
    /// The price of a unit of refrigerant at which they cost the same.
    pub refrigerant: Option<Money>,
    /// The unit.
    pub per: WeightUnit,
}

impl fmt::Display for WhatWouldChange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&plainly(|told| told.change(self)).join(" "))
    }
}

/// Steps in which a range is looked through for a change of order, and halvings of the step in which one lies.
const STEPS: u32 = 60;
const HALVINGS: u32 = 40;
/// Prices of refrigerant are looked through up to so many times today's.
const DEAREST: f64 = 20.0;

impl Prospect {
    pub(super) fn search_value(&self, ways: &Ways) -> Result<SearchValue> {
        let currency = self.prices.currency();
        let cost_of = |forward| {
            let way = ways.all.iter().find(|(way, _)| *way == forward);
            way.map_or(f64::INFINITY, |(_, node)| node.expected().cost())
        };
        let without = [Forward::Recharge, Forward::RechargeWithSealant, Forward::Replace]
            .map(cost_of)
            .into_iter()
            .fold(f64::INFINITY, f64::min);
        let free = ways.searched_free.expected().cost();
        Ok(SearchValue {
            information: ExpectedCost::of((without - free).max(0.0), currency)?,
            cost: ExpectedCost::of((cost_of(Forward::LeakSearch) - free).max(0.0), currency)?,
        })
    }

    /// The lowest leak rate, were it known, from which on the dearer of two ways becomes the cheaper; none where the order
    /// never changes up to a refill a week.
    ///
    /// # Units
    /// Mass per time.
    /// # Source
    /// Definition: expected costs are equal.
    /// # Valid range
    /// From no leak to a refill a week.
    /// # Accuracy
    /// Expected costs jump where one more visit falls within the horizon: the rate is that at which the order changes,
    /// found to one part in a million million; of several changes close together (within a tenth of the rate) one may be
    /// passed over.
    /// # Errors
    /// As [`outlook`](Self::outlook); a replacement that has no price.
    /// # Example
    /// See [`break_even_refrigerant`](Self::break_even_refrigerant).
    pub fn break_even_leak(&self, one: Forward, other: Forward) -> Result<Option<MassFlow>> {
        let fastest = self.setting()?.fastest() * (1.0 - 1e-9);
        let at = |rate: f64| {
            let leak = LeakRange::exactly(kilograms_per_year(rate))?;
            Prospect { leak, ..self.clone() }.difference(one, other)
        };
        // From a thousandth of the fastest on by equal ratios, since leaks span orders of magnitude.
        let rate = |step: u32| match step {
            0 => 0.0,
            _ => fastest * 1e-4f64.powf(1.0 - f64::from(step - 1) / f64::from(STEPS - 1)),
        };
        Ok(crossing(at, rate)?.map(kilograms_per_year))
    }

    /// The price of a unit of refrigerant at which two ways cost the same on average; none where the order is the same from
    /// nothing to twenty times today's price.
    ///
    /// # Units
    /// Money for one unit of the prices' own.
    /// # Source
    /// Definition: expected costs are equal.
    /// # Valid range
    /// Up to twenty times today's price.
    /// # Accuracy
    /// To the minor unit.
    /// # Errors
    /// As [`outlook`](Self::outlook); a replacement that has no price.
    /// # Example
    /// ```
    /// use kingvalve::estimate::outlook::*;
    /// use kingvalve::estimate::{PriceRange, WeightUnit};
    /// use kingvalve::measure::Interval;
    /// use kingvalve::quantity::*;
    /// let usd = |amount: &str| amount.parse().and_then(PriceRange::exact);
    /// let prospect = Prospect {
    ///     years: 10,
    ///     charge: pounds(8.0),
    ///     missing: Interval::exactly(pounds(4.0))?,
    ///     leak: LeakRange::exactly(pounds_per_year(2.0))?,
    ///     age: years(9.0),
    ///     prices: Prices {
    ///         called: usd("120 USD")?,
    ///         recharge: usd("200 USD")?,
    ///         refrigerant: "60 USD".parse()?,
    ///         per: WeightUnit::Pound,
    ///         sealant: usd("150 USD")?,
    ///         search_hour: "145 USD".parse()?,
    ///         repair: PlacePrices {
    ///             reachable: usd("500 USD")?,
    ///             indoor_coil: usd("1900 USD")?,
    ///             outdoor_unit: usd("3000 USD")?,
    ///         },
    ///         replacement: Some(usd("9000 USD")?),
    ///     },
    ///     chances: Chances { aging: Aging::never(), ..Chances::default() },
    ///     habits: Habits::default(),
    ///     energy: None,
    ///     comfort_per_day: None,
    /// };
    /// let leak = prospect.break_even_leak(Forward::Recharge, Forward::Replace)?.expect("they change order");
    /// assert!(leak > pounds_per_year(2.0)); // at today's leak filling it up is cheaper
    /// let price = prospect.break_even_refrigerant(Forward::Recharge, Forward::Replace)?.expect("likewise");
    /// assert!(price > "60 USD".parse()?);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn break_even_refrigerant(&self, one: Forward, other: Forward) -> Result<Option<Money>> {
        let currency = self.prices.currency();
        let today = number(self.prices.refrigerant);
        let at = |price: f64| {
            let mut dearer = self.clone();
            dearer.prices.refrigerant = fine(price, currency)?;
            dearer.difference(one, other)
        };
        let price = |step: u32| DEAREST * today * f64::from(step) / f64::from(STEPS);
        crossing(at, price)?.map(|price| money(price, currency)).transpose()
    }

    /// What would change the order of the two ways that come first.
    ///
    /// # Units
    /// Mass per time; money for one unit of the prices' own.
    /// # Source
    /// [`break_even_leak`](Self::break_even_leak) and [`break_even_refrigerant`](Self::break_even_refrigerant).
    /// # Valid range
    /// As those.
    /// # Accuracy
    /// As those.
    /// # Errors
    /// As those; an outlook in which fewer than two ways are ranked.
    /// # Example
    /// ```
    /// # use kingvalve::estimate::{RateCard, Situation};
    /// # use kingvalve::estimate::outlook::*;
    /// # use kingvalve::measure::Interval;
    /// # use kingvalve::quantity::*;
    /// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
    /// # let missing = Interval::new(pounds(4.1), pounds(6.5))?;
    /// # let mut situation = Situation::new("R-454B", missing);
    /// # situation.replacement = Some("outdoor unit and indoor coil, 3 tons".into());
    /// # let prospect = Prospect {
    /// #     years: 5, charge: pounds(8.0), missing,
    /// #     leak: LeakRange::new(pounds_per_year(0.5), pounds_per_year(2.0), pounds_per_year(6.0))?,
    /// #     age: years(9.0),
    /// #     prices: Prices::from_card(&card, &situation)?,
    /// #     chances: Chances::default(), habits: Habits::default(), energy: None, comfort_per_day: None,
    /// # };
    /// let outlook = prospect.outlook(1)?; // as in the example there
    /// let change = prospect.what_would_change(&outlook)?;
    /// let first: Vec<_> = outlook.ranking().take(2).map(|way| way.forward).collect();
    /// assert_eq!(vec![change.between.0, change.between.1], first);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn what_would_change(&self, outlook: &Outlook) -> Result<WhatWouldChange> {
        let mut ranking = outlook.ranking().map(|way| way.forward);
        let (Some(one), Some(other)) = (ranking.next(), ranking.next()) else {
            let why = "fewer than two ways are ranked";
            return Err(Error::inconsistent("outlook", why, "nothing can change their order"));
        };
        Ok(WhatWouldChange {
            between: (one, other),
            leak: self.break_even_leak(one, other)?,
            refrigerant: self.break_even_refrigerant(one, other)?,
            per: self.prices.per,
        })
    }

    /// How much more one way costs on average than the other.
    fn difference(&self, one: Forward, other: Forward) -> Result<f64> {
        let ways = self.ways()?;
        let cost = |forward: Forward| {
            let way = ways.all.iter().find(|(way, _)| *way == forward);
            way.map(|(_, node)| node.expected().cost()).ok_or_else(|| {
                Error::inconsistent(forward.name(), "it has no price", "give the price of new equipment")
            })
        };
        Ok(cost(one)? - cost(other)?)
    }
}

/// The first place of a range, walked in steps, at which the sign changes.
fn crossing(at: impl Fn(f64) -> Result<f64>, place: impl Fn(u32) -> f64) -> Result<Option<f64>> {
    let mut low = place(0);
    let sign = at(low)?;
    for step in 1..=STEPS {
        let mut high = place(step);
        if at(high)? * sign < 0.0 {
            for _ in 0..HALVINGS {
                let middle = 0.5 * (low + high);
                if at(middle)? * sign < 0.0 { high = middle } else { low = middle }
            }
            return Ok(Some(high));
        }
        low = high;
    }
    Ok(None)
}

/// A price finer than the minor unit, so that halving goes on.
fn fine(price: f64, currency: Currency) -> Result<Money> {
    let decimal = Decimal::from_f64_retain(price).unwrap_or_default();
    Money::new(decimal.round_dp(8), currency)
}
