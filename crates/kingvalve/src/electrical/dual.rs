//! Two run capacitors in one can.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{CapacitorCheck, CapacitorNote, RunCapacitor, Tolerance, deferring};
use crate::Result;
use crate::measure::{Finding, Known, Level, Verdict};
use crate::quantity::{Capacitance, Current, ElectricPotential, Frequency};

/// A dual run capacitor: a compressor section (HERM) and a fan section (FAN) with a common terminal (C).
///
/// # Example
/// ```
/// use kingvalve::electrical::{DualCapacitor, Tolerance};
/// use kingvalve::quantity::*;
/// let part = DualCapacitor::rated(microfarads(45.0), microfarads(5.0), Tolerance::percent(6.0));
/// let check = part.under_load((volts(354.4), amperes(5.8)), (volts(371.3), amperes(0.6)), hertz(60.0))?;
/// assert!(check.herm().verdict().is_within() && check.fan().verdict().is_outside());
/// assert!(!check.is_swapped());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename = "dual run capacitor", deny_unknown_fields)]
pub struct DualCapacitor {
    herm: RunCapacitor,
    fan: RunCapacitor,
}

/// What a check of a dual run capacitor found.
#[derive(Debug, Clone, Serialize)]
pub struct DualCheck {
    herm: CapacitorCheck,
    fan: CapacitorCheck,
    /// What each section's reading says by the other's limits, where the two look exchanged.
    #[serde(skip_serializing_if = "Option::is_none")]
    exchanged: Option<Box<Exchanged>>,
}

#[derive(Debug, Clone, Serialize)]
struct Exchanged {
    herm_reading_as_fan: Verdict<Capacitance>,
    fan_reading_as_herm: Verdict<Capacitance>,
}

impl DualCapacitor {
    /// A part marked with both capacitances and one tolerance.
    pub fn rated(herm: Capacitance, fan: Capacitance, tolerance: Tolerance) -> DualCapacitor {
        DualCapacitor::of(RunCapacitor::rated(herm, tolerance), RunCapacitor::rated(fan, tolerance))
    }

    /// A part of two sections, each with a tolerance, policy and level of its own.
    pub fn of(herm: RunCapacitor, fan: RunCapacitor) -> DualCapacitor {
        DualCapacitor { herm, fan }
    }

    /// Adds the tolerance at which the shop replaces it, for both sections.
    #[must_use]
    pub fn policy(self, tolerance: Tolerance) -> DualCapacitor {
        DualCapacitor { herm: self.herm.policy(tolerance), fan: self.fan.policy(tolerance) }
    }

    /// Asks for another level of confidence than 95 %, for both sections.
    #[must_use]
    pub fn at_level(self, level: Level) -> DualCapacitor {
        DualCapacitor { herm: self.herm.at_level(level), fan: self.fan.at_level(level) }
    }

    /// The compressor's section.
    pub fn herm(&self) -> &RunCapacitor {
        &self.herm
    }

    /// The fan's section.
    pub fn fan(&self) -> &RunCapacitor {
        &self.fan
    }

    /// Both sections from voltage and current, motors running.
    ///
    /// # Units
    /// Each section's voltage (its own terminal to C) and current (its own lead), read or plain.
    /// # Source
    /// See [`RunCapacitor::under_load`]. Sections count as exchanged where each lies firmly outside its own limits and
    /// neither outside the other's: common practice, no source.
    /// # Valid range
    /// As [`RunCapacitor::under_load`].
    /// # Accuracy
    /// As [`RunCapacitor::under_load`].
    /// # Errors
    /// As [`RunCapacitor::under_load`], said of `herm` or `fan`.
    /// # Example
    /// See [`DualCapacitor`].
    pub fn under_load<V, I, W, J, F>(&self, herm: (V, I), fan: (W, J), frequency: F) -> Result<DualCheck>
    where
        V: Known<ElectricPotential>,
        I: Known<Current>,
        W: Known<ElectricPotential>,
        J: Known<Current>,
        F: Known<Frequency> + Clone,
    {
        let herm = self.herm.under_load(herm.0, herm.1, frequency.clone());
        let fan = self.fan.under_load(fan.0, fan.1, frequency);
        DualCheck::of(herm.map_err(|e| e.in_field("herm"))?, fan.map_err(|e| e.in_field("fan"))?)
    }

    /// Both sections read out of circuit, each from its own terminal to C.
    ///
    /// # Units
    /// Any capacitances, read or plain.
    /// # Source
    /// See [`RunCapacitor::on_bench`].
    /// # Valid range
    /// As [`RunCapacitor::on_bench`].
    /// # Accuracy
    /// As [`RunCapacitor::on_bench`].
    /// # Errors
    /// As [`RunCapacitor::on_bench`], said of `herm` or `fan`.
    /// # Example
    /// ```
    /// use kingvalve::electrical::{DualCapacitor, Tolerance};
    /// use kingvalve::quantity::*;
    /// let part = DualCapacitor::rated(microfarads(45.0), microfarads(5.0), Tolerance::percent(6.0));
    /// assert!(part.on_bench(microfarads(5.1), microfarads(44.2))?.is_swapped());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn on_bench<C: Known<Capacitance>, D: Known<Capacitance>>(
        &self,
        herm: C,
        fan: D,
    ) -> Result<DualCheck> {
        let herm = self.herm.on_bench(herm).map_err(|e| e.in_field("herm"))?;
        let fan = self.fan.on_bench(fan).map_err(|e| e.in_field("fan"))?;
        DualCheck::of(herm, fan)
    }
}

impl DualCheck {
    fn of(herm: CapacitorCheck, fan: CapacitorCheck) -> Result<DualCheck> {
        let as_the_other = |check: &CapacitorCheck, other: &CapacitorCheck| {
            other.deciding().judgement().limits().judge(check.capacitance(), other.part().level())
        };
        let both_outside = herm.deciding().is_outside() && fan.deciding().is_outside();
        let exchanged = if both_outside {
            let herm_reading_as_fan = as_the_other(&herm, &fan)?;
            let fan_reading_as_herm = as_the_other(&fan, &herm)?;
            let fits = !herm_reading_as_fan.is_outside() && !fan_reading_as_herm.is_outside();
            fits.then(|| Box::new(Exchanged { herm_reading_as_fan, fan_reading_as_herm }))
        } else {
            None
        };
        Ok(DualCheck { herm, fan, exchanged })
    }

    /// The compressor's section.
    pub fn herm(&self) -> &CapacitorCheck {
        &self.herm
    }

    /// The fan's section.
    pub fn fan(&self) -> &CapacitorCheck {
        &self.fan
    }

    /// Whether each section reads as the other should.
    pub fn is_swapped(&self) -> bool {
        self.exchanged.is_some()
    }

    /// The finding, in the shape shared by all checks. Its verdict is that of the worse section; where the sections look
    /// exchanged, the readings are judged by each other's limits.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of("dual_run_capacitor")
            .measured("capacitance, herm", self.herm.capacitance())?
            .measured("capacitance, fan", self.fan.capacitance())?
            .saying(self.to_string().replace('\n', " "));
        finding = match &self.exchanged {
            Some(exchanged) => finding
                .judged("herm reading by the fan's limits", &exchanged.herm_reading_as_fan)?
                .judged("fan reading by the herm's limits", &exchanged.fan_reading_as_herm)?
                .concluding("exchanged")
                .then("Read each section again, by the marks on its terminals."),
            None => {
                let mut sections = [("herm", &self.herm), ("fan", &self.fan)];
                sections.sort_by_key(|(_, check)| severity(check.deciding()));
                for (name, check) in sections {
                    finding = finding.judged(name, check.deciding())?;
                }
                for (name, check) in [("herm", &self.herm), ("fan", &self.fan)] {
                    for next in check.finding()?.next() {
                        finding = finding.then(format!("{name}: {next}"));
                    }
                }
                finding
            }
        };
        finding = deferring(finding);
        for caution in self.herm.cautions().iter().chain(self.fan.cautions()) {
            finding = finding.caution(*caution);
        }
        for source in self.herm.finding()?.sources() {
            finding = finding.source(source);
        }
        Ok(finding)
    }
}

/// Worse first.
fn severity(verdict: &Verdict<Capacitance>) -> u8 {
    match verdict {
        Verdict::Outside(_) => 0,
        Verdict::Unresolved(_) => 1,
        Verdict::Within(_) => 2,
    }
}

/// Each section's lines under its name; or that they look exchanged.
impl fmt::Display for DualCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_swapped() {
            return write!(f, "{}", CapacitorNote::SectionsSwapped);
        }
        write!(f, "HERM: {}\nFAN: {}", self.herm, self.fan)
    }
}
