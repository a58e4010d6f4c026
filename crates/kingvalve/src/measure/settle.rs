//! What would settle an unresolved verdict.

use std::fmt;

use super::distribution::normal_cdf;
use super::prose::{at_most, share, small};
use super::source::{Cause, Contribution, shown};
use super::{Doubt, Judgement, Label};
use crate::quantity::Quantity;

/// By more than this factor no change of instrument improves a reading: common practice, no source.
const BEST_IMPROVEMENT: f64 = 50.0;

/// The reading that contributes most to a doubt, summed over its sources. SI units.
#[derive(Debug, Clone)]
pub(super) struct Main {
    pub what: Label,
    /// Share of this reading in the whole variance.
    pub share: f64,
    /// Own standard uncertainties of the reading, by cause, in its units.
    step: f64,
    accuracy: f64,
    scatter: f64,
    /// Width of its display's step.
    width: f64,
    repeats: usize,
    /// Variance of the result from this reading, and from all others.
    variance: f64,
    others: f64,
    show: fn(f64) -> String,
}

impl Main {
    /// Finds it; the first of equals. None where there is no doubt.
    pub fn of(doubt: &Doubt) -> Option<Main> {
        let total = doubt.variance();
        let of_reading = |reading: u64| doubt.iter().filter(move |c| c.reading == reading);
        let mut best: Option<(&Contribution, f64)> = None;
        for contribution in doubt.iter() {
            let variance: f64 = of_reading(contribution.reading).map(Contribution::variance).sum();
            if variance > best.map_or(0.0, |(_, most)| most) {
                best = Some((contribution, variance));
            }
        }
        let (first, variance) = best?;
        let mut main = Main {
            what: first.what.clone(),
            share: variance / total,
            step: 0.0,
            accuracy: 0.0,
            scatter: 0.0,
            width: 0.0,
            repeats: 0,
            variance,
            others: (total - variance).max(0.0),
            show: first.show,
        };
        for contribution in of_reading(first.reading) {
            match contribution.cause {
                Cause::Step { width } => (main.step, main.width) = (contribution.own, width),
                Cause::Accuracy | Cause::Stated => main.accuracy = main.accuracy.hypot(contribution.own),
                Cause::Repeats { count } | Cause::Together { count } => {
                    (main.scatter, main.repeats) = (main.scatter.hypot(contribution.own), count);
                }
            }
        }
        Some(main)
    }

    fn own(&self) -> f64 {
        self.step.hypot(self.accuracy).hypot(self.scatter)
    }
}

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
    main: Main,
}

impl<Q: Quantity> Settle<Q> {
    pub(super) fn of(judgement: &Judgement<Q>, main: &Main) -> Settle<Q> {
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

impl Main {
    /// What brings the reading's own uncertainty down to `needed`, and how fine the part that must improve has to be.
    fn remedy(&self, needed: f64) -> (Remedy, Option<f64>) {
        let left_beside = |rest: f64| {
            let left = needed * needed - rest * rest;
            (left > (needed / BEST_IMPROVEMENT).powi(2)).then(|| left.sqrt())
        };
        let [largest, rest] = if self.step >= self.accuracy.max(self.scatter) {
            [self.step, self.accuracy.hypot(self.scatter)]
        } else if self.accuracy >= self.scatter {
            [self.accuracy, self.step.hypot(self.scatter)]
        } else {
            [self.scatter, self.step.hypot(self.accuracy)]
        };
        match left_beside(rest) {
            // A step alone is no promise where the accuracy was never stated.
            Some(left) if largest == self.step && self.accuracy > 0.0 => {
                (Remedy::FinerStep, Some(left * 12f64.sqrt()))
            }
            Some(left) if largest == self.accuracy && self.accuracy > self.step => {
                (Remedy::BetterAccuracy, Some(left))
            }
            Some(left) if largest == self.scatter && self.scatter > self.step => {
                (Remedy::MoreRepeats, Some(left))
            }
            _ => (Remedy::FinerStepAndBetterAccuracy, None),
        }
    }

    /// Said with a firm verdict that rests on the step of a display alone.
    pub fn reservation(&self) -> Option<String> {
        let uncounted = self.step > 0.0 && self.accuracy == 0.0;
        uncounted
            .then(|| format!("Of the {} only the step is counted; its accuracy was not given.", self.what))
    }

    /// "The 0.1 A step of the ammeter is nearly all the doubt (99 %)".
    fn blame(&self) -> String {
        let square = self.own().powi(2);
        let step = self.share * self.step * self.step / square;
        let accuracy = self.share * self.accuracy * self.accuracy / square;
        let scatter = self.share * self.scatter * self.scatter / square;
        let what = &self.what;
        let (of_cause, cause) = if step >= accuracy.max(scatter) {
            (step, format!("The {} step of the {what}", (self.show)(self.width)))
        } else if accuracy >= scatter {
            (accuracy, format!("The accuracy of the {what}"))
        } else {
            (scatter, format!("The scatter of the {} readings of the {what}", self.repeats))
        };
        let much = match of_cause {
            share if share >= 0.9 => "nearly all",
            share if share >= 0.5 => "most of",
            _ => "the largest part of",
        };
        format!("{cause} is {much} the doubt ({})", share(of_cause))
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
