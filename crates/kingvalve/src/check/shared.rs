//! What the inputs of several checks have in common.

use crate::Result;
use crate::measure::{Interval, Label, Measured, Reading};
use crate::quantity::Quantity;
use crate::refrigerant::Refrigerant;

/// A reading that is called what the check calls it, unless the input said otherwise.
pub(super) fn called<Q: Quantity>(reading: Reading<Q>, label: impl Into<Label>) -> Reading<Q> {
    if reading.label().is_empty() { reading.labelled(label) } else { reading }
}

/// The refrigerant of that designation, the error said of the field.
pub(super) fn refrigerant(designation: &str) -> Result<Refrigerant> {
    Refrigerant::named(designation).map_err(|error| error.in_field("refrigerant"))
}

/// Whether one instrument took both readings: the other as read on the first one's, where it did.
pub(super) fn on_one<Q: Quantity>(one: bool, first: &Reading<Q>, other: Reading<Q>) -> Result<Reading<Q>> {
    if one { other.on_instrument_of(first) } else { Ok(other) }
}

/// Anywhere in an interval as likely.
pub(super) fn anywhere<Q: Quantity>(interval: &Interval<Q>, what: &'static str) -> Result<Measured<Q>> {
    let half = Q::Difference::from_base(0.5 * interval.width().base());
    Measured::from_limits(interval.middle(), half, what)
}
