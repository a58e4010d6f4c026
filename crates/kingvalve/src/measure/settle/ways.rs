//! The cheapest change that would make a verdict firm.

use std::fmt;

use serde::Serialize;

use crate::measure::{Instrument, Label, Offer, Reading, Verdict};
use crate::quantity::Quantity;
use crate::{Error, Result};

/// Ways to settle a verdict, each tried with the full specification of what it proposes.
///
/// Each way recomputes the check with the proposed reading in place, so steps, accuracies, what readings share and what
/// the other readings leave are all counted. The value is taken as it was read: a new reading will come out elsewhere,
/// so this is a plan, not a promise.
///
/// # Source
/// JCGM 100:2008 for each proposed budget, JCGM 106:2012 for each verdict. Costs: those of the catalogue.
/// # Example
/// ```
/// use kingvalve::electrical::{RunCapacitor, Tolerance};
/// use kingvalve::measure::{Level, Limits, Reading, Ways, catalogue};
/// use kingvalve::quantity::*;
/// let instruments = catalogue()?;
/// let clamps = instruments.offers::<Current>()?;
/// let fan = RunCapacitor::rated(microfarads(5.0), Tolerance::percent(10.0));
/// let marked = Limits::between(microfarads(4.5), microfarads(5.5))?;
/// let clamp = clamps[0].instrument.clone(); // 0.1 A steps
/// let amps = Reading::new(amperes(0.6), clamp)?.labelled("ammeter");
/// let judge = |amps: &Reading<Current>| Ok(fan.under_load(volts(371.3), amps, hertz(60.0))?.verdict().clone());
/// let ways = Ways::default()
///     .instruments(&amps, &clamps, |amps| judge(amps))?
///     .method(microfarads(4.29), &instruments.offers::<Capacitance>()?, |read| {
///         marked.judge(read, Level::default())
///     })?;
/// // A finer step alone leaves 2 % + 5 counts: not enough. Another method is cheaper than a better clamp.
/// let cheapest = ways.cheapest().expect("something settles it");
/// assert_eq!(cheapest.what(), "capacitance meter, 0.01 µF steps, 1 % + 3 counts");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Default, Serialize)]
#[serde(transparent)]
pub struct Ways {
    ways: Vec<Way>,
}

/// One way: what to change, what it costs, and the verdict it would give on the same value.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Way {
    kind: Change,
    what: String,
    #[serde(skip_serializing_if = "Label::is_empty")]
    method: Label,
    cost: f64,
    verdict: &'static str,
    text: String,
}

/// What kind of change a [`Way`] is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Change {
    /// Another instrument for the same reading.
    Instrument,
    /// Other instruments for two readings.
    TwoInstruments,
    /// Another method: the result itself is read.
    Method,
    /// The same instrument, more often.
    Repeats,
}

impl Way {
    /// What kind of change it is.
    pub fn kind(&self) -> Change {
        self.kind
    }

    /// What is proposed: the class of an instrument, or so many repeats.
    pub fn what(&self) -> &str {
        &self.what
    }

    /// What it costs, beside the others.
    pub fn cost(&self) -> f64 {
        self.cost
    }

    /// Whether the verdict would be firm.
    pub fn settles(&self) -> bool {
        self.verdict != "unresolved"
    }

    /// The verdict on the same value, in words.
    pub fn text(&self) -> &str {
        &self.text
    }

    fn new<R: Quantity>(kind: Change, what: String, method: Label, cost: f64, verdict: &Verdict<R>) -> Self {
        Way { kind, what, method, cost, verdict: verdict.name(), text: verdict.to_string() }
    }
}

impl Ways {
    /// Tries every instrument offered for a reading; those that do not reach its value are left out.
    ///
    /// # Errors
    /// Those of `judge`.
    pub fn instruments<Q: Quantity, R: Quantity>(
        mut self,
        reading: &Reading<Q>,
        offers: &[Offer<Q>],
        mut judge: impl FnMut(&Reading<Q>) -> Result<Verdict<R>>,
    ) -> Result<Self> {
        for offer in offers {
            if let Some(proposed) = reaching(reading, &offer.instrument)? {
                let verdict = judge(&proposed)?;
                let (what, method) = (offer.class.to_string(), offer.method.clone());
                self.ways.push(Way::new(Change::Instrument, what, method, offer.cost, &verdict));
            }
        }
        Ok(self)
    }

    /// Tries every pair of instruments offered for two readings, where one alone is not enough.
    ///
    /// # Errors
    /// Those of `judge`.
    pub fn two_instruments<A: Quantity, B: Quantity, R: Quantity>(
        mut self,
        first: (&Reading<A>, &[Offer<A>]),
        second: (&Reading<B>, &[Offer<B>]),
        mut judge: impl FnMut(&Reading<A>, &Reading<B>) -> Result<Verdict<R>>,
    ) -> Result<Self> {
        for one in first.1 {
            let Some(a) = reaching(first.0, &one.instrument)? else { continue };
            for other in second.1 {
                let Some(b) = reaching(second.0, &other.instrument)? else { continue };
                let verdict = judge(&a, &b)?;
                let what = format!("{}; {}", one.class, other.class);
                let cost = one.cost + other.cost;
                self.ways.push(Way::new(Change::TwoInstruments, what, Label::EMPTY, cost, &verdict));
            }
        }
        Ok(self)
    }

    /// Tries every instrument that reads the result itself.
    ///
    /// # Errors
    /// Those of `judge`.
    pub fn method<R: Quantity>(
        mut self,
        value: R,
        offers: &[Offer<R>],
        mut judge: impl FnMut(&Reading<R>) -> Result<Verdict<R>>,
    ) -> Result<Self> {
        for offer in offers {
            let read = Reading::new(value, offer.instrument.clone());
            if let Some(proposed) = unless_out_of_reach(read)? {
                let verdict = judge(&proposed)?;
                let (what, method) = (offer.class.to_string(), offer.method.clone());
                self.ways.push(Way::new(Change::Method, what, method, offer.cost, &verdict));
            }
        }
        Ok(self)
    }

    /// Tries repeating a reading that shows scatter, up to so often in all, each further reading at a cost. Repeats
    /// average the scatter; the step and the accuracy of the instrument they leave as they are.
    ///
    /// # Errors
    /// Those of `judge`.
    pub fn repeats<Q: Quantity, R: Quantity>(
        mut self,
        reading: &Reading<Q>,
        most: usize,
        cost_each: f64,
        mut judge: impl FnMut(&Reading<Q>) -> Result<Verdict<R>>,
    ) -> Result<Self> {
        let so_far = reading.repeats().len();
        if so_far == 0 {
            return Ok(self);
        }
        for count in (so_far + 1..=most).filter(|count| count % 2 == 0) {
            let verdict = judge(&reading.repeated_planned(count)?)?;
            let cost = cost_each * (count - so_far) as f64;
            let way =
                Way::new(Change::Repeats, format!("{count} readings in all"), Label::EMPTY, cost, &verdict);
            let settles = way.settles();
            self.ways.push(way);
            if settles {
                break;
            }
        }
        Ok(self)
    }

    /// The cheapest way that settles it, the first of equals; none where nothing tried does.
    pub fn cheapest(&self) -> Option<&Way> {
        self.ways.iter().filter(|way| way.settles()).min_by(|a, b| a.cost.total_cmp(&b.cost))
    }

    /// All that was tried, in the order tried.
    pub fn all(&self) -> &[Way] {
        &self.ways
    }
}

/// One sentence: the cheapest way, or that nothing tried settles it.
impl fmt::Display for Ways {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.cheapest() {
            Some(way) if way.method.is_empty() => write!(f, "The cheapest way to settle it: {}.", way.what),
            Some(way) => write!(f, "The cheapest way to settle it: {} ({}).", way.what, way.method),
            None => write!(f, "None of the {} ways tried settles it.", self.ways.len()),
        }
    }
}

fn reaching<Q: Quantity>(reading: &Reading<Q>, instrument: &Instrument<Q>) -> Result<Option<Reading<Q>>> {
    unless_out_of_reach(reading.on(instrument.clone()))
}

/// An instrument that cannot show the value is no way; any other error is one.
fn unless_out_of_reach<Q: Quantity>(read: Result<Reading<Q>>) -> Result<Option<Reading<Q>>> {
    match read {
        Ok(read) => Ok(Some(read)),
        Err(error) if Error::is_out_of_range(&error) => Ok(None),
        Err(error) => Err(error),
    }
}

#[cfg(test)]
mod tests;
