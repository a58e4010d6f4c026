//! The probability of each fault, given the residuals.

use super::feature::FEATURES;
use super::likelihood::{Matrix, log_density};
use super::patterns::Form;
use super::{Fault, Feature, Metering, Patterns, Priors, Residual};
use crate::measure::chi_square_beyond;
use crate::quantity::{Ratio, fraction};
use crate::{Error, Result};

/// Faults, and none, by their probability given the residuals.
///
/// # Units
/// Residuals are temperature differences; probabilities are shares that sum to one.
/// # Source
/// Bayes' rule. The residuals under a fault of given form are normal about its pattern ([`Patterns`]); their
/// covariance is that of the readings, what two share (one gauge, one thermometer) counted as shared, plus the named
/// scatter and variation. After T. M. Rossi and J. E. Braun, HVAC&R Research 3 (1997) 19–37, whose rules use directions
/// alone; here the size counts as well.
/// # Valid range
/// That of the [`Patterns`]. One fault at a time.
/// # Accuracy
/// Probabilities are exact for the patterns and priors given, and no better than these: they say how far the readings
/// tell faults apart, not how often a technician will find the first one.
/// # Errors
/// A feature given twice.
/// # Example
/// See [the room](super).
#[derive(Debug, Clone)]
pub struct Ranking {
    ranked: Vec<Ranked>,
    pub(super) components: Vec<Component>,
    pub(super) residuals: Vec<Residual>,
    pub(super) patterns: Patterns,
    misfit: f64,
}

/// A fault with its probability.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ranked {
    /// Which.
    pub fault: Fault,
    /// Given the residuals.
    pub probability: Ratio,
}

/// A fault in one form, with its probability.
#[derive(Debug, Clone, Copy)]
pub(super) struct Component {
    pub(super) fault: Fault,
    pub(super) form: Form,
    pub(super) probability: f64,
}

impl Ranking {
    /// Ranks the faults. Without any residual the priors stand as they are.
    ///
    /// # Errors
    /// See [`Ranking`].
    pub fn of(residuals: &[Residual], patterns: &Patterns, priors: &Priors) -> Result<Ranking> {
        // In one order, so that the order of reading changes nothing, not even rounding.
        let mut residuals = residuals.to_vec();
        residuals.sort_by_key(|residual| residual.feature());
        for pair in residuals.windows(2) {
            if let [first, second] = pair
                && first.feature() == second.feature()
            {
                return Err(Error::inconsistent(
                    first.feature().to_string(),
                    "it is given twice",
                    "combine the readings first, or leave one out",
                ));
            }
        }
        let covariance = covariance(&residuals);
        let mut weighed = Vec::new();
        let mut nearest = f64::INFINITY;
        for fault in Fault::ALL {
            let prior = priors.of(fault).fraction();
            if prior <= 0.0 {
                continue;
            }
            for form in patterns.forms(fault) {
                let (log, distance) = explained(&residuals, &covariance, patterns, fault, form);
                if form.stretch == 1.0 {
                    nearest = nearest.min(distance);
                }
                weighed.push((fault, form, (prior * form.weight).ln() + log));
            }
        }
        let highest = weighed.iter().map(|(_, _, log)| *log).fold(f64::NEG_INFINITY, f64::max);
        let total: f64 = weighed.iter().map(|(_, _, log)| (log - highest).exp()).sum();
        let components: Vec<Component> = weighed
            .into_iter()
            .map(|(fault, form, log)| Component { fault, form, probability: (log - highest).exp() / total })
            .collect();
        let mut ranked: Vec<Ranked> = Fault::ALL
            .into_iter()
            .map(|fault| {
                let own = components.iter().filter(|c| c.fault == fault);
                // The forms of a fault that is all there is sum to one but for rounding.
                let sum: f64 = own.map(|c| c.probability).sum();
                Ranked { fault, probability: fraction(sum.min(1.0)) }
            })
            .collect();
        ranked.sort_by(|a, b| b.probability.fraction().total_cmp(&a.probability.fraction()));
        let misfit =
            if residuals.is_empty() { 1.0 } else { chi_square_beyond(nearest, residuals.len() as f64) };
        Ok(Ranking { ranked, components, residuals, patterns: patterns.clone(), misfit })
    }

    /// Every fault and none, likeliest first.
    pub fn ranked(&self) -> &[Ranked] {
        &self.ranked
    }

    /// The likeliest.
    pub fn top(&self) -> Ranked {
        self.place(0)
    }

    /// The second likeliest.
    pub fn second(&self) -> Ranked {
        self.place(1)
    }

    fn place(&self, at: usize) -> Ranked {
        let none = Ranked { fault: Fault::NoFault, probability: Ratio::ZERO };
        self.ranked.get(at).copied().unwrap_or(none)
    }

    /// That of one fault.
    pub fn probability(&self, fault: Fault) -> Ratio {
        self.ranked.iter().find(|ranked| ranked.fault == fault).map_or(Ratio::ZERO, |r| r.probability)
    }

    /// The residuals, in the order of the features.
    pub fn residuals(&self) -> &[Residual] {
        &self.residuals
    }

    /// Of what metering device.
    pub fn metering(&self) -> Metering {
        self.patterns.metering()
    }

    /// How likely residuals at least this far from the pattern nearest to them are, were that pattern the true one.
    /// Near zero none of the faults explains them: two at once, a reading in error, or conditions outside the range.
    ///
    /// # Source
    /// χ² of the squared distance, degrees of freedom as many as residuals; the nearest of the patterns is taken, so
    /// the number is on the high side.
    pub fn fit(&self) -> Ratio {
        fraction(self.misfit)
    }

    pub(super) fn has(&self, feature: Feature) -> bool {
        self.residuals.iter().any(|residual| residual.feature() == feature)
    }
}

/// Of the readings alone: what two share is counted as shared.
fn covariance(residuals: &[Residual]) -> Matrix {
    let mut matrix = [[0.0; FEATURES]; FEATURES];
    for (row, a) in matrix.iter_mut().zip(residuals) {
        for (slot, b) in row.iter_mut().zip(residuals) {
            *slot = if a.feature() == b.feature() {
                a.standard() * a.standard()
            } else {
                a.value().correlation(b.value()) * a.standard() * b.standard()
            };
        }
    }
    matrix
}

fn explained(
    residuals: &[Residual],
    covariance: &Matrix,
    patterns: &Patterns,
    fault: Fault,
    form: Form,
) -> (f64, f64) {
    let (mut off, mut added) = ([0.0; FEATURES], [0.0; FEATURES]);
    for ((residual, off), added) in residuals.iter().zip(&mut off).zip(&mut added) {
        let (mean, variance) = patterns.predicted(fault, form, residual.feature());
        (*off, *added) = (residual.si() - mean, variance);
    }
    log_density(residuals.len(), &off, covariance, &added)
}
