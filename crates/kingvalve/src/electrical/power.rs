//! Power and power factor.

use std::fmt;

use serde::Serialize;

use super::{Phases, deferring};
use crate::measure::{
    All3, Both, Caution, Doubt, Finding, Known, Level, Limits, Measured, Verdict, carry_all3, carry_both,
};
use crate::quantity::{Current, ElectricPotential, Power, Quantity, Ratio, percent};
use crate::{Error, Result};

/// The apparent power of a circuit, in volt-amperes (given as a [`Power`]).
///
/// # Units
/// RMS voltage between conductors and RMS current of one conductor, read or plain; plain in gives plain out.
/// # Source
/// S = V·I, three phases √3·V·I: any textbook of alternating current.
/// # Valid range
/// Three phases: balanced.
/// # Accuracy
/// Exact; doubt is first order.
/// # Errors
/// A negative voltage or current, anything not finite.
/// # Example
/// ```
/// use kingvalve::electrical::{Phases, apparent_power};
/// use kingvalve::quantity::*;
/// assert_eq!(apparent_power(volts(240.0), amperes(10.0), Phases::Single)?, watts(2400.0));
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn apparent_power<V, I>(voltage: V, current: I, phases: Phases) -> Result<Both<V::Grade, I::Grade, Power>>
where
    V: Known<ElectricPotential>,
    I: Known<Current>,
{
    let (v, i) = (voltage.value().volts(), current.value().amperes());
    possible(voltage.value(), current.value())?;
    let k = phases.power_factor_of_wires();
    Ok(carry_both(Power::from_base(k * v * i), (&voltage, k * i), (&current, k * v)))
}

/// The real power of a circuit from its power factor.
///
/// # Units
/// As [`apparent_power`]; the power factor from 0 % to 100 %.
/// # Source
/// P = S·power factor: any textbook of alternating current.
/// # Valid range
/// Three phases: balanced.
/// # Accuracy
/// Exact; doubt is first order.
/// # Errors
/// As [`apparent_power`], and a power factor outside its range.
/// # Example
/// ```
/// use kingvalve::electrical::{Phases, real_power};
/// use kingvalve::quantity::*;
/// let power = real_power(volts(240.0), amperes(10.0), percent(95.0), Phases::Single)?;
/// assert!((power.watts() - 2280.0).abs() < 1e-9);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[allow(clippy::type_complexity, reason = "plain in gives plain out")]
pub fn real_power<V, I, F>(
    voltage: V,
    current: I,
    power_factor: F,
    phases: Phases,
) -> Result<All3<V::Grade, I::Grade, F::Grade, Power>>
where
    V: Known<ElectricPotential>,
    I: Known<Current>,
    F: Known<Ratio>,
{
    possible(voltage.value(), current.value())?;
    let factor = power_factor.value();
    if !(factor >= percent(0.0) && factor <= percent(100.0)) {
        return Err(Error::out_of_range(
            "power factor",
            factor,
            "it lies from 0 % to 100 %",
            "a compressor at load has 85 % to 98 %, a small fan motor less",
        ));
    }
    let (v, i, f) = (voltage.value().volts(), current.value().amperes(), factor.fraction());
    let k = phases.power_factor_of_wires();
    let result = Power::from_base(k * v * i * f);
    Ok(carry_all3(result, (&voltage, k * i * f), (&current, k * v * f), (&power_factor, k * v * i)))
}

/// A power factor from a wattmeter beside volts and amperes.
///
/// # Example
/// ```
/// use kingvalve::electrical::{Phases, PowerFactor};
/// use kingvalve::measure::Level;
/// use kingvalve::quantity::*;
/// let found = PowerFactor::of(watts(2280.0), volts(240.0), amperes(10.0), Phases::Single, Level::default())?;
/// assert_eq!(format!("{:.0}", found.factor().value()), "95 %");
/// assert!(found.plausible().is_within());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Serialize)]
pub struct PowerFactor {
    factor: Measured<Ratio>,
    plausible: Verdict<Ratio>,
}

impl PowerFactor {
    /// Real power over apparent power.
    ///
    /// # Units
    /// Read or plain, all at the same moment.
    /// # Source
    /// P/(V·I), three phases P/(√3·V·I): any textbook of alternating current.
    /// # Valid range
    /// Three phases: balanced. With a variable-speed drive this is the true power factor only where all three instruments
    /// are true-RMS.
    /// # Accuracy
    /// Exact; doubt is first order.
    /// # Errors
    /// A negative power, a voltage or current that is not above zero, anything not finite. A factor above 100 % is a finding:
    /// where it is so firmly, the instruments disagree.
    /// # Example
    /// See [`PowerFactor`].
    pub fn of<P, V, I>(power: P, voltage: V, current: I, phases: Phases, level: Level) -> Result<PowerFactor>
    where
        P: Known<Power>,
        V: Known<ElectricPotential>,
        I: Known<Current>,
    {
        possible(voltage.value(), current.value())?;
        let (p, v, i) = (power.value().watts(), voltage.value().volts(), current.value().amperes());
        if !(p >= 0.0 && p.is_finite()) {
            return Err(Error::out_of_range(
                "power",
                power.value(),
                "it is zero or more",
                "turn the wattmeter's clamp around",
            ));
        }
        if v == 0.0 || i == 0.0 {
            return Err(Error::inconsistent(
                "power factor",
                "there is no voltage or no current",
                "measure with the load running",
            ));
        }
        let factor = p / (phases.power_factor_of_wires() * v * i);
        let mut doubt = Doubt::none();
        power.add_to(&mut doubt, 1.0 / (phases.power_factor_of_wires() * v * i));
        voltage.add_to(&mut doubt, -factor / v);
        current.add_to(&mut doubt, -factor / i);
        let factor = Measured::new(Ratio::from_si(factor), doubt);
        let plausible = Limits::at_most(percent(100.0))?.from_source("real power over apparent power");
        let plausible = plausible.judge(&factor, level)?;
        Ok(PowerFactor { factor, plausible })
    }

    /// The power factor.
    pub fn factor(&self) -> &Measured<Ratio> {
        &self.factor
    }

    /// Whether it can be: above 100 % the instruments disagree.
    pub fn plausible(&self) -> &Verdict<Ratio> {
        &self.plausible
    }

    /// The finding, in the shape shared by all checks.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of("power_factor")
            .measured("power factor", &self.factor)?
            .judged("can it be", &self.plausible)?
            .saying(self.to_string());
        if self.plausible.is_outside() {
            finding = finding.then(
                "Read power, voltage and current again, at the same moment and on the same conductors.",
            );
        }
        Ok(deferring(finding)
            .caution(Caution::LiveVoltage)
            .source("real over apparent power, any textbook of alternating current")
            .source("JCGM 106:2012"))
    }
}

/// One sentence or two.
impl fmt::Display for PowerFactor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "The power factor is {}.", self.factor)?;
        if self.plausible.is_outside() {
            f.write_str(
                " More than 100 % cannot be: the instruments disagree, which speaks of the technique.",
            )?;
        }
        Ok(())
    }
}

fn possible(voltage: ElectricPotential, current: Current) -> Result<()> {
    for (what, si, text) in [
        ("voltage", voltage.volts(), voltage.to_string()),
        ("current", current.amperes(), current.to_string()),
    ] {
        if !(si >= 0.0 && si.is_finite()) {
            return Err(Error::out_of_range(what, text, "it is zero or more", "give the RMS value read"));
        }
    }
    Ok(())
}
