//! Which next reading would tell the two likeliest faults apart.

use std::fmt;

use super::ranking::Component;
use super::{Fault, Feature, Ranking, Spreads};
use crate::quantity::{Quantity, Ratio, fraction};

/// What a reading not taken yet is expected to tell of the two likeliest faults.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextReading {
    /// What to read.
    pub feature: Feature,
    /// The two to tell apart, likelier first.
    pub between: (Fault, Fault),
    /// The information expected, in bits: 1 would settle an even question for certain.
    pub bits: f64,
    /// How often the likelier of the two is the right one, as it stands.
    pub right_now: Ratio,
    /// How often it would be, after the reading.
    pub right_after: Ratio,
}

/// Below this a reading is not worth naming: common practice, no source.
const WORTH_NAMING: f64 = 0.01;
/// Points of the quadrature, an even number of steps.
const STEPS: usize = 240;
/// How far it reaches past the outermost means, in standard deviations.
const REACH: f64 = 7.0;

impl Ranking {
    /// The readings not taken yet, most telling first; those that would tell nothing (below 0.01 bit) are left out.
    ///
    /// # Units
    /// Information in bits; spreads are standard uncertainties.
    /// # Source
    /// Expected information (D. V. Lindley, Ann. Math. Statist. 27 (1956) 986): the entropy of the question "which of the
    /// two" less what is expected to remain.
    /// # Valid range
    /// Readings whose error is not shared with those already taken.
    /// # Accuracy
    /// Simpson's rule over the mixture of a fault's forms, 1e-4 bit.
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::fault::*;
    /// use kingvalve::quantity::*;
    /// let high = Residual::new(Feature::Superheat, delta_fahrenheit(26.0), delta_fahrenheit(12.0))?;
    /// let ranking = Ranking::of(&[high], &Patterns::fixed_orifice(), &Priors::default())?;
    /// let next = ranking.next_readings(&Spreads::default());
    /// // Low charge takes subcooling away, a starving or restricted line adds to it.
    /// assert_eq!(next[0].feature, Feature::Subcooling);
    /// assert!(next[0].right_after > next[0].right_now);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn next_readings(&self, spreads: &Spreads) -> Vec<NextReading> {
        let (first, second) = (self.top(), self.second());
        let both = first.probability.fraction() + second.probability.fraction();
        let share = first.probability.fraction() / both;
        let of = |fault: Fault| -> Vec<&Component> {
            self.components.iter().filter(|c| c.fault == fault && c.probability > 0.0).collect()
        };
        let (a, b) = (of(first.fault), of(second.fault));
        let mut next: Vec<NextReading> = Feature::ALL
            .into_iter()
            .filter(|feature| !self.has(*feature))
            .map(|feature| {
                let spread = spreads.of(feature).base();
                let mixture = |components: &[&Component]| self.mixture(components, feature, spread);
                let (bits, right) = told(share, &mixture(&a), &mixture(&b));
                NextReading {
                    feature,
                    between: (first.fault, second.fault),
                    bits,
                    right_now: fraction(share),
                    right_after: fraction(right),
                }
            })
            .filter(|next| next.bits >= WORTH_NAMING)
            .collect();
        next.sort_by(|a, b| b.bits.total_cmp(&a.bits));
        next
    }

    /// What the reading would show under one fault: normals with weight, mean and standard deviation.
    fn mixture(&self, components: &[&Component], feature: Feature, spread: f64) -> Vec<Normal> {
        let total: f64 = components.iter().map(|c| c.probability).sum();
        components
            .iter()
            .map(|c| {
                let (mean, variance) = self.patterns.predicted(c.fault, c.form, feature);
                Normal { weight: c.probability / total, mean, deviation: (variance + spread * spread).sqrt() }
            })
            .collect()
    }
}

struct Normal {
    weight: f64,
    mean: f64,
    deviation: f64,
}

fn density(mixture: &[Normal], at: f64) -> f64 {
    let one = |normal: &Normal| {
        let off = (at - normal.mean) / normal.deviation;
        normal.weight * (-0.5 * off * off).exp() / (normal.deviation * std::f64::consts::TAU.sqrt())
    };
    mixture.iter().map(one).sum()
}

/// Bits expected of an observation from `a` (with probability `share`) or else `b`, and how often the likelier of the
/// two is right after it.
fn told(share: f64, a: &[Normal], b: &[Normal]) -> (f64, f64) {
    if !(share > 0.0 && share < 1.0) {
        return (0.0, share);
    }
    let ends = |side: f64| a.iter().chain(b).map(move |n| side * n.mean + REACH * n.deviation);
    let (low, high) = (-ends(-1.0).fold(f64::MIN, f64::max), ends(1.0).fold(f64::MIN, f64::max));
    let step = (high - low) / STEPS as f64;
    let (mut remaining, mut right) = (0.0, 0.0);
    for at in 0..=STEPS {
        let y = low + step * at as f64;
        let (joint_a, joint_b) = (share * density(a, y), (1.0 - share) * density(b, y));
        let simpson = if at == 0 || at == STEPS { 1.0 } else { 2.0 + 2.0 * (at % 2) as f64 };
        let weight = simpson * step / 3.0;
        let both = joint_a + joint_b;
        if both > 0.0 {
            remaining += weight * both * entropy(joint_a / both);
            right += weight * joint_a.max(joint_b);
        }
    }
    ((entropy(share) - remaining).max(0.0), right.clamp(share.max(1.0 - share), 1.0))
}

/// Of a question with two answers, in bits.
fn entropy(p: f64) -> f64 {
    let term = |p: f64| if p > 0.0 { -p * p.log2() } else { 0.0 };
    term(p) + term(1.0 - p)
}

/// As a sentence: "Read subcooling (liquid pressure …): …".
impl fmt::Display for NextReading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "Read {} ({}): of {} and {} it would leave the right one ahead in {:.0} of 100 such cases, against {:.0} now.",
            self.feature,
            self.feature.how(),
            self.between.0,
            self.between.1,
            self.right_after.percent(),
            self.right_now.percent(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two normals one deviation either side: the chance to be right is Φ(1), the information 0.4859 bit (the capacity
    /// of binary signalling at 0 dB, numpy quadrature).
    #[test]
    fn two_normals_by_hand() {
        let at = |mean| [Normal { weight: 1.0, mean, deviation: 1.0 }];
        let (bits, right) = told(0.5, &at(1.0), &at(-1.0));
        assert!((right - 0.841_344_746).abs() < 1e-4, "{right}");
        assert!((bits - 0.485_9).abs() < 2e-4, "{bits}");
        let (bits, right) = told(0.7, &at(1.0), &at(1.0));
        assert!(bits < 1e-9 && (right - 0.7).abs() < 1e-9);
    }
}
