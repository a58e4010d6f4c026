//! The voltage lost along a circuit's conductors.

use std::fmt;

use serde::Serialize;

use super::supply::positive;
use super::{Conductor, Phases, deferring, settling};
use crate::measure::{Caution, Doubt, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{Current, ElectricPotential, Length, Quantity, Ratio, amperes, percent};
use crate::{Error, Result};

/// How much of the voltage a branch circuit may lose: 3 %, what NEC 210.19 recommends (informational note), from memory.
pub const CONDUCTOR_DROP: Ratio = percent(3.0);

/// The voltage a circuit's conductors lose, judged as a share of the supply's.
///
/// # Example
/// ```
/// use kingvalve::electrical::{CONDUCTOR_DROP, Conductor, Phases, VoltageDrop};
/// use kingvalve::measure::Level;
/// use kingvalve::quantity::*;
/// let wire = Conductor::copper("12 AWG".parse()?);
/// let current = amperes(20.0);
/// let drop =
///     VoltageDrop::along(&wire, feet(100.0), Phases::Single, current, volts(240.0), CONDUCTOR_DROP, Level::default())?;
/// assert_eq!(format!("{:.2}", drop.drop().value()), "7.92 V");
/// assert!(drop.verdict().is_outside()); // 3.3 %
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Serialize)]
pub struct VoltageDrop {
    drop: Measured<ElectricPotential>,
    share: Measured<Ratio>,
    verdict: Verdict<Ratio>,
}

impl VoltageDrop {
    /// The drop along a conductor and back.
    ///
    /// # Units
    /// The length one way; the current read or plain; the supply voltage between conductors.
    /// # Source
    /// 2·I·R (single phase) and √3·I·R (three phases, balanced), R by NEC chapter 9, table 8 at 75 °C: common practice.
    /// # Valid range
    /// Up to about 1/0 AWG, where reactance is small beside resistance; larger wire loses more than this says.
    /// # Accuracy
    /// A few percent: the wire is seldom at 75 °C (R changes 3 % in 10 K), and power factor is left out, which makes the
    /// result rather too large.
    /// # Errors
    /// A current below zero, a voltage or length that is not above zero, a limit that is not between 0 % and 100 %, a kind
    /// of wire that is not in the table.
    /// # Example
    /// See [`VoltageDrop`].
    pub fn along<I: Known<Current>>(
        wire: &Conductor,
        one_way: Length,
        phases: Phases,
        current: I,
        supply: ElectricPotential,
        limit: Ratio,
        level: Level,
    ) -> Result<VoltageDrop> {
        let value = current.value();
        if !(value >= amperes(0.0) && value.is_finite()) {
            return Err(Error::out_of_range(
                "current in the circuit",
                value,
                "it is zero or more",
                "give the RMS current of one conductor",
            ));
        }
        positive("supply voltage", supply)?;
        if !(limit > percent(0.0) && limit < percent(100.0)) {
            return Err(Error::out_of_range(
                "limit of voltage drop",
                limit,
                "it lies between 0 % and 100 %",
                "3 % is recommended for a branch circuit",
            ));
        }
        let per_ampere = phases.drop_factor() * wire.resistance(one_way)?.ohms();
        let volts = value.amperes() * per_ampere;
        let measured = |by: f64| {
            let mut doubt = Doubt::none();
            current.add_to(&mut doubt, by);
            doubt
        };
        let drop = Measured::new(ElectricPotential::from_base(volts), measured(per_ampere));
        let of_supply = 1.0 / supply.volts();
        let share = Measured::new(Ratio::from_si(volts * of_supply), measured(per_ampere * of_supply));
        let verdict =
            Limits::at_most(limit)?.from_source("drop along the conductors").judge(&share, level)?;
        Ok(VoltageDrop { drop, share, verdict })
    }

    /// The voltage lost.
    pub fn drop(&self) -> &Measured<ElectricPotential> {
        &self.drop
    }

    /// The share of the supply's voltage.
    pub fn share(&self) -> &Measured<Ratio> {
        &self.share
    }

    /// Against the limit.
    pub fn verdict(&self) -> &Verdict<Ratio> {
        &self.verdict
    }

    /// The finding, in the shape shared by all checks.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let finding = Finding::of("conductor_voltage_drop")
            .measured("drop", &self.drop)?
            .measured("share of the supply", &self.share)?
            .judged("drop", &self.verdict)?
            .saying(self.to_string());
        let mut finding = settling(deferring(finding), &self.verdict);
        if self.verdict.is_outside() {
            finding =
                finding.then("A larger conductor or a shorter run is for a licensed electrician to choose.");
        }
        Ok(finding
            .caution(Caution::LiveVoltage)
            .source("NEC chapter 9, table 8; 210.19 informational note, from memory")
            .source("JCGM 106:2012"))
    }
}

/// One sentence or two.
impl fmt::Display for VoltageDrop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "The conductors lose {:.2}. {}", self.drop.value(), self.verdict)
    }
}
