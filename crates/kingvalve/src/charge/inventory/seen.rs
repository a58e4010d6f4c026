//! A standing reading, seen from a supposed system.

use super::standing::Standing;
use super::supposed::Supposed;
use crate::charge::oil::Uptake;

pub(super) const INVERSE_SQRT_TAU: f64 = 0.398_942_280_401_432_7;
pub(super) const SQRT_TAU: f64 = 2.506_628_274_631_000_5;

pub(super) fn normal_density(x: f64, deviation: f64) -> f64 {
    let z = x / deviation;
    INVERSE_SQRT_TAU / deviation * (-0.5 * z * z).exp()
}

/// So much per m³ of volume, and so much besides.
#[derive(Debug, Clone, Copy, Default)]
struct Line {
    per_volume: f64,
    besides: f64,
}

impl Line {
    fn at(self, volume: f64) -> f64 {
        self.per_volume * volume + self.besides
    }
}

/// A standing reading once everything but the volume is supposed: what it says is linear in the volume.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Half {
    /// The charge now, were all vapour then, kg.
    charge: Line,
    /// kg per Pa of all vapour, and what the doubt of the temperatures makes of the charge, kg.
    per_pascal: Line,
    by_warmth: Line,
    /// The charge now above which there was liquid then; and the density of the reading if so, 0 where it cannot be.
    liquid_above: Line,
    if_liquid: f64,
    own: f64,
    since_variance: f64,
    excess: f64,
    doubt_of_excess: f64,
}

impl Half {
    /// The volume of `supposed` is not looked at.
    #[inline]
    pub fn of(standing: &Standing, supposed: &Supposed) -> Half {
        let pressure = (standing.pressure - standing.common * supposed.gauge).max(0.0);
        let at_saturation = standing.saturation_at(supposed);
        let dew = standing.dew * at_saturation;
        let oil: Uptake = supposed.oil;
        let per_dew = 1.0 / dew;
        // What the oil holds bends upwards: its slope is taken over the width of the doubt, below saturation, and goes
        // on in a straight line above.
        let over = pressure * per_dew;
        let share = over.min(1.0);
        let doubt = standing.own_at_saturation * per_dew;
        let (below, above) = ((share - doubt).max(0.0), (share + doubt).min(1.0));
        let by_oil = oil.slope_between(below, above);
        let density = standing.density_at(pressure, supposed);
        let slope = standing.slope * (1.0 + supposed.shift * standing.density_shift);
        let (mut liquid_above, mut if_liquid) = (Line { per_volume: 0.0, besides: f64::INFINITY }, 0.0);
        if standing.liquid_possible {
            let bubble = standing.bubble * at_saturation;
            // Between dew and bubble any pressure is as likely; its width adds to the doubt.
            let middle = 0.5 * (dew + bubble);
            let variance = standing.own_at_saturation.powi(2) + (bubble - dew).powi(2) / 12.0;
            if_liquid = normal_density(pressure - middle, variance.sqrt());
            liquid_above = Line {
                per_volume: standing.density_at(dew, supposed),
                besides: oil.held(1.0) + standing.since.mass,
            };
        }
        Half {
            charge: Line {
                per_volume: density,
                besides: oil.held(share) + by_oil * (over - 1.0).max(0.0) + standing.since.mass,
            },
            per_pascal: Line { per_volume: slope, besides: by_oil * per_dew },
            by_warmth: Line { per_volume: standing.thinning, besides: by_oil * share * standing.driving_out },
            liquid_above,
            if_liquid,
            own: standing.own,
            since_variance: standing.since.variance,
            excess: pressure - dew,
            doubt_of_excess: standing.own_at_saturation,
        }
    }

    fn variance(&self, volume: f64) -> f64 {
        let by_gauge = self.own * self.per_pascal.at(volume);
        let by_warmth = self.by_warmth.at(volume);
        by_gauge * by_gauge + by_warmth * by_warmth + self.since_variance
    }

    /// With the volume.
    #[inline]
    pub fn at(&self, volume: f64) -> Seen {
        let per_pascal = self.per_pascal.at(volume);
        let sharpness = 1.0 / self.variance(volume).sqrt();
        Seen {
            charge: self.charge.at(volume),
            precision: sharpness * sharpness,
            density: per_pascal * INVERSE_SQRT_TAU * sharpness,
            liquid_above: self.liquid_above.at(volume),
            if_liquid: self.if_liquid,
            per_pascal,
            excess: self.excess,
            doubt_of_excess: self.doubt_of_excess,
        }
    }
}

/// One reading of the standing pressure, seen from a supposed system.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Seen {
    /// The charge now, were all vapour then, how precisely, 1/kg², and the density of the reading there.
    pub charge: f64,
    pub precision: f64,
    pub density: f64,
    /// The charge now above which there was liquid then, and the density of the reading if so.
    pub liquid_above: f64,
    pub if_liquid: f64,
    /// kg per Pa of all vapour; the excess over saturation, Pa, and its doubt.
    pub per_pascal: f64,
    pub excess: f64,
    pub doubt_of_excess: f64,
}

/// The volume at which all readings below saturation, taken as of vapour, tell one charge, and its standard uncertainty,
/// m³: the rise of the pressure over a weighed step. A charge known otherwise, with its variance, joins in. The doubts are
/// those at the usual volume; they grow with it at most.
///
/// Source: weighted least squares in volume and charge.
pub(super) fn by_rise(halves: &[Half], known: Option<(f64, f64)>, usual: f64) -> Option<(f64, f64)> {
    let (mut sum, mut a, mut b, mut aa, mut ab) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for half in halves {
        if half.excess < 0.0 {
            let Line { per_volume, besides } = half.charge;
            let weight = 1.0 / half.variance(usual);
            sum += weight;
            a += weight * per_volume;
            b += weight * besides;
            aa += weight * per_volume * per_volume;
            ab += weight * per_volume * besides;
        }
    }
    if let Some((charge, variance)) = known {
        sum += 1.0 / variance;
        b += charge / variance;
    }
    let mean = a / sum;
    let precision = aa - a * mean;
    let volume = (mean * b - ab) / precision;
    let told = volume > 0.0 && volume.is_finite() && precision > 0.0 && precision.is_finite();
    told.then(|| (volume, (volume / usual).max(1.0) / precision.sqrt()))
}
