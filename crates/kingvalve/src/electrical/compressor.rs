//! A compressor's current beside its plate.

use std::fmt;

use serde::Serialize;

use super::{deferring, settling};
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{Current, Ratio, amperes};
use crate::{Error, Result};

/// What a compressor's maximum continuous current is divided by for its rated-load current: 1.56 for most makers, 1.4 or
/// 1.44 for some. Common practice, as told in the trade press.
pub const MCC_PER_RLA: f64 = 1.56;

/// A compressor's running current, against its rated-load current.
///
/// The rated-load current sizes wire and protection; it is no target. What a compressor should draw depends on its
/// suction and discharge pressures: its maker's table says. Above the rated-load current something is wrong, though not
/// necessarily with the compressor.
///
/// # Example
/// ```
/// use kingvalve::electrical::CompressorCurrent;
/// use kingvalve::measure::{Instrument, Level, Reading};
/// use kingvalve::quantity::*;
/// let clamp = Instrument::resolution(amperes(0.1)).accuracy_percent_of_reading(2.0).counts(5.0);
/// let found = CompressorCurrent::of(Reading::new(amperes(13.2), clamp)?, amperes(17.9), Level::default())?;
/// assert!(found.verdict().is_within());
/// assert_eq!(format!("{:.0}", found.share().value()), "74 %");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Serialize)]
pub struct CompressorCurrent {
    current: Measured<Current>,
    share: Measured<Ratio>,
    verdict: Verdict<Current>,
}

impl CompressorCurrent {
    /// A running current, against the rated-load current on the plate.
    ///
    /// # Units
    /// RMS currents, the running one read or plain.
    /// # Source
    /// Common practice, no source.
    /// # Valid range
    /// Running, a minute or more after the start.
    /// # Accuracy
    /// That of the ammeter.
    /// # Errors
    /// A negative current, a rated-load current that is not above zero, anything not finite.
    /// # Example
    /// See [`CompressorCurrent`].
    pub fn of<I: Known<Current>>(current: I, rla: Current, level: Level) -> Result<CompressorCurrent> {
        let value = current.value();
        if !(value >= amperes(0.0) && value.is_finite()) {
            return Err(Error::out_of_range(
                "compressor current",
                value,
                "it is zero or more",
                "give the RMS current in the common lead",
            ));
        }
        if !(rla > amperes(0.0) && rla.is_finite()) {
            return Err(Error::out_of_range(
                "rated-load current",
                rla,
                "it must be above zero and finite",
                "copy it from the data plate",
            ));
        }
        let current = Measured::exact(value).depending_on(current, 1.0);
        let share = current.clone().map(Ratio::from_si(value / rla), 1.0 / rla.amperes());
        let verdict = Limits::at_most(rla)?.from_source("rated-load current").judge(&current, level)?;
        Ok(CompressorCurrent { current, share, verdict })
    }

    /// The current.
    pub fn current(&self) -> &Measured<Current> {
        &self.current
    }

    /// The share of the rated-load current.
    pub fn share(&self) -> &Measured<Ratio> {
        &self.share
    }

    /// Against the rated-load current.
    pub fn verdict(&self) -> &Verdict<Current> {
        &self.verdict
    }

    /// The current at which the overload opens in time, estimated from a rated-load current.
    ///
    /// # Source
    /// Maximum continuous current = rated-load current times [`MCC_PER_RLA`] (or the maker's own factor).
    /// # Valid range
    /// Factors from 1 to 2.
    /// # Accuracy
    /// As good as the factor: makers use 1.4 to 1.56.
    /// # Errors
    /// A rated-load current that is not above zero, a factor outside the range.
    /// # Example
    /// ```
    /// use kingvalve::electrical::{CompressorCurrent, MCC_PER_RLA};
    /// use kingvalve::quantity::*;
    /// let most = CompressorCurrent::maximum_continuous(amperes(17.9), MCC_PER_RLA)?;
    /// assert_eq!(format!("{most:.1}"), "27.9 A");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn maximum_continuous(rla: Current, factor: f64) -> Result<Current> {
        if !((1.0..=2.0).contains(&factor) && rla > amperes(0.0) && rla.is_finite()) {
            return Err(Error::out_of_range(
                "rated-load current and factor",
                format!("{rla}, {factor}"),
                "the current must be above zero, the factor from 1 to 2",
                "1.56 is usual",
            ));
        }
        Ok(rla * factor)
    }

    /// The finding, in the shape shared by all checks.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let finding = Finding::of("compressor_current")
            .measured("current", &self.current)?
            .measured("share of rated load", &self.share)?
            .judged("rated-load current", &self.verdict)?
            .saying(self.to_string());
        let mut finding = settling(deferring(finding), &self.verdict);
        if self.verdict.is_outside() {
            finding = finding.then(
                "Look for the cause before the compressor is blamed: supply voltage, run capacitor, head pressure, contactor, \
                 a stuck rotor; compare with the maker's table at these pressures.",
            );
        }
        Ok(finding
            .caution(Caution::LiveVoltage)
            .source("rated-load current as a ceiling: common practice, no source")
            .source("JCGM 106:2012"))
    }
}

/// One sentence or two.
impl fmt::Display for CompressorCurrent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} It draws {:.0} of the rated-load current, which is a ceiling and no target.",
            self.verdict,
            self.share.value()
        )
    }
}
