//! A run capacitor measured more than once.

use std::fmt;

use super::check::Method;
use super::{CapacitorCheck, RunCapacitor, deferring};
use crate::measure::{Caution, Combined, Finding, Measured};
use crate::quantity::Capacitance;
use crate::{Error, Result};

/// Several checks of one capacitor, combined: their best mean judged, or that they cannot be combined.
#[derive(Debug, Clone)]
pub struct CapacitorCombined {
    readings: Combined<Capacitance>,
    check: Option<CapacitorCheck>,
}

impl RunCapacitor {
    /// Combines several checks of this part and judges their mean.
    ///
    /// Readings of one meter share its accuracy error, which therefore does not shrink by repeating; another meter, or
    /// another method, does help. Where two checks are further apart than their doubt allows, nothing is judged: that
    /// speaks of the technique, not of the part.
    ///
    /// # Source
    /// See [`Combined`]; the verdict by JCGM 106:2012.
    /// # Valid range
    /// Checks of one part, in a state that did not change in between (a hot part reads a little lower than a cold one).
    /// # Accuracy
    /// Exact to rounding for the mean and its doubt.
    /// # Errors
    /// With fewer than two checks, or one of another part.
    /// # Example
    /// ```
    /// use kingvalve::electrical::{RunCapacitor, Tolerance};
    /// use kingvalve::measure::{Instrument, Reading};
    /// use kingvalve::quantity::*;
    /// let fan = RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0)).policy(Tolerance::percent(10.0));
    /// let clamp = Instrument::resolution(amperes(0.01)).accuracy_percent_of_reading(2.0).counts(5.0);
    /// let loaded = fan.under_load(volts(371.3), Reading::new(amperes(0.60), clamp)?, hertz(60.0))?;
    /// assert!(loaded.deciding().is_unresolved());
    /// let meter = Instrument::resolution(microfarads(0.01)).accuracy_percent_of_reading(1.0).counts(3.0);
    /// let bench = fan.on_bench(Reading::new(microfarads(4.31), meter)?)?;
    /// let both = fan.combined(&[loaded, bench])?;
    /// assert!(both.check().is_some_and(|check| check.deciding().is_outside()));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn combined(&self, checks: &[CapacitorCheck]) -> Result<CapacitorCombined> {
        if let Some(at) = checks.iter().position(|check| check.part() != self) {
            return Err(Error::inconsistent(
                "checks of one capacitor",
                "this one was made of another part, tolerance, policy or level",
                "combine only checks of one and the same part",
            )
            .in_field(format!("checks[{at}]")));
        }
        let measured: Vec<Measured<Capacitance>> =
            checks.iter().map(|check| check.capacitance().clone()).collect();
        let readings = Combined::of(&measured, self.level())?;
        let check = if readings.is_consistent() {
            let mean = readings.mean();
            let mut notes = Vec::new();
            for note in checks.iter().flat_map(CapacitorCheck::notes) {
                if !notes.contains(note) {
                    notes.push(*note);
                }
            }
            Some(self.judge(
                mean.value(),
                |capacitance| capacitance.depends_on(mean, 1.0),
                Method::Combined,
                notes,
            )?)
        } else {
            None
        };
        Ok(CapacitorCombined { readings, check })
    }
}

impl CapacitorCombined {
    /// The readings: their mean, weights, and which disagree.
    pub fn readings(&self) -> &Combined<Capacitance> {
        &self.readings
    }

    /// The mean, judged; none where the readings disagree.
    pub fn check(&self) -> Option<&CapacitorCheck> {
        self.check.as_ref()
    }

    /// The finding, in the shape shared by all checks. Where the readings disagree it has no verdict.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        match &self.check {
            Some(check) => check.finding(),
            None => Ok(deferring(Finding::of("run_capacitor_combined").saying(self.to_string()))
                .concluding("disagree")
                .then("Measure again, each reading on the same terminals, before judging the part.")
                .caution(Caution::LiveVoltage)
                .caution(Caution::StoredCharge)
                .source("difference against its own expanded uncertainty: JCGM 100:2008")),
        }
    }
}

/// The check; or that the readings disagree, and what that means.
impl fmt::Display for CapacitorCombined {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.check {
            Some(check) => write!(f, "{check}"),
            None => write!(f, "{}", self.readings),
        }
    }
}
