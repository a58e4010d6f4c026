//! The charge, once volume, oil, gauge and composition are supposed: a mixture of pieces, each uniform or normal.
//!
//! Where all is vapour a standing pressure gives the charge nearly exactly; where there is liquid it says nothing of
//! it; where air is present it bounds it from above. So on the axis of the charge every supposed system has
//! breakpoints between which all readings have one meaning each, and there the charge is normal or uniform: nothing
//! has to be drawn to find how likely the supposition is.

use super::MOST_STANDING;
use super::points::Share;
use super::running::{Running, Says};
use super::standing::Standing;
use super::supposed::Supposed;
use crate::measure::{normal_cdf, normal_quantile};

/// Before anything was read: how the charge is spread, kg.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spread {
    pub low: f64,
    pub high: f64,
    pub beyond: f64,
    pub chance_beyond: f64,
}

/// Everything that weighs on the charge.
#[derive(Debug, Clone, Copy)]
pub(super) struct Evidence<'a> {
    pub standing: &'a [Standing],
    pub running: Option<&'a Running>,
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

/// One reading of the standing pressure, seen from a supposed system.
#[derive(Debug, Clone, Copy, Default)]
struct Seen {
    /// The charge now, were all vapour then, its deviation, and the density of the reading there.
    charge: f64,
    deviation: f64,
    density: f64,
    /// The charge now above which there was liquid then, and the density of the reading if so.
    liquid_above: f64,
    if_liquid: f64,
    /// kg per Pa of all vapour; the excess over saturation, Pa, and its doubt.
    per_pascal: f64,
    excess: f64,
    doubt_of_excess: f64,
}

/// So many standard deviations away nothing is left of a normal.
const FAR: f64 = 8.5;
const INVERSE_SQRT_TAU: f64 = 0.398_942_280_401_432_7;

fn normal_density(x: f64, deviation: f64) -> f64 {
    let z = x / deviation;
    INVERSE_SQRT_TAU / deviation * (-0.5 * z * z).exp()
}

impl Seen {
    #[inline]
    fn of(standing: &Standing, supposed: &Supposed) -> Seen {
        let pressure = (standing.pressure - standing.common * supposed.gauge).max(0.0);
        let dew = standing.dew_at(supposed.shift);
        let oil = supposed.oil;
        // What the oil holds bends upwards: its slope is taken over the width of the doubt, below saturation, and goes
        // on in a straight line above.
        let share = (pressure / dew).min(1.0);
        let doubt = standing.own_at_saturation / dew;
        let (below, above) = ((share - doubt).max(0.0), (share + doubt).min(1.0));
        let by_oil = (oil.held(above) - oil.held(below)) / (above - below);
        let held = |p: f64| {
            let in_oil = oil.held(p / dew) + by_oil * (p / dew - 1.0).max(0.0);
            supposed.volume * standing.density_at(p, supposed.shift) + in_oil
        };
        let per_pascal =
            supposed.volume * standing.slope * (1.0 + supposed.shift * standing.density_shift) + by_oil / dew;
        let by_warmth = supposed.volume * standing.thinning + by_oil * share * standing.driving_out;
        let by_gauge = standing.own * per_pascal;
        let variance = by_gauge * by_gauge + by_warmth * by_warmth + standing.since_variance;
        let deviation = variance.sqrt();
        let (liquid_above, if_liquid) = if standing.liquid_possible {
            let bubble = standing.bubble * (1.0 + supposed.shift * standing.dew_shift);
            // Between dew and bubble any pressure is as likely; its width adds to the doubt.
            let middle = 0.5 * (dew + bubble);
            let width = (bubble - dew) / 12f64.sqrt();
            let density = normal_density(pressure - middle, standing.own_at_saturation.hypot(width));
            (held(dew) + standing.since, density)
        } else {
            (f64::INFINITY, 0.0)
        };
        Seen {
            charge: held(pressure) + standing.since,
            deviation,
            density: per_pascal * INVERSE_SQRT_TAU / deviation,
            liquid_above,
            if_liquid,
            per_pascal,
            excess: pressure - dew,
            doubt_of_excess: standing.own_at_saturation,
        }
    }
}

impl Spread {
    /// Density of the charge as found, 1/kg.
    fn density(&self, charge: f64) -> f64 {
        let outside = self.chance_beyond / (self.beyond - self.low);
        if charge < self.low || charge > self.beyond {
            0.0
        } else if charge <= self.high {
            outside + (1.0 - self.chance_beyond) / (self.high - self.low)
        } else {
            outside
        }
    }
}

impl Pieces {
    pub fn of(evidence: &Evidence<'_>, supposed: &Supposed) -> Pieces {
        let empty = Piece {
            low: 0.0,
            high: 0.0,
            mean: 0.0,
            deviation: f64::INFINITY,
            weight: 0.0,
            meaning: Meaning::Liquid,
        };
        let mut out = Pieces { pieces: [empty; MOST], len: 0, total: 0.0 };
        let mut seen = [Seen::default(); MOST_STANDING];
        let mut count = 0;
        for (slot, standing) in seen.iter_mut().zip(evidence.standing) {
            *slot = Seen::of(standing, supposed);
            count += 1;
        }
        let seen = seen.get(..count).unwrap_or(&[]);
        let spread = &evidence.spread;
        let added = evidence.added;
        let mut cuts = [f64::INFINITY; MOST_STANDING + 3];
        let bounds = [spread.low + added, spread.high + added, spread.beyond + added];
        let finite = seen.iter().map(|s| s.liquid_above).filter(|cut| cut.is_finite());
        let mut n = 0;
        for (slot, cut) in cuts.iter_mut().zip(bounds.into_iter().chain(finite)) {
            *slot = cut.max(0.0);
            n += 1;
        }
        let cuts = cuts.get_mut(..n).unwrap_or(&mut []);
        cuts.sort_unstable_by(f64::total_cmp);
        let none_has_gas = 1.0 - if seen.is_empty() { 0.0 } else { evidence.gas };
        for pair in cuts.windows(2) {
            if let [low, high] = *pair {
                out.refrigerant_alone(evidence, seen, low, high, none_has_gas);
            }
        }
        if !seen.is_empty() && evidence.gas > 0.0 {
            out.with_gas(evidence, seen, bounds);
        }
        out
    }

    fn refrigerant_alone(
        &mut self,
        evidence: &Evidence<'_>,
        seen: &[Seen],
        low: f64,
        high: f64,
        chance: f64,
    ) {
        let middle = 0.5 * (low + high);
        let prior = evidence.spread.density(middle - evidence.added);
        if high <= low || prior <= 0.0 {
            return;
        }
        let mut product = Product::new(chance * prior);
        let mut meaning = Meaning::Liquid;
        for reading in seen {
            if middle < reading.liquid_above {
                let far = FAR * reading.deviation;
                if reading.charge + far < low || reading.charge - far > high {
                    return;
                }
                product.normal(reading.charge, reading.deviation, reading.density);
                meaning = Meaning::Vapour;
            } else {
                if reading.if_liquid == 0.0 {
                    return;
                }
                product.constant(reading.if_liquid);
                meaning = Meaning::Liquid;
            }
        }
        product.running(evidence.running);
        self.push(product, low, high, meaning);
    }

    /// With air or nitrogen a pressure below saturation bounds the refrigerant from above, and no more; only the
    /// changes from reading to reading still tell, since the gas stays the same.
    fn with_gas(&mut self, evidence: &Evidence<'_>, seen: &[Seen], bounds: [f64; 3]) {
        let mut product = Product::new(evidence.gas);
        let mut cap = f64::INFINITY;
        let mut first_excess = None;
        for reading in seen {
            if reading.excess < 0.0 {
                cap = cap.min(reading.charge);
                if product.precision == 0.0 {
                    product.constant(evidence.gas_density / reading.per_pascal);
                }
                product.normal(reading.charge, reading.deviation, reading.density);
            } else if let Some(first) = first_excess {
                let doubt = std::f64::consts::SQRT_2 * reading.doubt_of_excess;
                product.constant(normal_density(reading.excess - first, doubt));
            } else {
                product.constant(evidence.gas_density);
                first_excess = Some(reading.excess);
            }
        }
        let floor = product.scale * product.whole();
        for pair in bounds.windows(2) {
            if let [low, high] = *pair {
                let (low, high) = (low.max(0.0), high.min(cap));
                let prior = evidence.spread.density(0.5 * (low + high) - evidence.added);
                if high > low && prior > 0.0 {
                    let mut product = Product::new(floor * prior);
                    product.running(evidence.running);
                    self.push(product, low, high, Meaning::Gas);
                }
            }
        }
    }

    fn push(&mut self, product: Product, low: f64, high: f64, meaning: Meaning) {
        let (mean, deviation) = product.shape();
        let weight = product.scale * product.within(low, high, mean, deviation);
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

/// A product of normal densities and constants.
#[derive(Debug, Clone, Copy)]
struct Product {
    scale: f64,
    precision: f64,
    mean: f64,
}

impl Product {
    fn new(scale: f64) -> Product {
        Product { scale, precision: 0.0, mean: 0.0 }
    }

    fn constant(&mut self, factor: f64) {
        self.scale *= factor;
    }

    /// Times a normal density of that peak.
    fn normal(&mut self, mean: f64, deviation: f64, peak: f64) {
        let precision = 1.0 / (deviation * deviation);
        if self.precision == 0.0 {
            *self = Product { scale: self.scale * peak, precision, mean };
            return;
        }
        let both = self.precision + precision;
        let apart = mean - self.mean;
        self.scale *= peak * (-0.5 * apart * apart * self.precision * precision / both).exp();
        self.mean += apart * precision / both;
        self.precision = both;
    }

    fn running(&mut self, running: Option<&Running>) {
        if let Some(running) = running.filter(|running| running.says == Says::About) {
            let deviation = running.doubt.hypot(running.since_variance.sqrt());
            self.normal(running.charge + running.since, deviation, INVERSE_SQRT_TAU / deviation);
        }
    }

    /// ∫ of the normal part over everything, less the scale; 1 where there is none.
    fn whole(&self) -> f64 {
        if self.precision == 0.0 { 1.0 } else { 1.0 / (self.precision.sqrt() * INVERSE_SQRT_TAU) }
    }

    fn shape(&self) -> (f64, f64) {
        (self.mean, 1.0 / self.precision.sqrt())
    }

    /// ∫ of the product over a range, less its scale.
    fn within(&self, low: f64, high: f64, mean: f64, deviation: f64) -> f64 {
        if self.precision == 0.0 {
            return high - low;
        }
        let (from, to) = ((low - mean) / deviation, (high - mean) / deviation);
        let share = if from > FAR || to < -FAR {
            0.0
        } else if from < -FAR && to > FAR {
            1.0
        } else if from > 0.0 {
            normal_cdf(-from) - normal_cdf(-to)
        } else {
            normal_cdf(to) - normal_cdf(from)
        };
        share * deviation / INVERSE_SQRT_TAU
    }
}
