//! What an outlook is asked about.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::cost::{middle, number};
use super::flows::LONGEST;
use super::{Chances, LeakRange, Prices};
use crate::estimate::{Money, WeightUnit};
use crate::fault::{Mode, charge_penalty};
use crate::measure::Interval;
use crate::quantity::{
    Energy, Mass, Quantity, Ratio, Temperature, Time, fahrenheit, fraction, kilograms, kilograms_per_year,
    percent, pounds,
};
use crate::{Error, Result};

/// A system short of refrigerant, and everything its future costs depend on.
///
/// # Units
/// Money of today: prices are taken to keep up with everything else, but for refrigerant, whose trend is on top.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Prospect {
    /// How many years to look ahead, 1 to 15.
    pub years: u32,
    /// The right charge.
    pub charge: Mass,
    /// How much of it is missing now.
    pub missing: Interval<Mass>,
    /// How fast it leaks.
    pub leak: LeakRange,
    /// How old the equipment is.
    pub age: Time,
    /// Prices of today.
    pub prices: Prices,
    /// Chances, with defaults.
    #[serde(default)]
    pub chances: Chances,
    /// Habits and rates, with defaults.
    #[serde(default)]
    pub habits: Habits,
    /// What cooling takes, where the extra energy of a low charge is to count.
    #[serde(default)]
    pub energy: Option<EnergyUse>,
    /// What a day without cooling is worth to the customer; left out, lost cooling counts for nothing and leaving it as it
    /// is stands outside the ranking.
    #[serde(default)]
    pub comfort_per_day: Option<Money>,
}

/// Habits and rates of an outlook.
///
/// # Source
/// The defaults are common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Habits {
    /// The share of the charge that is missing when cooling fails and someone is called. Default 25 %; up to 30 %.
    pub called_at: Ratio,
    /// How long the leak is searched for at most, in whole hours. Default 3.
    pub search_hours: u32,
    /// How much faster than other prices the refrigerant's rises in a year. Default 3 %.
    pub refrigerant_trend: Ratio,
    /// What money a year away is worth less. Default 3 %.
    pub discount: Ratio,
    /// Days without cooling at each later call. Default 1.
    pub days_waiting: f64,
    /// Days a year on which cooling is wanted. Default 120.
    pub cooling_days: f64,
}

impl Default for Habits {
    fn default() -> Self {
        Habits {
            called_at: percent(25.0),
            search_hours: 3,
            refrigerant_trend: percent(3.0),
            discount: percent(3.0),
            days_waiting: 1.0,
            cooling_days: 120.0,
        }
    }
}

/// What cooling takes in a year with the right charge.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EnergyUse {
    /// Electricity for cooling.
    pub per_year: Energy,
    /// Price of a kilowatt hour.
    pub price: Money,
    /// Indoor air at which the penalty of a low charge is taken. Default 80 °F.
    #[serde(default = "rating_indoor")]
    pub indoor: Temperature,
    /// Outdoor air, likewise. Default 95 °F.
    #[serde(default = "rating_outdoor")]
    pub outdoor: Temperature,
}

fn rating_indoor() -> Temperature {
    fahrenheit(80.0)
}

fn rating_outdoor() -> Temperature {
    fahrenheit(95.0)
}

/// A leak that asks for more visits than this in a year is no matter of refilling: common practice, no source.
const VISITS_A_YEAR: f64 = 52.0;

/// The numbers of a prospect: kilograms, years, the currency's major unit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Setting {
    pub(super) horizon: f64,
    pub(super) charge: f64,
    /// Middle and half width.
    pub(super) missing: (f64, f64),
    pub(super) leak: [(f64, f64); 3],
    pub(super) trigger: f64,
    /// Price of a kilogram today, and what it is multiplied by in a year.
    pub(super) refrigerant: f64,
    pub(super) trend: f64,
    pub(super) rate: f64,
    /// Coming, finding out and weighing in.
    pub(super) visit: (f64, f64),
    pub(super) replacement: Option<(f64, f64)>,
    pub(super) waiting_days: f64,
    pub(super) cooling_days: f64,
    pub(super) comfort: f64,
    /// Of a year with the right charge.
    pub(super) energy_cost: f64,
    indoor: Temperature,
    outdoor: Temperature,
}

impl Setting {
    /// How much more energy the same cooling takes with that share of the charge missing, as a share.
    pub(super) fn extra_share(&self, missing: f64) -> f64 {
        let off = fraction(-missing.clamp(0.0, 0.3));
        charge_penalty(Mode::Cooling, off, self.indoor, self.outdoor)
            .map_or(0.0, |penalty| 1.0 / penalty.cop.fraction() - 1.0)
    }

    /// The fastest leak that is still a matter of refilling, kilograms a year.
    pub(super) fn fastest(&self) -> f64 {
        VISITS_A_YEAR * self.trigger * self.charge
    }
}

impl Prospect {
    /// The numbers, checked.
    pub(super) fn setting(&self) -> Result<Setting> {
        self.check()?;
        let habits = &self.habits;
        let ((called, called_half), (recharge, recharge_half)) =
            (middle(self.prices.called), middle(self.prices.recharge));
        let unit = match self.prices.per {
            WeightUnit::Pound => pounds(1.0),
            WeightUnit::Kilogram => kilograms(1.0),
        };
        let [low, high] = [self.missing.low(), self.missing.high()].map(|mass| mass.kilograms().max(0.0));
        let setting = Setting {
            horizon: f64::from(self.years),
            charge: self.charge.kilograms(),
            missing: (0.5 * (low + high), 0.5 * (high - low)),
            leak: self.leak.weighed(),
            trigger: habits.called_at.fraction(),
            refrigerant: number(self.prices.refrigerant) / unit.kilograms(),
            trend: 1.0 + habits.refrigerant_trend.fraction(),
            rate: habits.discount.fraction(),
            visit: (called + recharge, called_half + recharge_half),
            replacement: self.prices.replacement.map(middle),
            waiting_days: habits.days_waiting,
            cooling_days: habits.cooling_days,
            comfort: self.comfort_per_day.map_or(0.0, number),
            energy_cost: self.energy.map_or(0.0, |use_| use_.per_year.kilowatt_hours() * number(use_.price)),
            indoor: self.energy.map_or_else(rating_indoor, |use_| use_.indoor),
            outdoor: self.energy.map_or_else(rating_outdoor, |use_| use_.outdoor),
        };
        charge_penalty(Mode::Cooling, percent(-1.0), setting.indoor, setting.outdoor)
            .map_err(|error| error.in_field("energy"))?;
        let fastest = setting.fastest();
        if self.leak.high().kilograms_per_year() > fastest {
            let in_words =
                |rate: f64| kilograms_per_year(rate).in_unit("lb/yr").map(|rate| format!("{rate:.1}"));
            return Err(Error::out_of_range(
                "leak rate",
                in_words(self.leak.high().kilograms_per_year())?,
                format!("up to {}, a refill a week", in_words(fastest)?),
                "it does not hold a charge: find the leak before anything is added",
            )
            .in_field("leak"));
        }
        Ok(setting)
    }

    fn check(&self) -> Result<()> {
        let habits = &self.habits;
        let within = |field: &str, value: f64, shown: String, (low, high): (f64, f64), advice: &str| {
            if (low..=high).contains(&value) {
                return Ok(());
            }
            let limit = format!("it lies from {low} to {high}");
            Err(Error::out_of_range(field.replace('_', " "), shown, limit, advice).in_field(field))
        };
        let number_of = |value: f64| (value, value.to_string());
        let share = |value: Ratio| (value.percent(), value.to_string());
        let checks = [
            (
                "years",
                number_of(f64::from(self.years)),
                (1.0, LONGEST as f64),
                "look one to fifteen years ahead",
            ),
            (
                "charge",
                (self.charge.kilograms(), self.charge.to_string()),
                (0.05, 1000.0),
                "give it in kilograms or pounds of the data plate",
            ),
            ("age", (self.age.years(), self.age.to_string()), (0.0, 60.0), "give it in years"),
            (
                "called_at",
                share(habits.called_at),
                (1.0, 30.0),
                "in percent; 25 % is usual, and the energy of less than 70 % of the charge is not known",
            ),
            (
                "search_hours",
                number_of(f64::from(habits.search_hours)),
                (1.0, 40.0),
                "whole hours; 3 is usual",
            ),
            (
                "refrigerant_trend",
                share(habits.refrigerant_trend),
                (-20.0, 50.0),
                "in percent a year above other prices",
            ),
            ("discount", share(habits.discount), (0.0, 30.0), "in percent a year; 3 % is usual"),
            ("days_waiting", number_of(habits.days_waiting), (0.0, 60.0), "days without cooling at a call"),
            (
                "cooling_days",
                number_of(habits.cooling_days),
                (0.0, 366.0),
                "days a year on which cooling is wanted",
            ),
        ];
        for (field, (value, shown), limits, advice) in checks {
            within(field, value, shown, limits, advice)?;
        }
        if self.missing.high().base() > self.charge.base() * (1.0 + 1e-9) {
            let why = format!("{} are missing of a charge of {}", self.missing, self.charge);
            return Err(Error::inconsistent("missing", why, "no more can be missing than the charge"));
        }
        if self.energy.is_some_and(|use_| !(use_.per_year.base() >= 0.0 && use_.per_year.is_finite())) {
            return Err(Error::inconsistent(
                "energy",
                "it is finite and not negative",
                "give the year's electricity",
            ));
        }
        self.chances.places.check().map_err(|error| error.in_field("chances"))?;
        self.chances.aging.check().map_err(|error| error.in_field("chances"))?;
        self.check_money()
    }

    fn check_money(&self) -> Result<()> {
        let given = self.energy.map(|use_| use_.price).into_iter().chain(self.comfort_per_day);
        for money in self.prices.all().into_iter().chain(given) {
            self.prices.refrigerant.same_currency(money)?;
            if money.is_negative() {
                return Err(Error::out_of_range("price", money, "not below nothing", "leave credits out"));
            }
        }
        Ok(())
    }
}
