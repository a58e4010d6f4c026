//! What is read of a running system to tell faults apart.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Quantity, TemperatureDifference, delta_fahrenheit};
use crate::{Error, Result};

/// A feature of the running system (the last one: of the system at rest), each a temperature difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Feature {
    /// Suction line above the dew point at the suction pressure.
    Superheat,
    /// Liquid line below the bubble point at the liquid pressure.
    Subcooling,
    /// Bubble point at the liquid pressure above the outdoor air.
    CondensingOverAmbient,
    /// Dew point at the suction pressure below the return air.
    EvaporatingDepression,
    /// Return air above supply air.
    AirSplit,
    /// The discharge line against what it should be.
    DischargeTemperature,
    /// What the liquid line loses from the outdoor unit to the metering device.
    LiquidLineDrop,
    /// At rest and settled: bubble point at the standing pressure above the temperature of the coil.
    StandingExcess,
}

/// How many features there are.
pub(super) const FEATURES: usize = 8;

impl Feature {
    /// Every one, in the order of the tables.
    pub const ALL: [Feature; FEATURES] = [
        Feature::Superheat,
        Feature::Subcooling,
        Feature::CondensingOverAmbient,
        Feature::EvaporatingDepression,
        Feature::AirSplit,
        Feature::DischargeTemperature,
        Feature::LiquidLineDrop,
        Feature::StandingExcess,
    ];

    pub(super) const fn at(self) -> usize {
        self as usize
    }

    /// What to read for it.
    pub const fn how(self) -> &'static str {
        match self {
            Feature::Superheat => "suction pressure and the suction line beside it",
            Feature::Subcooling => "liquid pressure and the liquid line beside it",
            Feature::CondensingOverAmbient => "liquid pressure and the air entering the outdoor coil",
            Feature::EvaporatingDepression => "suction pressure and the return air",
            Feature::AirSplit => "return and supply air at the coil",
            Feature::DischargeTemperature => "the discharge line near the compressor",
            Feature::LiquidLineDrop => "the liquid line at the outdoor unit and at the metering device",
            Feature::StandingExcess => "pressure and coil temperature at rest, settled, power off",
        }
    }
}

/// In words: "condensing over ambient".
impl fmt::Display for Feature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Feature::Superheat => "superheat",
            Feature::Subcooling => "subcooling",
            Feature::CondensingOverAmbient => "condensing over ambient",
            Feature::EvaporatingDepression => "evaporating depression",
            Feature::AirSplit => "air-side split",
            Feature::DischargeTemperature => "discharge temperature",
            Feature::LiquidLineDrop => "liquid-line drop",
            Feature::StandingExcess => "standing excess",
        })
    }
}

/// How well each feature not read yet could be read: standard uncertainties of the coming readings.
///
/// # Units
/// Temperature differences.
/// # Source
/// Common practice, no source: pipe clamps and gauges of usual accuracy. Replaceable by [`with`](Spreads::with).
/// # Example
/// ```
/// use kingvalve::fault::{Feature, Spreads};
/// use kingvalve::quantity::delta_fahrenheit;
/// let ours = Spreads::default().with(Feature::AirSplit, delta_fahrenheit(0.5))?;
/// assert_eq!(ours.of(Feature::AirSplit), delta_fahrenheit(0.5));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spreads([f64; FEATURES]);

impl Default for Spreads {
    fn default() -> Self {
        // °F, in the order of `Feature::ALL`.
        Spreads([1.5, 1.5, 1.5, 1.5, 1.0, 2.0, 0.5, 1.5].map(|spread| delta_fahrenheit(spread).base()))
    }
}

impl Spreads {
    /// The same with one replaced.
    ///
    /// # Errors
    /// Unless it is finite and not negative.
    pub fn with(mut self, feature: Feature, spread: TemperatureDifference) -> Result<Self> {
        if !(spread.is_finite() && spread.base() >= 0.0) {
            return Err(Error::out_of_range(
                format!("spread of a reading of {feature}"),
                spread,
                "it is finite and not negative",
                "give the standard uncertainty one expects of the reading",
            ));
        }
        if let Some(slot) = self.0.get_mut(feature.at()) {
            *slot = spread.base();
        }
        Ok(self)
    }

    /// That of a feature.
    pub fn of(&self, feature: Feature) -> TemperatureDifference {
        TemperatureDifference::from_base(self.0.get(feature.at()).copied().unwrap_or(0.0))
    }
}
