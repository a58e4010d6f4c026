//! Whether air may have come in: the standing pressure against the atmosphere.

use serde::Serialize;

use crate::Result;
use crate::measure::{Known, Level, Limits, Verdict};
use crate::quantity::{Pressure, Site};

/// Whether air and moisture may have come into a system that stands still.
///
/// Air comes in through a leak only where the pressure inside is no higher than the atmosphere's.
///
/// # Example
/// ```
/// use kingvalve::charge::AirIngress;
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let site = Site::at_elevation(feet(5280.0))?;
/// let gauge = Instrument::resolution(psi(0.5)).accuracy(psi(1.0));
/// let read = |shown: f64| site.absolute(&Reading::new(psig(shown), gauge.clone())?);
/// assert_eq!(AirIngress::of(read(60.0)?, &site)?, AirIngress::KeptOut);
/// assert_eq!(AirIngress::of(read(0.5)?, &site)?, AirIngress::Possible);
/// assert_eq!(AirIngress::of(read(-5.0)?, &site)?, AirIngress::DrawnIn);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AirIngress {
    /// The pressure lies above the atmosphere's beyond doubt: while it stood so, nothing came in.
    KeptOut,
    /// It may be at the atmosphere's or below, as far as the reading tells.
    Possible,
    /// It lies below the atmosphere's beyond doubt: air and moisture have been drawn in, or it was evacuated.
    DrawnIn,
}

impl AirIngress {
    /// Its name, as in JSON.
    pub const fn name(self) -> &'static str {
        match self {
            AirIngress::KeptOut => "kept_out",
            AirIngress::Possible => "possible",
            AirIngress::DrawnIn => "drawn_in",
        }
    }

    /// By a standing pressure and the atmosphere of its site.
    ///
    /// # Units
    /// Absolute pressure in.
    /// # Source
    /// Gas flows to the lower pressure; conformity by JCGM 106:2012 at 95 %.
    /// # Valid range
    /// Off and settled.
    /// # Accuracy
    /// That of the reading. Of a gauge reading the atmosphere cancels; of an absolute one the weather moves a site given by
    /// elevation by a percent or two.
    /// # Errors
    /// A pressure that is not a number.
    /// # Example
    /// See [`AirIngress`].
    pub fn of(standing: impl Known<Pressure>, site: &Site) -> Result<AirIngress> {
        let above = Limits::at_least(site.atmosphere())?.judge(standing, Level::default())?;
        Ok(match above {
            Verdict::Within(_) => AirIngress::KeptOut,
            Verdict::Unresolved(_) => AirIngress::Possible,
            Verdict::Outside(_) => AirIngress::DrawnIn,
        })
    }

    /// What it means, in words.
    pub const fn text(self) -> &'static str {
        match self {
            AirIngress::KeptOut => {
                "The pressure lies above the atmosphere's, so no air came in while it stood."
            }
            AirIngress::Possible => {
                "The pressure is not shown to be above the atmosphere's: the system is empty or open, and air and moisture \
                 may have come in."
            }
            AirIngress::DrawnIn => {
                "The pressure lies below the atmosphere's: air and moisture have been drawn in, unless the system was \
                 evacuated and held."
            }
        }
    }

    /// What to do before any refrigerant is added; nothing where air was kept out.
    pub const fn next(self) -> &'static [&'static str] {
        match self {
            AirIngress::KeptOut => &[],
            AirIngress::Possible | AirIngress::DrawnIn => &[
                "Do not run it and do not top it up: what was drawn in stays in, and a compressor in a vacuum can be ruined.",
                "Recover what is left, weighed, into a cylinder marked as mixed.",
                "Find the leak under dry nitrogen, within the test pressure of the data plate, and mend it; let the pressure \
                 stand.",
                "Change the filter-drier, evacuate, and let the vacuum stand.",
                "Weigh in the whole charge of the data plate, line set counted.",
            ],
        }
    }
}
