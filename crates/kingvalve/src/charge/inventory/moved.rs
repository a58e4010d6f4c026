//! What was weighed since the last reading.
//!
//! Source: conservation of mass; variances of independent weighings add (JCGM 100, 5.1.2).

use serde::{Deserialize, Serialize};

/// kg, and the variance of that.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Moved {
    pub mass: f64,
    pub variance: f64,
}

impl Moved {
    /// And more since; the doubts are taken as independent.
    pub fn and(self, more: Moved) -> Moved {
        Moved { mass: self.mass + more.mass, variance: self.variance + more.variance }
    }

    /// What a charge becomes, kg, with the doubt of the weighing at so many standard deviations.
    pub fn of(self, charge: f64, noise: f64) -> f64 {
        charge + self.mass + self.variance.sqrt() * noise
    }

    pub fn is_nothing(&self) -> bool {
        *self == Moved::default()
    }
}
