//! How far a reading lies from what it should be.

use super::Feature;
use crate::measure::{Known, Measured};
use crate::quantity::{Quantity, TemperatureDifference, delta_fahrenheit};
use crate::{Error, Result};

/// No reading of a system is further off than this: common practice, no source.
const FURTHEST: TemperatureDifference = delta_fahrenheit(500.0);
/// A doubt that proves nothing is let pass, up to what can be computed with.
const DOUBTFULLEST: TemperatureDifference = delta_fahrenheit(1e7);

/// What a feature is, less what it should be, with the doubt of both.
///
/// # Units
/// Temperature differences.
/// # Source
/// Definition (Rossi and Braun, HVAC&R Research 3 (1997) 19): measured less predicted for normal performance.
/// # Example
/// ```
/// use kingvalve::fault::{Feature, Residual};
/// use kingvalve::quantity::delta_fahrenheit;
/// let high = Residual::new(Feature::Superheat, delta_fahrenheit(26.0), delta_fahrenheit(12.0))?;
/// assert_eq!(format!("{:.1}", high.value().value()), "14.0 Δ°F");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Residual {
    feature: Feature,
    value: Measured<TemperatureDifference>,
}

impl Residual {
    /// From what was seen and what was expected.
    ///
    /// # Errors
    /// A difference beyond 500 °F either way, or one whose doubt is not finite or beyond 10 million °F.
    pub fn new(
        feature: Feature,
        seen: impl Known<TemperatureDifference>,
        expected: impl Known<TemperatureDifference>,
    ) -> Result<Residual> {
        let difference = seen.value() - expected.value();
        let value = Measured::exact(difference).depending_on(seen, 1.0).depending_on(expected, -1.0);
        let doubt = value.standard_uncertainty();
        // NaN is not within.
        if difference.abs() <= FURTHEST && doubt <= DOUBTFULLEST {
            return Ok(Residual { feature, value });
        }
        Err(Error::out_of_range(
            format!("residual of {feature}"),
            format!("{difference} with a standard uncertainty of {doubt}"),
            format!("it lies within {FURTHEST} either way, its doubt up to {DOUBTFULLEST}"),
            "check the reading and what was expected",
        ))
    }

    /// Of what.
    pub fn feature(&self) -> Feature {
        self.feature
    }

    /// How far it is off, with its doubt.
    pub fn value(&self) -> &Measured<TemperatureDifference> {
        &self.value
    }

    pub(super) fn si(&self) -> f64 {
        self.value.value().base()
    }

    pub(super) fn standard(&self) -> f64 {
        self.value.standard_uncertainty().base()
    }
}
