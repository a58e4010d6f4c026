//! Unbalance of three voltages.

use std::fmt;

use serde::Serialize;

use super::supply::positive;
use super::{deferring, settling};
use crate::measure::{Caution, Doubt, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{ElectricPotential, Quantity, Ratio, fraction, percent};
use crate::{Error, Result};

/// Up to here a motor needs no derating: 1 % (NEMA MG 1, 12.45).
pub const UNBALANCE_LIMIT: Ratio = percent(1.0);

/// Above this, operation is not recommended: 5 % (NEMA MG 1, 14.36).
pub const UNBALANCE_STOP: Ratio = percent(5.0);

/// Derating factors in steps of half a percent of unbalance: the curve of NEMA MG 1, figure 14-1, as read in a general
/// engineering reference; 1 % by its text. Readings of the curve differ by 0.015.
const DERATING: [f64; 11] = [1.0, 1.0, 1.0, 0.97, 0.95, 0.93, 0.89, 0.85, 0.82, 0.78, 0.76];

/// Three voltages between phases, their unbalance judged.
///
/// # Source
/// NEMA MG 1, 12.45 and 14.36: the greatest deviation from the average, as a share of the average.
/// # Example
/// ```
/// use kingvalve::electrical::Unbalance;
/// use kingvalve::measure::Level;
/// use kingvalve::quantity::*;
/// let found = Unbalance::of(volts(460.0), volts(467.0), volts(450.0), Level::default())?;
/// assert_eq!(format!("{:.2}", found.unbalance().value()), "1.96 %"); // the example of NEMA MG 1
/// assert!(found.verdict().is_outside() && found.stop_verdict().is_within());
/// assert_eq!(format!("{:.2}", found.derating().expect("below 5 %").fraction()), "0.95");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Serialize)]
pub struct Unbalance {
    average: Measured<ElectricPotential>,
    unbalance: Measured<Ratio>,
    verdict: Verdict<Ratio>,
    stop: Verdict<Ratio>,
}

impl Unbalance {
    /// The unbalance of three voltages, against [`UNBALANCE_LIMIT`].
    ///
    /// # Units
    /// Voltages between phases (1-2, 2-3, 3-1), read or plain.
    /// # Source
    /// See [`Unbalance`].
    /// # Valid range
    /// Each within 20 % of the average; further apart a phase is lost or the meter was on another pair.
    /// # Accuracy
    /// Exact for plain voltages. Doubt is first order; the percentage error of one meter is shared and cancels. Where two
    /// phases deviate alike, and near perfect balance, the true unbalance is rather above the one computed.
    /// # Errors
    /// A voltage that is not above zero and finite, or outside the range.
    /// # Example
    /// See [`Unbalance`].
    pub fn of<A, B, C>(a: A, b: B, c: C, level: Level) -> Result<Unbalance>
    where
        A: Known<ElectricPotential>,
        B: Known<ElectricPotential>,
        C: Known<ElectricPotential>,
    {
        Unbalance::against(UNBALANCE_LIMIT, a, b, c, level)
    }

    /// The same against another limit: the unit's maker may allow 2 %.
    ///
    /// # Errors
    /// As [`of`](Self::of), and a limit that is not above 0 % and at most 5 %.
    pub fn against<A, B, C>(limit: Ratio, a: A, b: B, c: C, level: Level) -> Result<Unbalance>
    where
        A: Known<ElectricPotential>,
        B: Known<ElectricPotential>,
        C: Known<ElectricPotential>,
    {
        if !(limit > percent(0.0) && limit <= UNBALANCE_STOP) {
            return Err(Error::out_of_range(
                "limit of unbalance",
                limit,
                "it lies above 0 % and is at most 5 %",
                "1 % needs no derating; above 5 % operation is not recommended",
            ));
        }
        let values = [a.value(), b.value(), c.value()].map(|v| v.volts());
        for (value, name) in values.iter().zip(["voltage 1-2", "voltage 2-3", "voltage 3-1"]) {
            positive(name, ElectricPotential::from_base(*value))?;
        }
        let average = values.iter().sum::<f64>() / 3.0;
        let (worst, deviation) = worst(&values, average);
        if deviation.abs() > 0.2 * average {
            return Err(Error::inconsistent(
                "voltages between phases",
                format!(
                    "one lies {:.0} % off the average of {average:.0} V",
                    100.0 * deviation.abs() / average
                ),
                "a phase is lost, or a reading was taken elsewhere: measure all three pairs again",
            ));
        }
        let share = deviation.abs() / average;
        let value = values.get(worst).copied().unwrap_or(average);
        let by = |phase: usize| {
            let own = if phase == worst { 1.0 / average } else { 0.0 };
            deviation.signum() * (own - value / (3.0 * average * average))
        };
        let mut doubts = (Doubt::none(), Doubt::none());
        let third = 1.0 / 3.0;
        a.add_to(&mut doubts.0, third);
        b.add_to(&mut doubts.0, third);
        c.add_to(&mut doubts.0, third);
        a.add_to(&mut doubts.1, by(0));
        b.add_to(&mut doubts.1, by(1));
        c.add_to(&mut doubts.1, by(2));
        let average = Measured::new(ElectricPotential::from_base(average), doubts.0);
        let unbalance = Measured::new(Ratio::from_si(share), doubts.1);
        let judge = |limit: Ratio, source: &'static str| {
            Limits::at_most(limit)?.from_source(source).judge(&unbalance, level)
        };
        let verdict = judge(limit, "voltage unbalance")?;
        let stop = judge(UNBALANCE_STOP, "NEMA MG 1, operation not recommended above")?;
        Ok(Unbalance { average, unbalance, verdict, stop })
    }

    /// The average voltage.
    pub fn average(&self) -> &Measured<ElectricPotential> {
        &self.average
    }

    /// The unbalance.
    pub fn unbalance(&self) -> &Measured<Ratio> {
        &self.unbalance
    }

    /// Against the limit.
    pub fn verdict(&self) -> &Verdict<Ratio> {
        &self.verdict
    }

    /// Against the 5 % above which operation is not recommended.
    pub fn stop_verdict(&self) -> &Verdict<Ratio> {
        &self.stop
    }

    /// The share of its rated power a motor may give at this unbalance; none above 5 %.
    pub fn derating(&self) -> Option<Ratio> {
        Unbalance::derating_at(self.unbalance.value()).ok()
    }

    /// The share of its rated power a motor may give at some unbalance.
    ///
    /// # Source
    /// NEMA MG 1, figure 14-1, as read in a general engineering reference, straight between its points.
    /// # Valid range
    /// 0 % to 5 %.
    /// # Accuracy
    /// 0.015: other readings of the curve give 0.88 to 0.90 at 3 % and 0.75 at 5 %.
    /// # Errors
    /// Outside the range.
    /// # Example
    /// ```
    /// use kingvalve::electrical::Unbalance;
    /// use kingvalve::quantity::percent;
    /// assert_eq!(Unbalance::derating_at(percent(3.0))?.percent(), 89.0);
    /// assert!(Unbalance::derating_at(percent(5.1)).is_err());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn derating_at(unbalance: Ratio) -> Result<Ratio> {
        if !(unbalance >= percent(0.0) && unbalance <= UNBALANCE_STOP) {
            return Err(Error::out_of_range(
                "voltage unbalance",
                unbalance,
                "the curve runs from 0 % to 5 %",
                "above 5 % do not run the motor; have the supply mended",
            ));
        }
        let at = unbalance.percent() * 2.0;
        let below = at.floor();
        let point = |index: f64| DERATING.get(index as usize).or(DERATING.last()).copied().unwrap_or(1.0);
        let (low, high) = (point(below), point(below + 1.0));
        Ok(fraction(low + (at - below) * (high - low)))
    }

    /// The finding, in the shape shared by all checks.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of("voltage_unbalance")
            .measured("average voltage", &self.average)?
            .measured("unbalance", &self.unbalance)?
            .judged("unbalance", &self.verdict)?
            .judged("operation", &self.stop)?
            .saying(self.to_string());
        finding = match self.derating() {
            Some(derating) => finding.given("derating factor", derating)?,
            None => finding
                .concluding("do_not_run")
                .then("Do not run the motor at this unbalance; have the supply mended."),
        };
        finding = settling(deferring(finding), &self.verdict);
        if self.verdict.is_outside() {
            finding = finding.then(
                "Measure at the service with this unit off: where the unbalance stays, it comes from the supply; where it \
                 goes, from this circuit's connections, fuses or contactor.",
            );
        }
        Ok(finding
            .caution(Caution::LiveVoltage)
            .source("NEMA MG 1, 12.45 and 14.36, figure 14-1")
            .source("JCGM 106:2012"))
    }
}

/// The phase that deviates most (the first of equals), and by how much.
fn worst(values: &[f64; 3], average: f64) -> (usize, f64) {
    values
        .iter()
        .enumerate()
        .map(|(at, v)| (at, v - average))
        .fold((0, 0.0), |worst: (usize, f64), one| if one.1.abs() > worst.1.abs() { one } else { worst })
}

/// One sentence or two.
impl fmt::Display for Unbalance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.verdict)?;
        match self.derating() {
            Some(derating) if derating < fraction(1.0) => {
                write!(f, " At this unbalance a motor may give {:.0} of its rated power.", derating)
            }
            Some(_) => Ok(()),
            None => f.write_str(" Above 5 % operation is not recommended."),
        }
    }
}
