//! Resistance of a winding's insulation to ground.

use std::fmt;

use serde::Serialize;

use super::{deferring, settling};
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{Quantity, Resistance, Temperature, celsius, ohms};
use crate::{Error, Result};

/// An insulation resistance, against a threshold the user names.
///
/// There is no default: makers of compressors and motors differ by factors of a hundred, and a hermetic compressor full of
/// refrigerant and oil reads far lower than a dry motor.
///
/// # Example
/// ```
/// use kingvalve::electrical::Insulation;
/// use kingvalve::measure::{Instrument, Level, Reading};
/// use kingvalve::quantity::*;
/// let tester = Instrument::resolution(megohms(0.1)).accuracy_percent_of_reading(5.0).counts(2.0);
/// let found = Insulation::of(Reading::new(megohms(38.0), tester)?, megohms(20.0), "shop policy", Level::default())?;
/// assert!(found.verdict().is_within());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Serialize)]
pub struct Insulation {
    resistance: Measured<Resistance>,
    verdict: Verdict<Resistance>,
}

impl Insulation {
    /// A resistance from winding to ground, against the least it should be and who says so.
    ///
    /// # Units
    /// Resistances, the one measured read or plain. A tester that shows more than its range: its upper end, plain, is a
    /// lower bound that judges safely.
    /// # Source
    /// The threshold is the user's.
    /// # Valid range
    /// Windings disconnected from electronics, discharged; never on a compressor in vacuum.
    /// # Accuracy
    /// That of the tester. Halves for about every 10 K of warmth: see [`corrected_to_40_celsius`].
    /// # Errors
    /// A negative resistance, a threshold that is not above zero, anything not finite.
    /// # Example
    /// See [`Insulation`].
    pub fn of<R: Known<Resistance>>(
        resistance: R,
        at_least: Resistance,
        who_says: impl Into<crate::measure::Label>,
        level: Level,
    ) -> Result<Insulation> {
        possible(resistance.value())?;
        if !(at_least > ohms(0.0) && at_least.is_finite()) {
            return Err(Error::out_of_range(
                "threshold of insulation resistance",
                at_least,
                "it must be above zero and finite",
                "take it from the maker of the compressor or motor",
            ));
        }
        let resistance = Measured::exact(resistance.value()).depending_on(resistance, 1.0);
        let verdict = Limits::at_least(at_least)?.from_source(who_says).judge(&resistance, level)?;
        Ok(Insulation { resistance, verdict })
    }

    /// The resistance.
    pub fn resistance(&self) -> &Measured<Resistance> {
        &self.resistance
    }

    /// Against the threshold.
    pub fn verdict(&self) -> &Verdict<Resistance> {
        &self.verdict
    }

    /// The finding, in the shape shared by all checks.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let finding = Finding::of("insulation_resistance")
            .measured("insulation resistance", &self.resistance)?
            .judged("insulation resistance", &self.verdict)?
            .saying(self.to_string());
        let mut finding = settling(deferring(finding), &self.verdict);
        if self.verdict.is_outside() {
            finding = finding.then(
                "Before the compressor is condemned: dry and clean the terminals, test the leads off it, run it warm where it \
                 can run, and test again; moisture and dissolved refrigerant lower the reading. One that reads near zero is \
                 grounded: do not energise it.",
            );
        }
        Ok(finding
            .then("Test with the power locked out, electronics disconnected, and never on a compressor in vacuum.")
            .caution(Caution::LiveVoltage)
            .caution(Caution::StoredCharge)
            .source("threshold named by the user")
            .source("JCGM 106:2012"))
    }
}

/// The verdict.
impl fmt::Display for Insulation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.verdict)
    }
}

/// An insulation resistance read at a winding temperature, as it would read at 40 °C.
///
/// # Units
/// A resistance and the winding's temperature, read or plain.
/// # Source
/// IEEE 43: halves for every 10 K of warmth, R₄₀ = R·2^((T − 40 °C)/10 K); from memory, agreeing with general references.
/// # Valid range
/// 0 °C to 100 °C, above the dew point (a wet surface reads low).
/// # Accuracy
/// A rule for trending one winding, good to a factor of about two over 30 K; its own error is not counted.
/// # Errors
/// A negative resistance, a temperature outside the range, anything not finite.
/// # Example
/// ```
/// use kingvalve::electrical::corrected_to_40_celsius;
/// use kingvalve::quantity::*;
/// let corrected = corrected_to_40_celsius(megohms(80.0), celsius(20.0))?;
/// assert_eq!(format!("{:.1}", corrected.value().megohms()), "20.0");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn corrected_to_40_celsius<R, T>(resistance: R, winding: T) -> Result<Measured<Resistance>>
where
    R: Known<Resistance>,
    T: Known<Temperature>,
{
    let (r, t) = (resistance.value(), winding.value());
    possible(r)?;
    if !(t >= celsius(0.0) && t <= celsius(100.0)) {
        return Err(Error::out_of_range(
            "temperature of the winding",
            t,
            "the rule is for 0 °C to 100 °C (32 °F to 212 °F)",
            "let it warm or cool into that range",
        ));
    }
    let factor = ((t.celsius() - 40.0) / 10.0).exp2();
    let corrected = r.ohms() * factor;
    let by_temperature = corrected * std::f64::consts::LN_2 / 10.0;
    Ok(Measured::exact(Resistance::from_base(corrected))
        .depending_on(resistance, factor)
        .depending_on(winding, by_temperature))
}

fn possible(resistance: Resistance) -> Result<()> {
    if resistance >= ohms(0.0) && resistance.is_finite() {
        return Ok(());
    }
    Err(Error::out_of_range(
        "insulation resistance",
        resistance,
        "it is zero or more",
        "read again; where the tester shows more than its range, give the range's upper end",
    ))
}
