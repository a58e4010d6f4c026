//! Refrigerant dissolved in the compressor's oil.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::Result;
use crate::measure::Interval;
use crate::quantity::{Mass, Pressure, Ratio, percent};

/// The oil in a system and what it takes up.
///
/// Near empty, what the oil holds can be tens of per cent of the vapour, so it is part of the answer, as an
/// interval.
///
/// # Example
/// ```
/// use kingvalve::charge::Oil;
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::*;
/// let oil = Oil::of(Interval::exactly(pounds(2.5))?);
/// let dissolved = oil.dissolved(psia(77.0), psia(231.0))?;
/// assert_eq!(format!("{:.2} to {:.2}", dissolved.low(), dissolved.high()), "0.08 lb to 0.33 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Oil {
    /// How much oil the system holds.
    pub mass: Interval<Mass>,
    /// Mass of refrigerant per mass of oil at saturation, taken in proportion below it; left out, it is
    /// [`COMMON_UPTAKE`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub uptake: Option<Interval<Ratio>>,
}

/// What oil takes up at saturation where nothing better is known, as a share of its own mass: 10 to 40 %.
///
/// # Source
/// Common practice, no source.
pub const COMMON_UPTAKE: (Ratio, Ratio) = (percent(10.0), percent(40.0));

impl Oil {
    /// So much oil, with [`COMMON_UPTAKE`].
    pub fn of(mass: Interval<Mass>) -> Oil {
        Oil { mass, uptake: None }
    }

    /// How much refrigerant the oil holds at a pressure below saturation.
    ///
    /// # Units
    /// The pressure, and the saturation pressure at the oil's temperature; mass out.
    /// # Source
    /// Henry's law between nothing and saturation, with the uptake given: common practice, no source.
    /// # Valid range
    /// Pressures from zero to saturation; a higher one counts as saturation.
    /// # Accuracy
    /// That of the uptake, which is wide on purpose.
    /// # Errors
    /// A pressure that is not a number.
    /// # Example
    /// See [`Oil`].
    pub fn dissolved(&self, pressure: Pressure, saturation: Pressure) -> Result<Interval<Mass>> {
        let share = (pressure.pascals() / saturation.pascals()).clamp(0.0, 1.0);
        let (low, high) = self.uptake.map_or(COMMON_UPTAKE, |uptake| (uptake.low(), uptake.high()));
        Interval::new(self.mass.low() * low * share, self.mass.high() * high * share)
    }
}
