//! The doubt of a result, kept by source so that correlation is exact.

use super::source::{Cause, Contribution, Identity};

/// How many contributions are kept without allocating.
const INLINE: usize = 8;

/// The contributions to the doubt of one result.
///
/// Linear propagation by the law of JCGM 100:2008, 5.1 and 5.2: each independent source is kept apart with its
/// signed amount ∂f/∂x·u(x), so that a source two inputs share adds up, or cancels, by itself.
#[derive(Debug, Clone)]
pub struct Doubt {
    first: [Contribution; INLINE],
    len: usize,
    rest: Vec<Contribution>,
}

impl Doubt {
    /// No doubt at all.
    #[inline]
    pub(crate) const fn none() -> Doubt {
        Doubt { first: [const { Contribution::NONE }; INLINE], len: 0, rest: Vec::new() }
    }

    /// Adds an amount to that of its source, which is made where it is new.
    #[inline(always)]
    pub(super) fn add(&mut self, source: Identity, amount: f64, new: impl FnOnce() -> Contribution) {
        for existing in self.first.iter_mut().take(self.len) {
            if existing.source == source {
                existing.amount += amount;
                return;
            }
        }
        match self.first.get_mut(self.len) {
            Some(free) => {
                *free = new();
                self.len += 1;
            }
            None => match self.rest.iter_mut().find(|existing| existing.source == source) {
                Some(existing) => existing.amount += amount,
                None => self.rest.push(new()),
            },
        }
    }

    /// Adds all of `other`, times a derivative.
    pub(super) fn add_scaled(&mut self, other: &Doubt, derivative: f64) {
        for contribution in other.iter() {
            let amount = contribution.amount * derivative;
            self.add(contribution.source, amount, || Contribution { amount, ..contribution.clone() });
        }
    }

    /// Multiplies every amount.
    pub(super) fn scale(&mut self, derivative: f64) {
        for contribution in self.first.iter_mut().take(self.len).chain(&mut self.rest) {
            contribution.amount *= derivative;
        }
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &Contribution> {
        self.first.iter().take(self.len).chain(&self.rest)
    }

    /// The combined variance, SI units squared (JCGM 100, equation 10).
    pub(super) fn variance(&self) -> f64 {
        self.iter().map(Contribution::variance).sum()
    }

    /// The combined standard uncertainty, SI units.
    pub(super) fn standard(&self) -> f64 {
        self.variance().sqrt()
    }

    /// Every source that readings of one instrument have in common (its accuracy, a site's atmosphere), with its signed
    /// amount in SI units; steps and scatter are each reading's own.
    pub(crate) fn in_common(&self) -> impl Iterator<Item = (u64, f64)> {
        self.iter()
            .filter(|c| matches!(c.cause, Cause::Accuracy { .. } | Cause::Stated { .. } | Cause::Limits))
            .map(|c| (c.source, c.amount))
    }

    /// Every source with its variance; the observations of one set are one group, under the first of them.
    pub(super) fn groups(&self) -> impl Iterator<Item = (&Contribution, f64)> {
        self.iter().enumerate().filter_map(|(at, c)| {
            let same_set = |other: &&Contribution| {
                matches!((c.cause, other.cause), (Cause::Together { .. }, Cause::Together { .. }))
                    && other.reading == c.reading
            };
            if self.iter().take(at).any(|earlier| same_set(&earlier)) {
                return None;
            }
            let others: f64 = self.iter().skip(at + 1).filter(same_set).map(Contribution::variance).sum();
            Some((c, c.variance() + others))
        })
    }

    /// Whether any source has finitely many degrees of freedom.
    pub(super) fn has_finite(&self) -> bool {
        self.iter().any(|c| c.degrees_of_freedom().is_finite())
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
