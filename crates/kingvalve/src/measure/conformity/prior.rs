//! What is known of a part before it is measured.

use super::quadrature::{around, integral};
use crate::measure::{Interval, Label, Limits};
use crate::quantity::Quantity;
use crate::{Error, Result};

/// How parts of a kind are spread, known before one of them is measured.
///
/// # Source
/// JCGM 106:2012, clause 6.2 and 6.3.
/// # Example
/// ```
/// use kingvalve::measure::{Level, Limits, Measured, Prior};
/// use kingvalve::quantity::*;
/// // New parts of this make lie within ±2 % of 45 µF, nearly all of them.
/// let new = Prior::normal(microfarads(45.0), microfarads(0.45))?.from_source("receiving inspection");
/// let read = Measured::from_standard(microfarads(43.0), microfarads(1.5), "meter")?;
/// let limits = Limits::at_least(microfarads(42.3))?;
/// assert!(limits.judge(&read, Level::default())?.is_unresolved());
/// let verdict = limits.judge_knowing(&new, &read, Level::default())?;
/// assert!(verdict.is_within());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Prior<Q: Quantity> {
    shape: Shape,
    source: Label,
    of: std::marker::PhantomData<fn() -> Q>,
}

/// In SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Shape {
    Normal { mean: f64, standard: f64 },
    Rectangular { low: f64, high: f64 },
    Gamma { shape: f64, rate: f64 },
}

impl<Q: Quantity> Prior<Q> {
    /// Bell-shaped.
    ///
    /// # Errors
    /// Unless the standard deviation is positive and both are finite.
    pub fn normal(mean: Q, standard: Q::Difference) -> Result<Self> {
        let (mean, standard) = (mean.base(), standard.base());
        Self::new(
            Shape::Normal { mean, standard },
            mean.is_finite() && standard > 0.0 && standard.is_finite(),
        )
    }

    /// Anywhere in an interval as likely, nowhere else.
    ///
    /// # Errors
    /// Where the interval has no width.
    pub fn rectangular(within: Interval<Q>) -> Result<Self> {
        let (low, high) = (within.low().base(), within.high().base());
        Self::new(Shape::Rectangular { low, high }, low < high)
    }

    /// A quantity that cannot be negative, skewed to the right: the gamma distribution of that mean and deviation.
    ///
    /// # Source
    /// JCGM 106:2012, 9.5.4 (used there for the runout of bearings).
    /// # Errors
    /// Unless both are positive and the standard deviation is at most the mean.
    pub fn gamma(mean: Q, standard: Q::Difference) -> Result<Self> {
        let (mean, standard) = (mean.base(), standard.base());
        let rate = mean / (standard * standard);
        let possible = standard > 0.0 && standard <= mean && mean.is_finite();
        Self::new(Shape::Gamma { shape: mean * rate, rate }, possible)
    }

    fn new(shape: Shape, possible: bool) -> Result<Self> {
        if !possible {
            return Err(Error::out_of_range(
                format!("distribution of {} known beforehand", Q::NAME),
                format!("{shape:?} in SI units"),
                "it has a finite mean and a finite width above zero",
                "check where it comes from, or judge without it",
            ));
        }
        Ok(Prior { shape, source: Label::EMPTY, of: std::marker::PhantomData })
    }

    /// Says where it comes from: "receiving inspection of 200 parts".
    #[must_use]
    pub fn from_source(mut self, source: impl Into<Label>) -> Self {
        self.source = source.into();
        self
    }

    /// Where it comes from.
    pub fn source(&self) -> &str {
        self.source.as_str()
    }

    /// Its density, not scaled to an integral of one.
    pub(super) fn density(&self, x: f64) -> f64 {
        match self.shape {
            Shape::Normal { mean, standard } => (-0.5 * ((x - mean) / standard).powi(2)).exp(),
            Shape::Rectangular { low, high } => f64::from(x >= low && x <= high),
            // Scaled by its value at the mean, so that it neither overflows nor vanishes.
            Shape::Gamma { shape, rate } if x > 0.0 => {
                let over_mean = x * rate / shape;
                ((shape - 1.0) * over_mean.ln() - shape * (over_mean - 1.0)).exp()
            }
            Shape::Gamma { .. } => 0.0,
        }
    }

    /// Beyond this range its density counts for less than 1e-15 of the whole.
    pub(super) fn range(&self) -> (f64, f64) {
        match self.shape {
            Shape::Normal { mean, standard } => (mean - 8.5 * standard, mean + 8.5 * standard),
            Shape::Rectangular { low, high } => (low, high),
            // A gamma distribution falls off as exp(−rate·x): forty decay lengths beyond nine deviations.
            Shape::Gamma { shape, rate } => (0.0, (shape + 9.0 * shape.sqrt() + 40.0) / rate),
        }
    }

    /// Where its density is cut for integration.
    fn knots(&self) -> Vec<f64> {
        match self.shape {
            Shape::Normal { mean, standard } => around(mean, standard).collect(),
            Shape::Rectangular { low, high } => vec![low, high],
            Shape::Gamma { shape, rate } => {
                let (mean, standard) = (shape / rate, shape.sqrt() / rate);
                let near_zero = (1..=8).map(|k| mean * 2f64.powi(-k));
                around(mean, standard)
                    .chain(near_zero)
                    .chain((9..40).map(|k| mean + f64::from(k) * standard))
                    .collect()
            }
        }
    }

    /// The integral of density × `weight` below, within and above limits. `edges` are the places and widths over which
    /// the weight changes.
    pub(super) fn split(
        &self,
        limits: &Limits<Q>,
        edges: &[(f64, f64)],
        weight: impl Fn(f64) -> f64,
    ) -> [f64; 3] {
        let mut knots = self.knots();
        knots.extend(edges.iter().flat_map(|(centre, width)| around(*centre, *width)));
        knots.sort_by(f64::total_cmp);
        let (low, high) = self.range();
        let bounds = limits.bounds();
        let (lower, upper) = (bounds.lower.clamp(low, high), bounds.upper.clamp(low, high));
        let f = |x: f64| self.density(x) * weight(x);
        [(low, lower), (lower, upper), (upper, high)].map(|(from, to)| integral(f, from, to, &knots))
    }
}
