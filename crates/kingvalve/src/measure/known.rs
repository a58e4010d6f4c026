//! What a library function takes where a quantity is wanted: the bare quantity, or a reading of it.

use crate::quantity::Quantity;

/// A quantity one knows: plainly, or by a reading that carries its doubt.
///
/// Functions of the library take `impl Known<Pressure>` and return [`With<Temperature>`](Known::With): a plain
/// quantity in gives a plain quantity out, a reading in gives a result that carries the reading's doubt.
///
/// # Example
/// ```
/// use kingvalve::quantity::{GaugePressure, Site, psig};
/// use kingvalve::measure::Known;
/// assert_eq!(psig(62.0).value(), psig(62.0));
/// ```
#[diagnostic::on_unimplemented(
    message = "`{Self}` is not a {Q}, nor a reading of one",
    label = "expected a `{Q}`",
    note = "a bare number needs a unit: `psig(62.0)`, `fahrenheit(88.0)`, `pounds(6.5)`",
    note = "gauge pressure becomes absolute by `Site::absolute`, absolute becomes gauge by `Site::gauge`"
)]
pub trait Known<Q: Quantity>: Sized {
    /// A result of type `R` that knows as much as this does: `R` itself for a plain quantity.
    type With<R: Quantity>;

    /// The best value.
    fn value(&self) -> Q;

    /// A result computed from this one, with the exact derivative of the result by this, in SI base units.
    fn carry<R: Quantity>(self, result: R, derivative: f64) -> Self::With<R>;
}

impl<Q: Quantity> Known<Q> for Q {
    type With<R: Quantity> = R;

    #[inline]
    fn value(&self) -> Q {
        *self
    }

    #[inline]
    fn carry<R: Quantity>(self, result: R, _derivative: f64) -> R {
        result
    }
}
