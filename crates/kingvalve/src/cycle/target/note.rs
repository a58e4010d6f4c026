//! What a reading says apart from its distance to the target.

use std::fmt;

use crate::Result;
use crate::measure::{Level, Limits, Measured};
use crate::quantity::TemperatureDifference;

/// Something a superheat or subcooling tells besides the charge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum TargetNote {
    /// The superheat is below zero beyond the readings' doubt.
    Floodback,
    /// The superheat reads below zero, by no more than the readings' doubt.
    SuperheatNearZero,
    /// The subcooling is below zero beyond the readings' doubt.
    NoLiquid,
    /// The subcooling reads zero or less, by no more than the readings' doubt.
    SubcoolingNearZero,
    /// A valve does not hold its superheat.
    ValveOffRange,
}

impl TargetNote {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            TargetNote::Floodback => "floodback",
            TargetNote::SuperheatNearZero => "superheat_near_zero",
            TargetNote::NoLiquid => "no_liquid",
            TargetNote::SubcoolingNearZero => "subcooling_near_zero",
            TargetNote::ValveOffRange => "valve_off_range",
        }
    }

    /// What to print.
    pub const fn text(self) -> &'static str {
        match self {
            TargetNote::Floodback => {
                "The superheat is below zero beyond doubt, which no vapour is: liquid reaches the compressor, or the \
                 pressure and the temperature are not of the same place. Stop charging; check the probe's contact and \
                 insulation, the gauge's zero and the refrigerant chosen, then airflow and metering device."
            }
            TargetNote::SuperheatNearZero => {
                "The superheat reads below zero, but not beyond the doubt of the readings: it may truly be a little \
                 above, or liquid may be coming back. Read again with a better probe before adding anything."
            }
            TargetNote::NoLiquid => {
                "The liquid line is warmer than its bubble point beyond doubt, which no liquid is: there is vapour in \
                 it, as in a system nearly empty. Subcooling then says nothing about how much is missing: read the \
                 standing pressure, or recover and weigh."
            }
            TargetNote::SubcoolingNearZero => {
                "There is no subcooling to speak of: vapour may be in the liquid line, as in a system nearly empty. \
                 Subcooling then says nothing about how much is missing."
            }
            TargetNote::ValveOffRange => {
                "The superheat is not shown to be where a working valve holds it: check the bulb, its strap and \
                 insulation, and the valve, before judging the charge."
            }
        }
    }
}

impl TargetNote {
    /// The same as something to do.
    pub const fn next(self) -> &'static str {
        match self {
            TargetNote::Floodback => {
                "Check probe contact, gauge zero and refrigerant chosen; then airflow and metering."
            }
            TargetNote::SuperheatNearZero => {
                "Read the superheat again with a better probe before adding anything."
            }
            TargetNote::NoLiquid | TargetNote::SubcoolingNearZero => {
                "Read the standing pressure, or recover and weigh: subcooling cannot tell how much is missing."
            }
            TargetNote::ValveOffRange => {
                "Check the valve, its bulb and the bulb's insulation before judging the charge."
            }
        }
    }

    /// What a superheat that is not above zero says; none where it is.
    ///
    /// # Errors
    /// A superheat that is not finite.
    /// # Example
    /// ```
    /// use kingvalve::cycle::target::TargetNote;
    /// use kingvalve::measure::{Level, Measured};
    /// use kingvalve::quantity::delta_fahrenheit;
    /// let read = Measured::from_standard(delta_fahrenheit(-1.0), delta_fahrenheit(1.0), "superheat")?;
    /// let note = TargetNote::of_superheat(&read, Level::default())?;
    /// assert_eq!(note, Some(TargetNote::SuperheatNearZero)); // perhaps a little above
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn of_superheat(
        superheat: &Measured<TemperatureDifference>,
        level: Level,
    ) -> Result<Option<TargetNote>> {
        sign(superheat, level, TargetNote::Floodback, TargetNote::SuperheatNearZero)
    }

    /// What a subcooling that is not above zero says; none where it is.
    ///
    /// # Errors
    /// A subcooling that is not finite.
    pub fn of_subcooling(
        subcooling: &Measured<TemperatureDifference>,
        level: Level,
    ) -> Result<Option<TargetNote>> {
        sign(subcooling, level, TargetNote::NoLiquid, TargetNote::SubcoolingNearZero)
    }
}

/// The note on a reading that is not above zero: one where that is beyond doubt, another where it is not.
fn sign(
    value: &Measured<TemperatureDifference>,
    level: Level,
    firm: TargetNote,
    near: TargetNote,
) -> Result<Option<TargetNote>> {
    if value.value() > TemperatureDifference::ZERO {
        return Ok(None);
    }
    let verdict = Limits::at_least(TemperatureDifference::ZERO)?.judge(value, level)?;
    Ok(Some(if verdict.is_outside() { firm } else { near }))
}

impl fmt::Display for TargetNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}
