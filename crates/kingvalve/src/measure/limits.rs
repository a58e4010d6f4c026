//! What a value should lie within, and who says so.

use std::fmt;
use std::marker::PhantomData;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::judgement::Weighed;
use super::prose::plain;
use super::{Doubt, Known, Label, Level, Verdict};
use crate::quantity::{Kind, Quantity};
use crate::{Error, Result};

/// A lower limit, an upper limit, or both, with where they come from. The limits themselves are within.
///
/// In JSON `{"lower": "42.3 µF", "upper": "47.7 µF", "source": "rated 45 µF ±6 %"}`, either limit left out where
/// there is none.
///
/// # Example
/// ```
/// use kingvalve::measure::{Instrument, Level, Limits, Reading, Verdict};
/// use kingvalve::quantity::*;
/// let limits = Limits::between(delta_fahrenheit(8.0), delta_fahrenheit(12.0))?.from_source("data plate");
/// let thermometer = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
/// let read = Reading::new(delta_fahrenheit(10.2), thermometer)?;
/// assert!(matches!(limits.judge(&read, Level::default())?, Verdict::Within(_)));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(
    try_from = "Form<Q>",
    into = "Form<Q>",
    bound(serialize = "Q: Serialize", deserialize = "Q: Deserialize<'de>")
)]
pub struct Limits<Q: Quantity> {
    bounds: Bounds,
    source: Label,
    of: PhantomData<fn() -> Q>,
}

/// The limits whatever the quantity, in SI base units; infinite where there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bounds {
    pub lower: f64,
    pub upper: f64,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(
    rename = "limits",
    deny_unknown_fields,
    bound(serialize = "Q: Serialize", deserialize = "Q: Deserialize<'de>")
)]
struct Form<Q: Quantity> {
    #[serde(default = "Option::<Q>::default", skip_serializing_if = "Option::<Q>::is_none")]
    lower: Option<Q>,
    #[serde(default = "Option::<Q>::default", skip_serializing_if = "Option::<Q>::is_none")]
    upper: Option<Q>,
    #[serde(default, skip_serializing_if = "Label::is_empty")]
    source: Label,
}

impl<Q: Quantity> Limits<Q> {
    /// From `lower` to `upper`.
    ///
    /// # Errors
    /// Unless the lower limit lies below the upper, and both are finite.
    pub fn between(lower: Q, upper: Q) -> Result<Self> {
        Limits::new(Some(lower), Some(upper), Label::EMPTY)
    }

    /// From `lower` up.
    ///
    /// # Errors
    /// Unless it is finite.
    pub fn at_least(lower: Q) -> Result<Self> {
        Limits::new(Some(lower), None, Label::EMPTY)
    }

    /// Up to `upper`.
    ///
    /// # Errors
    /// Unless it is finite.
    pub fn at_most(upper: Q) -> Result<Self> {
        Limits::new(None, Some(upper), Label::EMPTY)
    }

    fn new(lower: Option<Q>, upper: Option<Q>, source: Label) -> Result<Self> {
        let [lower, upper] = [lower, upper].map(|limit| limit.map(Q::base));
        in_order(Kind::of::<Q>(), lower, upper)?;
        let bounds =
            Bounds { lower: lower.unwrap_or(f64::NEG_INFINITY), upper: upper.unwrap_or(f64::INFINITY) };
        Ok(Limits { bounds, source, of: PhantomData })
    }

    /// From `lower` to `upper`, of which the caller knows that they are finite and in order.
    #[inline]
    pub(crate) fn ordered(lower: Q, upper: Q, source: &'static str) -> Self {
        let bounds = Bounds { lower: lower.base(), upper: upper.base() };
        Limits { bounds, source: source.into(), of: PhantomData }
    }

    /// Says where the limits come from: "data plate", "shop policy".
    #[must_use]
    pub fn from_source(mut self, source: impl Into<Label>) -> Self {
        self.source = source.into();
        self
    }

    /// The lower limit, if any.
    pub fn lower(&self) -> Option<Q> {
        self.bounds.lower().map(Q::from_base)
    }

    /// The upper limit, if any.
    pub fn upper(&self) -> Option<Q> {
        self.bounds.upper().map(Q::from_base)
    }

    #[inline]
    pub(super) fn bounds(&self) -> Bounds {
        self.bounds
    }

    /// Where the limits come from.
    pub fn source(&self) -> &str {
        self.source.as_str()
    }

    /// Judges whether a value lies within, with its doubt.
    ///
    /// # Units
    /// Those of the limits.
    /// # Source
    /// JCGM 106:2012, clauses 7 and 8 (probability of conformity, decision rule with a stated level); see [`Verdict`].
    /// # Valid range
    /// Finite values and doubts.
    /// # Accuracy
    /// Probabilities to 1e-12 where the doubt is bell-shaped, as it is when several sources of like size make it up.
    /// Where a display's step is all of it the shape is a box, and at 95 % and above a firm verdict is late, if
    /// anything.
    ///
    /// The level is that of the reading alone, nothing being known of the part beforehand. How many of one's firm
    /// verdicts are wrong depends on the parts, too: where most are good, most of what a coarse meter reads as bad is its
    /// own error. On the population of `make calibration` (run capacitors, 0.97 ± 0.05 of their rating, ±6 %) `Outside`
    /// at 95 % is wrong in 3.0 % over four meters, but in 13.8 % with a 0.1 A clamp of 2 % + 5 counts alone; asked for
    /// 96.5 %, in at most 5 % with each meter, at the price of 2.5 points more `Unresolved`; asked for the meter's whole
    /// limits, never, at 9.6 points more. No rule that knows nothing of the parts can promise a rate for all of them:
    /// where their spread is known, [`judge_knowing`](Limits::judge_knowing) keeps each meter's rate below 1.4 % there,
    /// and leaves no more open than Bayes' rule does, within 0.3 points.
    /// # Errors
    /// Where the value or its doubt is not finite.
    pub fn judge(&self, value: impl Known<Q>, level: Level) -> Result<Verdict<Q>> {
        let mut doubt = Doubt::none();
        value.add_to(&mut doubt, 1.0);
        Weighed::of(value.value(), &doubt, level).map(|weighed| weighed.against(self.clone()))
    }
}

impl Bounds {
    pub fn lower(self) -> Option<f64> {
        self.lower.is_finite().then_some(self.lower)
    }

    pub fn upper(self) -> Option<f64> {
        self.upper.is_finite().then_some(self.upper)
    }

    /// From one to the other.
    pub fn width(self) -> f64 {
        self.upper - self.lower
    }

    /// How far the value lies from either: positive where the limit leaves room.
    #[inline]
    pub fn room(self, value: f64) -> (f64, f64) {
        (value - self.lower, self.upper - value)
    }
}

/// As a sentence has it: "4.5 µF to 5.5 µF (shop policy)".
impl<Q: Quantity> fmt::Display for Limits<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&written(Kind::of::<Q>(), self.bounds, self.source.as_str()))
    }
}

/// As a sentence has it.
pub(super) fn written(kind: &Kind, bounds: Bounds, source: &str) -> String {
    let limit = |si: f64| plain(kind, si);
    let mut text = match (bounds.lower(), bounds.upper()) {
        (Some(lower), Some(upper)) => format!("{} to {}", limit(lower), limit(upper)),
        (Some(lower), None) => format!("at least {}", limit(lower)),
        (None, Some(upper)) => format!("at most {}", limit(upper)),
        (None, None) => "no limit".into(),
    };
    if !source.is_empty() {
        text += &format!(" ({source})");
    }
    text
}

/// Refuses limits of which there are none, or that are not finite or not in order.
fn in_order(kind: &Kind, lower: Option<f64>, upper: Option<f64>) -> Result<()> {
    let name = || format!("limits of {}", kind.name);
    if [lower, upper].into_iter().flatten().any(|limit| !limit.is_finite()) {
        let why = "a limit must be a finite number";
        return Err(Error::inconsistent(name(), why, "leave out the limit that does not apply"));
    }
    match (lower, upper) {
        (None, None) => Err(Error::inconsistent(name(), "neither limit is given", "give one or both")),
        (Some(low), Some(high)) if low >= high => Err(Error::inconsistent(
            name(),
            format!("the lower limit {} is not below the upper limit {}", kind.shown(low), kind.shown(high)),
            "give the lower limit first",
        )),
        _ => Ok(()),
    }
}

impl<Q: Quantity> TryFrom<Form<Q>> for Limits<Q> {
    type Error = Error;
    fn try_from(form: Form<Q>) -> Result<Self> {
        Limits::new(form.lower, form.upper, form.source)
    }
}

impl<Q: Quantity> From<Limits<Q>> for Form<Q> {
    fn from(limits: Limits<Q>) -> Self {
        Form { lower: limits.lower(), upper: limits.upper(), source: limits.source }
    }
}
