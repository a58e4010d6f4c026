//! A value that knows how good it is.

use std::fmt;

use serde::ser::{Error as _, Serialize, SerializeStruct, Serializer};

use super::judgement::expanded;
use super::prose::value_and_doubt;
use super::source::{Cause, Contribution, fresh, shown};
use super::{Doubt, Interval, Known, Label, Level};
use crate::quantity::{Kind, Quantity, Ratio};
use crate::{Error, Result};

/// A value with the contributions to its doubt, by source.
///
/// # Source
/// JCGM 100:2008 (GUM), clauses 4 to 6 and annex G: linear propagation.
/// # Accuracy
/// Exact to rounding where the result is linear in what was read; else first order, as good as the result is straight
/// over the width of the doubt.
/// # Example
/// ```
/// use kingvalve::measure::{Level, Measured};
/// use kingvalve::quantity::*;
/// let supply = Measured::from_standard(fahrenheit(55.0), delta_fahrenheit(0.6), "supply thermometer")?;
/// let back = Measured::from_standard(fahrenheit(75.0), delta_fahrenheit(0.8), "return thermometer")?;
/// let split = back - supply;
/// assert_eq!(format!("{:.1}", split.value()), "20.0 Δ°F");
/// assert_eq!(format!("{:.2}", split.standard_uncertainty()), "1.00 Δ°F");
/// assert_eq!(format!("{:.2}", split.expanded(Level::default())), "1.96 Δ°F");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Clone)]
pub struct Measured<Q: Quantity> {
    value: Q,
    doubt: Doubt,
}

/// What one source contributes to a result.
#[derive(Debug, Clone, PartialEq)]
pub struct Share {
    /// What the source is: `ammeter: 0.1 A step`.
    pub label: String,
    /// Its part of the variance; the shares of a result sum to one.
    pub share: Ratio,
}

impl<Q: Quantity> Measured<Q> {
    #[inline]
    pub(crate) fn new(value: Q, doubt: Doubt) -> Self {
        Measured { value, doubt }
    }

    /// A value without doubt.
    #[inline]
    pub fn exact(value: Q) -> Self {
        Measured::new(value, Doubt::none())
    }

    /// A value with a standard uncertainty that was given as such.
    ///
    /// # Source
    /// JCGM 100:2008, 4.3.3.
    /// # Errors
    /// Where the uncertainty is negative, or either is not finite.
    pub fn from_standard(value: Q, standard: Q::Difference, label: impl Into<Label>) -> Result<Self> {
        Measured::from_sample(value, standard, f64::INFINITY, label)
    }

    /// A value with a standard uncertainty that has so many degrees of freedom.
    ///
    /// # Source
    /// JCGM 100:2008, 4.2 and G.4.
    /// # Errors
    /// Where the uncertainty is negative, the degrees of freedom are not positive, or a number is not finite
    /// (the degrees of freedom may be infinite).
    pub fn from_sample(
        value: Q,
        standard: Q::Difference,
        degrees_of_freedom: f64,
        label: impl Into<Label>,
    ) -> Result<Self> {
        let own = standard.base();
        if !(value.base().is_finite() && own.is_finite() && own >= 0.0 && degrees_of_freedom > 0.0) {
            return Err(Error::out_of_range(
                format!("{} with standard uncertainty", Q::NAME),
                format!("{value}, {standard}, {degrees_of_freedom} degrees of freedom"),
                "the value must be finite, its standard uncertainty finite and not negative, \
                 and its degrees of freedom positive",
                "check what the doubt was computed from",
            ));
        }
        Ok(Measured::stated(value, own, Cause::Stated { degrees_of_freedom }, label.into()))
    }

    fn stated(value: Q, own: f64, cause: Cause, what: Label) -> Self {
        let id = fresh(1);
        let mut doubt = Doubt::none();
        doubt.add(id, own, || Contribution {
            source: id,
            reading: id,
            amount: own,
            own,
            cause,
            what,
            show: shown::<Q>,
        });
        Measured::new(value, doubt)
    }

    /// A value known to lie within `half_width` to either side, anywhere there as likely.
    ///
    /// # Source
    /// JCGM 100:2008, equation 7: u = a/√3.
    /// # Errors
    /// As [`from_standard`](Measured::from_standard).
    pub fn from_limits(value: Q, half_width: Q::Difference, label: impl Into<Label>) -> Result<Self> {
        let own = half_width.base() / 3f64.sqrt();
        if !(value.base().is_finite() && own.is_finite() && own >= 0.0) {
            return Err(Error::out_of_range(
                format!("{} with limits", Q::NAME),
                format!("{value} ± {half_width}"),
                "the value must be finite, and the half-width finite and not negative",
                "check where the limits come from",
            ));
        }
        Ok(Measured::stated(value, own, Cause::Limits, label.into()))
    }

    /// The best value.
    pub fn value(&self) -> Q {
        self.value
    }

    /// The combined standard uncertainty (JCGM 100:2008, equation 13).
    pub fn standard_uncertainty(&self) -> Q::Difference {
        Q::Difference::from_base(self.doubt.standard())
    }

    /// The effective degrees of freedom by Welch and Satterthwaite (JCGM 100:2008, equation G.2b); infinity where no
    /// source has a finite number. Observations of one set ([`Together`](super::Together)) count as one group.
    pub fn degrees_of_freedom(&self) -> f64 {
        self.doubt.degrees_of_freedom()
    }

    /// The expanded uncertainty: half the width of the central interval that holds the truth at that level.
    ///
    /// # Source
    /// JCGM 100:2008, equation G.1d: U = t(ν)·u.
    /// # Accuracy
    /// The t factor to 1e-12; the form takes the result's doubt for bell-shaped.
    pub fn expanded(&self, level: Level) -> Q::Difference {
        Q::Difference::from_base(expanded(self.doubt.standard(), self.degrees_of_freedom(), level))
    }

    /// The central interval that holds the truth at that level.
    ///
    /// # Errors
    /// Where the value or its doubt is not finite.
    pub fn interval(&self, level: Level) -> Result<Interval<Q>> {
        let half = self.expanded(level).base();
        let value = self.value.base();
        Interval::new(Q::from_base(value - half), Q::from_base(value + half))
    }

    /// What each source contributes, largest first; those that cancelled or are zero are left out.
    pub fn contributions(&self) -> Vec<Share> {
        self.doubt.shares()
    }

    /// A result computed from this one, with the exact derivative of the result by this, in SI base units.
    #[must_use]
    pub fn map<R: Quantity>(mut self, result: R, derivative: f64) -> Measured<R> {
        self.doubt.scale(derivative);
        Measured::new(result, self.doubt)
    }

    /// The same value, depending on one more input, with the exact derivative by it in SI base units.
    ///
    /// A result of several readings is `Measured::exact(f(x, y)).depending_on(&x, ∂f/∂x).depending_on(&y, ∂f/∂y)`.
    #[must_use]
    pub fn depending_on<A: Quantity>(mut self, input: impl Known<A>, derivative: f64) -> Self {
        self.depends_on(&input, derivative);
        self
    }

    /// [`depending_on`](Self::depending_on), in place.
    #[inline]
    pub(crate) fn depends_on<A: Quantity>(&mut self, input: &impl Known<A>, derivative: f64) {
        input.add_to(&mut self.doubt, derivative);
    }

    /// Its doubt, by source.
    pub fn doubt(&self) -> &Doubt {
        &self.doubt
    }

    /// The covariance with another result, as a correlation coefficient from −1 to 1; 0 where either has no doubt.
    ///
    /// # Source
    /// JCGM 100:2008, equation F.1, over the sources they share.
    pub fn correlation<R: Quantity>(&self, other: &Measured<R>) -> f64 {
        let shared: f64 = self
            .doubt
            .all()
            .iter()
            .flat_map(|a| {
                other.doubt.all().iter().filter(|b| b.source == a.source).map(move |b| a.amount * b.amount)
            })
            .sum();
        let scale = self.doubt.standard() * other.doubt.standard();
        if scale > 0.0 { (shared / scale).clamp(-1.0, 1.0) } else { 0.0 }
    }
}

impl<Q: Quantity> fmt::Display for Measured<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let half = self.expanded(Level::default()).base();
        f.pad(&value_and_doubt(Kind::of::<Q>(), self.value.base(), half))
    }
}

impl<Q: Quantity> fmt::Debug for Measured<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Measured")
            .field("value", &self.value)
            .field("standard_uncertainty", &self.standard_uncertainty())
            .field("contributions", &self.contributions())
            .finish()
    }
}

impl Serialize for Share {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut object = serializer.serialize_struct("share", 2)?;
        object.serialize_field("label", &self.label)?;
        object.serialize_field("share", &self.share)?;
        object.end()
    }
}

impl<Q: Quantity + Serialize> Serialize for Measured<Q>
where
    Q::Difference: Serialize,
{
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let degrees = self.degrees_of_freedom();
        if degrees.is_nan() {
            return Err(S::Error::custom(format!("the doubt of {} is not a number", self.value)));
        }
        let mut object = serializer.serialize_struct("measured", 4)?;
        object.serialize_field("value", &self.value)?;
        object.serialize_field("standard_uncertainty", &self.standard_uncertainty())?;
        if degrees.is_finite() {
            object.serialize_field("degrees_of_freedom", &degrees)?;
        } else {
            object.skip_field("degrees_of_freedom")?;
        }
        object.serialize_field("contributions", &self.contributions())?;
        object.end()
    }
}
