//! How far a part may be from its rating.

use std::borrow::Cow;
use std::fmt;
use std::ops::Mul;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::quantity::{Quantity, Ratio, percent};
use crate::{Error, Result};

/// How far below and above its rating a part may be, as marked on it: ±6 %, −0/+10 %.
///
/// Read from and written as that text, in JSON too: `"±6 %"`, `"-0/+10 %"`.
///
/// # Example
/// ```
/// use kingvalve::electrical::Tolerance;
/// assert_eq!("+/-6 %".parse::<Tolerance>()?, Tolerance::percent(6.0));
/// assert_eq!(Tolerance::unequal(0.0, 10.0).to_string(), "-0/+10 %");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerance {
    below: Ratio,
    above: Ratio,
}

impl Tolerance {
    /// So many percent to either side.
    pub const fn percent(either_side: f64) -> Tolerance {
        Tolerance::unequal(either_side, either_side)
    }

    /// So many percent below and above, both given without sign.
    pub const fn unequal(below: f64, above: f64) -> Tolerance {
        Tolerance { below: percent(below), above: percent(above) }
    }

    /// How far below.
    pub const fn below(&self) -> Ratio {
        self.below
    }

    /// How far above.
    pub const fn above(&self) -> Ratio {
        self.above
    }

    /// The lowest and highest it allows something of that rating: a capacitance, a supply voltage.
    ///
    /// # Errors
    /// Where either side is negative or not finite, both are zero, or nothing is left below.
    #[inline]
    pub fn bounds<Q: Quantity + Mul<f64, Output = Q>>(&self, rated: Q) -> Result<(Q, Q)> {
        let (below, above) = (self.below.fraction(), self.above.fraction());
        let fits = (0.0..1.0).contains(&below) && above >= 0.0 && above.is_finite() && below + above > 0.0;
        if !fits {
            return Err(Error::out_of_range(
                "tolerance",
                self,
                "each side must be zero or more, not both zero, and less than 100 % below",
                "copy it as marked",
            ));
        }
        Ok((rated * (1.0 - below), rated * (1.0 + above)))
    }
}

impl fmt::Display for Tolerance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [below, above] =
            [self.below, self.above].map(|side| side.to_string().trim_end_matches('%').trim_end().to_owned());
        let text =
            if self.below == self.above { format!("±{above} %") } else { format!("-{below}/+{above} %") };
        f.pad(&text)
    }
}

impl FromStr for Tolerance {
    type Err = Error;

    /// `±6 %`, `+/-6 %`, `6 %`, `-0/+10 %`.
    fn from_str(given: &str) -> Result<Tolerance> {
        let refuse = || {
            let advice = "write it as marked: \"±6 %\" or \"-0/+10 %\"";
            Error::unreadable("tolerance", given, advice)
        };
        let text = given.replace('\u{2212}', "-");
        let number = |part: &str| part.trim().parse::<f64>().ok().filter(|x| x.is_finite() && *x >= 0.0);
        let sides = text.trim().strip_suffix('%').ok_or_else(refuse)?.trim();
        let even = sides.strip_prefix('±').or_else(|| sides.strip_prefix("+/-"));
        let read = match (even, sides.strip_prefix('-').and_then(|rest| rest.split_once("/+"))) {
            (Some(side), _) => number(side).map(Tolerance::percent),
            (None, Some((below, above))) => {
                number(below).zip(number(above)).map(|(b, a)| Tolerance::unequal(b, a))
            }
            (None, None) => number(sides).filter(|_| !sides.starts_with('+')).map(Tolerance::percent),
        };
        read.ok_or_else(refuse)
    }
}

impl Serialize for Tolerance {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Tolerance {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for Tolerance {
    fn schema_name() -> Cow<'static, str> {
        "Tolerance".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "As marked on the part.",
            "type": "string",
            "pattern": "%\\s*$",
            "examples": ["±6 %", "-0/+10 %"],
        })
    }
}
