//! A product of normal densities of the charge and constants.

use super::particle::FAR;
use super::seen::INVERSE_SQRT_TAU;
use crate::measure::normal_cdf;

/// A product of normal densities and constants.
#[derive(Debug, Clone, Copy)]
pub(super) struct Product {
    pub scale: f64,
    pub precision: f64,
    mean: f64,
}

impl Product {
    pub fn new(scale: f64) -> Product {
        Product { scale, precision: 0.0, mean: 0.0 }
    }

    pub fn constant(&mut self, factor: f64) {
        self.scale *= factor;
    }

    /// Times a normal density of that peak.
    pub fn normal(&mut self, mean: f64, deviation: f64, peak: f64) {
        self.times(&Product { scale: peak, precision: 1.0 / (deviation * deviation), mean });
    }

    /// Times another product.
    pub fn times(&mut self, other: &Product) {
        self.scale *= other.scale;
        if self.precision == 0.0 {
            (self.precision, self.mean) = (other.precision, other.mean);
        } else if other.precision > 0.0 {
            let both = self.precision + other.precision;
            let apart = other.mean - self.mean;
            let share = other.precision / both;
            self.scale *= (-0.5 * apart * apart * self.precision * share).exp();
            self.mean += apart * share;
            self.precision = both;
        }
    }

    /// Times the normal density of a charge known with that variance.
    pub fn known(&mut self, charge: f64, variance: f64) {
        let deviation = variance.sqrt();
        self.normal(charge, deviation, INVERSE_SQRT_TAU / deviation);
    }

    /// ∫ of the normal part over everything, less the scale; 1 where there is none.
    pub fn whole(&self) -> f64 {
        if self.precision == 0.0 { 1.0 } else { 1.0 / (self.precision.sqrt() * INVERSE_SQRT_TAU) }
    }

    /// Mean and standard deviation, which is infinite where there is no normal part.
    pub fn shape(&self) -> (f64, f64) {
        (self.mean, 1.0 / self.precision.sqrt())
    }

    /// ∫ of the product over a range, less its scale.
    pub fn within(&self, low: f64, high: f64, mean: f64, deviation: f64) -> f64 {
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
