//! The doubt of a result, kept by source so that correlation is exact.

use arrayvec::ArrayVec;

use super::Share;
use super::source::{Cause, Contribution, Identity};
use crate::quantity::Ratio;

/// How many contributions are kept without allocating: step, accuracy and spread of two readings.
const FEW: usize = 6;

/// The contributions to the doubt of one result.
///
/// Linear propagation by the law of JCGM 100:2008, 5.1 and 5.2: each independent source is kept apart with its
/// signed amount ∂f/∂x·u(x), so that a source two inputs share adds up, or cancels, by itself.
#[derive(Debug, Clone)]
pub struct Doubt {
    /// All of them, while they are few; else none.
    few: ArrayVec<Contribution, FEW>,
    many: Vec<Contribution>,
}

impl Doubt {
    /// No doubt at all.
    #[inline]
    pub(crate) fn none() -> Doubt {
        Doubt { few: ArrayVec::new(), many: Vec::new() }
    }

    /// Adds an amount to that of its source, which is made where it is new.
    #[inline(always)]
    pub(super) fn add(&mut self, source: Identity, amount: f64, new: impl FnOnce() -> Contribution) {
        if let Some(existing) = self.all_mut().iter_mut().find(|existing| existing.source == source) {
            existing.amount += amount;
        } else if self.many.is_empty() && self.few.len() < FEW {
            // Room is looked for before the contribution is made, which is so written once, in its place.
            self.few.push(new());
        } else {
            self.many.extend(self.few.drain(..));
            self.many.push(new());
        }
    }

    /// Adds all of `other`, times a derivative.
    pub(super) fn add_scaled(&mut self, other: &Doubt, derivative: f64) {
        for contribution in other.all() {
            let amount = contribution.amount * derivative;
            self.add(contribution.source, amount, || Contribution { amount, ..contribution.clone() });
        }
    }

    /// Multiplies every amount.
    pub(super) fn scale(&mut self, derivative: f64) {
        for contribution in self.all_mut() {
            contribution.amount *= derivative;
        }
    }

    /// Every contribution, in the order in which the sources came.
    #[inline]
    pub(super) fn all(&self) -> &[Contribution] {
        if self.many.is_empty() { &self.few } else { &self.many }
    }

    #[inline]
    fn all_mut(&mut self) -> &mut [Contribution] {
        if self.many.is_empty() { &mut self.few } else { &mut self.many }
    }

    /// The combined variance, SI units squared (JCGM 100, equation 10).
    #[inline]
    pub(super) fn variance(&self) -> f64 {
        self.all().iter().map(Contribution::variance).sum()
    }

    /// The combined standard uncertainty, SI units.
    #[inline]
    pub(super) fn standard(&self) -> f64 {
        self.variance().sqrt()
    }

    /// Every source that readings of one instrument have in common (its accuracy, a site's atmosphere), with its signed
    /// amount in SI units; steps and scatter are each reading's own.
    pub(crate) fn in_common(&self) -> impl Iterator<Item = (u64, f64)> {
        self.all()
            .iter()
            .filter(|c| matches!(c.cause, Cause::Accuracy { .. } | Cause::Stated { .. } | Cause::Limits))
            .map(|c| (c.source, c.amount))
    }

    /// Every source with its variance; the observations of one set are one group, under the first of them.
    pub(super) fn groups(&self) -> impl Iterator<Item = (&Contribution, f64)> {
        self.all().iter().enumerate().filter_map(|(at, c)| {
            let same_set = |other: &&Contribution| {
                matches!((c.cause, other.cause), (Cause::Together { .. }, Cause::Together { .. }))
                    && other.reading == c.reading
            };
            let (earlier, later) = (self.all().iter().take(at), self.all().iter().skip(at + 1));
            if earlier.into_iter().any(|earlier| same_set(&earlier)) {
                return None;
            }
            let others: f64 = later.filter(same_set).map(Contribution::variance).sum();
            Some((c, c.variance() + others))
        })
    }

    /// What each source contributes, largest first; those that cancelled or are zero are left out.
    pub(super) fn shares(&self) -> Vec<Share> {
        let total = self.variance();
        let mut shares: Vec<Share> = self
            .groups()
            .filter(|(_, variance)| *variance > 0.0)
            .map(|(first, variance)| Share {
                label: first.describe(),
                share: Ratio::from_si(variance / total),
            })
            .collect();
        shares.sort_by(|a, b| {
            b.share.fraction().total_cmp(&a.share.fraction()).then_with(|| a.label.cmp(&b.label))
        });
        shares
    }

    /// Whether any source has finitely many degrees of freedom.
    #[inline]
    pub(super) fn has_finite(&self) -> bool {
        self.all().iter().any(|c| c.degrees_of_freedom().is_finite())
    }

    /// Effective degrees of freedom by Welch and Satterthwaite (JCGM 100, equation G.2b).
    pub(super) fn degrees_of_freedom(&self) -> f64 {
        if !self.has_finite() {
            return f64::INFINITY;
        }
        let total = self.variance();
        // Infinitely many degrees of freedom add nothing to the sum.
        let sum: f64 = self.groups().map(|(c, variance)| variance * variance / c.degrees_of_freedom()).sum();
        if sum > 0.0 { total * total / sum } else { f64::INFINITY }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "how a test fails")]

    use super::*;
    use crate::measure::Measured;
    use crate::quantity::volts;

    /// However many sources there are, each is kept apart, in the order in which it came, and cancels by itself.
    #[test]
    fn few_and_many_sources_are_kept_alike() {
        for count in 1..=3 * FEW {
            let readings: Vec<_> = (1..=count)
                .map(|k| Measured::from_standard(volts(1.0), volts(k as f64), format!("meter {k}")).unwrap())
                .collect();
            let mut doubt = Doubt::none();
            readings.iter().for_each(|reading| doubt.add_scaled(reading.doubt(), 1.0));
            let squares: f64 = (1..=count).map(|k| (k * k) as f64).sum();
            assert_eq!(doubt.variance(), squares);
            let labels: Vec<_> = doubt.all().iter().map(Contribution::describe).collect();
            assert_eq!(labels, (1..=count).map(|k| format!("meter {k}")).collect::<Vec<_>>());
            readings.iter().for_each(|reading| doubt.add_scaled(reading.doubt(), -1.0));
            assert_eq!((doubt.all().len(), doubt.variance()), (count, 0.0));
        }
    }
}
