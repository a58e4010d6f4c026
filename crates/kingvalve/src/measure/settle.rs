//! What would settle an unresolved verdict.

mod ways;

use std::fmt;
use std::marker::PhantomData;

use super::distribution::normal_cdf;
use super::dominant::{BEST_IMPROVEMENT, Dominant};
use super::judgement::Facts;
use super::prose::{at_most, small};
use super::source::difference_shown;
use crate::quantity::{Kind, Quantity};

pub use ways::{Change, Way, Ways};

/// What kind of change would settle it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Remedy {
    /// A display with a finer step is enough.
    FinerStep,
    /// A more accurate instrument is enough.
    BetterAccuracy,
    /// It takes both a finer step and better accuracy.
    FinerStepAndBetterAccuracy,
    /// More repeats are enough.
    MoreRepeats,
    /// Even a perfect instrument for this one reading is not enough: others must improve as well.
    SeveralReadings,
    /// The value lies on the limit, or so near that no instrument decides.
    OnTheLimit,
}

impl Remedy {
    /// Its name in JSON.
    pub const fn name(self) -> &'static str {
        match self {
            Remedy::FinerStep => "finer_step",
            Remedy::BetterAccuracy => "better_accuracy",
            Remedy::FinerStepAndBetterAccuracy => "finer_step_and_better_accuracy",
            Remedy::MoreRepeats => "more_repeats",
            Remedy::SeveralReadings => "several_readings",
            Remedy::OnTheLimit => "on_the_limit",
        }
    }
}

/// What would make an unresolved verdict firm, if the value read stayed the same.
///
/// # Source
/// JCGM 106:2012, 7.2 solved for the uncertainty; the split by cause is that of the reading's own budget.
/// # Accuracy
/// The needed uncertainty to 1e-9, for a bell-shaped doubt. A new reading will come out elsewhere: it is a plan, not a
/// promise.
#[derive(Debug, Clone)]
pub struct Settle<Q: Quantity>(Settled, PhantomData<fn() -> Q>);

/// The same whatever the quantity, in SI base units.
#[derive(Debug, Clone)]
pub(super) struct Settled {
    kind: &'static Kind,
    remedy: Remedy,
    needed: Option<f64>,
    /// Standard uncertainty the reading needs, SI units of what it reads.
    reading_needed: Option<f64>,
    /// The step that alone would do, or the standard uncertainty from accuracy or scatter.
    part_needed: Option<f64>,
    main: Dominant,
}

impl<Q: Quantity> Settle<Q> {
    pub(super) fn new(settled: Settled) -> Self {
        Settle(settled, PhantomData)
    }

    /// What kind of change it takes.
    pub fn remedy(&self) -> Remedy {
        self.0.remedy
    }

    /// The reading to improve.
    pub fn reading(&self) -> &str {
        self.0.main.what.as_str()
    }

    /// The largest standard uncertainty of the result with which this value would decide; none on the limit.
    pub fn needed(&self) -> Option<Q::Difference> {
        self.0.needed.map(Q::Difference::from_base)
    }

    /// The largest standard uncertainty of the reading with which it would, written in the reading's unit.
    pub fn needed_of_reading(&self) -> Option<String> {
        let main = &self.0.main;
        self.0.reading_needed.map(|own| at_most((main.show)(own)))
    }

    /// The standard uncertainty of the reading now, written in the reading's unit.
    pub fn now(&self) -> String {
        self.0.now()
    }
}

/// Two clauses: what makes the doubt, and what would settle it.
impl<Q: Quantity> fmt::Display for Settle<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl Settled {
    pub fn of(facts: &Facts<'_>, main: &Dominant) -> Settled {
        let standard = facts.numbers.standard;
        let needed = needed(facts).filter(|needed| *needed * BEST_IMPROVEMENT > standard);
        let mut settled = Settled {
            kind: facts.kind,
            remedy: Remedy::OnTheLimit,
            needed,
            reading_needed: None,
            part_needed: None,
            main: main.clone(),
        };
        let Some(needed) = needed else { return settled };
        let left = needed * needed - main.others;
        if left <= main.variance / (BEST_IMPROVEMENT * BEST_IMPROVEMENT) {
            settled.remedy = Remedy::SeveralReadings;
            return settled;
        }
        let own = main.own() * (left / main.variance).sqrt();
        settled.reading_needed = Some(own);
        (settled.remedy, settled.part_needed) = main.remedy(own);
        settled
    }

    fn now(&self) -> String {
        small((self.main.show)(self.main.own()))
    }

    /// What the reading would need, and what it has.
    fn in_all(&self) -> String {
        let written =
            |own| format!("a standard uncertainty of at most {} in all (now {})", self.most(own), self.now());
        self.reading_needed.map(written).unwrap_or_default()
    }

    fn most(&self, own: f64) -> String {
        at_most((self.main.show)(own))
    }
}

impl fmt::Display for Settled {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.main.blame())?;
        match self.remedy {
            Remedy::OnTheLimit => {
                f.write_str("; the value is so close to the limit that no realistic instrument decides")
            }
            Remedy::SeveralReadings => {
                let needed = self.needed.map(|needed| at_most(difference_shown(self.kind, needed)));
                write!(
                    f,
                    "; a better {} alone is not enough: with the other readings improved too, \
                     the result needs a standard uncertainty of at most {}",
                    self.main.what,
                    needed.unwrap_or_default()
                )
            }
            Remedy::FinerStep => {
                let part = self.part_needed.map(|part| self.most(part)).unwrap_or_default();
                write!(f, "; a step of at most {part} would settle it: {}", self.in_all())
            }
            Remedy::BetterAccuracy => {
                write!(f, "; to settle it takes better accuracy: {}", self.in_all())
            }
            Remedy::FinerStepAndBetterAccuracy => {
                write!(f, "; to settle it takes a finer step and better accuracy: {}", self.in_all())
            }
            Remedy::MoreRepeats => write!(f, "; more repeats would settle it: {}", self.in_all()),
        }
    }
}

/// The largest standard uncertainty at which the value decides, SI units; none where it lies on a limit.
fn needed(facts: &Facts<'_>) -> Option<f64> {
    let (below, above) = facts.room();
    let level = facts.numbers.level;
    let nearest = below.min(above);
    if nearest == 0.0 {
        return None;
    }
    // One limit matters: past it, or the other is absent.
    let one_sided = nearest.abs() / level.one_sided();
    if nearest < 0.0 || below.max(above).is_infinite() {
        return Some(one_sided);
    }
    // Between two limits P(within) falls as u grows, and is at most the one-sided value.
    let within = |u: f64| normal_cdf(above / u) - normal_cdf(-below / u);
    let (mut low, mut high) = (0.0, one_sided);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if within(middle) >= level.p() {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(low)
}
