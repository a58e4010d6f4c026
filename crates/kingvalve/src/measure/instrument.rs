//! What an instrument shows and how far it may be off.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Label;
use super::source::{Identity, fresh};
use crate::quantity::{Kind, Quantity, Ratio, Temperature, percent};
use crate::{Error, Result};

/// An instrument that reads a `Q`: the step of its display and its specified accuracy.
///
/// A clone is the same instrument: readings of it share its accuracy error, fully correlated. Two instruments of one
/// specification are made by calling the constructor twice.
///
/// # Units
/// Step, span and accuracy in the difference of what it reads: a gauge in psi, a thermometer in Δ°F.
/// # Source
/// JCGM 100:2008, F.2.2.1 (a step a gives a/√12) and 4.3.7 (a specified limit a gives a/√3, replaceable by
/// [`Coverage`]). The parts of a specification, "2 % + 5 counts", add up as makers print them: common practice,
/// no source.
/// # Valid range
/// Readings within [`range`](Instrument::range) where one is given.
/// # Errors
/// A specification that cannot be (no step, a negative accuracy) is refused when a reading is made of it, when it is
/// read from JSON, or by [`check`](Instrument::check).
/// # Example
/// ```
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let clamp = Instrument::resolution(amperes(0.1)).accuracy_percent_of_reading(2.0).counts(5.0).named("clamp ammeter");
/// let fan = Reading::new(amperes(0.6), clamp)?;
/// assert_eq!(format!("{:.2}", fan.standard_uncertainty()), "0.30 A");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Instrument<Q: Quantity> {
    pub(super) id: Identity,
    pub(super) name: Label,
    pub(super) step: Q::Difference,
    pub(super) of_reading: f64,
    pub(super) counts: f64,
    pub(super) of_span: f64,
    pub(super) span: Q::Difference,
    pub(super) absolute: Q::Difference,
    pub(super) coverage: Coverage,
    pub(super) range: Option<(Q, Q)>,
    pub(super) drift: Option<Drift>,
}

/// What the accuracy printed in a specification means.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Coverage {
    /// Limits never exceeded, anywhere between as likely: u = a/√3 (JCGM 100:2008, 4.3.7). The default.
    #[default]
    Limits,
    /// An expanded uncertainty with this coverage factor: u = a/k (JCGM 100:2008, 4.3.3).
    Factor(f64),
}

/// The largest number a specification may hold, SI units: doubts are squared and multiplied by slopes.
const COARSEST: f64 = 1e30;

/// How accuracy worsens outside the temperatures it is specified for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Drift {
    /// Part of the specified accuracy added for each kelvin.
    pub per_kelvin: f64,
    pub low: Temperature,
    pub high: Temperature,
}

impl<Q: Quantity> Instrument<Q> {
    /// An instrument whose display steps by so much, and whose accuracy is not counted until it is given.
    pub fn resolution(step: Q::Difference) -> Self {
        let none = Q::Difference::from_base(0.0);
        Instrument {
            id: fresh(1),
            name: Label::EMPTY,
            step,
            of_reading: 0.0,
            counts: 0.0,
            of_span: 0.0,
            span: none,
            absolute: none,
            coverage: Coverage::Limits,
            range: None,
            drift: None,
        }
    }

    /// What it is called in messages: "clamp ammeter".
    #[must_use]
    pub fn named(mut self, name: impl Into<Label>) -> Self {
        self.name = name.into();
        self
    }

    /// Adds so many percent of what it reads, counted from the zero of the trade's scale (0 °F for temperatures).
    #[must_use]
    pub fn accuracy_percent_of_reading(mut self, share: f64) -> Self {
        self.of_reading = percent(share).fraction();
        self
    }

    /// Adds so many steps of the display.
    #[must_use]
    pub fn counts(mut self, counts: f64) -> Self {
        self.counts = counts;
        self
    }

    /// Adds so many percent of its span.
    #[must_use]
    pub fn accuracy_percent_of_span(mut self, share: f64, span: Q::Difference) -> Self {
        self.of_span = percent(share).fraction();
        self.span = span;
        self
    }

    /// Adds a fixed amount.
    #[must_use]
    pub fn accuracy(mut self, within: Q::Difference) -> Self {
        self.absolute = within;
        self
    }

    /// What the accuracy of the specification means; without this, [`Coverage::Limits`].
    #[must_use]
    pub fn accuracy_means(mut self, coverage: Coverage) -> Self {
        self.coverage = coverage;
        self
    }

    /// The lowest and highest it can read: a reading outside is an error.
    #[must_use]
    pub fn range(mut self, low: Q, high: Q) -> Self {
        self.range = Some((low, high));
        self
    }

    /// Adds `of_accuracy` of the specified accuracy for each kelvin the surroundings are below `low` or above `high`
    /// (as "0.1 × accuracy per °C below 18 °C or above 28 °C"). A reading that does not say its surroundings
    /// ([`Reading::at_ambient`](super::Reading::at_ambient)) is taken to be made between them.
    #[must_use]
    pub fn temperature_coefficient(
        mut self,
        of_accuracy: Ratio,
        low: Temperature,
        high: Temperature,
    ) -> Self {
        self.drift = Some(Drift { per_kelvin: of_accuracy.fraction(), low, high });
        self
    }

    /// Whether both are the same instrument, not merely of one specification.
    pub fn is_same_as(&self, other: &Self) -> bool {
        self.id == other.id
    }

    /// The step of its display.
    pub fn step(&self) -> Q::Difference {
        self.step
    }

    /// Whether its accuracy was given at all.
    pub fn states_accuracy(&self) -> bool {
        self.of_reading > 0.0 || self.counts > 0.0 || self.of_span > 0.0 || self.absolute.base() > 0.0
    }

    /// What it is called: its name, or the usual instrument for what it reads.
    pub(super) fn called(&self) -> Label {
        called(&self.name, Kind::of::<Q>())
    }

    /// The specified accuracy at a reading, as printed: the half-width before [`Coverage`] is applied.
    pub fn specified(&self, reading: Q) -> Q::Difference {
        let zero = Q::units().first().map_or(0.0, |unit| unit.offset * unit.factor);
        Q::Difference::from_base(
            self.of_reading * (reading.base() - zero).abs()
                + self.counts * self.step.base()
                + self.of_span * self.span.base()
                + self.absolute.base(),
        )
    }

    /// Standard uncertainty from the specified accuracy, SI units.
    pub(super) fn accuracy_standard(&self, reading: Q, ambient: Option<Temperature>) -> f64 {
        let worsened = match (self.drift, ambient) {
            (Some(drift), Some(ambient)) => {
                let below = (drift.low - ambient).delta_kelvins().max(0.0);
                let above = (ambient - drift.high).delta_kelvins().max(0.0);
                1.0 + drift.per_kelvin * below.max(above)
            }
            _ => 1.0,
        };
        let divisor = match self.coverage {
            Coverage::Limits => 3f64.sqrt(),
            Coverage::Factor(k) => k,
        };
        worsened * self.specified(reading).base() / divisor
    }

    /// Refuses a specification that cannot be.
    ///
    /// # Errors
    /// A step, span, range or coverage factor that is not positive; an accuracy that is negative; anything not finite, or
    /// so large (10³⁰ in SI units) that its square cannot be computed with.
    pub fn check(&self) -> Result<()> {
        self.numbers().check()
    }

    /// Its specification in SI base units.
    fn numbers(&self) -> Numbers<'_> {
        Numbers {
            kind: Kind::of::<Q>(),
            name: &self.name,
            step: self.step.base(),
            of_reading: self.of_reading,
            counts: self.counts,
            of_span: self.of_span,
            span: self.span.base(),
            absolute: self.absolute.base(),
            coverage: self.coverage,
            range: self.range.map(|(low, high)| (low.base(), high.base())),
            drift: self.drift,
        }
    }

    /// Refuses a reading that is no number, or that the instrument cannot show.
    pub(super) fn shows(&self, reading: Q) -> Result<()> {
        self.numbers().shows(reading.base())
    }
}

/// A specification in SI base units: the same whatever is read.
struct Numbers<'a> {
    kind: &'static Kind,
    name: &'a Label,
    step: f64,
    of_reading: f64,
    counts: f64,
    of_span: f64,
    span: f64,
    absolute: f64,
    coverage: Coverage,
    range: Option<(f64, f64)>,
    drift: Option<Drift>,
}

impl Numbers<'_> {
    fn check(&self) -> Result<()> {
        let not_negative = |x: f64| (0.0..=COARSEST).contains(&x);
        let positive = |x: f64| x > 0.0 && x <= COARSEST;
        let difference = |si: f64| (self.kind.difference)().shown(si);
        if !positive(self.step) {
            let limit = "the step of its display must be positive";
            return Err(self.refuse("resolution", &difference(self.step), limit));
        }
        for (what, share) in [("percent of reading", self.of_reading), ("percent of span", self.of_span)] {
            if !not_negative(share) {
                return Err(self.refuse(what, &Ratio::from_si(share), "it must be zero or more"));
            }
        }
        if !not_negative(self.counts) {
            return Err(self.refuse("counts", &self.counts, "it must be zero or more"));
        }
        if !not_negative(self.absolute) {
            return Err(self.refuse("accuracy", &difference(self.absolute), "it must be zero or more"));
        }
        if self.of_span > 0.0 && !positive(self.span) {
            return Err(self.refuse("span", &difference(self.span), "it must be positive"));
        }
        if let Coverage::Factor(k) = self.coverage
            && !(positive(k) && positive(1.0 / k))
        {
            return Err(self.refuse("coverage factor", &k, "it must be positive"));
        }
        if let Some((low, high)) = self.range
            && !(low < high && low.is_finite() && high.is_finite())
        {
            let given = format!("{} to {}", self.kind.shown(low), self.kind.shown(high));
            return Err(self.refuse("range", &given, "the low end must lie below the high end"));
        }
        if let Some(drift) = self.drift
            && !(not_negative(drift.per_kelvin)
                && drift.low <= drift.high
                && (drift.high - drift.low).is_finite())
        {
            let given =
                format!("{} between {} and {}", Ratio::from_si(drift.per_kelvin), drift.low, drift.high);
            let limit = "it must be zero or more, low end first";
            return Err(self.refuse("temperature coefficient", &given, limit));
        }
        Ok(())
    }

    fn shows(&self, reading: f64) -> Result<()> {
        let refuse = |limit: &dyn fmt::Display, advice: &str| {
            let what = format!("{} read on the {}", self.kind.name, called(self.name, self.kind));
            Err(Error::out_of_range(what, self.kind.shown(reading), limit, advice))
        };
        if !reading.is_finite() {
            return refuse(&"a reading is a finite number", "read again");
        }
        match self.range {
            Some((low, high)) if !(low <= reading && reading <= high) => {
                let limit = format!(
                    "the instrument reads from {} to {}",
                    self.kind.shown(low),
                    self.kind.shown(high)
                );
                refuse(&limit, "check the reading, or take an instrument that reaches")
            }
            _ => Ok(()),
        }
    }

    fn refuse(&self, part: &str, value: &dyn fmt::Display, limit: &str) -> Error {
        let what = format!("{part} of the {}", called(self.name, self.kind));
        Error::out_of_range(what, value, limit, "copy the specification from the instrument's sheet")
    }
}

/// What an instrument is called: its name, or the usual instrument for what it reads.
fn called(name: &Label, kind: &Kind) -> Label {
    if name.is_empty() { usual(kind).into() } else { name.clone() }
}

/// Equal specifications, whether or not it is the same instrument.
impl<Q: Quantity> PartialEq for Instrument<Q> {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
            && self.step == other.step
            && self.of_reading == other.of_reading
            && self.counts == other.counts
            && self.of_span == other.of_span
            && self.span == other.span
            && self.absolute == other.absolute
            && self.coverage == other.coverage
            && self.range == other.range
            && self.drift == other.drift
    }
}

/// What one usually reads a quantity with.
fn usual(kind: &Kind) -> &'static str {
    match kind.name {
        "current" => "ammeter",
        "voltage" => "voltmeter",
        "temperature" | "temperature difference" => "thermometer",
        "gauge pressure" | "absolute pressure" | "pressure difference" => "gauge",
        "mass" => "scale",
        "resistance" => "ohmmeter",
        "capacitance" => "capacitance meter",
        "frequency" => "frequency meter",
        _ => "instrument",
    }
}
