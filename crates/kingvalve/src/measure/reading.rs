//! What an instrument showed.

mod form;
mod planned;

use std::fmt;
use std::sync::Arc;

use super::source::{Cause, Contribution, Identity, fresh, shown};
use super::together::mean_and_scatter;
use super::{Coverage, Doubt, Doubtful, Instrument, Known, Label, Measured};
use crate::quantity::{Quantity, Temperature};
use crate::{Error, Result};

/// A value read on an instrument, once or repeatedly.
///
/// Its doubt has up to three sources: the step of the display (its own), the accuracy of the instrument (shared by
/// every reading of that instrument) and, where it was repeated, the scatter (its own).
///
/// # Source
/// JCGM 100:2008: F.2.2.1 (step), 4.3 (specification), 4.2 (repeats). Repeats reduce the scatter alone: the accuracy
/// error stays the same from one to the next, and the step error does not average out where all read the same.
/// # Accuracy
/// As good as the instrument's specification.
/// # Example
/// ```
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let gauge = Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(500.0));
/// let suction = Reading::new(psig(62.0), gauge)?.labelled("suction pressure");
/// let absolute = Site::at_elevation(feet(130.0))?.absolute(&suction)?;
/// assert_eq!(absolute.to_string(), "76.6 ± 2.8 psia");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Reading<Q: Quantity> {
    id: Identity,
    value: Q,
    instrument: Instrument<Q>,
    label: Label,
    /// The label, or what the instrument is called.
    what: Label,
    ambient: Option<Temperature>,
    repeats: Option<Repeats<Q>>,
    /// Standard uncertainties from the step of the display and from the instrument's accuracy, SI units.
    step: f64,
    accuracy: f64,
}

#[derive(Debug, Clone, PartialEq)]
struct Repeats<Q> {
    values: Arc<[Q]>,
    /// Standard deviation of the mean, SI units.
    scatter: f64,
}

impl<Q: Quantity> Reading<Q> {
    /// One reading.
    ///
    /// # Errors
    /// Where the value is not finite or outside the instrument's range, or the instrument's specification cannot be.
    pub fn new(value: Q, instrument: Instrument<Q>) -> Result<Self> {
        instrument.check()?;
        instrument.shows(value)?;
        let step = instrument.step.base() / 12f64.sqrt();
        let accuracy = instrument.accuracy_standard(value, None);
        // One identity for the step, the next for the scatter.
        let id = fresh(2);
        let what = instrument.called();
        Ok(Reading {
            id,
            value,
            instrument,
            label: Label::EMPTY,
            what,
            ambient: None,
            repeats: None,
            step,
            accuracy,
        })
    }

    /// The mean of repeated readings.
    ///
    /// # Errors
    /// With fewer than two, and as [`new`](Reading::new).
    pub fn repeated(values: &[Q], instrument: Instrument<Q>) -> Result<Self> {
        if values.len() < 2 {
            return Err(Error::out_of_range(
                format!("number of readings of {}", Q::NAME),
                values.len(),
                "scatter shows in two or more",
                "repeat the reading, or give it as a single one",
            ));
        }
        instrument.check()?;
        for value in values {
            instrument.shows(*value)?;
        }
        let (mean, scatter) = mean_and_scatter(values)?;
        let mut reading = Reading::new(Q::from_base(mean), instrument)?;
        reading.repeats = Some(Repeats { values: values.into(), scatter });
        Ok(reading)
    }

    /// What it is a reading of: "suction pressure".
    #[must_use]
    pub fn labelled(mut self, label: impl Into<Label>) -> Self {
        self.label = label.into();
        self.what = if self.label.is_empty() { self.instrument.called() } else { self.label.clone() };
        self
    }

    /// The same reading, taken with the very instrument of another: what that one's accuracy adds to both is then shared,
    /// and cancels in their difference. Readings from JSON come each with an instrument of its own; this says otherwise.
    ///
    /// # Errors
    /// Where the two instruments differ in specification.
    /// # Example
    /// ```
    /// use kingvalve::measure::{Instrument, Reading};
    /// use kingvalve::quantity::*;
    /// let probe = || Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    /// let back = Reading::new(fahrenheit(75.0), probe())?;
    /// let supply = Reading::new(fahrenheit(56.0), probe())?;
    /// let apart = (back.measured() - supply.measured()).standard_uncertainty();
    /// let together = (back.measured() - supply.on_instrument_of(&back)?.measured()).standard_uncertainty();
    /// assert!(together < apart * 0.1);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn on_instrument_of(mut self, other: &Reading<Q>) -> Result<Self> {
        if self.instrument != other.instrument {
            return Err(Error::inconsistent(
                format!("instrument of the {}", self.what),
                "it is not specified as the one it is said to be the same as",
                "copy one specification to both readings, or do not say that one instrument took both",
            ));
        }
        self.instrument = other.instrument.clone();
        Ok(self)
    }

    /// How warm it was where the instrument was, for its temperature coefficient.
    #[must_use]
    pub fn at_ambient(mut self, ambient: Temperature) -> Self {
        self.ambient = Some(ambient);
        self.accuracy = self.instrument.accuracy_standard(self.value, self.ambient);
        self
    }

    /// The value read, or the mean of the repeats.
    pub fn value(&self) -> Q {
        self.value
    }

    /// The instrument.
    pub fn instrument(&self) -> &Instrument<Q> {
        &self.instrument
    }

    /// What it is a reading of, where that was said.
    pub fn label(&self) -> &str {
        self.label.as_str()
    }

    /// The repeated values, where there are any.
    pub fn repeats(&self) -> &[Q] {
        self.repeats.as_ref().map_or(&[], |repeats| &repeats.values)
    }

    /// The combined standard uncertainty.
    pub fn standard_uncertainty(&self) -> Q::Difference {
        self.measured().standard_uncertainty()
    }

    /// The value with its doubt by source.
    pub fn measured(&self) -> Measured<Q> {
        Measured::exact(self.value).depending_on(self, 1.0)
    }

    #[inline]
    fn add_source(&self, doubt: &mut Doubt, source: Identity, own: f64, cause: Cause, derivative: f64) {
        let amount = own * derivative;
        doubt.add(source, amount, || Contribution {
            source,
            reading: self.id,
            amount,
            own,
            cause,
            what: self.what.clone(),
            show: shown::<Q>,
        });
    }

    fn add_sources(&self, doubt: &mut Doubt, derivative: f64) {
        let width = self.instrument.step.base();
        let bare = self.accuracy == 0.0;
        self.add_source(doubt, self.id, self.step, Cause::Step { width, bare }, derivative);
        if self.accuracy > 0.0 {
            let limits = matches!(self.instrument.coverage, Coverage::Limits);
            let cause = Cause::Accuracy { limits };
            self.add_source(doubt, self.instrument.id, self.accuracy, cause, derivative);
        }
        if let Some(repeats) = &self.repeats {
            let cause = Cause::Repeats { count: repeats.values.len() };
            self.add_source(doubt, self.id + 1, repeats.scatter, cause, derivative);
        }
    }
}

/// Equal values on equal instruments, whether or not it is the same reading.
impl<Q: Quantity> PartialEq for Reading<Q> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
            && self.instrument == other.instrument
            && self.label == other.label
            && self.ambient == other.ambient
            && self.repeats == other.repeats
    }
}

impl<Q: Quantity> fmt::Display for Reading<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.label.is_empty() {
            write!(f, "{}", self.measured())
        } else {
            write!(f, "{} {}", self.label, self.measured())
        }
    }
}

impl<Q: Quantity> From<Reading<Q>> for Measured<Q> {
    fn from(reading: Reading<Q>) -> Self {
        reading.measured()
    }
}

#[diagnostic::do_not_recommend]
impl<Q: Quantity> Known<Q> for Reading<Q> {
    type Grade = Doubtful;
    type With<R: Quantity> = Measured<R>;

    #[inline]
    fn value(&self) -> Q {
        self.value
    }

    #[inline]
    fn carry<R: Quantity>(self, result: R, derivative: f64) -> Measured<R> {
        (&self).carry(result, derivative)
    }

    #[inline]
    fn add_to(&self, doubt: &mut Doubt, derivative: f64) {
        self.add_sources(doubt, derivative);
    }
}

#[diagnostic::do_not_recommend]
impl<Q: Quantity> Known<Q> for &Reading<Q> {
    type Grade = Doubtful;
    type With<R: Quantity> = Measured<R>;

    #[inline]
    fn value(&self) -> Q {
        self.value
    }

    #[inline]
    fn carry<R: Quantity>(self, result: R, derivative: f64) -> Measured<R> {
        Measured::exact(result).depending_on(self, derivative)
    }

    #[inline]
    fn add_to(&self, doubt: &mut Doubt, derivative: f64) {
        self.add_sources(doubt, derivative);
    }
}
