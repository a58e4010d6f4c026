//! How sure one wants to be.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::distribution::{normal_quantile, student_quantile};
use crate::quantity::{Ratio, percent};
use crate::{Error, Result};

/// A level of confidence, above one half and below one: 95 % unless another is asked for.
///
/// # Example
/// ```
/// use kingvalve::measure::Level;
/// use kingvalve::quantity::percent;
/// assert_eq!(Level::default(), Level::new(percent(95.0))?);
/// assert!(Level::new(percent(50.0)).is_err());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Ratio", into = "Ratio")]
pub struct Level {
    probability: f64,
    /// Normal coverage factor of the central interval.
    two_sided: f64,
    /// Normal quantile at the level itself.
    one_sided: f64,
}

impl Default for Level {
    /// 95 %: common practice (JCGM 100, 6.3.3 and G.6.6).
    fn default() -> Self {
        // Φ⁻¹(0.975) and Φ⁻¹(0.95), as `Level::new` computes them.
        Level { probability: 0.95, two_sided: 1.959_963_984_540_053_6, one_sided: 1.644_853_626_951_471_5 }
    }
}

impl Level {
    /// A level of so many percent.
    ///
    /// # Errors
    /// Unless it lies above 50 % and below 100 %.
    pub fn new(probability: Ratio) -> Result<Level> {
        let p = probability.fraction();
        if !(p > 0.5 && p < 1.0) {
            return Err(Error::out_of_range(
                "level of confidence",
                probability,
                "it must lie above 50 % and below 100 %",
                "95 % is usual",
            ));
        }
        Ok(Level { probability: p, two_sided: normal_quantile(0.5 + 0.5 * p), one_sided: normal_quantile(p) })
    }

    /// The probability.
    pub fn probability(&self) -> Ratio {
        Ratio::from_si(self.probability)
    }

    /// How many standard uncertainties the central interval of a normal doubt reaches to either side.
    pub(crate) fn coverage_factor(&self) -> f64 {
        self.two_sided
    }

    pub(super) fn p(&self) -> f64 {
        self.probability
    }

    #[inline]
    pub(super) fn one_sided(&self) -> f64 {
        self.one_sided
    }

    /// How many standard uncertainties the central interval reaches to either side.
    pub(super) fn coverage(&self, degrees_of_freedom: f64) -> f64 {
        if degrees_of_freedom.is_infinite() {
            self.two_sided
        } else {
            student_quantile(0.5 + 0.5 * self.probability, degrees_of_freedom)
        }
    }
}

impl fmt::Display for Level {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", percent(self.probability().percent()))
    }
}

impl TryFrom<Ratio> for Level {
    type Error = Error;
    fn try_from(probability: Ratio) -> Result<Level> {
        Level::new(probability)
    }
}

impl From<Level> for Ratio {
    fn from(level: Level) -> Ratio {
        level.probability()
    }
}
