//! A value weighed against limits: the numbers behind a verdict.
//!
//! Source: JCGM 106:2012, clause 7: the probability of conformity from a value, its doubt and the limits.

use std::marker::PhantomData;

use super::dominant::Dominant;
use super::limits::Bounds;
use super::prose::probability;
use super::settle::{Settle, Settled};
use super::spread::Spread;
use super::{Doubt, Level, Limits, Verdict};
use crate::quantity::{Kind, Quantity, Ratio};
use crate::{Error, Result};

/// A value weighed against limits: probabilities, doubt, and what dominates it.
#[derive(Debug, Clone)]
pub struct Judgement<Q: Quantity> {
    limits: Limits<Q>,
    numbers: Numbers,
}

/// The numbers, in SI base units: the same whatever the quantity.
#[derive(Debug, Clone)]
pub(super) struct Numbers {
    pub value: f64,
    pub standard: f64,
    pub expanded: f64,
    pub level: Level,
    pub below: f64,
    pub above: f64,
    pub main: Option<Dominant>,
    /// Whether what is known beforehand was counted.
    pub knowing: bool,
}

/// All of a judgement, whatever the quantity.
pub(super) struct Facts<'a> {
    pub kind: &'static Kind,
    pub bounds: Bounds,
    pub source: &'a str,
    pub numbers: &'a Numbers,
}

/// A value and its doubt, made ready to be weighed against any limits.
pub(crate) struct Weighed<Q: Quantity>(Ready, PhantomData<fn() -> Q>);

/// The same for any quantity, in SI base units.
struct Ready {
    value: f64,
    spread: Spread,
    expanded: f64,
    dominant: Option<Dominant>,
    level: Level,
}

impl<Q: Quantity> Weighed<Q> {
    #[inline]
    pub(crate) fn of(value: Q, doubt: &Doubt, level: Level) -> Result<Self> {
        Ok(Weighed(Ready::of(Kind::of::<Q>(), value.base(), doubt, level)?, PhantomData))
    }

    /// The verdict on it by those limits.
    pub(crate) fn against(&self, limits: Limits<Q>) -> Verdict<Q> {
        let beyond = self.beyond(&limits);
        self.verdict(limits, beyond)
    }

    /// The probabilities that the truth lies below the lower limit, and above the upper.
    #[inline]
    pub(crate) fn beyond(&self, limits: &Limits<Q>) -> [f64; 2] {
        self.0.beyond(limits.bounds())
    }

    /// The verdict by those limits, of which it is known how probable the truth is to lie [`beyond`](Self::beyond).
    #[inline(always)]
    pub(crate) fn verdict(&self, limits: Limits<Q>, beyond: [f64; 2]) -> Verdict<Q> {
        self.judged(limits, beyond, false)
    }

    /// The verdict on it, where the probabilities beyond either limit count what is known beforehand.
    pub(super) fn knowing(&self, limits: Limits<Q>, below: f64, above: f64) -> Verdict<Q> {
        self.judged(limits, [below, above], true)
    }

    #[inline(always)]
    fn judged(&self, limits: Limits<Q>, beyond: [f64; 2], knowing: bool) -> Verdict<Q> {
        Verdict::of(Judgement { limits, numbers: self.0.judged(beyond, knowing) })
    }
}

impl Ready {
    #[inline]
    fn of(kind: &'static Kind, value: f64, doubt: &Doubt, level: Level) -> Result<Self> {
        let spread = Spread::of(doubt);
        let standard = spread.standard;
        if !(value.is_finite() && standard.is_finite()) {
            return Err(not_finite(kind, value, standard));
        }
        let degrees = if spread.is_normal() { f64::INFINITY } else { doubt.degrees_of_freedom() };
        let expanded = expanded(standard, degrees, level);
        let dominant = Dominant::of(doubt, standard * standard);
        Ok(Ready { value, spread, expanded, dominant, level })
    }

    #[inline]
    fn beyond(&self, bounds: Bounds) -> [f64; 2] {
        let (below, above) = bounds.room(self.value);
        self.spread.beyond_either(below, above)
    }

    #[inline]
    fn judged(&self, [below, above]: [f64; 2], knowing: bool) -> Numbers {
        Numbers {
            value: self.value,
            standard: self.spread.standard,
            expanded: self.expanded,
            level: self.level,
            below,
            above,
            main: self.dominant.clone(),
            knowing,
        }
    }
}

#[cold]
fn not_finite(kind: &Kind, value: f64, standard: f64) -> Error {
    let (shown, doubt) = (kind.shown(value), (kind.difference)().shown(standard));
    Error::out_of_range(
        kind.name,
        format!("{shown} with standard uncertainty {doubt}"),
        "only a finite value with a finite doubt can be judged",
        "check what it was computed from",
    )
}

/// The expanded uncertainty, SI units.
#[inline]
pub(super) fn expanded(standard: f64, degrees_of_freedom: f64, level: Level) -> f64 {
    if standard == 0.0 { 0.0 } else { standard * level.coverage(degrees_of_freedom) }
}

impl<Q: Quantity> Judgement<Q> {
    /// The value judged.
    pub fn value(&self) -> Q {
        Q::from_base(self.numbers.value)
    }

    /// Its combined standard uncertainty.
    pub fn standard_uncertainty(&self) -> Q::Difference {
        Q::Difference::from_base(self.numbers.standard)
    }

    /// Its expanded uncertainty at the level.
    pub fn expanded_uncertainty(&self) -> Q::Difference {
        Q::Difference::from_base(self.numbers.expanded)
    }

    /// The limits it was judged against.
    pub fn limits(&self) -> &Limits<Q> {
        &self.limits
    }

    /// The level asked for.
    pub fn level(&self) -> Level {
        self.numbers.level
    }

    /// The probability that the truth lies within the limits.
    pub fn probability_within(&self) -> Ratio {
        Ratio::from_si(self.numbers.within())
    }

    /// The probability that the truth lies below the lower limit.
    pub fn probability_below(&self) -> Ratio {
        Ratio::from_si(self.numbers.below)
    }

    /// The probability that the truth lies above the upper limit.
    pub fn probability_above(&self) -> Ratio {
        Ratio::from_si(self.numbers.above)
    }

    /// The reading that contributes most to the doubt, and its share of the variance; none where there is no doubt.
    pub fn dominant(&self) -> Option<(&str, Ratio)> {
        self.numbers.main.as_ref().map(|main| (main.what.as_str(), Ratio::from_si(main.share())))
    }

    /// What would make an unresolved verdict firm on this value; none where it is firm already, or where it counts what
    /// was known beforehand.
    pub fn settle(&self) -> Option<Settle<Q>> {
        self.facts().settled().map(Settle::new)
    }

    #[inline]
    pub(super) fn numbers(&self) -> &Numbers {
        &self.numbers
    }

    pub(super) fn facts(&self) -> Facts<'_> {
        let Judgement { limits, numbers } = self;
        Facts { kind: Kind::of::<Q>(), bounds: limits.bounds(), source: limits.source(), numbers }
    }
}

impl Facts<'_> {
    /// What would make an unresolved verdict firm; none where it is firm, or counts what was known beforehand.
    pub fn settled(&self) -> Option<Settled> {
        let numbers = self.numbers;
        let firm = numbers.knowing || numbers.is_firmly_within() || numbers.is_firmly_beyond();
        let main = numbers.main.as_ref().filter(|_| !firm)?;
        Some(Settled::of(self, main))
    }

    /// Signed distances from the value to the limits: positive where the limit leaves room.
    pub fn room(&self) -> (f64, f64) {
        self.bounds.room(self.numbers.value)
    }
}

impl Numbers {
    #[inline]
    pub fn within(&self) -> f64 {
        (1.0 - self.below - self.above).clamp(0.0, 1.0)
    }

    #[inline]
    pub fn is_firmly_within(&self) -> bool {
        self.within() >= self.level.p()
    }

    #[inline]
    pub fn is_firmly_beyond(&self) -> bool {
        self.below.max(self.above) >= self.level.p()
    }

    /// The end of a firm sentence: the probability, or that no doubt was counted.
    pub fn how_sure(&self, p: f64) -> String {
        match self.main {
            Some(_) => format!(", with a probability of {}{}", probability(p), self.knowing_what()),
            None => ", counting no doubt".into(),
        }
    }

    /// That it counts what is known beforehand, where it does.
    pub fn knowing_what(&self) -> &'static str {
        if self.knowing { ", knowing how such parts are spread" } else { "" }
    }

    /// What to add to a firm verdict, where the main reading's accuracy was not counted.
    pub fn reservation(&self) -> Option<String> {
        self.main.as_ref().and_then(Dominant::reservation)
    }
}
