//! What columns of readings need: doubt, tails and verdicts without a budget.

use super::distribution::normal_cdf_of_both;
use super::{Instrument, Level};
use crate::Result;
use crate::quantity::Quantity;

/// The verdict on a row of readings, as a code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[repr(u8)]
pub enum RowVerdict {
    /// Within both limits.
    Within = 0,
    /// Below the lower limit.
    Below = 1,
    /// Above the upper limit.
    Above = 2,
    /// These readings cannot tell.
    Unresolved = 3,
    /// A reading is missing or cannot be, or the method does not hold there: no verdict.
    Unusable = 4,
}

/// The doubt an instrument gives each of its readings, by value alone: its specification is linear in what it reads.
#[derive(Debug, Clone, Copy)]
pub(crate) struct RowDoubt {
    /// Variance of the step, SI units squared.
    step: f64,
    /// Standard uncertainty from accuracy: so much, and so much for each unit read, SI units.
    fixed: f64,
    by_value: f64,
    /// The zero of the scale its share of reading counts from: 0 °F, 0 psig, no current. SI units.
    zero: f64,
}

impl RowDoubt {
    /// That of an instrument as specified, without ambient temperature or range counted.
    pub(crate) fn of<Q: Quantity>(instrument: &Instrument<Q>) -> Result<RowDoubt> {
        instrument.check()?;
        let zero = Q::units().first().map_or(0.0, |unit| unit.offset * unit.factor);
        let at = |si: f64| instrument.accuracy_standard(Q::from_base(zero + si), None);
        let step = instrument.step().base();
        Ok(RowDoubt { step: step * step / 12.0, fixed: at(0.0), by_value: at(1.0) - at(0.0), zero })
    }

    /// The variance of a reading, SI units squared.
    #[inline]
    pub(crate) fn variance(&self, reading: f64) -> f64 {
        let accuracy = self.fixed + self.by_value * (reading - self.zero).abs();
        self.step + accuracy * accuracy
    }
}

/// The probabilities that the truth lies further than so much room towards the lower and towards the upper limit, the
/// doubt being normal; where there is no doubt, 1 past the limit.
#[inline]
fn normal_tails(to_lower: f64, to_upper: f64, standard: f64) -> [f64; 2] {
    if standard == 0.0 {
        return [to_lower, to_upper].map(|room| if room < 0.0 { 1.0 } else { 0.0 });
    }
    normal_cdf_of_both([-to_lower / standard, -to_upper / standard])
}

/// The verdict with so much room to the lower and to the upper limit, and the probabilities of lying below and above.
#[inline]
pub(crate) fn row_verdict(to_lower: f64, to_upper: f64, standard: f64, level: f64) -> (RowVerdict, f64, f64) {
    let [below, above] = normal_tails(to_lower, to_upper, standard);
    let within = (1.0 - below - above).clamp(0.0, 1.0);
    let verdict = if within >= level {
        RowVerdict::Within
    } else if below >= level {
        RowVerdict::Below
    } else if above >= level {
        RowVerdict::Above
    } else {
        RowVerdict::Unresolved
    };
    (verdict, below, above)
}

/// The verdict of [`row_verdict`] alone: the tails themselves are worked out only where both limits are near.
#[inline]
pub(crate) fn row_verdict_alone(to_lower: f64, to_upper: f64, standard: f64, level: Level) -> RowVerdict {
    let near = to_lower.min(to_upper);
    let firm = level.one_sided() * standard;
    if near < 0.0 && near <= -firm {
        return if to_lower < to_upper { RowVerdict::Below } else { RowVerdict::Above };
    }
    if near < firm {
        return RowVerdict::Unresolved;
    }
    // Nine standard uncertainties away the other limit has no weight in a double.
    if to_lower.max(to_upper) >= 9.0 * standard {
        return RowVerdict::Within;
    }
    row_verdict(to_lower, to_upper, standard, level.p()).0
}

/// Whether a value with so much room to its lower limit is at or above it at the level.
#[inline]
pub(crate) fn is_at_least(room: f64, standard: f64, level: Level) -> bool {
    room >= level.one_sided() * standard
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(512))]

        #[test]
        fn the_short_way_gives_the_same_verdict(x in -20.0..20.0f64, width in 0.0..10.0f64, u in 0.0..6.0f64) {
            for u in [u, 0.0] {
                for (lower, upper) in [(x, width - x), (x, f64::INFINITY), (f64::INFINITY, x)] {
                    let (whole, ..) = row_verdict(lower, upper, u, Level::default().p());
                    prop_assert_eq!(row_verdict_alone(lower, upper, u, Level::default()), whole);
                }
            }
        }
    }
}
