//! The refrigerant ledger: what many visits put in and took out, per shop and per site.

use std::collections::BTreeMap;
use std::ops::AddAssign;

use serde::Serialize;

use super::Evaluation;
use super::shrinkage::{Shrinkage, Stock};
use crate::charge::forecast::{Day, annualized_leak_rate, rolling_leak_rate};
use crate::measure::Measured;
use crate::quantity::{Mass, Ratio};
use crate::refrigerant::{Assessment, Refrigerant};
use crate::{Error, Result};

/// What visits put in and took out, added up one visit at a time.
///
/// # Units
/// Mass.
///
/// # Source
/// Sums. Leak rates: [`annualized_leak_rate`], [`rolling_leak_rate`]. Warming potentials: [`Refrigerant::gwp`].
///
/// # Valid range
/// Any number of visits; memory grows with sites and additions, not with readings.
///
/// # Accuracy
/// Doubts are added up as if every weight were off the same way, which one scale's error is: never too small.
///
/// # Errors
/// A leak rate of a site whose full charge is not known is left out, not guessed.
///
/// # Example
/// ```
/// use kingvalve::visit::{Ledger, Visit};
/// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
/// let mut ledger = Ledger::default();
/// ledger.add(&Visit::from_json(text)?.evaluate()?);
/// assert_eq!(format!("{:.2}", ledger.flow("R-454B").unwrap().charged.mass), "6.35 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Default, Serialize)]
pub struct Ledger {
    visits: u64,
    refrigerants: BTreeMap<String, Flow>,
    sites: BTreeMap<String, BTreeMap<String, SiteFlow>>,
}

/// What went in and what came out of one refrigerant.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Flow {
    /// Put into systems.
    pub charged: Amount,
    /// Taken out of systems.
    pub recovered: Amount,
}

/// A mass, and its standard doubt as if every weight were off the same way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Amount {
    /// So much.
    pub mass: Mass,
    /// Its standard uncertainty.
    pub doubt: Mass,
}

impl Default for Amount {
    fn default() -> Self {
        Self { mass: Mass::ZERO, doubt: Mass::ZERO }
    }
}

impl AddAssign<&Measured<Mass>> for Amount {
    fn add_assign(&mut self, more: &Measured<Mass>) {
        self.mass += more.value();
        self.doubt += more.standard_uncertainty();
    }
}

/// What went into and came out of the systems of one site.
#[derive(Debug, Clone, Default, Serialize)]
pub struct SiteFlow {
    /// What went in and what came out.
    pub flow: Flow,
    /// What the system should hold, by the last visit that said so.
    pub full_charge: Option<Mass>,
    #[serde(skip)]
    additions: Vec<(Day, Mass)>,
}

/// A site's leak rate by both methods of the regulation, in percent of the full charge a year.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SiteLeakRate {
    /// The last addition ÷ full charge, over the shorter of the days since the addition before it and 365, per 365 days;
    /// none where there was only one addition.
    pub annualizing: Option<Ratio>,
    /// All additions of the 365 days up to the last one ÷ full charge.
    pub rolling: Ratio,
}

impl Ledger {
    /// Adds a visit: what it charged and recovered, under its refrigerant and its site.
    pub fn add(&mut self, visit: &Evaluation) {
        self.visits += 1;
        let (record, results) = (visit.record(), visit.results());
        let designation = visit.refrigerant.designation();
        let charged = results.charged.as_ref().map(|charged| &charged.total);
        let recovered = results.recovered.as_ref();
        let site = self.sites.entry(record.site_name().to_owned()).or_default();
        let site = site.entry(designation.to_owned()).or_default();
        site.full_charge = Some(results.charge_due);
        let whole = self.refrigerants.entry(designation.to_owned()).or_default();
        for flow in [&mut site.flow, whole] {
            charged.into_iter().for_each(|charged| flow.charged += charged);
            recovered.into_iter().for_each(|recovered| flow.recovered += recovered);
        }
        if let (Some(charged), Some(day)) = (charged, date(&record.date)) {
            site.additions.push((day, charged.value()));
        }
    }

    /// How many visits were added.
    pub fn visits(&self) -> u64 {
        self.visits
    }

    /// What went in and came out of one refrigerant over the shop.
    pub fn flow(&self, designation: &str) -> Option<&Flow> {
        self.refrigerants.get(designation)
    }

    /// Every refrigerant, by designation.
    pub fn flows(&self) -> impl Iterator<Item = (&str, &Flow)> {
        self.refrigerants.iter().map(|(name, flow)| (name.as_str(), flow))
    }

    /// Every site with its refrigerants.
    pub fn sites(&self) -> impl Iterator<Item = (&str, &str, &SiteFlow)> {
        let systems = |(site, systems): (_, _)| (site, systems);
        self.sites.iter().map(systems).flat_map(|(site, systems): (&String, &BTreeMap<String, SiteFlow>)| {
            systems.iter().map(move |(name, flow)| (site.as_str(), name.as_str(), flow))
        })
    }

    /// What was put in to make up for leaks, as the carbon dioxide that warms as much over a hundred years: additions less
    /// what was recovered.
    ///
    /// # Units
    /// Mass of carbon dioxide.
    ///
    /// # Source
    /// Mass times warming potential, 40 CFR 84.64; potentials of [`Refrigerant::gwp`].
    ///
    /// # Valid range
    /// Refrigerants that the assessment lists.
    ///
    /// # Accuracy
    /// That of the weights; a potential itself is known to some tens of percent.
    ///
    /// # Errors
    /// A refrigerant that the assessment does not list.
    ///
    /// # Example
    /// ```
    /// use kingvalve::quantity::pounds;
    /// use kingvalve::refrigerant::{Assessment, Refrigerant};
    /// use kingvalve::visit::{Ledger, Visit};
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let mut ledger = Ledger::default();
    /// ledger.add(&Visit::from_json(text)?.evaluate()?);
    /// let by_hand = Refrigerant::named("R-454B")?.gwp(Assessment::Ar4)?.carbon_dioxide_equivalent(pounds(6.35));
    /// assert!((ledger.carbon_dioxide_equivalent(Assessment::Ar4)? - by_hand).kilograms().abs() < 1e-6);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn carbon_dioxide_equivalent(&self, assessment: Assessment) -> Result<Mass> {
        let mut sum = Mass::ZERO;
        for (designation, flow) in self.flows() {
            let gwp = Refrigerant::named(designation)?.gwp(assessment)?;
            sum += gwp.carbon_dioxide_equivalent(flow.charged.mass - flow.recovered.mass);
        }
        Ok(sum)
    }

    /// What a shop's stock lost that nothing accounts for, refrigerant by refrigerant.
    ///
    /// # Errors
    /// A stock that lacks a refrigerant which visits charged.
    ///
    /// # Example
    /// See [`Stock`].
    pub fn shrinkage(&self, stocks: &BTreeMap<String, Stock>) -> Result<BTreeMap<String, Shrinkage>> {
        for designation in self.refrigerants.keys() {
            if !stocks.contains_key(designation) {
                let known = stocks.keys().map(String::as_str);
                return Err(Error::unknown("refrigerant in the stock", designation, known));
            }
        }
        let of = |(designation, stock): (&String, &Stock)| {
            let flow = self.refrigerants.get(designation).copied().unwrap_or_default();
            (designation.clone(), Shrinkage::of(stock, &flow))
        };
        Ok(stocks.iter().map(of).collect())
    }
}

/// The day of a date written as ISO 8601, perhaps with a time after it.
fn date(date: &str) -> Option<Day> {
    date.get(..10)?.parse().ok()
}

impl SiteFlow {
    /// The leak rate at the last addition, by both methods of the regulation; none without an addition and a full charge.
    ///
    /// # Units
    /// Percent of the full charge a year.
    ///
    /// # Source
    /// 40 CFR 84.102 and 82.152, "leak rate": [`annualized_leak_rate`], [`rolling_leak_rate`].
    ///
    /// # Valid range
    /// Additions on dates written as ISO 8601.
    ///
    /// # Accuracy
    /// That of the weights and of the full charge. The first fill of a new or emptied system is no leak: leave such a visit
    /// out of the ledger.
    ///
    /// # Errors
    /// None.
    ///
    /// # Example
    /// ```
    /// use kingvalve::visit::{Ledger, Visit};
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let mut ledger = Ledger::default();
    /// ledger.add(&Visit::from_json(text)?.evaluate()?);
    /// let (site, _, flow) = ledger.sites().next().unwrap();
    /// assert_eq!(site, "12 Example Street, Sampletown");
    /// let rate = flow.leak_rate().unwrap();
    /// assert_eq!(format!("{:.1}", rate.rolling.percent()), "91.5"); // 6.35 of 6.94 lb
    /// assert!(rate.annualizing.is_none());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn leak_rate(&self) -> Option<SiteLeakRate> {
        let full = self.full_charge?;
        // Additions of one day are one addition.
        let mut additions: Vec<(Day, Mass)> = Vec::new();
        let mut in_order = self.additions.clone();
        in_order.sort_by_key(|(day, _)| *day);
        for (day, mass) in in_order {
            match additions.last_mut() {
                Some((last, sum)) if *last == day => *sum += mass,
                _ => additions.push((day, mass)),
            }
        }
        let (last, newest) = additions.last().copied()?;
        let before = additions.iter().rev().nth(1).map(|(day, _)| last.since(*day));
        let annualizing = before.and_then(|time| annualized_leak_rate(newest, full, time).ok());
        let rolling = rolling_leak_rate(&additions, last, None, full).ok()?;
        Some(SiteLeakRate { annualizing, rolling })
    }
}
