//! The charge a capacitor holds after the power is off.

use std::fmt;

use serde::Serialize;

use crate::measure::{Caution, Finding};
use crate::quantity::{
    Capacitance, ElectricPotential, Energy, Power, Resistance, Time, joules, minutes, ohms, seconds, volts,
    watts,
};
use crate::{Error, Result};

/// The voltage at or below which a discharged capacitor counts as safe to touch, unless local rules say lower: 50 V.
/// NEC 460.6(A) and IEC 60252-1, from memory. Measure; never rely on the computed time.
pub const SAFE_VOLTAGE: ElectricPotential = volts(50.0);

/// How soon after disconnection a built-in bleed resistor has to reach it: 1 min.
/// NEC 460.6(A) and IEC 60252-1, from memory.
pub const DISCHARGE_TIME: Time = minutes(1.0);

/// A charged capacitor at its worst: disconnected at the peak of the voltage it worked at.
///
/// # Source
/// Energy ½CV² and V(t) = V₀·exp(−t/RC), any textbook of electricity; V₀ = √2 times the RMS voltage of a sine.
/// # Example
/// ```
/// use kingvalve::electrical::StoredCharge;
/// use kingvalve::quantity::*;
/// let stored = StoredCharge::at(microfarads(45.0), volts(370.0))?;
/// assert_eq!(format!("{:.0}", stored.peak()), "523 V");
/// assert_eq!(format!("{:.2}", stored.energy().joules()), "6.16");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StoredCharge {
    capacitance: Capacitance,
    voltage: ElectricPotential,
}

impl StoredCharge {
    /// What a capacitor can hold that worked at that RMS voltage.
    ///
    /// # Units
    /// The RMS voltage across the part; take the one marked where it was not measured.
    /// # Errors
    /// A capacitance or voltage that is not above zero and finite.
    pub fn at(capacitance: Capacitance, rms: ElectricPotential) -> Result<StoredCharge> {
        positive("capacitance", capacitance, capacitance.farads(), "copy it from the part's marking")?;
        positive("working voltage", rms, rms.volts(), "give the RMS voltage across the part")?;
        Ok(StoredCharge { capacitance, voltage: rms })
    }

    /// The capacitance.
    pub fn capacitance(&self) -> Capacitance {
        self.capacitance
    }

    /// The highest voltage it may be left with: the peak.
    pub fn peak(&self) -> ElectricPotential {
        self.voltage * std::f64::consts::SQRT_2
    }

    /// The energy at that voltage.
    pub fn energy(&self) -> Energy {
        joules(0.5 * self.capacitance.farads() * self.peak().volts().powi(2))
    }

    /// How long a bleed resistor takes from the peak down to a voltage, [`SAFE_VOLTAGE`] for instance.
    ///
    /// # Source
    /// t = R·C·ln(V₀/V).
    /// # Valid range
    /// The resistor whole and connected. Nobody may rely on that: measure.
    /// # Accuracy
    /// As good as the resistance and capacitance.
    /// # Errors
    /// A resistance or voltage that is not above zero and finite.
    /// # Example
    /// ```
    /// use kingvalve::electrical::{SAFE_VOLTAGE, StoredCharge};
    /// use kingvalve::quantity::*;
    /// let stored = StoredCharge::at(microfarads(45.0), volts(370.0))?;
    /// let time = stored.time_to(SAFE_VOLTAGE, kilohms(15.0))?;
    /// assert_eq!(format!("{:.1}", time.seconds()), "1.6");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn time_to(&self, safe: ElectricPotential, bleed: Resistance) -> Result<Time> {
        positive("bleed resistor", bleed, bleed.ohms(), "give its resistance")?;
        positive("safe voltage", safe, safe.volts(), "50 V is usual, lower where local rules say so")?;
        let decays = (self.peak() / safe).ln().max(0.0);
        Ok(seconds(bleed.ohms() * self.capacitance.farads() * decays))
    }

    /// The largest bleed resistor that brings it from the peak down to a voltage in a time.
    ///
    /// # Source
    /// R = t/(C·ln(V₀/V)).
    /// # Valid range
    /// As [`time_to`](Self::time_to).
    /// # Accuracy
    /// As [`time_to`](Self::time_to).
    /// # Errors
    /// A time or voltage that is not above zero and finite; a voltage the peak does not exceed, which needs no resistor.
    /// # Example
    /// ```
    /// use kingvalve::electrical::{DISCHARGE_TIME, SAFE_VOLTAGE, StoredCharge};
    /// use kingvalve::quantity::*;
    /// let stored = StoredCharge::at(microfarads(45.0), volts(370.0))?;
    /// let bleed = stored.bleed_for(SAFE_VOLTAGE, DISCHARGE_TIME)?;
    /// assert_eq!(format!("{:.0}", bleed.kilohms()), "568");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn bleed_for(&self, safe: ElectricPotential, time: Time) -> Result<Resistance> {
        positive("discharge time", time, time.seconds(), "give a time")?;
        positive("safe voltage", safe, safe.volts(), "50 V is usual, lower where local rules say so")?;
        if self.peak() <= safe {
            return Err(Error::inconsistent(
                "bleed resistor",
                format!("the peak of {:.0} does not exceed the safe voltage of {safe}", self.peak()),
                "none is needed for this voltage",
            ));
        }
        Ok(ohms(time.seconds() / (self.capacitance.farads() * (self.peak() / safe).ln())))
    }

    /// What a bleed resistor left in place turns into heat while the part works.
    ///
    /// # Source
    /// P = V²/R with the RMS voltage.
    /// # Errors
    /// A resistance that is not above zero and finite.
    pub fn bleed_power(&self, bleed: Resistance) -> Result<Power> {
        positive("bleed resistor", bleed, bleed.ohms(), "give its resistance")?;
        Ok(watts(self.voltage.volts().powi(2) / bleed.ohms()))
    }

    /// The finding, in the shape shared by all checks: energy, and time to [`SAFE_VOLTAGE`] by a bleed resistor.
    ///
    /// # Errors
    /// A resistance that is not above zero and finite, a number that JSON cannot hold.
    pub fn finding(&self, bleed: Resistance) -> Result<Finding> {
        let time = self.time_to(SAFE_VOLTAGE, bleed)?;
        Ok(super::deferring(
            Finding::of("stored_charge")
                .given("capacitance", self.capacitance)?
                .given("peak voltage", self.peak())?
                .given("energy", self.energy())?
                .given("bleed resistor", bleed)?
                .given("time to 50 V", time)?
                .given("heat in the resistor at working voltage", self.bleed_power(bleed)?)?
                .saying(self.to_string())
                .saying(format!(
                    "Through {} it takes {:.1} s to {SAFE_VOLTAGE}, if the resistor is whole.",
                    bleed.in_unit("kΩ")?,
                    time.seconds()
                )),
        )
        .then("Lock out the power, discharge through a resistor made for it, and measure zero volts before touching.")
        .caution(Caution::StoredCharge)
        .caution(Caution::LiveVoltage)
        .source("½CV² and V₀·exp(−t/RC), any textbook of electricity")
        .source("50 V in one minute: NEC 460.6(A), IEC 60252-1, from memory"))
    }
}

/// One sentence.
impl fmt::Display for StoredCharge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} that worked at {} can be left with {:.0}, {:.2} J.",
            self.capacitance,
            self.voltage,
            self.peak(),
            self.energy().joules()
        )
    }
}

fn positive(what: &str, value: impl fmt::Display, si: f64, advice: &str) -> Result<()> {
    if si > 0.0 && si.is_finite() {
        return Ok(());
    }
    Err(Error::out_of_range(what, value, "it must be above zero and finite", advice))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::farads;

    #[test]
    fn the_two_ways_round_agree() {
        let stored = StoredCharge::at(farads(45e-6), volts(440.0)).unwrap();
        let bleed = stored.bleed_for(SAFE_VOLTAGE, DISCHARGE_TIME).unwrap();
        let time = stored.time_to(SAFE_VOLTAGE, bleed).unwrap();
        assert!((time / DISCHARGE_TIME - 1.0).abs() < 1e-12);
    }
}
