//! Arithmetic of measured quantities, doubt carried by source.

use std::ops::{Add, Div, Mul, Neg, Sub};

use super::Measured;
use crate::quantity::{Quantity, Ratio};

impl<Q: Quantity> Sub for Measured<Q> {
    type Output = Measured<Q::Difference>;
    fn sub(self, other: Self) -> Measured<Q::Difference> {
        let difference = Q::Difference::from_base(self.value().base() - other.value().base());
        self.map(difference, 1.0).depending_on(other, -1.0)
    }
}

impl<Q: Quantity> Add<Measured<Q::Difference>> for Measured<Q> {
    type Output = Measured<Q>;
    fn add(self, step: Measured<Q::Difference>) -> Measured<Q> {
        let sum = Q::from_base(self.value().base() + step.value().base());
        self.map(sum, 1.0).depending_on(step, 1.0)
    }
}

impl<Q: Quantity<Difference = Q>> Neg for Measured<Q> {
    type Output = Measured<Q>;
    fn neg(self) -> Measured<Q> {
        let value = Q::from_base(-self.value().base());
        self.map(value, -1.0)
    }
}

impl<Q: Quantity<Difference = Q>> Mul<f64> for Measured<Q> {
    type Output = Measured<Q>;
    fn mul(self, by: f64) -> Measured<Q> {
        let value = Q::from_base(self.value().base() * by);
        self.map(value, by)
    }
}

impl<A, B> Mul<Measured<B>> for Measured<A>
where
    A: Quantity + Mul<B>,
    B: Quantity,
    A::Output: Quantity,
{
    type Output = Measured<A::Output>;
    fn mul(self, other: Measured<B>) -> Measured<A::Output> {
        let (a, b) = (self.value(), other.value());
        self.map(a * b, b.base()).depending_on(other, a.base())
    }
}

impl<A, B> Div<Measured<B>> for Measured<A>
where
    A: Quantity + Div<B>,
    B: Quantity,
    A::Output: Quantity,
{
    type Output = Measured<A::Output>;
    fn div(self, other: Measured<B>) -> Measured<A::Output> {
        let (a, b) = (self.value(), other.value());
        self.map(a / b, 1.0 / b.base()).depending_on(other, -a.base() / (b.base() * b.base()))
    }
}

impl<Q: Quantity + Div<Q, Output = f64>> Measured<Q> {
    /// This as a share of `whole`.
    #[must_use]
    pub fn share_of(self, whole: Measured<Q>) -> Measured<Ratio> {
        let (a, b) = (self.value().base(), whole.value().base());
        self.map(Ratio::from_si(a / b), 1.0 / b).depending_on(whole, -a / (b * b))
    }
}
