//! A value weighed against limits: the numbers behind a verdict.

use super::dominant::Dominant;
use super::prose::probability;
use super::settle::Settle;
use super::spread::Spread;
use super::{Doubt, Level, Limits, Verdict};
use crate::quantity::{Quantity, Ratio};
use crate::{Error, Result};

/// A value weighed against limits: probabilities, doubt, and what dominates it.
#[derive(Debug, Clone)]
pub struct Judgement<Q: Quantity> {
    value: Q,
    standard: f64,
    expanded: Q::Difference,
    limits: Limits<Q>,
    level: Level,
    below: f64,
    above: f64,
    main: Option<Dominant>,
    /// Whether what is known beforehand was counted.
    knowing: bool,
}

/// A value and its doubt, made ready to be weighed against any limits.
pub(crate) struct Weighed<Q: Quantity> {
    value: Q,
    spread: Spread,
    expanded: Q::Difference,
    dominant: Option<Dominant>,
    level: Level,
}

impl<Q: Quantity> Weighed<Q> {
    #[inline]
    pub(crate) fn of(value: Q, doubt: &Doubt, level: Level) -> Result<Self> {
        let spread = Spread::of(doubt);
        let standard = spread.standard;
        if !(value.base().is_finite() && standard.is_finite()) {
            return Err(Error::out_of_range(
                Q::NAME,
                format!("{value} with standard uncertainty {}", Q::Difference::from_base(standard)),
                "only a finite value with a finite doubt can be judged",
                "check what it was computed from",
            ));
        }
        let degrees = if spread.is_normal() { f64::INFINITY } else { doubt.degrees_of_freedom() };
        let expanded = Q::Difference::from_base(expanded(standard, degrees, level));
        let dominant = Dominant::of(doubt, standard * standard);
        Ok(Weighed { value, spread, expanded, dominant, level })
    }

    /// The verdict on it by those limits.
    pub(crate) fn against(&self, limits: Limits<Q>) -> Verdict<Q> {
        let beyond = self.beyond(&limits);
        self.verdict(limits, beyond)
    }

    /// The probabilities that the truth lies below the lower limit, and above the upper.
    #[inline]
    pub(crate) fn beyond(&self, limits: &Limits<Q>) -> [f64; 2] {
        let value = self.value.base();
        match (limits.lower(), limits.upper()) {
            (Some(lower), Some(upper)) => {
                self.spread.beyond_either(value - lower.base(), upper.base() - value)
            }
            (Some(lower), None) => [self.spread.beyond(value - lower.base()), 0.0],
            (None, Some(upper)) => [0.0, self.spread.beyond(upper.base() - value)],
            (None, None) => [0.0, 0.0],
        }
    }

    /// The verdict by those limits, of which it is known how probable the truth is to lie [`beyond`](Self::beyond).
    #[inline(always)]
    pub(crate) fn verdict(&self, limits: Limits<Q>, [below, above]: [f64; 2]) -> Verdict<Q> {
        Verdict::of(self.judged(limits, below, above, false))
    }

    /// The verdict on it, where the probabilities beyond either limit count what is known beforehand.
    pub(super) fn knowing(&self, limits: Limits<Q>, below: f64, above: f64) -> Verdict<Q> {
        Verdict::of(self.judged(limits, below, above, true))
    }

    #[inline(always)]
    fn judged(&self, limits: Limits<Q>, below: f64, above: f64, knowing: bool) -> Judgement<Q> {
        Judgement {
            value: self.value,
            standard: self.spread.standard,
            expanded: self.expanded,
            below,
            above,
            main: self.dominant.clone(),
            limits,
            level: self.level,
            knowing,
        }
    }
}

/// The expanded uncertainty, SI units.
#[inline]
pub(super) fn expanded(standard: f64, degrees_of_freedom: f64, level: Level) -> f64 {
    if standard == 0.0 { 0.0 } else { standard * level.coverage(degrees_of_freedom) }
}

impl<Q: Quantity> Judgement<Q> {
    /// The value judged.
    pub fn value(&self) -> Q {
        self.value
    }

    /// Its combined standard uncertainty.
    pub fn standard_uncertainty(&self) -> Q::Difference {
        Q::Difference::from_base(self.standard)
    }

    /// Its expanded uncertainty at the level.
    pub fn expanded_uncertainty(&self) -> Q::Difference {
        self.expanded
    }

    /// The limits it was judged against.
    pub fn limits(&self) -> &Limits<Q> {
        &self.limits
    }

    /// The level asked for.
    pub fn level(&self) -> Level {
        self.level
    }

    /// The probability that the truth lies within the limits.
    pub fn probability_within(&self) -> Ratio {
        Ratio::from_si(self.within())
    }

    /// The probability that the truth lies below the lower limit.
    pub fn probability_below(&self) -> Ratio {
        Ratio::from_si(self.below)
    }

    /// The probability that the truth lies above the upper limit.
    pub fn probability_above(&self) -> Ratio {
        Ratio::from_si(self.above)
    }

    /// The reading that contributes most to the doubt, and its share of the variance; none where there is no doubt.
    pub fn dominant(&self) -> Option<(&str, Ratio)> {
        self.main.as_ref().map(|main| (main.what.as_str(), Ratio::from_si(main.share())))
    }

    /// What would make an unresolved verdict firm on this value; none where it is firm already, or where it counts what
    /// was known beforehand.
    pub fn settle(&self) -> Option<Settle<Q>> {
        let firm = self.knowing || self.is_firmly_within() || self.is_firmly_beyond();
        let main = self.main.as_ref().filter(|_| !firm)?;
        Some(Settle::of(self, main))
    }

    #[inline]
    pub(super) fn within(&self) -> f64 {
        (1.0 - self.below - self.above).clamp(0.0, 1.0)
    }

    #[inline]
    pub(super) fn is_firmly_within(&self) -> bool {
        self.within() >= self.level.p()
    }

    #[inline]
    pub(super) fn is_firmly_beyond(&self) -> bool {
        self.below.max(self.above) >= self.level.p()
    }

    /// Signed distances from the value to the limits, SI units: positive where the limit leaves room.
    pub(super) fn room(&self) -> (f64, f64) {
        let below = self.limits.lower().map_or(f64::INFINITY, |limit| self.value.base() - limit.base());
        let above = self.limits.upper().map_or(f64::INFINITY, |limit| limit.base() - self.value.base());
        (below, above)
    }

    /// The end of a firm sentence: the probability, or that no doubt was counted.
    pub(super) fn how_sure(&self, p: f64) -> String {
        match self.main {
            Some(_) => format!(", with a probability of {}{}", probability(p), self.knowing_what()),
            None => ", counting no doubt".into(),
        }
    }

    /// That it counts what is known beforehand, where it does.
    pub(super) fn knowing_what(&self) -> &'static str {
        if self.knowing { ", knowing how such parts are spread" } else { "" }
    }

    /// What to add to a firm verdict, where the main reading's accuracy was not counted.
    pub(super) fn reservation(&self) -> Option<String> {
        self.main.as_ref().and_then(Dominant::reservation)
    }

    pub(super) fn standard(&self) -> f64 {
        self.standard
    }
}
