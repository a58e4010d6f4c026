//! A range of a quantity, low to high.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Kind, Quantity};
use crate::{Error, Result};

/// A closed range of a quantity: `low` is never above `high`, and both are finite.
///
/// # Example
/// ```
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// let factory = Interval::new(pounds(6.0), pounds(6.5))?;
/// let lines = Interval::new(pounds(0.5), pounds(0.75))?;
/// assert_eq!(format!("{:.2}", factory.plus(lines)?), "6.50 lb to 7.25 lb");
/// assert!(factory.contains(pounds(6.2)));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(
    try_from = "Ends<Q>",
    into = "Ends<Q>",
    bound(serialize = "Q: Serialize", deserialize = "Q: Deserialize<'de>")
)]
pub struct Interval<Q: Quantity> {
    low: Q,
    high: Q,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(rename = "interval", deny_unknown_fields)]
struct Ends<Q> {
    low: Q,
    high: Q,
}

/// Refuses ends that are not finite, or the wrong way round.
fn in_order(kind: &Kind, low: f64, high: f64) -> Result<()> {
    let what = || format!("interval of {}", kind.name);
    if !(low.is_finite() && high.is_finite()) {
        return Err(Error::out_of_range(
            what(),
            format!("{} to {}", kind.shown(low), kind.shown(high)),
            "both ends must be finite",
            "check what they were computed from",
        ));
    }
    if low > high {
        return Err(Error::inconsistent(
            what(),
            format!("the low end {} lies above the high end {}", kind.shown(low), kind.shown(high)),
            "give the lower value first",
        ));
    }
    Ok(())
}

impl<Q: Quantity> Interval<Q> {
    /// From `low` to `high`.
    ///
    /// # Errors
    /// Where `low` lies above `high`, or either is not finite.
    pub fn new(low: Q, high: Q) -> Result<Self> {
        in_order(Kind::of::<Q>(), low.base(), high.base())?;
        Ok(Interval { low, high })
    }

    /// The one value `q`, known exactly.
    ///
    /// # Errors
    /// Where it is not finite.
    pub fn exactly(q: Q) -> Result<Self> {
        Interval::new(q, q)
    }

    /// The interval between two values, whichever is lower.
    ///
    /// # Errors
    /// Where either is not finite.
    pub fn between(a: Q, b: Q) -> Result<Self> {
        if a.base() <= b.base() { Interval::new(a, b) } else { Interval::new(b, a) }
    }

    /// The interval between two values that are finite by construction: constants of the crate, ends of intervals.
    pub(crate) fn spanning(a: Q, b: Q) -> Self {
        if a.base() <= b.base() { Interval { low: a, high: b } } else { Interval { low: b, high: a } }
    }

    /// The lower end.
    pub fn low(&self) -> Q {
        self.low
    }

    /// The upper end.
    pub fn high(&self) -> Q {
        self.high
    }

    /// The value halfway.
    pub fn middle(&self) -> Q {
        Q::from_base(self.low.base() + 0.5 * (self.high.base() - self.low.base()))
    }

    /// From end to end.
    pub fn width(&self) -> Q::Difference {
        Q::Difference::from_base(self.high.base() - self.low.base())
    }

    /// Whether `q` lies in it, ends included.
    pub fn contains(&self, q: Q) -> bool {
        self.low.base() <= q.base() && q.base() <= self.high.base()
    }

    /// Whether all of `other` lies in it.
    pub fn covers(&self, other: &Self) -> bool {
        self.contains(other.low) && self.contains(other.high)
    }

    /// What both have in common, if anything.
    pub fn intersection(&self, other: &Self) -> Option<Self> {
        let low = if self.low.base() >= other.low.base() { self.low } else { other.low };
        let high = if self.high.base() <= other.high.base() { self.high } else { other.high };
        (low.base() <= high.base()).then_some(Interval { low, high })
    }

    /// The shortest interval that covers both.
    #[must_use]
    pub fn hull(&self, other: &Self) -> Self {
        let low = if self.low.base() <= other.low.base() { self.low } else { other.low };
        let high = if self.high.base() >= other.high.base() { self.high } else { other.high };
        Interval { low, high }
    }

    /// Every sum of a value here and a step there.
    ///
    /// # Errors
    /// Where a sum is not finite.
    pub fn plus(&self, steps: Interval<Q::Difference>) -> Result<Self> {
        let [low, high] = [self.low.base() + steps.low.base(), self.high.base() + steps.high.base()];
        Interval::new(Q::from_base(low), Q::from_base(high))
    }

    /// Every difference of a value here and a value there.
    ///
    /// # Errors
    /// Where a difference is not finite.
    pub fn minus(&self, other: Self) -> Result<Interval<Q::Difference>> {
        let [low, high] = [self.low.base() - other.high.base(), self.high.base() - other.low.base()];
        Interval::new(Q::Difference::from_base(low), Q::Difference::from_base(high))
    }

    /// The part that is not above `ceiling` and not below `floor`, where there is any.
    pub fn clipped(&self, floor: Q, ceiling: Q) -> Option<Self> {
        self.intersection(&Interval { low: floor, high: ceiling })
    }
}

impl<Q: Quantity<Difference = Q>> Interval<Q> {
    /// Every value times `factor`.
    ///
    /// # Errors
    /// Where the factor is negative or not finite, or a product is not finite.
    pub fn times(&self, factor: f64) -> Result<Self> {
        if !(factor >= 0.0 && factor.is_finite()) {
            return Err(Error::out_of_range(
                "factor",
                factor,
                "an interval is scaled by a finite number, zero or more",
                "take the sign out of the factor",
            ));
        }
        Interval::new(Q::from_base(self.low.base() * factor), Q::from_base(self.high.base() * factor))
    }
}

impl<Q: Quantity> fmt::Display for Interval<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match f.precision() {
            Some(precision) => write!(f, "{:.precision$} to {:.precision$}", self.low, self.high),
            None => write!(f, "{} to {}", self.low, self.high),
        }
    }
}

impl<Q: Quantity> fmt::Debug for Interval<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Interval({self})")
    }
}

impl<Q: Quantity> TryFrom<Ends<Q>> for Interval<Q> {
    type Error = Error;
    fn try_from(ends: Ends<Q>) -> Result<Self> {
        Interval::new(ends.low, ends.high)
    }
}

impl<Q: Quantity> From<Interval<Q>> for Ends<Q> {
    fn from(interval: Interval<Q>) -> Self {
        Ends { low: interval.low, high: interval.high }
    }
}
