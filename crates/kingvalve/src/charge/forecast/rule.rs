//! Leak rates as the regulations define them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Day;
use crate::quantity::{Mass, Ratio, Time, days, fraction, percent, pounds};
use crate::refrigerant::Gwp;
use crate::{Error, Result};

/// A share of the full charge that, lost in one calendar year, must be reported: 125 %.
///
/// # Source
/// 40 CFR 82.157(j) and 84.106(j), from memory.
pub const CHRONIC_LEAK: Ratio = percent(125.0);

/// The time to repair after the threshold was exceeded: 30 days.
///
/// # Source
/// 40 CFR 82.157(d) and 84.106(d), from memory.
pub const REPAIR_TIME: Time = days(30.0);

/// The same where an industrial process must be shut down for it: 120 days.
///
/// # Source
/// 40 CFR 82.157(d) and 84.106(d), from memory.
pub const REPAIR_TIME_WITH_SHUTDOWN: Time = days(120.0);

/// The leak rate by the annualizing method: (added ÷ full charge) ÷ (days ÷ 365), the days since the last addition,
/// 365 at most.
///
/// # Units
/// Masses, time; share of the full charge a year.
/// # Source
/// 40 CFR 82.152 and 84.102, definition of leak rate, from memory.
/// # Valid range
/// One addition to an appliance in normal operation; not a new installation or a seasonal variance.
/// # Accuracy
/// Exact arithmetic on what is given; [`LeakRate`](super::LeakRate) carries doubt.
/// # Errors
/// A mass below zero, a full charge or a time that is not above zero.
/// # Example
/// ```
/// use kingvalve::charge::forecast::annualized_leak_rate;
/// use kingvalve::quantity::*;
/// let rate = annualized_leak_rate(pounds(10.0), pounds(100.0), days(180.0))?;
/// assert_eq!(format!("{rate:.2}"), "20.28 %");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn annualized_leak_rate(added: Mass, full_charge: Mass, since_last_addition: Time) -> Result<Ratio> {
    masses(added, full_charge)?;
    if !(since_last_addition > Time::ZERO && since_last_addition.is_finite()) {
        return Err(Error::out_of_range(
            "time since the last addition",
            format!("{} days", since_last_addition.days()),
            "it is above zero",
            "give additions of one day as one",
        ));
    }
    let years = since_last_addition.days().min(365.0) / 365.0;
    Ok(fraction(added / full_charge / years))
}

/// The leak rate by the rolling-average method: all added in the last 365 days, or since the last successful follow-up
/// verification test where that is shorter, over the full charge.
///
/// # Units
/// Dated masses; share of the full charge a year.
/// # Source
/// 40 CFR 82.152 and 84.102, definition of leak rate, from memory.
/// # Valid range
/// Additions up to `today`; those on the day of the verification test belong to the repair and are not counted.
/// # Accuracy
/// Exact arithmetic on what is given.
/// # Errors
/// A mass below zero, a full charge that is not above zero, dates out of order or after `today`.
/// # Example
/// ```
/// use kingvalve::charge::forecast::rolling_leak_rate;
/// use kingvalve::quantity::*;
/// let added = [("2025-01-10".parse()?, pounds(9.0)), ("2025-09-01".parse()?, pounds(4.0)), ("2026-03-01".parse()?, pounds(6.0))];
/// let rate = rolling_leak_rate(&added, "2026-06-01".parse()?, None, pounds(50.0))?;
/// assert_eq!(format!("{rate:.0}"), "20 %"); // the first is more than a year old
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn rolling_leak_rate(
    additions: &[(Day, Mass)],
    today: Day,
    verified: Option<Day>,
    full_charge: Mass,
) -> Result<Ratio> {
    let mut sum = Mass::ZERO;
    let mut before = None;
    for (day, mass) in additions {
        masses(*mass, full_charge)?;
        if before.is_some_and(|before| *day < before) || *day > today {
            return Err(Error::inconsistent(
                "dated additions",
                format!("{day} is out of order, or after {today}"),
                "give the additions in the order of their dates",
            ));
        }
        before = Some(*day);
        if today.since(*day) <= days(365.0) && verified.is_none_or(|verified| *day > verified) {
            sum += *mass;
        }
    }
    masses(sum, full_charge)?;
    Ok(fraction(sum / full_charge))
}

fn masses(added: Mass, full_charge: Mass) -> Result<()> {
    if !(added >= Mass::ZERO && added.is_finite()) {
        let advice = "give what was recovered apart";
        return Err(Error::out_of_range("mass added", added, "it is zero or more", advice));
    }
    if !(full_charge > Mass::ZERO && full_charge.is_finite()) {
        let advice = "give the appliance's full charge in normal operation";
        return Err(Error::out_of_range("full charge", full_charge, "it is above zero", advice));
    }
    Ok(())
}

/// The rule a threshold belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum LeakRule {
    /// 40 CFR 82.157: ozone-depleting refrigerants.
    Part82,
    /// 40 CFR 84.106: hydrofluorocarbons and their substitutes, from 2026-01-01.
    Part84,
}

/// What the appliance is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Appliance {
    /// Comfort cooling, and what has no class of its own.
    ComfortCooling,
    /// Commercial refrigeration.
    CommercialRefrigeration,
    /// Industrial process refrigeration.
    IndustrialProcess,
}

/// The rate above which an appliance must be repaired, and to which appliances that applies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeakThreshold {
    /// Share of the full charge a year; repair is due when the rate is *over* it.
    pub rate: Ratio,
    /// The full charge from which the rule applies.
    pub full_charge: Mass,
    /// The warming potential above which it applies; `None` where the rule is for ozone-depleting refrigerants.
    pub gwp_above: Option<f64>,
    /// Where it is written.
    pub source: &'static str,
}

impl LeakThreshold {
    /// Whether a full charge of a refrigerant of that warming potential falls under the rule. Under part 84 residential
    /// and light commercial air conditioners and heat pumps are excluded, whatever their charge.
    pub fn applies_to(&self, full_charge: Mass, gwp: &Gwp) -> bool {
        full_charge >= self.full_charge
            && self.gwp_above.is_none_or(|least| gwp.kilograms_per_kilogram() > least)
    }
}

/// The threshold of a rule for an appliance.
///
/// # Units
/// Share of the full charge a year.
/// # Source
/// 40 CFR 82.157(a) and (c)(2); 40 CFR 84.106(a) and (c)(2), the latter from memory.
/// # Valid range
/// Federal rule of the United States; states may be stricter.
/// # Accuracy
/// As printed.
/// # Example
/// ```
/// use kingvalve::charge::forecast::{Appliance, LeakRule, leak_threshold};
/// use kingvalve::quantity::percent;
/// assert_eq!(leak_threshold(LeakRule::Part84, Appliance::CommercialRefrigeration).rate, percent(20.0));
/// ```
pub const fn leak_threshold(rule: LeakRule, appliance: Appliance) -> LeakThreshold {
    let rate = match appliance {
        Appliance::ComfortCooling => percent(10.0),
        Appliance::CommercialRefrigeration => percent(20.0),
        Appliance::IndustrialProcess => percent(30.0),
    };
    match rule {
        LeakRule::Part82 => {
            LeakThreshold { rate, full_charge: pounds(50.0), gwp_above: None, source: "40 CFR 82.157(c)(2)" }
        }
        LeakRule::Part84 => LeakThreshold {
            rate,
            full_charge: pounds(15.0),
            gwp_above: Some(53.0),
            source: "40 CFR 84.106(c)(2)",
        },
    }
}
