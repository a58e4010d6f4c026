//! A run capacitor read out of circuit.

use super::check::Method;
use super::{CapacitorCheck, CapacitorNote, RunCapacitor};
use crate::measure::Known;
use crate::quantity::{Capacitance, microfarads};
use crate::{Error, Result};

impl RunCapacitor {
    /// A capacitance read on a meter, the part disconnected and discharged, judged.
    ///
    /// # Units
    /// Any capacitance, read or plain. A plain one is taken as exact.
    /// # Source
    /// Doubt by JCGM 100:2008, verdict by JCGM 106:2012.
    /// # Valid range
    /// A part disconnected on at least one side: other windings and sections in parallel add to the reading.
    /// # Accuracy
    /// That of the meter, at its few volts. A part that fails only at working voltage or when hot passes here; the
    /// reading [under load](RunCapacitor::under_load) sees it.
    /// # Errors
    /// A negative capacitance or one not finite; a rating or tolerance that cannot be. Zero is a finding, not an error.
    /// # Example
    /// ```
    /// use kingvalve::electrical::{RunCapacitor, Tolerance};
    /// use kingvalve::measure::{Instrument, Reading};
    /// use kingvalve::quantity::*;
    /// let fan = RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0)).policy(Tolerance::percent(10.0));
    /// let meter = Instrument::resolution(microfarads(0.01)).accuracy_percent_of_reading(1.0).counts(3.0);
    /// let check = fan.on_bench(Reading::new(microfarads(4.31), meter)?)?;
    /// assert!(check.verdict().is_outside() && check.deciding().is_outside() && check.is_low());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn on_bench<C: Known<Capacitance>>(&self, read: C) -> Result<CapacitorCheck> {
        let value = read.value();
        if !(value >= microfarads(0.0) && value.is_finite()) {
            return Err(Error::out_of_range(
                "capacitance read",
                value,
                "it is zero or more",
                "discharge the part, disconnect it, and read again",
            ));
        }
        let open = value == microfarads(0.0);
        let notes = if open { vec![CapacitorNote::NoCapacitance] } else { Vec::new() };
        self.judge(value, |capacitance| capacitance.depends_on(&read, 1.0), Method::Bench, notes)
    }
}
