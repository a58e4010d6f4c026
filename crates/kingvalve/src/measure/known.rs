//! What a library function takes where a quantity is wanted: the bare quantity, or a reading of it.

use super::{Doubt, Measured};
use crate::quantity::Quantity;

/// A quantity one knows: plainly, or by a reading that carries its doubt.
///
/// Implemented by every quantity, by [`Measured`], by [`Reading`](super::Reading), and by references to the last two.
/// A library function takes `P: Known<Pressure>` and returns [`P::With<Temperature>`](Known::With): plain in gives
/// plain out, a reading in gives a [`Measured`] out. One with two inputs returns [`Both`].
///
/// # Example
/// ```
/// use kingvalve::measure::{Both, Instrument, Known, Measured, Reading, carry_both};
/// use kingvalve::quantity::*;
///
/// fn approach<L: Known<Temperature>, A: Known<Temperature>>(
///     liquid: L,
///     air: A,
/// ) -> Both<L::Grade, A::Grade, TemperatureDifference> {
///     carry_both(liquid.value() - air.value(), (&liquid, 1.0), (&air, -1.0))
/// }
///
/// let plain: TemperatureDifference = approach(fahrenheit(98.0), fahrenheit(88.0));
/// let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
/// let read: Measured<_> = approach(Reading::new(fahrenheit(98.0), clamp)?, fahrenheit(88.0));
/// assert_eq!(format!("{plain:.1}"), "10.0 Δ°F");
/// assert_eq!(format!("{:.2}", read.standard_uncertainty()), "0.58 Δ°F");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[diagnostic::on_unimplemented(
    message = "`{Self}` is not a {Q}, nor a reading of one",
    label = "expected a `{Q}`",
    note = "a bare number needs a unit: `psig(62.0)`, `fahrenheit(88.0)`, `pounds(6.5)`",
    note = "gauge pressure becomes absolute by `Site::absolute`, absolute becomes gauge by `Site::gauge`"
)]
pub trait Known<Q: Quantity>: Sized {
    /// Plain or with doubt.
    type Grade: Grade;

    /// A result of type `R` that knows as much as this does: `R` for a plain quantity, `Measured<R>` otherwise.
    type With<R: Quantity>: Known<R, Grade = Self::Grade>;

    /// The best value.
    fn value(&self) -> Q;

    /// A result computed from this one, with the exact derivative of the result by this, in SI base units.
    fn carry<R: Quantity>(self, result: R, derivative: f64) -> Self::With<R>;

    /// Adds its doubt, times a derivative, to that of a result: plumbing, not API.
    #[doc(hidden)]
    fn add_to(&self, doubt: &mut Doubt, derivative: f64);
}

/// Whether what is known is plain or carries doubt. Closed: [`Plain`] and [`Doubtful`].
pub trait Grade: sealed::Sealed {
    /// A result of type `R` of this grade.
    type Of<R: Quantity>: Known<R, Grade = Self>;

    /// The grade of a result that depends on this and on another.
    type And<G: Grade>: Grade;

    /// A result with its doubt, which is computed only where it is kept: plumbing, not API.
    #[doc(hidden)]
    fn of<R: Quantity>(value: R, doubt: impl FnOnce() -> Doubt) -> Self::Of<R>;
}

mod sealed {
    pub trait Sealed {}
    impl Sealed for super::Plain {}
    impl Sealed for super::Doubtful {}
}

/// The grade of a bare quantity.
#[derive(Debug, Clone, Copy)]
pub struct Plain;

/// The grade of a reading and of what was computed from one.
#[derive(Debug, Clone, Copy)]
pub struct Doubtful;

impl Grade for Plain {
    type Of<R: Quantity> = R;
    type And<G: Grade> = G;
    #[inline]
    fn of<R: Quantity>(value: R, _doubt: impl FnOnce() -> Doubt) -> R {
        value
    }
}

impl Grade for Doubtful {
    type Of<R: Quantity> = Measured<R>;
    type And<G: Grade> = Doubtful;
    #[inline]
    fn of<R: Quantity>(value: R, doubt: impl FnOnce() -> Doubt) -> Measured<R> {
        Measured::new(value, doubt())
    }
}

/// A result of type `R` from two inputs of grades `G` and `H`: `R` where both are plain, else `Measured<R>`.
pub type Both<G, H, R> = <<G as Grade>::And<H> as Grade>::Of<R>;

/// A result of type `R` from three inputs.
pub type All3<G, H, I, R> = <<<G as Grade>::And<H> as Grade>::And<I> as Grade>::Of<R>;

/// A result computed from two inputs, each with the exact derivative of the result by it, in SI base units.
///
/// Doubt that both share (one instrument, one reading used twice) adds up or cancels as it should.
///
/// # Source
/// JCGM 100:2008, equation 13, by keeping each source's signed amount.
#[inline]
pub fn carry_both<R, A, B, X, Y>(result: R, x: (&X, f64), y: (&Y, f64)) -> Both<X::Grade, Y::Grade, R>
where
    R: Quantity,
    A: Quantity,
    B: Quantity,
    X: Known<A>,
    Y: Known<B>,
{
    <X::Grade as Grade>::And::<Y::Grade>::of(result, || {
        let mut doubt = Doubt::none();
        x.0.add_to(&mut doubt, x.1);
        y.0.add_to(&mut doubt, y.1);
        doubt
    })
}

/// A result computed from three inputs, as [`carry_both`] from two.
#[inline]
pub fn carry_all3<R, A, B, C, X, Y, Z>(
    result: R,
    x: (&X, f64),
    y: (&Y, f64),
    z: (&Z, f64),
) -> All3<X::Grade, Y::Grade, Z::Grade, R>
where
    R: Quantity,
    A: Quantity,
    B: Quantity,
    C: Quantity,
    X: Known<A>,
    Y: Known<B>,
    Z: Known<C>,
{
    <<X::Grade as Grade>::And<Y::Grade> as Grade>::And::<Z::Grade>::of(result, || {
        let mut doubt = Doubt::none();
        x.0.add_to(&mut doubt, x.1);
        y.0.add_to(&mut doubt, y.1);
        z.0.add_to(&mut doubt, z.1);
        doubt
    })
}

impl<Q: Quantity> Known<Q> for Q {
    type Grade = Plain;
    type With<R: Quantity> = R;

    #[inline]
    fn value(&self) -> Q {
        *self
    }

    #[inline]
    fn carry<R: Quantity>(self, result: R, _derivative: f64) -> R {
        result
    }

    #[inline]
    fn add_to(&self, _doubt: &mut Doubt, _derivative: f64) {}
}

#[diagnostic::do_not_recommend]
impl<Q: Quantity> Known<Q> for Measured<Q> {
    type Grade = Doubtful;
    type With<R: Quantity> = Measured<R>;

    #[inline]
    fn value(&self) -> Q {
        Measured::value(self)
    }

    #[inline]
    fn carry<R: Quantity>(self, result: R, derivative: f64) -> Measured<R> {
        self.map(result, derivative)
    }

    #[inline]
    fn add_to(&self, doubt: &mut Doubt, derivative: f64) {
        doubt.add_scaled(self.doubt(), derivative);
    }
}

#[diagnostic::do_not_recommend]
impl<Q: Quantity> Known<Q> for &Measured<Q> {
    type Grade = Doubtful;
    type With<R: Quantity> = Measured<R>;

    #[inline]
    fn value(&self) -> Q {
        Measured::value(self)
    }

    #[inline]
    fn carry<R: Quantity>(self, result: R, derivative: f64) -> Measured<R> {
        self.clone().map(result, derivative)
    }

    #[inline]
    fn add_to(&self, doubt: &mut Doubt, derivative: f64) {
        doubt.add_scaled(self.doubt(), derivative);
    }
}
