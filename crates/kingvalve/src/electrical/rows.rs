//! Many capacitor readings at once.

use std::f64::consts::TAU;

use super::capacitor::mains;
use super::{RunCapacitor, Tolerance};
use crate::measure::{Instrument, RowDoubt, RowVerdict, row_verdict};
use crate::quantity::{Capacitance, Current, ElectricPotential, Frequency, Quantity};
use crate::{Error, Result};

/// Judges columns of readings of one kind of part, without allocating.
///
/// Each row is judged as [`RunCapacitor::under_load`] judges a reading of these instruments, against one tolerance.
///
/// # Example
/// ```
/// use kingvalve::electrical::{CapacitorRow, RunCapacitor, Tolerance};
/// use kingvalve::measure::{Instrument, RowVerdict};
/// use kingvalve::quantity::*;
/// let herm = RunCapacitor::rated(microfarads(45.0), Tolerance::percent(6.0));
/// let voltmeter = Instrument::resolution(volts(0.1));
/// let ammeter = Instrument::resolution(amperes(0.1));
/// let rows = herm.rows(&voltmeter, &ammeter, hertz(60.0))?;
/// let mut out = [CapacitorRow::NONE; 2];
/// rows.judge(&[volts(354.4), volts(-1.0)], &[amperes(5.8), amperes(5.8)], &mut out)?;
/// assert_eq!(out.map(|row| row.verdict), [RowVerdict::Within, RowVerdict::Unusable]);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct CapacitorRows {
    lower: f64,
    upper: f64,
    level: f64,
    /// 1/(2πf).
    per_radian: f64,
    voltage: RowDoubt,
    current: RowDoubt,
}

/// What one row says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CapacitorRow {
    /// The capacitance; NaN where the row is unusable.
    pub capacitance: Capacitance,
    /// Its standard uncertainty.
    pub standard_uncertainty: Capacitance,
    /// The probability that the truth lies below the lower limit, from 0 to 1.
    pub below: f64,
    /// The probability that the truth lies above the upper limit, from 0 to 1.
    pub above: f64,
    /// The verdict; unusable where the voltage is not above zero, the current negative, or either not a number.
    pub verdict: RowVerdict,
}

impl CapacitorRow {
    /// A row not yet judged: unusable.
    pub const NONE: CapacitorRow = CapacitorRow {
        capacitance: Capacitance::from_si(f64::NAN),
        standard_uncertainty: Capacitance::from_si(f64::NAN),
        below: f64::NAN,
        above: f64::NAN,
        verdict: RowVerdict::Unusable,
    };
}

impl RunCapacitor {
    /// Makes ready to judge many readings of two instruments, against the shop's policy where one was given, else the
    /// tolerance marked.
    ///
    /// # Source
    /// As [`RunCapacitor::under_load`].
    /// # Valid range
    /// As [`RunCapacitor::under_load`]; instruments as specified, without ambient temperatures or ranges counted.
    /// # Accuracy
    /// Equal to [`RunCapacitor::under_load`] to rounding.
    /// # Errors
    /// A rating, tolerance, frequency or instrument that cannot be.
    /// # Example
    /// See [`CapacitorRows`].
    pub fn rows(
        &self,
        voltmeter: &Instrument<ElectricPotential>,
        ammeter: &Instrument<Current>,
        frequency: Frequency,
    ) -> Result<CapacitorRows> {
        mains(frequency)?;
        let tolerance: Tolerance = self.shop_policy().unwrap_or(self.tolerance());
        let limits = self.limits(tolerance, "")?;
        let end = |limit: Option<Capacitance>, none: f64| limit.map_or(none, Quantity::base);
        Ok(CapacitorRows {
            lower: end(limits.lower(), f64::NEG_INFINITY),
            upper: end(limits.upper(), f64::INFINITY),
            level: self.level().probability().fraction(),
            per_radian: 1.0 / (TAU * frequency.hertz()),
            voltage: RowDoubt::of(voltmeter)?,
            current: RowDoubt::of(ammeter)?,
        })
    }
}

impl CapacitorRows {
    /// Judges each voltage with the current of the same row.
    ///
    /// # Units
    /// One voltage, one current and one result a row.
    /// # Errors
    /// Where the three differ in length. A row that cannot be is [`Unusable`](RowVerdict::Unusable), not an error.
    /// # Example
    /// See [`CapacitorRows`].
    pub fn judge(
        &self,
        voltages: &[ElectricPotential],
        currents: &[Current],
        out: &mut [CapacitorRow],
    ) -> Result<()> {
        if voltages.len() != currents.len() || voltages.len() != out.len() {
            return Err(Error::inconsistent(
                "columns of capacitor readings",
                format!("{} voltages, {} currents, {} results", voltages.len(), currents.len(), out.len()),
                "give columns of one length",
            ));
        }
        for ((voltage, current), row) in voltages.iter().zip(currents).zip(out) {
            *row = self.one(voltage.volts(), current.amperes());
        }
        Ok(())
    }

    #[inline]
    fn one(&self, v: f64, i: f64) -> CapacitorRow {
        if !(v > 0.0 && v.is_finite() && i >= 0.0 && i.is_finite()) {
            return CapacitorRow::NONE;
        }
        let per_ampere = self.per_radian / v;
        let farads = i * per_ampere;
        let of_voltage = self.voltage.variance(v) * (farads / v) * (farads / v);
        let of_current = self.current.variance(i) * per_ampere * per_ampere;
        let standard = (of_voltage + of_current).sqrt();
        if !(farads.is_finite() && standard.is_finite()) {
            return CapacitorRow::NONE;
        }
        let (verdict, below, above) =
            row_verdict(farads - self.lower, self.upper - farads, standard, self.level);
        CapacitorRow {
            capacitance: Capacitance::from_si(farads),
            standard_uncertainty: Capacitance::from_si(standard),
            below,
            above,
            verdict,
        }
    }
}
