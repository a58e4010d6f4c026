//! The distribution of a result, as drawn.

use std::fmt;

use crate::measure::{Interval, Label, Level, Limits, Measured, prose};
use crate::quantity::{Kind, Quantity, Ratio};
use crate::{Error, Result};

/// A result as a [`Simulation`](super::Simulation) found it: every draw, in order of size.
#[derive(Clone, PartialEq)]
pub struct Simulated<Q: Quantity> {
    sorted: Vec<f64>,
    mean: f64,
    standard: f64,
    of: std::marker::PhantomData<fn() -> Q>,
}

/// How far the linear form's interval is from the simulated one.
///
/// # Source
/// JCGM 101:2008, clause 8.1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreement<D: Quantity> {
    /// Distance of the low ends.
    pub low: D,
    /// Distance of the high ends.
    pub high: D,
    /// Half a unit in the last of the digits of the standard uncertainty that were called significant.
    pub tolerance: D,
}

impl<D: Quantity> Agreement<D> {
    /// Whether both ends agree: the linear form serves for this result.
    pub fn holds(&self) -> bool {
        self.low.base() <= self.tolerance.base() && self.high.base() <= self.tolerance.base()
    }
}

impl<Q: Quantity> Simulated<Q> {
    /// Of at least two finite results.
    pub(super) fn of(mut results: Vec<f64>) -> Self {
        let n = results.len() as f64;
        let first = results.first().copied().unwrap_or(f64::NAN);
        let mean = first + results.iter().map(|x| x - first).sum::<f64>() / n;
        let squares: f64 = results.iter().map(|x| (x - mean) * (x - mean)).sum();
        results.sort_unstable_by(f64::total_cmp);
        Simulated {
            sorted: results,
            mean,
            standard: (squares / (n - 1.0)).sqrt(),
            of: std::marker::PhantomData,
        }
    }

    /// The mean: the estimate (JCGM 101:2008, equation 16).
    pub fn mean(&self) -> Q {
        Q::from_base(self.mean)
    }

    /// The standard deviation: the standard uncertainty (JCGM 101:2008, equation 17).
    pub fn standard_uncertainty(&self) -> Q::Difference {
        Q::Difference::from_base(self.standard)
    }

    /// How many draws it rests on.
    pub fn draws(&self) -> usize {
        self.sorted.len()
    }

    /// The interval that leaves as many draws below as above.
    ///
    /// # Source
    /// JCGM 101:2008, 7.7.2.
    /// # Errors
    /// None for results of a simulation.
    pub fn symmetric(&self, level: Level) -> Result<Interval<Q>> {
        let inside = self.inside(level);
        self.interval((self.sorted.len() - inside) / 2, inside)
    }

    /// The shortest interval of that level.
    ///
    /// # Source
    /// JCGM 101:2008, 7.7.4.
    /// # Errors
    /// None for results of a simulation.
    pub fn shortest(&self, level: Level) -> Result<Interval<Q>> {
        let inside = self.inside(level);
        let ends = self.sorted.iter().zip(self.sorted.iter().skip(inside)).enumerate();
        let shortest = ends.min_by(|(_, (a, b)), (_, (c, d))| (*b - *a).total_cmp(&(*d - *c)));
        self.interval(shortest.map_or(0, |(at, _)| at), inside)
    }

    /// The probability that the result lies within limits, by counting draws.
    ///
    /// # Source
    /// JCGM 106:2012, 7.1, over the distribution of JCGM 101.
    pub fn probability_within(&self, limits: &Limits<Q>) -> Ratio {
        let bounds = limits.bounds();
        let below = self.sorted.partition_point(|x| *x < bounds.lower);
        let up_to = self.sorted.partition_point(|x| *x <= bounds.upper);
        Ratio::from_si((up_to - below) as f64 / self.sorted.len() as f64)
    }

    /// The mean and standard uncertainty alone, to go on computing with in the linear form.
    ///
    /// # Errors
    /// None for results of a simulation.
    pub fn measured(&self, label: impl Into<Label>) -> Result<Measured<Q>> {
        Measured::from_standard(self.mean(), self.standard_uncertainty(), label)
    }

    /// How the linear form compares with this, to so many significant digits of the standard uncertainty (one or two
    /// are usual).
    ///
    /// # Source
    /// JCGM 101:2008, clauses 7.9.2 and 8.1, with the symmetric interval.
    /// # Errors
    /// A doubt of the linear form that is not finite, or no digit.
    pub fn agreement(
        &self,
        linear: &Measured<Q>,
        level: Level,
        digits: u8,
    ) -> Result<Agreement<Q::Difference>> {
        let standard = linear.standard_uncertainty().base();
        if !(standard > 0.0 && digits > 0) {
            return Err(Error::out_of_range(
                "significant digits and standard uncertainty",
                format!("{digits}, {}", linear.standard_uncertainty()),
                "one digit or more, of a doubt above zero",
                "compare results that have doubt",
            ));
        }
        let (here, there) = (self.symmetric(level)?, linear.interval(level)?);
        let unit = 10f64.powi(standard.log10().floor() as i32 + 1 - i32::from(digits));
        let apart = |a: Q, b: Q| Q::Difference::from_base((a.base() - b.base()).abs());
        Ok(Agreement {
            low: apart(here.low(), there.low()),
            high: apart(here.high(), there.high()),
            tolerance: Q::Difference::from_base(0.5 * unit),
        })
    }

    /// So many steps from one draw to another span the level (JCGM 101:2008, 7.7.1).
    fn inside(&self, level: Level) -> usize {
        let count = self.sorted.len();
        ((count as f64 * level.probability().fraction()).round() as usize).min(count.saturating_sub(1))
    }

    fn interval(&self, from: usize, inside: usize) -> Result<Interval<Q>> {
        let end = |at: usize| Q::from_base(self.sorted.get(at).copied().unwrap_or(f64::NAN));
        Interval::new(end(from), end(from + inside))
    }
}

/// The mean and its 95 % half-width as if bell-shaped; the intervals say more.
impl<Q: Quantity> fmt::Display for Simulated<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let half = 1.96 * self.standard;
        f.pad(&prose::value_and_doubt(Kind::of::<Q>(), self.mean().base(), half))
    }
}

impl<Q: Quantity> fmt::Debug for Simulated<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Simulated")
            .field("mean", &self.mean())
            .field("standard_uncertainty", &self.standard_uncertainty())
            .field("draws", &self.draws())
            .finish()
    }
}
