//! What would settle an unresolved verdict.

mod ways;

use std::fmt;

use super::Judgement;
use super::distribution::normal_cdf;
use super::dominant::{BEST_IMPROVEMENT, Dominant};
use super::prose::{at_most, small};
use super::source::shown;
use crate::quantity::Quantity;

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
pub struct Settle<Q: Quantity> {
    remedy: Remedy,
    needed: Option<Q::Difference>,
    /// Standard uncertainty the reading needs, SI units of what it reads.
    reading_needed: Option<f64>,
    /// The step that alone would do, or the standard uncertainty from accuracy or scatter.
    part_needed: Option<f64>,
    main: Dominant,
}

impl<Q: Quantity> Settle<Q> {
    pub(super) fn of(judgement: &Judgement<Q>, main: &Dominant) -> Settle<Q> {
        let needed = needed(judgement).filter(|needed| *needed * BEST_IMPROVEMENT > judgement.standard());
        let mut settle = Settle {
            remedy: Remedy::OnTheLimit,
            needed: needed.map(Q::Difference::from_base),
            reading_needed: None,
            part_needed: None,
            main: main.clone(),
        };
        let Some(needed) = needed else { return settle };
        let left = needed * needed - main.others;
        if left <= main.variance / (BEST_IMPROVEMENT * BEST_IMPROVEMENT) {
            settle.remedy = Remedy::SeveralReadings;
            return settle;
        }
        let own = main.own() * (left / main.variance).sqrt();
        settle.reading_needed = Some(own);
        (settle.remedy, settle.part_needed) = main.remedy(own);
        settle
    }

    /// What kind of change it takes.
    pub fn remedy(&self) -> Remedy {
        self.remedy
    }

    /// The reading to improve.
    pub fn reading(&self) -> &str {
        self.main.what.as_str()
    }

    /// The largest standard uncertainty of the result with which this value would decide; none on the limit.
    pub fn needed(&self) -> Option<Q::Difference> {
        self.needed
    }

    /// The largest standard uncertainty of the reading with which it would, written in the reading's unit.
    pub fn needed_of_reading(&self) -> Option<String> {
        self.reading_needed.map(|own| at_most(self.main.show, own))
    }

    /// The standard uncertainty of the reading now, written in the reading's unit.
    pub fn now(&self) -> String {
        small(self.main.show, self.main.own())
    }
}

/// Two clauses: what makes the doubt, and what would settle it.
impl<Q: Quantity> fmt::Display for Settle<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let main = &self.main;
        write!(f, "{}", main.blame())?;
        let in_all = |own: Option<f64>| match own {
            Some(own) => {
                format!(
                    "a standard uncertainty of at most {} in all (now {})",
                    at_most(main.show, own),
                    self.now()
                )
            }
            None => String::new(),
        };
        let part = self.part_needed.map(|part| at_most(main.show, part)).unwrap_or_default();
        match self.remedy {
            Remedy::OnTheLimit => {
                write!(f, "; the value is so close to the limit that no realistic instrument decides")
            }
            Remedy::SeveralReadings => {
                let needed = self.needed.map(|q| at_most(shown::<Q>, q.base())).unwrap_or_default();
                write!(
                    f,
                    "; a better {} alone is not enough: with the other readings improved too, \
                     the result needs a standard uncertainty of at most {needed}",
                    main.what
                )
            }
            Remedy::FinerStep => {
                write!(f, "; a step of at most {part} would settle it: {}", in_all(self.reading_needed))
            }
            Remedy::BetterAccuracy => {
                write!(f, "; to settle it takes better accuracy: {}", in_all(self.reading_needed))
            }
            Remedy::FinerStepAndBetterAccuracy => {
                write!(
                    f,
                    "; to settle it takes a finer step and better accuracy: {}",
                    in_all(self.reading_needed)
                )
            }
            Remedy::MoreRepeats => {
                write!(f, "; more repeats would settle it: {}", in_all(self.reading_needed))
            }
        }
    }
}

/// The largest standard uncertainty at which the value decides, SI units; none where it lies on a limit.
fn needed<Q: Quantity>(judgement: &Judgement<Q>) -> Option<f64> {
    let (below, above) = judgement.room();
    let level = judgement.level();
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
