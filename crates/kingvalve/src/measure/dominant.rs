//! The reading that makes most of a doubt: by its share of the combined variance (JCGM 100:2008, 5.1.3).

use super::prose::share;
use super::source::{Cause, Contribution, Identity};
use super::{Doubt, Label, Remedy};

/// By more than this factor no change of instrument improves a reading: common practice, no source.
pub(super) const BEST_IMPROVEMENT: f64 = 50.0;

/// The reading that contributes most to a doubt, summed over its sources. SI units.
#[derive(Debug, Clone)]
pub(super) struct Dominant {
    pub what: Label,
    /// Variance of the result from this reading, and from all others.
    pub variance: f64,
    pub others: f64,
    /// Writes an amount of what it reads.
    pub show: fn(f64) -> String,
    /// Own variances of the reading, by cause, in its units.
    step: f64,
    accuracy: f64,
    scatter: f64,
    /// Width of its display's step.
    width: f64,
    /// Whether its accuracy was never stated; one that cancels between two readings was.
    bare: bool,
    repeats: usize,
}

impl Dominant {
    /// Finds it; the first of equals. None where there is no doubt.
    #[inline]
    pub fn of(doubt: &Doubt, total: f64) -> Option<Dominant> {
        let (mut all, mut most): (&[Contribution], f64) = (&[], 0.0);
        let mut rest = doubt.all();
        while let [first, ..] = rest {
            let variance: f64 = of_reading(rest, first.reading).map(Contribution::variance).sum();
            if variance > most {
                (all, most) = (rest, variance);
            }
            // What is left of this reading, if any, sums to no more.
            let run = rest.iter().take_while(|c| c.reading == first.reading).count();
            rest = &rest[run..];
        }
        let first = all.first()?;
        let mut dominant = Dominant {
            what: first.what.clone(),
            variance: most,
            others: (total - most).max(0.0),
            show: first.show,
            step: 0.0,
            accuracy: 0.0,
            scatter: 0.0,
            width: 0.0,
            bare: false,
            repeats: 0,
        };
        for contribution in of_reading(all, first.reading) {
            let own = contribution.own * contribution.own;
            match contribution.cause {
                Cause::Step { width, bare } => {
                    (dominant.step, dominant.width, dominant.bare) = (own, width, bare);
                }
                Cause::Accuracy { .. } | Cause::Stated { .. } | Cause::Limits => dominant.accuracy += own,
                Cause::Repeats { count } | Cause::Together { count } => {
                    dominant.scatter += own;
                    dominant.repeats = count;
                }
            }
        }
        Some(dominant)
    }

    /// Its share of the whole variance.
    pub fn share(&self) -> f64 {
        self.variance / (self.variance + self.others)
    }

    /// Its own standard uncertainty.
    pub fn own(&self) -> f64 {
        self.own_variance().sqrt()
    }

    fn own_variance(&self) -> f64 {
        self.step + self.accuracy + self.scatter
    }

    /// What brings its own standard uncertainty down to `needed`, and how fine the part that must improve has to be.
    pub fn remedy(&self, needed: f64) -> (Remedy, Option<f64>) {
        let needed = needed * needed;
        let left_beside = |rest: f64| {
            Some(needed - rest).filter(|left| *left > needed / BEST_IMPROVEMENT.powi(2)).map(f64::sqrt)
        };
        let both = (Remedy::FinerStepAndBetterAccuracy, None);
        if self.step >= self.accuracy.max(self.scatter) {
            // A step alone is no promise where the accuracy was never stated.
            match left_beside(self.accuracy + self.scatter).filter(|_| !self.bare) {
                Some(left) => (Remedy::FinerStep, Some(left * 12f64.sqrt())),
                None => both,
            }
        } else if self.accuracy >= self.scatter {
            left_beside(self.step + self.scatter).map_or(both, |left| (Remedy::BetterAccuracy, Some(left)))
        } else {
            left_beside(self.step + self.accuracy).map_or(both, |left| (Remedy::MoreRepeats, Some(left)))
        }
    }

    /// Said with a firm verdict that rests on the step of a display alone.
    pub fn reservation(&self) -> Option<String> {
        self.bare
            .then(|| format!("Of the {} only the step is counted; its accuracy was not given.", self.what))
    }

    /// "The 0.1 A step of the ammeter is nearly all the doubt (99 %)".
    pub fn blame(&self) -> String {
        let what = &self.what;
        let (most, cause) = if self.step >= self.accuracy.max(self.scatter) {
            (self.step, format!("The {} step of the {what}", (self.show)(self.width)))
        } else if self.accuracy >= self.scatter {
            (self.accuracy, format!("The accuracy of the {what}"))
        } else {
            (self.scatter, format!("The scatter of the {} readings of the {what}", self.repeats))
        };
        let of_all = self.share() * most / self.own_variance();
        let much = match of_all {
            // As printed: 90 % and above.
            part if part >= 0.895 => "nearly all",
            part if part >= 0.495 => "most of",
            _ => "the largest part of",
        };
        format!("{cause} is {much} the doubt ({})", share(of_all))
    }
}

fn of_reading(all: &[Contribution], reading: Identity) -> impl Iterator<Item = &Contribution> {
    all.iter().filter(move |c| c.reading == reading)
}
