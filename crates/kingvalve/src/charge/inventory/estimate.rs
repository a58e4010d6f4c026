//! An answer that knows how sure it is, and what each reading contributed to it.

use serde::{Deserialize, Serialize};

use super::quantiles::quantiles;
use crate::measure::{Interval, Label};
use crate::quantity::{Mass, Quantity, Ratio};

/// A quantity as a distribution: the middle, and where the truth lies one time in two and nine times in ten.
///
/// # Example
/// ```
/// use kingvalve::charge::inventory::{Inventory, System};
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let now = Inventory::prior(&System::of_plate(&Refrigerant::named("R-410A")?, pounds(6.0))?)?.now();
/// assert!(now.ninety.covers(&now.half) && now.half.contains(now.median));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(bound(serialize = "Q: Serialize", deserialize = "Q: Deserialize<'de>"))]
pub struct Estimate<Q: Quantity> {
    /// As likely above as below.
    pub median: Q,
    /// The truth lies here one time in two.
    pub half: Interval<Q>,
    /// The truth lies here nine times in ten.
    pub ninety: Interval<Q>,
}

impl<Q: Quantity> Estimate<Q> {
    /// From weighted values; `None` where no weight is above zero.
    pub(super) fn of(values: impl Iterator<Item = (f64, f64)>) -> Option<Estimate<Q>> {
        let values: Vec<(f64, f64)> = values.filter(|(_, weight)| *weight > 0.0).collect();
        let [p5, p25, p50, p75, p95] = quantiles(&values)?;
        Some(Estimate {
            median: Q::from_base(p50),
            half: Interval::spanning(Q::from_base(p25), Q::from_base(p75)),
            ninety: Interval::spanning(Q::from_base(p5), Q::from_base(p95)),
        })
    }

    /// Each value turned into another quantity by a rule that keeps or reverses order.
    pub(super) fn turned<R: Quantity>(&self, rule: impl Fn(Q) -> R) -> Estimate<R> {
        let both = |interval: &Interval<Q>| Interval::spanning(rule(interval.low()), rule(interval.high()));
        Estimate { median: rule(self.median), half: both(&self.half), ninety: both(&self.ninety) }
    }
}

impl Estimate<Mass> {
    /// A bar of text from empty to 120 % of a full charge: `-` nine times in ten, `=` one time in two, `|` the middle, `P`
    /// the full charge.
    ///
    /// # Example
    /// ```
    /// use kingvalve::charge::inventory::{Inventory, System};
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let now = Inventory::prior(&System::of_plate(&Refrigerant::named("R-410A")?, pounds(6.0))?)?.now();
    /// assert_eq!(now.bar(pounds(6.0), 24), "[.----=======|======-P--.]");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn bar(&self, full: Mass, cells: usize) -> String {
        let cells = cells.max(1);
        let cell = |mass: Mass| ((mass / (1.2 * full) * cells as f64) as usize).min(cells - 1);
        let within = |at, range: &Interval<Mass>| (cell(range.low())..=cell(range.high())).contains(&at);
        let drawn = (0..cells).map(|at| match at {
            _ if at == cell(self.median) => '|',
            _ if at == cell(full) => 'P',
            _ if within(at, &self.half) => '=',
            _ if within(at, &self.ninety) => '-',
            _ => '.',
        });
        format!("[{}]", drawn.collect::<String>())
    }
}

/// What one reading or weighing contributed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Contribution {
    /// What it is called: "standing pressure", "weighed in".
    pub what: Label,
    /// What was known before it.
    pub before: Estimate<Mass>,
    /// What was known with it.
    pub after: Estimate<Mass>,
}

impl Contribution {
    /// The width of the 90 % interval after, as a share of that before: 50 % where it halved.
    pub fn width_left(&self) -> Ratio {
        let (before, after) = (self.before.ninety.width(), self.after.ninety.width());
        Ratio::from_si(if before > Mass::ZERO { after / before } else { 1.0 })
    }

    /// In words.
    pub fn text(&self) -> String {
        format!(
            "{}: from {:.2} ({:.2}) to {:.2} ({:.2})",
            self.what, self.before.median, self.before.ninety, self.after.median, self.after.ninety
        )
    }
}
