//! Refrigerant dissolved in the compressor's oil.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::measure::Interval;
use crate::quantity::{Mass, Pressure, Quantity, Ratio, percent};
use crate::{Error, Result};

/// The oil in a system and what it takes up.
///
/// Near empty, what the oil holds can be tens of per cent of the vapour, so it is part of the answer, as an
/// interval.
///
/// # Example
/// ```
/// use kingvalve::charge::Oil;
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::*;
/// let oil = Oil::of(Interval::exactly(pounds(2.5))?);
/// let dissolved = oil.dissolved(psia(77.0), psia(231.0))?;
/// assert_eq!(format!("{:.2} to {:.2}", dissolved.low(), dissolved.high()), "0.10 lb to 0.49 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Oil {
    /// How much oil the system holds.
    pub mass: Interval<Mass>,
    /// What a mass of oil takes up near nothing, per share of the saturation pressure; left out, it is [`COMMON_UPTAKE`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub uptake: Option<Interval<Ratio>>,
    /// How steeply that rises towards saturation; left out, it is [`COMMON_STEEPENING`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub steepening: Option<Interval<Ratio>>,
}

/// What oil takes up where nothing better is known, as a share of its own mass per share of the saturation pressure, near
/// nothing: 10 to 40 %.
///
/// # Source
/// Common practice, no source.
pub const COMMON_UPTAKE: (Ratio, Ratio) = (percent(10.0), percent(40.0));

/// How steeply the oil's uptake rises towards saturation: where the pressure is a share s of it, the oil holds the
/// uptake times s/(1 − steepening·s). 0 is Henry's law; 1 is Raoult's, by which oil that mixes with the liquid in every
/// proportion takes up without bound.
///
/// # Source
/// Raoult's law, for oils that mix with their refrigerant as those of air conditioners do, standing from one kelvin above
/// the coldest point to some twenty: saturation pressures rise by 3 % a kelvin. From memory.
pub const COMMON_STEEPENING: (Ratio, Ratio) = (percent(50.0), percent(97.0));

impl Oil {
    /// So much oil, with [`COMMON_UPTAKE`] and [`COMMON_STEEPENING`].
    pub fn of(mass: Interval<Mass>) -> Oil {
        Oil { mass, uptake: None, steepening: None }
    }

    /// How much refrigerant the oil holds at a pressure below saturation: the same model as the inventory's.
    ///
    /// # Units
    /// The pressure, and the saturation pressure at the coldest point; mass out.
    /// # Source
    /// Between Henry's law and Raoult's, as [`COMMON_STEEPENING`] says, with the uptake given: common practice, no source.
    /// # Valid range
    /// Pressures from zero to saturation; a higher one counts as saturation. Steepening from 0 % to below 100 %.
    /// # Accuracy
    /// That of the uptake and its steepening, which are wide on purpose: near saturation the high end is many times the low.
    /// # Errors
    /// A pressure that is not a number; a steepening outside its range.
    /// # Example
    /// See [`Oil`].
    pub fn dissolved(&self, pressure: Pressure, saturation: Pressure) -> Result<Interval<Mass>> {
        self.checked()?;
        let share = (pressure.pascals() / saturation.pascals()).clamp(0.0, 1.0);
        let (uptake, steepening) = (self.uptakes(), self.steepenings());
        let held = |mass: Mass, uptake: Ratio, steepening: Ratio| {
            let slope = (mass * uptake).base();
            Mass::from_base(Uptake { slope, steepening: steepening.fraction() }.held(share))
        };
        Interval::new(
            held(self.mass.low(), uptake.0, steepening.0),
            held(self.mass.high(), uptake.1, steepening.1),
        )
    }

    /// The oil, once it can be.
    pub(super) fn checked(&self) -> Result<()> {
        let (uptake, steepening) = (self.uptakes(), self.steepenings());
        if !(self.mass.low() >= Mass::ZERO && uptake.0 >= Ratio::ZERO) {
            return Err(Error::out_of_range(
                "oil",
                format!("{}, uptake from {}", self.mass, uptake.0),
                "its mass and its uptake are zero or more",
                "take them from the compressor's data sheet, or leave the oil out",
            ));
        }
        steepening_checked(steepening)
    }

    pub(super) fn uptakes(&self) -> (Ratio, Ratio) {
        self.uptake.map_or(COMMON_UPTAKE, |uptake| (uptake.low(), uptake.high()))
    }

    fn steepenings(&self) -> (Ratio, Ratio) {
        self.steepening.map_or(COMMON_STEEPENING, |steepening| (steepening.low(), steepening.high()))
    }
}

/// A range of steepening, once it can be.
pub(super) fn steepening_checked((low, high): (Ratio, Ratio)) -> Result<()> {
    if low >= Ratio::ZERO && high < percent(100.0) {
        return Ok(());
    }
    Err(Error::out_of_range(
        "steepening of the oil's uptake",
        format!("{low} to {high}"),
        "from 0 % to below 100 %",
        "give the shop's own value, or leave the default",
    ))
}

/// Refrigerant in the oil at a share s of the saturation pressure: slope·s/(1 − steepening·s).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Uptake {
    /// kg per share of saturation, near nothing.
    pub slope: f64,
    /// From 0, Henry's law, to below 1, Raoult's.
    pub steepening: f64,
}

impl Uptake {
    /// kg; what lies above saturation counts as saturation.
    #[inline]
    pub fn held(&self, share: f64) -> f64 {
        let share = share.min(1.0);
        self.slope * share / (1.0 - self.steepening * share)
    }

    /// What it takes up more between two shares, up to saturation, per share: with f(s) = slope·s/(1 − steepening·s) the
    /// chord's slope is slope/((1 − steepening·s₁)(1 − steepening·s₂)).
    #[inline]
    pub fn slope_between(&self, one: f64, other: f64) -> f64 {
        self.slope / ((1.0 - self.steepening * one) * (1.0 - self.steepening * other))
    }
}

#[cfg(test)]
mod tests {
    use super::Uptake;

    #[test]
    fn nothing_at_nothing_and_steeper_towards_saturation() {
        for steepening in [0.0, 0.5, 0.97] {
            let oil = Uptake { slope: 0.2, steepening };
            assert_eq!(oil.held(0.0), 0.0);
            let held: Vec<f64> = (0..=10).map(|n| oil.held(0.1 * f64::from(n))).collect();
            let rises: Vec<f64> = held.windows(2).map(|pair| pair[1] - pair[0]).collect();
            assert!(rises[0] > 0.0 && rises.windows(2).all(|pair| pair[1] >= pair[0] - 1e-12), "{rises:?}");
            assert_eq!(oil.held(1.5), oil.held(1.0));
        }
        assert_eq!(Uptake { slope: 0.2, steepening: 0.0 }.held(0.4), 0.2 * 0.4);
    }

    #[test]
    fn the_slope_is_that_of_the_chord() {
        let oil = Uptake { slope: 0.2, steepening: 0.8 };
        for (one, other) in [(0.0, 0.3), (0.5, 0.9), (0.7, 1.0)] {
            let chord = (oil.held(other) - oil.held(one)) / (other - one);
            assert!((oil.slope_between(one, other) - chord).abs() < 1e-12);
        }
    }
}
