//! A product of normal densities of the charge and constants.
//!
//! Source: completing the square; precisions add, means are weighted by them. Charges in kg, precision in 1/kg².

use super::particle::FAR;
use super::seen::{INVERSE_SQRT_TAU, SQRT_TAU};
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
    pub fn normal(&mut self, mean: f64, precision: f64, peak: f64) {
        self.times(&Product { scale: peak, precision, mean });
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
        self.normal(charge, 1.0 / variance, INVERSE_SQRT_TAU / variance.sqrt());
    }

    /// ∫ of the normal part over everything, less the scale; 1 where there is none.
    pub fn whole(&self) -> f64 {
        if self.precision == 0.0 { 1.0 } else { SQRT_TAU / self.precision.sqrt() }
    }

    /// Mean and standard deviation, which is infinite where there is no normal part.
    pub fn shape(&self) -> Shape {
        Shape { scale: self.scale, mean: self.mean, deviation: 1.0 / self.precision.sqrt() }
    }
}

/// The same as a mean and a standard deviation, which is infinite where there is no normal part.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shape {
    pub scale: f64,
    pub mean: f64,
    pub deviation: f64,
}

impl Shape {
    /// ∫ of the product over a range, less its scale.
    pub fn within(&self, low: f64, high: f64) -> f64 {
        let Shape { mean, deviation, .. } = *self;
        if deviation.is_infinite() {
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
        share * deviation * SQRT_TAU
    }
}
