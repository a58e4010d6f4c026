//! The charge, once volume, oil, gauge and composition are supposed: a mixture of pieces, each uniform or normal.
//!
//! Where all is vapour a standing pressure gives the charge nearly exactly; where there is liquid it says nothing of
//! it; where air is present it bounds it from above. So on the axis of the charge every supposed system has
//! breakpoints between which all readings have one meaning each, and there the charge is normal or uniform: nothing
//! has to be drawn to find how likely the supposition is.
//!
//! Source: Bayes' rule, integrated over each piece in closed form. Charges in kg. Accuracy: pieces of less than 1e-12 of the
//! weight before them are left out.

use super::MOST_STANDING;
use super::points::Share;
use super::product::{Product, Shape};
use super::running::Running;
use super::seen::{SQRT_TAU, Seen, normal_density};
use super::standing::Standing;
use crate::measure::{normal_cdf, normal_quantile};

/// Before anything was read: how the charge is spread, kg.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spread {
    pub low: f64,
    pub high: f64,
    pub beyond: f64,
    /// Density of the charge as found, 1/kg: up to `high`, and beyond.
    inside: f64,
    outside: f64,
}

/// Everything that weighs on the charge.
#[derive(Debug, Clone, Copy)]
pub(super) struct Evidence<'a> {
    pub standing: &'a [Standing],
    /// A running reading, and the charge by whatever tells it as a value besides standing pressures.
    pub running: Option<&'a Running>,
    pub known: Product,
    pub spread: Spread,
    /// All that was weighed in, kg.
    pub added: f64,
    /// The chance of air or nitrogen, and the density of its partial pressure, 1/Pa.
    pub gas: f64,
    pub gas_density: f64,
}

/// What a piece of the charge's axis means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Meaning {
    /// At the last standing reading all was vapour.
    Vapour,
    /// There was liquid, or nothing was read standing.
    Liquid,
    /// Air or nitrogen is present.
    Gas,
}

#[derive(Debug, Clone, Copy)]
struct Piece {
    low: f64,
    high: f64,
    /// Mean and standard deviation; an infinite deviation for a uniform piece.
    mean: f64,
    deviation: f64,
    weight: f64,
    meaning: Meaning,
}

/// Standing readings and the three bounds of the prior make no more pieces than this, those with a gas included.
const MOST: usize = MOST_STANDING + 5;

/// The pieces of one supposed system.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pieces {
    pieces: [Piece; MOST],
    len: usize,
    total: f64,
}

/// A piece whose weight is so small a share of those before it is left out.
const NOTHING: f64 = 1e-12;
/// So many standard deviations away nothing is left of a normal.
pub(super) const FAR: f64 = 6.5;

impl Spread {
    /// Evenly from `low` to `high`, but with a chance from `low` to `beyond`.
    pub fn of(low: f64, high: f64, beyond: f64, chance_beyond: f64) -> Spread {
        let outside = chance_beyond / (beyond - low);
        Spread { low, high, beyond, inside: outside + (1.0 - chance_beyond) / (high - low), outside }
    }

    /// Density of the charge as found, 1/kg.
    fn density(&self, charge: f64) -> f64 {
        if charge < self.low || charge > self.beyond {
            0.0
        } else if charge <= self.high {
            self.inside
        } else {
            self.outside
        }
    }
}

impl Default for Pieces {
    fn default() -> Self {
        let none = Piece {
            low: 0.0,
            high: 0.0,
            mean: 0.0,
            deviation: f64::INFINITY,
            weight: 0.0,
            meaning: Meaning::Liquid,
        };
        Pieces { pieces: [none; MOST], len: 0, total: 0.0 }
    }
}

impl Pieces {
    /// Takes the place of what it held before.
    pub fn weigh(&mut self, evidence: &Evidence<'_>, seen: &[Seen]) {
        (self.len, self.total) = (0, 0.0);
        let spread = &evidence.spread;
        let added = evidence.added;
        let bounds = [spread.low + added, spread.high + added, spread.beyond + added];
        let mut cuts = [f64::INFINITY; MOST_STANDING + 3];
        let finite = seen.iter().map(|s| s.liquid_above).filter(|cut| cut.is_finite());
        let mut n = 0;
        for (slot, cut) in cuts.iter_mut().zip(bounds.into_iter().chain(finite)) {
            *slot = cut.max(0.0);
            n += 1;
        }
        let cuts = cuts.get_mut(..n).unwrap_or(&mut []);
        // The bounds stand in order, and with them alone there is nothing to sort.
        if n > bounds.len() {
            cuts.sort_unstable_by(f64::total_cmp);
        }
        let gas = if seen.is_empty() { 0.0 } else { evidence.gas };
        let mut vapour = Product::new(1.0);
        for reading in seen {
            vapour.normal(reading.charge, reading.precision, reading.density);
        }
        let mut all_vapour = vapour;
        all_vapour.times(&evidence.known);
        let all_vapour = all_vapour.shape();
        for pair in cuts.windows(2) {
            if let [low, high] = *pair {
                let middle = 0.5 * (low + high);
                let prior = evidence.spread.density(middle - added);
                if high <= low || prior <= 0.0 {
                    continue;
                }
                let (shape, meaning) = if seen.iter().all(|reading| middle < reading.liquid_above) {
                    (Some(all_vapour), if seen.is_empty() { Meaning::Liquid } else { Meaning::Vapour })
                } else {
                    let (product, meaning) = with_liquid(seen, middle, &evidence.known);
                    (product.map(|product| product.shape()), meaning)
                };
                if let Some(shape) = shape {
                    self.push(shape, (1.0 - gas) * prior, low, high, meaning);
                }
            }
        }
        if gas > 0.0 {
            self.with_gas(evidence, seen, &vapour, bounds);
        }
    }

    /// With air or nitrogen a pressure below saturation bounds the refrigerant from above, and no more; only the
    /// changes from reading to reading still tell, since the gas stays the same.
    fn with_gas(&mut self, evidence: &Evidence<'_>, seen: &[Seen], vapour: &Product, bounds: [f64; 3]) {
        let mut product = Product::new(1.0);
        let mut cap = f64::INFINITY;
        let mut first_excess = None;
        let all_below = seen.iter().all(|reading| reading.excess < 0.0);
        for (index, reading) in seen.iter().enumerate() {
            if reading.excess < 0.0 {
                cap = cap.min(reading.charge);
                if cap.is_infinite() || product.precision == 0.0 {
                    product.constant(evidence.gas_density / reading.per_pascal);
                }
                if !all_below {
                    product.normal(reading.charge, reading.precision, reading.density);
                } else if index == 0 {
                    product.times(vapour);
                }
            } else if let Some(first) = first_excess {
                let doubt = std::f64::consts::SQRT_2 * reading.doubt_of_excess;
                product.constant(normal_density(reading.excess - first, doubt));
            } else {
                product.constant(evidence.gas_density);
                first_excess = Some(reading.excess);
            }
        }
        let chance = evidence.gas * product.scale * product.whole();
        let known = evidence.known.shape();
        for pair in bounds.windows(2) {
            if let [low, high] = *pair {
                let (low, high) = (low.max(0.0), high.min(cap));
                let prior = evidence.spread.density(0.5 * (low + high) - evidence.added);
                if high > low && prior > 0.0 {
                    self.push(known, chance * prior, low, high, Meaning::Gas);
                }
            }
        }
    }

    fn push(&mut self, shape: Shape, chance: f64, low: f64, high: f64, meaning: Meaning) {
        let Shape { scale, mean, deviation } = shape;
        // All of its normal together counts for nothing beside the pieces before it.
        if deviation.is_finite() && chance * scale * deviation * SQRT_TAU <= NOTHING * self.total {
            return;
        }
        let weight = chance * scale * shape.within(low, high);
        if weight > 0.0
            && let Some(slot) = self.pieces.get_mut(self.len)
        {
            *slot = Piece { low, high, mean, deviation, weight, meaning };
            self.len += 1;
            self.total += weight;
        }
    }

    /// How likely all readings are, were the system as supposed; up to a factor.
    pub fn likelihood(&self) -> f64 {
        self.total
    }

    /// The charge that is not exceeded with probability `share`, and what that means.
    pub fn draw(&self, share: &Share) -> (f64, Meaning) {
        let used = self.pieces.get(..self.len).unwrap_or(&[]);
        if let [only] = used
            && only.is_whole()
        {
            return (only.mean + only.deviation * share.quantile, only.meaning);
        }
        let mut left = share.of * self.total;
        for piece in used {
            if left <= piece.weight {
                return (piece.quantile(left / piece.weight), piece.meaning);
            }
            left -= piece.weight;
        }
        used.last().map_or((0.0, Meaning::Liquid), |piece| (piece.high, piece.meaning))
    }
}

/// The product where some readings were of liquid; nothing where one cannot be.
fn with_liquid(seen: &[Seen], charge: f64, known: &Product) -> (Option<Product>, Meaning) {
    let mut product = *known;
    let mut meaning = Meaning::Liquid;
    for reading in seen {
        if charge < reading.liquid_above {
            product.normal(reading.charge, reading.precision, reading.density);
            meaning = Meaning::Vapour;
        } else if reading.if_liquid > 0.0 {
            product.constant(reading.if_liquid);
            meaning = Meaning::Liquid;
        } else {
            return (None, meaning);
        }
    }
    (Some(product), meaning)
}

impl Piece {
    /// Whether the ends cut nothing off its normal.
    fn is_whole(&self) -> bool {
        let far = FAR * self.deviation;
        self.mean - self.low > far && self.high - self.mean > far
    }

    fn quantile(&self, share: f64) -> f64 {
        if self.deviation.is_infinite() {
            return self.low + share * (self.high - self.low);
        }
        if self.is_whole() {
            return self.mean + self.deviation * normal_quantile(share.clamp(1e-15, 1.0 - 1e-15));
        }
        let from = (self.low - self.mean) / self.deviation;
        let to = (self.high - self.mean) / self.deviation;
        // Counted from the nearer tail, where the numbers keep their digits.
        let z = if from > 0.0 {
            let (a, b) = (normal_cdf(-from), normal_cdf(-to));
            -normal_quantile(a - share * (a - b))
        } else {
            let (a, b) = (normal_cdf(from), normal_cdf(to));
            normal_quantile(a + share * (b - a))
        };
        let z = if z.is_finite() { z } else { from.max(0.0) };
        (self.mean + self.deviation * z).clamp(self.low, self.high)
    }
}
