//! What a reading says apart from its distance to the target.

use std::fmt;

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

impl fmt::Display for TargetNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}
