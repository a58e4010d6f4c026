//! A run capacitor judged while it works.

use std::f64::consts::TAU;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::check::Method;
use super::{CapacitorCheck, CapacitorNote, Tolerance};
use crate::measure::{Known, Level, Limits, Measured, Weighed};
use crate::quantity::{
    Capacitance, Current, ElectricPotential, Frequency, Quantity, amperes, hertz, microfarads, volts,
};
use crate::{Error, Result};

/// The mains frequencies believed: 50 Hz and 60 Hz with room for a generator. Common practice, no source.
pub(super) const FREQUENCIES: (Frequency, Frequency) = (hertz(45.0), hertz(65.0));

/// The largest rating believed, far above any run capacitor made: a larger one is a mistaken unit.
/// Common practice, no source.
const LARGEST: Capacitance = microfarads(10_000.0);

/// A run capacitor, or one section of a dual one, as marked.
///
/// # Example
/// ```
/// use kingvalve::electrical::{RunCapacitor, Tolerance};
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let fan = RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0)).policy(Tolerance::percent(10.0));
/// let current = Reading::new(amperes(0.6), Instrument::resolution(amperes(0.1)))?;
/// let check = fan.under_load(volts(371.3), current, hertz(60.0))?;
/// assert_eq!(check.capacitance().to_string(), "4.29 ± 0.40 µF");
/// let policy = check.policy_verdict().expect("a policy was given");
/// assert!(policy.is_unresolved());
/// assert!(policy.to_string().contains("The 0.1 A step of the ammeter is nearly all the doubt"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename = "run capacitor", deny_unknown_fields)]
pub struct RunCapacitor {
    rated: Capacitance,
    tolerance: Tolerance,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    policy: Option<Tolerance>,
    #[serde(default)]
    level: Level,
}

impl RunCapacitor {
    /// A capacitor of that rating and tolerance.
    pub fn rated(rated: Capacitance, tolerance: Tolerance) -> RunCapacitor {
        RunCapacitor { rated, tolerance, policy: None, level: Level::default() }
    }

    /// Adds the tolerance at which the shop replaces it, whatever is marked on it.
    #[must_use]
    pub fn policy(mut self, tolerance: Tolerance) -> RunCapacitor {
        self.policy = Some(tolerance);
        self
    }

    /// Asks for another level of confidence than 95 %.
    #[must_use]
    pub fn at_level(mut self, level: Level) -> RunCapacitor {
        self.level = level;
        self
    }

    /// The capacitance behind a voltage across its terminals and a current through it, judged.
    ///
    /// # Units
    /// Any voltage, current and frequency, read or plain. A plain one is taken as exact.
    /// # Source
    /// C = I/(2πfV): capacitive reactance, any textbook of alternating current. Doubt by JCGM 100:2008.
    /// # Valid range
    /// 45 Hz to 65 Hz, sinusoidal; V across this section's own terminals, motor running.
    /// # Accuracy
    /// The formula is exact for a sine wave; harmonics raise the current read by a true-RMS meter. The doubt is first
    /// order: where the current is known to 10 % it is itself good to about 1 %.
    /// # Errors
    /// A voltage of zero or less, a negative current, a frequency outside the range, a rating or tolerance that cannot
    /// be, anything not finite. No current at all is a finding, not an error.
    /// # Example
    /// ```
    /// use kingvalve::electrical::{RunCapacitor, Tolerance};
    /// use kingvalve::measure::{Instrument, Reading};
    /// use kingvalve::quantity::*;
    /// let herm = RunCapacitor::rated(microfarads(45.0), Tolerance::percent(6.0));
    /// let current = Reading::new(amperes(5.8), Instrument::resolution(amperes(0.1)))?;
    /// let check = herm.under_load(volts(354.4), current, hertz(60.0))?;
    /// assert_eq!(format!("{:.1}", check.capacitance().value()), "43.4 µF");
    /// assert!(check.verdict().is_within());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn under_load<V, I, F>(&self, voltage: V, current: I, frequency: F) -> Result<CapacitorCheck>
    where
        V: Known<ElectricPotential>,
        I: Known<Current>,
        F: Known<Frequency>,
    {
        let (v, i, f) = (voltage.value(), current.value(), frequency.value());
        possible(v, i, f)?;
        let per_ampere = 1.0 / (TAU * f.hertz() * v.volts());
        let farads = i.amperes() * per_ampere;
        let doubted = |capacitance: &mut Measured<Capacitance>| {
            capacitance.depends_on(&voltage, -farads / v.volts());
            capacitance.depends_on(&current, per_ampere);
            capacitance.depends_on(&frequency, -farads / f.hertz());
        };
        let notes = if i == amperes(0.0) { vec![CapacitorNote::NoCurrent] } else { Vec::new() };
        self.judge(Capacitance::from_base(farads), doubted, Method::UnderLoad, notes)
    }

    /// A capacitance against the tolerance and the policy; `doubted` adds its doubt, in place.
    #[inline(always)]
    pub(super) fn judge(
        &self,
        value: Capacitance,
        doubted: impl FnOnce(&mut Measured<Capacitance>),
        method: Method,
        notes: Vec<CapacitorNote>,
    ) -> Result<CapacitorCheck> {
        let mut capacitance = Measured::exact(value);
        doubted(&mut capacitance);
        let rated = self.limits(self.tolerance, "rated tolerance")?;
        let policy = match self.policy {
            Some(tolerance) => Some(self.limits(tolerance, "shop policy")?),
            None => None,
        };
        let weighed = Weighed::of(capacitance.value(), capacitance.doubt(), self.level)?;
        let beyond_rated = weighed.beyond(&rated);
        let beyond_policy = policy.as_ref().map_or([0.0; 2], |policy| weighed.beyond(policy));
        Ok(CapacitorCheck {
            part: *self,
            rated: weighed.verdict(rated, beyond_rated),
            policy: policy.map(|policy| weighed.verdict(policy, beyond_policy)),
            capacitance,
            above_line: None,
            notes,
            cautions: method.cautions(),
            method,
        })
    }

    #[inline]
    pub(super) fn limits(&self, tolerance: Tolerance, source: &'static str) -> Result<Limits<Capacitance>> {
        if !(self.rated > microfarads(0.0) && self.rated <= LARGEST) {
            return Err(Error::out_of_range(
                "rated capacitance",
                self.rated,
                format!("a run capacitor is above zero and at most {LARGEST}"),
                "copy it from the part's marking, in microfarads",
            ));
        }
        let (lowest, highest) = tolerance.bounds(self.rated)?;
        Ok(Limits::ordered(lowest, highest, source))
    }

    /// The capacitance marked.
    pub fn rating(&self) -> Capacitance {
        self.rated
    }

    /// The tolerance marked.
    pub fn tolerance(&self) -> Tolerance {
        self.tolerance
    }

    /// The tolerance at which the shop replaces it, where one was given.
    pub fn shop_policy(&self) -> Option<Tolerance> {
        self.policy
    }

    /// The level of confidence asked for.
    pub fn level(&self) -> Level {
        self.level
    }
}

#[inline]
fn possible(voltage: ElectricPotential, current: Current, frequency: Frequency) -> Result<()> {
    if !(voltage > volts(0.0) && voltage.is_finite()) {
        return Err(Error::out_of_range(
            "voltage across the capacitor",
            voltage,
            "under load it is above zero",
            "measure across the terminals of this section with the motor running",
        ));
    }
    if !(current >= amperes(0.0) && current.is_finite()) {
        return Err(Error::out_of_range(
            "current through the capacitor",
            current,
            "it is zero or more",
            "give the RMS current through this section's lead",
        ));
    }
    mains(frequency)
}

/// Refuses what is no mains frequency.
#[inline]
pub(super) fn mains(frequency: Frequency) -> Result<()> {
    let (lowest, highest) = FREQUENCIES;
    if !(frequency >= lowest && frequency <= highest) {
        return Err(Error::out_of_range(
            "frequency",
            frequency,
            format!("the method is for mains, {lowest} to {highest}"),
            "give 60 Hz or 50 Hz, and no reading taken behind a variable-speed drive",
        ));
    }
    Ok(())
}
