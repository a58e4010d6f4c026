//! Within, outside, or not to be told from these readings.

use std::fmt;

use serde::ser::{Serialize, SerializeStruct, Serializer};

use super::Judgement;
use super::judgement::Facts;
use super::limits::written;
use super::prose::{plain, probability, value_and_doubt};
use crate::quantity::{Quantity, Ratio};

/// Whether a value lies within its limits, as far as its doubt lets one say.
///
/// `Within` where the probability of lying within is at least the level; `Outside` where the probability of lying
/// beyond *one* of the limits is; `Unresolved` otherwise. So a useless instrument proves nothing: with two limits and a
/// huge doubt the truth is probably not within, yet beyond neither limit firmly.
///
/// # Source
/// JCGM 106:2012, clauses 7 and 8; that `Outside` needs one named limit is this library's rule.
/// # Accuracy
/// See [`Limits::judge`](super::Limits::judge).
/// # Example
/// ```
/// use kingvalve::measure::{Instrument, Level, Limits, Reading, Verdict};
/// use kingvalve::quantity::*;
/// let policy = Limits::at_least(microfarads(4.5))?.from_source("shop policy");
/// let meter = Instrument::resolution(microfarads(0.01)).accuracy_percent_of_reading(1.0);
/// let read = Reading::new(microfarads(4.29), meter)?;
/// let verdict = policy.judge(&read, Level::default())?;
/// assert!(matches!(verdict, Verdict::Outside(_)));
/// assert_eq!(
///     verdict.to_string(),
///     "Outside: 4.290 ± 0.049 µF is below 4.5 µF (shop policy), with a probability of more than 99.9 %."
/// );
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub enum Verdict<Q: Quantity> {
    /// It lies within the limits.
    Within(Judgement<Q>),
    /// It lies beyond one of the limits.
    Outside(Judgement<Q>),
    /// These readings cannot tell.
    Unresolved(Judgement<Q>),
}

impl<Q: Quantity> Verdict<Q> {
    #[inline(always)]
    pub(super) fn of(judgement: Judgement<Q>) -> Self {
        let numbers = judgement.numbers();
        if numbers.is_firmly_within() {
            Verdict::Within(judgement)
        } else if numbers.is_firmly_beyond() {
            Verdict::Outside(judgement)
        } else {
            Verdict::Unresolved(judgement)
        }
    }

    /// The numbers behind it.
    pub fn judgement(&self) -> &Judgement<Q> {
        match self {
            Verdict::Within(judgement) | Verdict::Outside(judgement) | Verdict::Unresolved(judgement) => {
                judgement
            }
        }
    }

    /// Its name in JSON.
    pub fn name(&self) -> &'static str {
        match self {
            Verdict::Within(_) => "within",
            Verdict::Outside(_) => "outside",
            Verdict::Unresolved(_) => "unresolved",
        }
    }

    /// Whether it is [`Within`](Verdict::Within).
    pub fn is_within(&self) -> bool {
        matches!(self, Verdict::Within(_))
    }

    /// Whether it is [`Outside`](Verdict::Outside).
    pub fn is_outside(&self) -> bool {
        matches!(self, Verdict::Outside(_))
    }

    /// Whether it is [`Unresolved`](Verdict::Unresolved).
    pub fn is_unresolved(&self) -> bool {
        matches!(self, Verdict::Unresolved(_))
    }
}

/// One or two sentences.
impl<Q: Quantity> fmt::Display for Verdict<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&sentence(self.name(), &self.judgement().facts()))
    }
}

/// A verdict of that name in words.
fn sentence(name: &str, facts: &Facts<'_>) -> String {
    let Facts { kind, bounds, source, numbers } = *facts;
    let value = value_and_doubt(kind, numbers.value, numbers.expanded);
    let limits = written(kind, bounds, source);
    let (below, above) = (numbers.below, numbers.above);
    let mut text = match name {
        "within" => format!("Within: {value} against {limits}{}.", numbers.how_sure(numbers.within())),
        "outside" => {
            let (side, limit) =
                if below >= above { ("below", bounds.lower) } else { ("above", bounds.upper) };
            let limit = plain(kind, limit);
            let source = if source.is_empty() { String::new() } else { format!(" ({source})") };
            format!("Outside: {value} is {side} {limit}{source}{}.", numbers.how_sure(below.max(above)))
        }
        _ => {
            let p = probability(numbers.within());
            let mut text =
                format!("Unresolved: {value} against {limits} is within with a probability of {p}");
            if bounds.lower().is_some() {
                text += &format!(", below with {}", probability(below));
            }
            if bounds.upper().is_some() && above > 0.0005 {
                text += &format!(", above with {}", probability(above));
            }
            text += numbers.knowing_what();
            text += ".";
            if let Some(settle) = facts.settled() {
                text += &format!(" {settle}.");
            }
            return text;
        }
    };
    if let Some(reservation) = numbers.reservation() {
        text += &format!(" {reservation}");
    }
    text
}

impl<Q: Quantity + Serialize> Serialize for Verdict<Q>
where
    Q::Difference: Serialize,
{
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let judgement = self.judgement();
        let mut object = serializer.serialize_struct("verdict", 12)?;
        object.serialize_field("verdict", self.name())?;
        object.serialize_field("value", &judgement.value())?;
        object.serialize_field("limits", judgement.limits())?;
        object.serialize_field("level", &judgement.level())?;
        object.serialize_field("probability_within", &judgement.probability_within())?;
        object.serialize_field("probability_below", &judgement.probability_below())?;
        object.serialize_field("probability_above", &judgement.probability_above())?;
        object.serialize_field("standard_uncertainty", &judgement.standard_uncertainty())?;
        object.serialize_field("expanded_uncertainty", &judgement.expanded_uncertainty())?;
        match judgement.dominant() {
            Some((reading, share)) => object.serialize_field("dominant", &Dominant { reading, share })?,
            None => object.skip_field("dominant")?,
        }
        match judgement.settle() {
            Some(settle) => object.serialize_field(
                "settle",
                &SettleForm {
                    remedy: settle.remedy().name(),
                    reading: settle.reading(),
                    needed: settle.needed(),
                    now_of_reading: settle.now(),
                    needed_of_reading: settle.needed_of_reading(),
                },
            )?,
            None => object.skip_field("settle")?,
        }
        object.serialize_field("text", &self.to_string())?;
        object.end()
    }
}

#[derive(serde::Serialize)]
struct Dominant<'a> {
    reading: &'a str,
    share: Ratio,
}

#[derive(serde::Serialize)]
struct SettleForm<'a, D> {
    remedy: &'static str,
    reading: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    needed: Option<D>,
    now_of_reading: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    needed_of_reading: Option<String>,
}
