//! What columns of readings need: doubt and tails without a budget.

use super::Instrument;
use super::distribution::normal_cdf;
use crate::Result;
use crate::quantity::Quantity;

/// The doubt an instrument gives each of its readings, by value alone: its specification is linear in what it reads.
#[derive(Debug, Clone, Copy)]
pub(crate) struct RowDoubt {
    /// Variance of the step, SI units squared.
    step: f64,
    /// Standard uncertainty from accuracy: so much, and so much for each unit read, SI units.
    fixed: f64,
    by_value: f64,
}

impl RowDoubt {
    /// That of an instrument whose scale starts at zero of its SI unit.
    pub(crate) fn of<Q: Quantity<Difference = Q>>(instrument: &Instrument<Q>) -> Result<RowDoubt> {
        instrument.check()?;
        let at = |si: f64| instrument.accuracy_standard(Q::from_base(si), None);
        let step = instrument.step().base();
        Ok(RowDoubt { step: step * step / 12.0, fixed: at(0.0), by_value: at(1.0) - at(0.0) })
    }

    /// The variance of a reading, SI units squared.
    #[inline]
    pub(crate) fn variance(&self, reading: f64) -> f64 {
        let accuracy = self.fixed + self.by_value * reading.abs();
        self.step + accuracy * accuracy
    }
}

/// The probability that the truth lies further than `room` towards a limit, the doubt being normal; where there is no
/// doubt, 1 past the limit.
#[inline]
pub(crate) fn normal_tail(room: f64, standard: f64) -> f64 {
    if standard == 0.0 {
        return if room < 0.0 { 1.0 } else { 0.0 };
    }
    normal_cdf(-room / standard)
}
