//! What each way is expected to cost over years, where a record asks for it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Evaluation, Record, priced};
use crate::estimate::outlook::{
    Assumed, Assumption, Basis, Chances, EnergyUse, Habits, INDOOR_COIL_SHARE, LeakRange, OUTDOOR_UNIT_SHARE,
    Outlook, Prices, Prospect, WhatWouldChange, usual_age,
};
use crate::estimate::{Money, Situation};
use crate::measure::Interval;
use crate::quantity::{Mass, Time, percent};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// What an outlook is asked with. Every field has a default: `{}` asks for one by common practice alone.
///
/// # Source
/// The defaults are common practice, no source; the outlook lists every one with its mark.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct OutlookAsked {
    /// How many years to look ahead, 1 to 15. Default 10.
    pub years: u32,
    /// How old the equipment is. Default 10 years.
    pub age: Time,
    /// How fast it leaks. Left out, by `last_full`; without that from 5 % of the charge a year to all of it, one time in
    /// two below 25 %.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leak: Option<LeakRange>,
    /// How long ago it last held its charge: what is missing left it since.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub last_full: Option<Time>,
    /// The indoor coil on the rate card that fits. Left out, 30 % of new equipment.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub coil: Option<String>,
    /// The outdoor unit on the rate card that fits. Left out, 60 % of new equipment.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outdoor_unit: Option<String>,
    /// What a day without cooling is worth to the customer. Left out, nothing, and leaving it as it is stands outside the
    /// ranking.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub comfort_per_day: Option<Money>,
    /// What cooling takes, where the extra energy of a low charge is to count.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub energy: Option<EnergyUse>,
    /// Chances, perhaps taught by the shop's own records ([`Outcomes::records`](super::Outcomes::records)).
    #[serde(skip_serializing_if = "super::record::is_default")]
    pub chances: Chances,
    /// Habits and rates, that of discount among them.
    #[serde(skip_serializing_if = "super::record::is_default")]
    pub habits: Habits,
    /// How often the spread is drawn, 100 to 100 000. Default 10 000.
    pub draws: u32,
    /// The seed of the draws. Default 1.
    pub seed: u64,
}

impl Default for OutlookAsked {
    fn default() -> Self {
        Self {
            years: 10,
            age: usual_age(),
            leak: None,
            last_full: None,
            coil: None,
            outdoor_unit: None,
            comfort_per_day: None,
            energy: None,
            chances: Chances::default(),
            habits: Habits::default(),
            draws: 10_000,
            seed: 1,
        }
    }
}

/// The outlook of a visit: what it was computed from, what it found, what would change it.
#[derive(Debug, Clone, Serialize)]
pub struct OutlookResult {
    /// Everything the future costs depend on, defaults filled in.
    pub prospect: Prospect,
    /// The expected cost of every way, with its spread and what it rests on.
    pub outlook: Outlook,
    /// What would change the order of the two ways that cost least.
    pub change: WhatWouldChange,
}

/// Draws that are too few to have a spread, and more than move it.
const DRAWS: std::ops::RangeInclusive<u32> = 100..=100_000;

/// The outlook that the record asks for; none where it asks for none, and none where no rate card prices the ways or
/// nothing says what is missing.
pub(super) fn asked(
    record: &Record,
    refrigerant: &Refrigerant,
    charge: Mass,
    missing: Option<Interval<Mass>>,
) -> Result<Option<OutlookResult>> {
    let (Some(asked), Some(missing)) = (&record.outlook, missing) else { return Ok(None) };
    let Some(card) = priced::card(record)? else { return Ok(None) };
    let situation = Situation {
        coil: asked.coil.clone(),
        outdoor_unit: asked.outdoor_unit.clone(),
        ..priced::situation(record, refrigerant, missing)
    };
    let result = Prices::from_card(&card, &situation)
        .and_then(|prices| asked.prospect(charge, missing, prices))
        .and_then(|prospect| asked.solve(prospect));
    result.map(Some).map_err(|error| error.in_field("outlook"))
}

impl OutlookAsked {
    fn prospect(&self, charge: Mass, missing: Interval<Mass>, prices: Prices) -> Result<Prospect> {
        Ok(Prospect {
            years: self.years,
            charge,
            missing,
            leak: self.leak(charge, missing)?,
            age: self.age,
            prices,
            chances: self.chances,
            habits: self.habits,
            energy: self.energy,
            comfort_per_day: self.comfort_per_day,
        })
    }

    fn leak(&self, charge: Mass, missing: Interval<Mass>) -> Result<LeakRange> {
        match (self.leak, self.last_full) {
            (None, None) => LeakRange::usual(charge),
            (Some(leak), None) => Ok(leak),
            (None, Some(time)) if time > Time::ZERO && time.is_finite() => {
                let rate = |missing: Mass| missing.max(Mass::ZERO) / time;
                LeakRange::new(rate(missing.low()), rate(missing.middle()), rate(missing.high()))
            }
            (None, Some(time)) => {
                let advice = "give the time since it was filled or last cooled as it should";
                Err(Error::out_of_range("time since it was full", time, "more than nothing", advice)
                    .in_field("last_full"))
            }
            (Some(_), Some(_)) => {
                let why = "it is given twice, itself and by the time since the system was full";
                Err(Error::inconsistent("leak", why, "leave out one of the two").in_field("leak"))
            }
        }
    }

    fn solve(&self, prospect: Prospect) -> Result<OutlookResult> {
        if !DRAWS.contains(&self.draws) {
            let limit = format!("{} to {}", DRAWS.start(), DRAWS.end());
            return Err(Error::out_of_range("number of draws", self.draws, limit, "10000 is plenty")
                .in_field("draws"));
        }
        let outlook = prospect.outlook_drawn(self.seed, self.draws as usize)?;
        let change = prospect.what_would_change(&outlook)?;
        let share = |what, named: &Option<String>, share: u32| {
            let value = Assumed::Share(percent(f64::from(share)));
            let taken = Assumption { what, value, records: 0, basis: Basis::CommonPractice };
            named.is_none().then_some(taken)
        };
        let shares = [
            share("indoor_coil", &self.coil, INDOOR_COIL_SHARE),
            share("outdoor_unit", &self.outdoor_unit, OUTDOOR_UNIT_SHARE),
        ];
        let outlook = outlook.assuming(shares.into_iter().flatten());
        Ok(OutlookResult { prospect, outlook, change })
    }
}

impl Evaluation {
    /// The same evaluation with an outlook: as if the record had asked for it.
    ///
    /// # Errors
    /// A record that is signed; an input out of range, said of its field; prices that the rate card lacks.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::outlook::Forward;
    /// use kingvalve::quantity::years;
    /// use kingvalve::visit::{OutlookAsked, Visit};
    /// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
    /// let asked = OutlookAsked { years: 5, age: years(12.0), ..OutlookAsked::default() };
    /// let evaluation = Visit::from_json(text)?.evaluate()?.with_outlook(asked)?;
    /// let outlook = &evaluation.results().outlook.as_ref().expect("it was asked for").outlook;
    /// // Priced, but not ranked: lost cooling was given no value.
    /// assert!(!outlook.way(Forward::LeaveAsIs)?.ranked);
    /// // The record asks for it from now on, so that it evaluates to the same again.
    /// let again = Visit::from_json(&evaluation.to_json()?)?.evaluate()?;
    /// assert_eq!(again.to_json()?, evaluation.to_json()?);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn with_outlook(&self, asked: OutlookAsked) -> Result<Evaluation> {
        if let Some(signature) = &self.record.signed {
            let why = format!("{} signed it on {}", signature.by, signature.on);
            let advice = "an outlook is part of what is signed: ask for it before";
            return Err(Error::inconsistent("outlook", why, advice).in_field("signed"));
        }
        let mut seen = self.clone();
        seen.record.outlook = Some(asked);
        let (charge, missing) = (self.results.charge_due, self.results.missing);
        seen.results.outlook = self::asked(&seen.record, &self.refrigerant, charge, missing)?;
        Ok(seen)
    }
}
