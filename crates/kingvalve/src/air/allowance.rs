//! How weather and load move what is read of a running system.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::work::RunReadings;
use crate::measure::{Interval, Label, Measured};
use crate::quantity::{
    Quantity, Ratio, Temperature, TemperatureDifference, delta_fahrenheit, fraction, percent,
};
use crate::{Error, Result};

/// How a quantity answers to one degree Fahrenheit of each condition, as a share of itself, each as a range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Response {
    /// To one degree of outdoor dry bulb.
    pub outdoor: Interval<Ratio>,
    /// To one degree of return dry bulb.
    pub return_dry_bulb: Interval<Ratio>,
    /// To one degree of return wet bulb.
    pub return_wet_bulb: Interval<Ratio>,
}

/// What weather and load explain of a change between two sets of readings.
///
/// The defaults are rounded from how single-speed split systems with air-cooled condensers behave: common practice, no
/// source; wide on purpose, their width counts as doubt. Give those of the equipment's own tables where there are any.
///
/// | % per °F | outdoor dry bulb | return dry bulb | return wet bulb |
/// |---|---|---|---|
/// | condensing over ambient | −0.5 to 0.5 | −0.5 to 0.5 | 0 to 2 |
/// | split | −0.6 to 0 | 2 to 5 | −5 to −2 |
/// | current | 0.8 to 1.6 | −0.2 to 0.2 | 0 to 0.8 |
/// | capacity | −0.8 to −0.2 | −0.3 to 0.3 | 1 to 2 |
///
/// # Example
/// ```
/// use kingvalve::air::{Allowance, Response};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::percent;
/// let of = |low, high| Interval::new(percent(low), percent(high));
/// let capacity = Response { outdoor: of(-0.5, -0.4)?, return_dry_bulb: of(0.0, 0.0)?, return_wet_bulb: of(1.4, 1.6)? };
/// let allowance = Allowance::default().with_capacity(capacity).from_source("the maker's extended tables");
/// assert_eq!(allowance.capacity(), &capacity);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Allowance {
    over_ambient: Response,
    split: Response,
    current: Response,
    capacity: Response,
    reach: TemperatureDifference,
    source: Label,
}

fn answer(outdoor: [f64; 2], dry: [f64; 2], wet: [f64; 2]) -> Response {
    let of = |[low, high]: [f64; 2]| Interval::spanning(percent(low), percent(high));
    Response { outdoor: of(outdoor), return_dry_bulb: of(dry), return_wet_bulb: of(wet) }
}

impl Default for Allowance {
    fn default() -> Self {
        Allowance {
            over_ambient: answer([-0.5, 0.5], [-0.5, 0.5], [0.0, 2.0]),
            split: answer([-0.6, 0.0], [2.0, 5.0], [-5.0, -2.0]),
            current: answer([0.8, 1.6], [-0.2, 0.2], [0.0, 0.8]),
            capacity: answer([-0.8, -0.2], [-0.3, 0.3], [1.0, 2.0]),
            reach: delta_fahrenheit(20.0),
            source: "effect of weather and load: common practice, no source".into(),
        }
    }
}

impl Allowance {
    /// Another response of condensing over ambient.
    #[must_use]
    pub fn with_over_ambient(self, over_ambient: Response) -> Self {
        Allowance { over_ambient, ..self }
    }

    /// Another response of the split.
    #[must_use]
    pub fn with_split(self, split: Response) -> Self {
        Allowance { split, ..self }
    }

    /// Another response of the current.
    #[must_use]
    pub fn with_current(self, current: Response) -> Self {
        Allowance { current, ..self }
    }

    /// Another response of the capacity.
    #[must_use]
    pub fn with_capacity(self, capacity: Response) -> Self {
        Allowance { capacity, ..self }
    }

    /// How far apart conditions may be: 20 °F unless another is given. Common practice, no source.
    #[must_use]
    pub fn reaching(self, reach: TemperatureDifference) -> Self {
        Allowance { reach, ..self }
    }

    /// Where the responses come from.
    #[must_use]
    pub fn from_source(self, source: impl Into<Label>) -> Self {
        Allowance { source: source.into(), ..self }
    }

    /// The response of condensing over ambient.
    pub fn over_ambient(&self) -> &Response {
        &self.over_ambient
    }

    /// The response of the split.
    pub fn split(&self) -> &Response {
        &self.split
    }

    /// The response of the current.
    pub fn current(&self) -> &Response {
        &self.current
    }

    /// The response of the capacity.
    pub fn capacity(&self) -> &Response {
        &self.capacity
    }

    /// Where the responses come from.
    pub fn source(&self) -> &Label {
        &self.source
    }

    /// Refuses conditions too far apart to allow for.
    pub(super) fn reaches(&self, before: &RunReadings, after: &RunReadings) -> Result<()> {
        for (what, a, b) in conditions(before, after) {
            let apart = (b.value() - a.value()).abs();
            if apart.base().is_nan() || apart > self.reach {
                return Err(Error::out_of_range(
                    format!("difference in {what} before and after"),
                    format!("{apart:.1}"),
                    format!("weather and load are allowed for up to {:.0}", self.reach),
                    "read again on a day more like the first, or give an Allowance that reaches further",
                ));
            }
        }
        Ok(())
    }
}

type Condition<'a> = (&'static str, &'a Measured<Temperature>, &'a Measured<Temperature>);

fn conditions<'a>(before: &'a RunReadings, after: &'a RunReadings) -> [Condition<'a>; 3] {
    [
        ("outdoor dry bulb", &before.outdoor, &after.outdoor),
        ("return dry bulb", &before.return_dry_bulb, &after.return_dry_bulb),
        ("return wet bulb", &before.return_wet_bulb, &after.return_wet_bulb),
    ]
}

impl Response {
    /// The share by which the quantity should have moved, and the same with the doubt of slopes and conditions.
    pub(super) fn explained(
        &self,
        before: &RunReadings,
        after: &RunReadings,
    ) -> Result<(f64, Measured<Ratio>)> {
        let degree = delta_fahrenheit(1.0).base();
        let slopes = [self.outdoor, self.return_dry_bulb, self.return_wet_bulb];
        let mut explained = Measured::exact(fraction(0.0));
        for (slope, (what, a, b)) in slopes.into_iter().zip(conditions(before, after)) {
            let per =
                Measured::from_limits(slope.middle(), slope.width() / 2.0, format!("effect of {what}"))?;
            let apart = (b.value() - a.value()).base() / degree;
            let by_kelvin = per.value().fraction() / degree;
            let sum = explained.value() + per.value() * apart;
            explained = explained
                .map(sum, 1.0)
                .depending_on(&per, apart)
                .depending_on(b, by_kelvin)
                .depending_on(a, -by_kelvin);
        }
        Ok((explained.value().fraction(), explained))
    }
}
