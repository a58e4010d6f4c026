//! What a capacitor check found.

use std::fmt;

use serde::Serialize;

use super::{CapacitorNote, RunCapacitor, deferring};
use crate::measure::{Caution, Finding, Known, Limits, Measured, Verdict};
use crate::quantity::{Capacitance, ElectricPotential, volts};
use crate::{Error, Result};

/// What a check of a run capacitor found: its capacitance with doubt, and what that means.
#[derive(Debug, Clone, Serialize)]
pub struct CapacitorCheck {
    pub(super) part: RunCapacitor,
    pub(super) capacitance: Measured<Capacitance>,
    pub(super) rated: Verdict<Capacitance>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) policy: Option<Verdict<Capacitance>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) above_line: Option<Box<Verdict<ElectricPotential>>>,
    pub(super) notes: Vec<CapacitorNote>,
    pub(super) cautions: &'static [Caution],
    #[serde(skip)]
    pub(super) method: Method,
}

/// How a capacitance was had.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Method {
    UnderLoad,
    Bench,
    Combined,
}

impl Method {
    /// The check's name.
    const fn name(self) -> &'static str {
        match self {
            Method::UnderLoad => "run_capacitor_under_load",
            Method::Bench => "run_capacitor_on_bench",
            Method::Combined => "run_capacitor_combined",
        }
    }

    const fn source(self) -> &'static str {
        match self {
            Method::UnderLoad => "C = I/(2πfV), any textbook of alternating current",
            Method::Bench => "capacitance read on a meter, part disconnected: common practice, no source",
            Method::Combined => {
                "mean weighted by the inverse covariance: Aitken, Proc. R. Soc. Edinburgh 55 (1935) 42"
            }
        }
    }

    pub(super) const fn cautions(self) -> &'static [Caution] {
        match self {
            Method::UnderLoad | Method::Combined => &[Caution::LiveVoltage, Caution::StoredCharge],
            Method::Bench => &[Caution::StoredCharge],
        }
    }
}

impl CapacitorCheck {
    /// The same check, with the voltage read across the capacitor held against the line's: whether it was read at the
    /// right terminals of a running motor.
    ///
    /// # Units
    /// Any voltages, read or plain; `across` is the one the check was made with.
    /// # Source
    /// Common practice, no source: at speed the auxiliary winding's own voltage adds to the line's, so that more than the
    /// line stands across the capacitor.
    /// # Valid range
    /// Permanent-split-capacitor motors and compressors at running speed.
    /// # Accuracy
    /// A reading firmly below the line earns the note; one that cannot be told from it earns none.
    /// # Errors
    /// A line voltage that is not above zero and finite.
    /// # Example
    /// ```
    /// use kingvalve::electrical::{CapacitorNote, RunCapacitor, Tolerance};
    /// use kingvalve::quantity::*;
    /// let fan = RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0));
    /// let check = fan.under_load(volts(118.0), amperes(0.22), hertz(60.0))?.beside_line(volts(118.0), volts(238.0))?;
    /// assert_eq!(check.notes(), [CapacitorNote::VoltageBelowLine]);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn beside_line<V, L>(mut self, across: V, line: L) -> Result<Self>
    where
        V: Known<ElectricPotential>,
        L: Known<ElectricPotential>,
    {
        let value = line.value();
        if !(value > volts(0.0) && value.is_finite()) {
            return Err(Error::out_of_range(
                "line voltage",
                value,
                "it is above zero",
                "measure between the line terminals of the unit, power on",
            ));
        }
        let above =
            Measured::exact(across.value() - value).depending_on(across, 1.0).depending_on(line, -1.0);
        let limits = Limits::at_least(volts(0.0))?.from_source("voltage above the line's");
        let verdict = limits.judge(&above, self.part.level())?;
        self.notes.retain(|note| *note != CapacitorNote::VoltageBelowLine);
        if verdict.is_outside() {
            self.notes.push(CapacitorNote::VoltageBelowLine);
        }
        self.above_line = Some(Box::new(verdict));
        Ok(self)
    }

    /// The part as marked.
    pub fn part(&self) -> &RunCapacitor {
        &self.part
    }

    /// The capacitance, with its doubt.
    pub fn capacitance(&self) -> &Measured<Capacitance> {
        &self.capacitance
    }

    /// Against the tolerance marked on the part.
    pub fn verdict(&self) -> &Verdict<Capacitance> {
        &self.rated
    }

    /// Against the shop's policy, where one was given.
    pub fn policy_verdict(&self) -> Option<&Verdict<Capacitance>> {
        self.policy.as_ref()
    }

    /// The verdict the work follows: the shop's policy where one was given, else the tolerance marked.
    pub fn deciding(&self) -> &Verdict<Capacitance> {
        self.policy.as_ref().unwrap_or(&self.rated)
    }

    /// How far the voltage across the part lay above the line's, where [`beside_line`](Self::beside_line) was asked.
    pub fn above_line(&self) -> Option<&Verdict<ElectricPotential>> {
        self.above_line.as_deref()
    }

    /// What else was seen.
    pub fn notes(&self) -> &[CapacitorNote] {
        &self.notes
    }

    /// What can hurt someone at this work.
    pub fn cautions(&self) -> &[Caution] {
        self.cautions
    }

    /// Whether the capacitance lies firmly below the lower limit that decides.
    pub fn is_low(&self) -> bool {
        let judgement = self.deciding().judgement();
        self.deciding().is_outside() && judgement.probability_below() >= judgement.probability_above()
    }

    /// The finding, in the shape shared by all checks.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of(self.method.name())
            .given("rated capacitance", self.part.rating())?
            .measured("capacitance", &self.capacitance)?
            .judged("rated tolerance", &self.rated)?;
        if let Some(policy) = &self.policy {
            finding = finding.judged("shop policy", policy)?;
        }
        if let Some(line) = &self.above_line {
            finding = finding.judged("voltage above the line's", line)?;
        }
        finding = finding.saying(self.to_string().replace('\n', " "));
        finding = match self.next() {
            Some(next) if self.notes.is_empty() => finding.concluding("replace").then(next),
            Some(next) => finding.concluding("doubtful").then(next),
            None => finding,
        };
        let finding = self.cautions.iter().fold(deferring(finding), |all, caution| all.caution(*caution));
        Ok(finding.source(self.method.source()).source("JCGM 106:2012"))
    }

    /// What to do next, where that does not depend on which meters there are.
    fn next(&self) -> Option<String> {
        if !self.notes.is_empty() {
            return Some("Find out how it was measured before judging the part, then measure again.".into());
        }
        if !self.deciding().is_outside() {
            return None;
        }
        let rated = self.part.rating();
        Some(format!(
            "Replace it with a part of {rated} and at least the voltage marked on it, power locked out and the charge \
             let off first; then read the new part the same way."
        ))
    }
}

/// One line a verdict, then the notes.
impl fmt::Display for CapacitorCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.rated)?;
        if let Some(policy) = &self.policy {
            write!(f, "\n{policy}")?;
        }
        self.notes.iter().try_for_each(|note| write!(f, "\n{note}"))
    }
}
