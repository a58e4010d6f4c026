//! What was seen beside the capacitance.

use std::fmt;

use serde::Serialize;

/// Something seen beside the capacitance, that speaks of how it was measured rather than of the part.
///
/// # Source
/// Common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum CapacitorNote {
    /// No current was read.
    NoCurrent,
    /// The bench meter read no capacitance.
    NoCapacitance,
    /// The voltage across the capacitor is below that of the line.
    VoltageBelowLine,
    /// Each section of a dual part reads as the other should.
    SectionsSwapped,
}

impl CapacitorNote {
    /// What to print.
    pub const fn text(self) -> &'static str {
        match self {
            CapacitorNote::NoCurrent => {
                "No current was read: the section is open, its lead is off, the clamp was not around this section's \
                 lead alone, or the current is below the meter's first step."
            }
            CapacitorNote::NoCapacitance => {
                "No capacitance was read: the section is open, a probe does not touch, or the meter is on another range."
            }
            CapacitorNote::VoltageBelowLine => {
                "The voltage across the capacitor is below the line's: these are the wrong terminals, or the motor is \
                 stopped or not up to speed. A run capacitor of a running motor has more than the line across it."
            }
            CapacitorNote::SectionsSwapped => {
                "Each section reads as the other should: the readings or the leads of the two sections are exchanged. \
                 Check the marks on the terminals (HERM, FAN, C) before judging the part."
            }
        }
    }
}

impl fmt::Display for CapacitorNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}
