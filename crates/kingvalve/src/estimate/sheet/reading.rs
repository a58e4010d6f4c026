//! A reading against where it should be: words and a picture.

use serde::Serialize;

use super::labels::Labels;
use crate::estimate::UnitSystem;
use crate::estimate::units::Printed;
use crate::measure::{Interval, Level, Measured, Told, Verdict};
use crate::quantity::Quantity;

/// Width of a reading's picture, in CSS pixels.
pub(super) const WIDTH: f64 = 200.0;
/// Empty part of the picture at each end.
const MARGIN: f64 = 0.12;

/// One reading: its value with its doubt, where it should be, and how it was judged.
///
/// # Example
/// See [`WorkReport`](super::WorkReport).
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingRow {
    what: String,
    value: String,
    at: Option<[f64; 3]>,
    should: Should,
    judged: Option<&'static str>,
}

/// Where it should be: the ends as numbers for the picture and as text for the row.
#[derive(Debug, Clone, PartialEq, Default)]
struct Should {
    low: Option<(f64, String)>,
    high: Option<(f64, String)>,
    digits: String,
}

impl Should {
    fn between([low, high]: [Option<f64>; 2], printed: Printed) -> Self {
        let end = |end: Option<f64>| end.map(|end| (printed.number(end), printed.text(end)));
        Self { low: end(low), high: end(high), digits: low.map_or(String::new(), |low| printed.digits(low)) }
    }
}

impl ReadingRow {
    /// A reading judged against limits: the value, its doubt at the level of the verdict, and the limits.
    pub fn judged<Q: Quantity>(what: impl Into<String>, verdict: &Verdict<Q>, units: UnitSystem) -> Self {
        let (judgement, printed) = (verdict.judgement(), units.printed(Q::units()));
        let (value, doubt) = (judgement.value().base(), judgement.expanded_uncertainty().base());
        let limits = judgement.limits();
        let ends = [limits.lower(), limits.upper()].map(|end| end.map(Quantity::base));
        Self {
            should: Should::between(ends, printed),
            judged: Some(verdict.name()),
            ..Self::doubtful(what.into(), value, doubt, printed)
        }
    }

    /// A reading that nothing was given to judge it by.
    pub fn measured<Q: Quantity>(what: impl Into<String>, measured: &Measured<Q>, units: UnitSystem) -> Self {
        let (value, doubt) = (measured.value().base(), measured.expanded(Level::default()).base());
        Self::doubtful(what.into(), value, doubt, units.printed(Q::units()))
    }

    /// A value that a check judged.
    pub(crate) fn told(what: impl Into<String>, told: &Told, units: UnitSystem) -> Self {
        let printed = units.printed(told.units);
        Self {
            should: Should::between([told.lower, told.upper], printed),
            judged: told.verdict,
            ..Self::doubtful(what.into(), told.value, told.doubt.unwrap_or(0.0), printed)
        }
    }

    /// A quantity known between two ends only, against where it should be at least.
    pub fn between<Q: Quantity>(
        what: impl Into<String>,
        range: Interval<Q>,
        at_least: Option<Q>,
        units: UnitSystem,
    ) -> Self {
        let printed = units.printed(Q::units());
        let (low, high) = (printed.number(range.low().base()), printed.number(range.high().base()));
        let coarse = |q: Q| format!("{} {}", units.coarse(q), printed.symbol);
        let judged = at_least.map(|limit| match limit {
            limit if range.low() >= limit => "within",
            limit if range.high() < limit => "outside",
            _ => "unresolved",
        });
        Self {
            what: what.into(),
            value: format!("{}–{}", units.coarse(range.low()), coarse(range.high())),
            at: Some([low, f64::midpoint(low, high), high]),
            should: Should {
                low: at_least.map(|limit| (printed.number(limit.base()), coarse(limit))),
                high: None,
                digits: at_least.map_or(String::new(), |limit| printed.digits(limit.base())),
            },
            judged,
        }
    }

    fn doubtful(what: String, value: f64, doubt: f64, printed: Printed) -> Self {
        let (at, half) = (printed.number(value), printed.number_of_difference(doubt));
        let places = [at - half, at, at + half];
        let at = places.iter().all(|place| place.is_finite()).then_some(places);
        Self { what, value: printed.doubtful(value, doubt), at, should: Should::default(), judged: None }
    }

    pub(super) fn view(&self, labels: &Labels) -> RowView {
        let say = |key: &str, places: &[(&str, &str)]| labels.language.sheet(key, places);
        let should = match (&self.should.low, &self.should.high) {
            (Some(_), Some((_, high))) => say("between", &[("low", &self.should.digits), ("high", high)]),
            (Some((_, low)), None) => say("at_least", &[("limit", low)]),
            (None, Some((_, high))) => say("at_most", &[("limit", high)]),
            (None, None) => say("no_limit", &[]),
        };
        let judged = self.judged.map_or(String::new(), |key| say(key, &[]));
        let should_be = say("should_be", &[]).to_lowercase();
        let said = match self.judged {
            Some(_) => format!("{}, {should_be} {should}: {judged}", self.value),
            None => self.value.clone(),
        };
        RowView {
            what: labels.of(&self.what),
            value: self.value.clone(),
            should,
            judged,
            key: self.judged.unwrap_or(""),
            said,
            picture: self.picture(),
        }
    }

    fn picture(&self) -> Option<Picture> {
        let [from, at, to] = self.at?;
        let (low, high) =
            (self.should.low.as_ref().map(|end| end.0), self.should.high.as_ref().map(|end| end.0));
        let ends = || [Some(from), Some(to), low, high].into_iter().flatten();
        let (least, most) = (ends().fold(f64::INFINITY, f64::min), ends().fold(f64::NEG_INFINITY, f64::max));
        let width = (most - least).max(most.abs() * 1e-3).max(1e-9);
        let (left, span) = (least - MARGIN * width, (1.0 + 2.0 * MARGIN) * width);
        let place = |x: f64| (((x - left) / span * WIDTH * 10.0).round() / 10.0).clamp(0.0, WIDTH);
        Some(Picture {
            from: place(from),
            at: place(at),
            to: place(to),
            has_band: low.is_some() || high.is_some(),
            band_from: low.map_or(0.5, place),
            band_to: high.map_or(WIDTH - 0.5, place),
        })
    }
}

#[derive(Serialize)]
pub(super) struct RowView {
    pub what: String,
    pub value: String,
    pub should: String,
    pub judged: String,
    pub key: &'static str,
    pub said: String,
    pub picture: Option<Picture>,
}

#[derive(Serialize)]
pub(super) struct Picture {
    from: f64,
    at: f64,
    to: f64,
    has_band: bool,
    band_from: f64,
    band_to: f64,
}
