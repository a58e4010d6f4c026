//! The voltage lost across a closed contactor.

use std::fmt;

use serde::Serialize;

use super::supply::positive;
use super::{deferring, settling};
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{ElectricPotential, Ratio, percent, volts};
use crate::{Error, Result};

/// How much of the line voltage a closed pole may lose under load: 3 %. Common practice, as taught in the trade press; many
/// shops replace at far less, since a sound contact loses a fraction of a volt.
pub const CONTACTOR_DROP: Ratio = percent(3.0);

/// The voltage across one closed pole of a contactor under load, judged as a share of the line's.
///
/// # Example
/// ```
/// use kingvalve::electrical::{CONTACTOR_DROP, ContactorDrop};
/// use kingvalve::measure::Level;
/// use kingvalve::quantity::*;
/// let pole = ContactorDrop::of(volts(20.0), volts(208.0), CONTACTOR_DROP, Level::default())?;
/// assert!(pole.verdict().is_outside());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Serialize)]
pub struct ContactorDrop {
    drop: Measured<ElectricPotential>,
    verdict: Verdict<ElectricPotential>,
}

impl ContactorDrop {
    /// One pole, read from line to load terminal with the load running.
    ///
    /// # Units
    /// Voltages; the drop read or plain.
    /// # Source
    /// Share of line voltage: see [`CONTACTOR_DROP`].
    /// # Valid range
    /// Contactor closed and carrying its load; open, the whole line stands across it.
    /// # Accuracy
    /// That of the voltmeter.
    /// # Errors
    /// A negative drop or one above half the line (the contactor is open); a line voltage or limit that is not above zero.
    /// # Example
    /// See [`ContactorDrop`].
    pub fn of<V>(drop: V, line: ElectricPotential, limit: Ratio, level: Level) -> Result<ContactorDrop>
    where
        V: Known<ElectricPotential>,
    {
        positive("line voltage", line)?;
        let value = drop.value();
        if !(value >= volts(0.0) && value <= line * 0.5) {
            return Err(Error::out_of_range(
                "voltage across the contactor's pole",
                value,
                format!("a closed pole loses from zero to half the line's {line}"),
                "measure from line to load terminal of one pole, contactor pulled in and load running",
            ));
        }
        if !(limit > percent(0.0) && limit < percent(50.0)) {
            return Err(Error::out_of_range(
                "limit of contactor drop",
                limit,
                "it lies between 0 % and 50 %",
                "3 % is taught; many shops use less",
            ));
        }
        let drop = Measured::exact(value).depending_on(drop, 1.0);
        let most = Limits::at_most(line * limit)?.from_source("share of line voltage");
        let verdict = most.judge(&drop, level)?;
        Ok(ContactorDrop { drop, verdict })
    }

    /// The voltage across the pole.
    pub fn drop(&self) -> &Measured<ElectricPotential> {
        &self.drop
    }

    /// Against the limit.
    pub fn verdict(&self) -> &Verdict<ElectricPotential> {
        &self.verdict
    }

    /// The finding, in the shape shared by all checks.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let finding = Finding::of("contactor_drop")
            .measured("drop", &self.drop)?
            .judged("drop", &self.verdict)?
            .saying(self.to_string());
        let mut finding = settling(deferring(finding), &self.verdict);
        if self.verdict.is_outside() {
            finding = finding.then(
                "Replace the contactor, power locked out; do not file its contacts. Check its coil voltage.",
            );
        }
        Ok(finding
            .caution(Caution::LiveVoltage)
            .source("3 % of line voltage: common practice, trade press")
            .source("JCGM 106:2012"))
    }
}

/// The verdict.
impl fmt::Display for ContactorDrop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.verdict)
    }
}
