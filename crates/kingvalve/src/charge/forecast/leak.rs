//! The rate of a leak from what was added and when.

use std::fmt;

use super::Day;
use crate::measure::{Level, Measured};
use crate::quantity::{Mass, MassFlow, Quantity, Time, days};
use crate::refrigerant::Gwp;
use crate::{Error, Result};

/// What was added on a day; after it the system was charged to its mark again.
#[derive(Debug, Clone)]
pub struct DatedCharge {
    /// The day.
    pub day: Day,
    /// What was added.
    pub added: Measured<Mass>,
}

/// How fast a system leaks, over the time from the first to the last charge.
///
/// # Example
/// See [the module](super).
#[derive(Debug, Clone)]
pub struct LeakRate {
    rate: Measured<MassFlow>,
    lost: Measured<Mass>,
    first: Day,
    last: Day,
    spans: Vec<(Day, Day, Measured<MassFlow>)>,
}

impl LeakRate {
    /// The rate from dated charges: what was added after the first day, over the days since.
    ///
    /// # Units
    /// Masses; how closely a charge meets its mark, as a half-width.
    /// # Source
    /// Balance of mass; doubt by JCGM 100:2008.
    /// # Valid range
    /// Every charge brings the system to the same mark (data-plate charge, or the same target superheat or subcooling);
    /// two charges at least, in order of their dates.
    /// # Accuracy
    /// The doubt of the weights, of the mark at both ends, and of half a day at each. A leak that grew meanwhile shows in
    /// [`spans`](Self::spans), not in the doubt.
    /// # Errors
    /// Fewer than two charges, dates out of order or on one day, a mass below zero.
    /// # Example
    /// See [the module](super).
    pub fn from_charges(charges: &[DatedCharge], meets_mark_within: Mass) -> Result<LeakRate> {
        let (Some(first), Some(last), true) = (charges.first(), charges.last(), charges.len() > 1) else {
            return Err(Error::inconsistent(
                "dated charges",
                format!("{} given", charges.len()),
                "a rate takes two: the day the system was last full, and the day it was filled again",
            ));
        };
        for (at, charge) in charges.iter().enumerate() {
            let mass = charge.added.value();
            if !(mass >= Mass::ZERO && mass.is_finite()) {
                let limit = "it is zero or more";
                return Err(Error::out_of_range("mass added", mass, limit, "give what was recovered apart")
                    .in_field(format!("charges[{at}].added")));
            }
        }
        let mark = |day: Day| {
            let label = format!("charge meets its mark on {day}");
            Measured::from_limits(Mass::ZERO, meets_mark_within, label)
        };
        let mut marks = Vec::new();
        for charge in charges {
            marks.push(mark(charge.day)?);
        }
        let mut spans = Vec::new();
        let mut lost = Measured::exact(Mass::ZERO);
        for (at, (pair, marks)) in charges.windows(2).zip(marks.windows(2)).enumerate() {
            let ([before, after], [from, to]) = (pair, marks) else { continue };
            if after.day <= before.day {
                return Err(Error::inconsistent(
                    "dated charges",
                    format!("{} comes after {}", after.day, before.day),
                    "give the charges in the order of their dates, those of one day as one",
                )
                .in_field(format!("charges[{}].day", at + 1)));
            }
            let gone = after.added.clone() + from.clone() - to.clone();
            lost = lost + gone.clone();
            spans.push((before.day, after.day, over(gone, before.day, after.day)?));
        }
        let rate = over(lost.clone(), first.day, last.day)?;
        Ok(LeakRate { rate, lost, first: first.day, last: last.day, spans })
    }

    /// The rate.
    pub fn rate(&self) -> &Measured<MassFlow> {
        &self.rate
    }

    /// All that was lost.
    pub fn lost(&self) -> &Measured<Mass> {
        &self.lost
    }

    /// The rate between each charge and the next.
    pub fn spans(&self) -> &[(Day, Day, Measured<MassFlow>)] {
        &self.spans
    }

    /// Whether any span's rate differs from the whole's by more than its doubt: the leak changed, or was mended.
    pub fn changed(&self, level: Level) -> bool {
        self.spans.iter().any(|(_, _, rate)| {
            let apart = rate.clone() - self.rate.clone();
            apart.value().abs() > apart.expanded(level) + self.rate.value().abs() * 1e-9
        })
    }

    /// What is lost in a year of 365 days at this rate.
    ///
    /// # Source
    /// Definition.
    pub fn per_year(&self) -> Measured<Mass> {
        let year = days(365.0);
        self.rate.clone().map(self.rate.value() * year, year.base())
    }

    /// The carbon dioxide that warms as much as what is lost in a year.
    ///
    /// # Source
    /// By definition: mass times global warming potential.
    /// # Accuracy
    /// That of the rate; the potential's own doubt (±26 to ±40 % by the reports) is not counted.
    pub fn carbon_dioxide_per_year(&self, gwp: &Gwp) -> Measured<Mass> {
        self.per_year() * gwp.kilograms_per_kilogram()
    }
}

/// A loss over the days between, each end known to half a day.
fn over(lost: Measured<Mass>, from: Day, to: Day) -> Result<Measured<MassFlow>> {
    let half_days = || Measured::from_limits(Time::ZERO, days(0.5), "hour of the day");
    let time = Measured::exact(to.since(from)) + half_days()? + half_days()?;
    Ok(lost / time)
}

impl fmt::Display for LeakRate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Lost {} from {} to {}: {} a year.", self.lost, self.first, self.last, self.per_year())
    }
}
