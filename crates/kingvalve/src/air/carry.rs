//! Carrying doubt through results of more inputs than the measuring room's helpers take.

use crate::measure::{Doubt, Doubtful, Grade, Known, Measured};
use crate::quantity::Quantity;

/// The grade of a result that depends on both.
pub(super) type Of2<A, B> = <A as Grade>::And<B>;
/// The grade of a result that depends on all three.
pub(super) type Of3<A, B, C> = <Of2<A, B> as Grade>::And<C>;

/// The doubt of a result under construction: what it depends on, each with its derivative in SI base units.
pub(super) struct Carried(Doubt);

impl Carried {
    pub(super) fn by<Q: Quantity>(mut self, input: &impl Known<Q>, derivative: f64) -> Self {
        input.add_to(&mut self.0, derivative);
        self
    }
}

/// A result of grade `G` with what it depends on, which is asked for only where doubt is kept.
#[inline]
pub(super) fn carried<G: Grade, R: Quantity>(
    result: R,
    depends: impl FnOnce(Carried) -> Carried,
) -> G::Of<R> {
    G::of(result, || depends(Carried(Doubt::none())).0)
}

/// What is known, with whatever doubt it has.
pub(super) fn measured<Q: Quantity>(known: &impl Known<Q>) -> Measured<Q> {
    carried::<Doubtful, Q>(known.value(), |doubt| doubt.by(known, 1.0))
}
