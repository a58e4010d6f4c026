//! The doubt of a result, kept by source so that correlation is exact.

use super::source::{Cause, Contribution};

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
    pub(super) const fn none() -> Doubt {
        Doubt { first: [const { Contribution::NONE }; INLINE], len: 0, rest: Vec::new() }
    }

    /// Adds a contribution, to the one of the same source where there is one.
    pub(super) fn add(&mut self, contribution: Contribution) {
        let known = self.first.iter_mut().take(self.len).chain(&mut self.rest);
        for existing in known {
            if existing.source == contribution.source {
                existing.amount += contribution.amount;
                return;
            }
        }
        match self.first.get_mut(self.len) {
            Some(free) => {
                *free = contribution;
                self.len += 1;
            }
            None => self.rest.push(contribution),
        }
    }

    /// Adds all of `other`, times a derivative.
    pub(super) fn add_scaled(&mut self, other: &Doubt, derivative: f64) {
        for contribution in other.iter() {
            self.add(Contribution { amount: contribution.amount * derivative, ..contribution.clone() });
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
        self.iter().any(|c| c.degrees_of_freedom.is_finite())
    }

    /// Effective degrees of freedom by Welch and Satterthwaite (JCGM 100, equation G.2b).
    pub(super) fn degrees_of_freedom(&self) -> f64 {
        if !self.has_finite() {
            return f64::INFINITY;
        }
        let total = self.variance();
        // Infinitely many degrees of freedom add nothing to the sum.
        let sum: f64 = self.groups().map(|(c, variance)| variance * variance / c.degrees_of_freedom).sum();
        if sum > 0.0 { total * total / sum } else { f64::INFINITY }
    }
}
