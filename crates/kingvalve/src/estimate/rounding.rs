//! Rounding by name, and products that lose no digit before they are rounded.

use rust_decimal::{Decimal, RoundingStrategy};
use serde::{Deserialize, Serialize};

/// What happens to the part of an amount that is smaller than the currency's minor unit.
///
/// # Source
/// Where each is the rule: [`HalfUp`](Self::HalfUp) Streamlined Sales and Use Tax Agreement § 324 (as in N.D. Cent. Code
/// 57-39.4-25) and A New Tax System (Goods and Services Tax) Act 1999 (Australia) s 9-90; [`HalfDown`](Self::HalfDown)
/// Goods and Services Tax Act 1985 (New Zealand) s 19O; [`Down`](Self::Down) VAT Notice 700 (United Kingdom) 17.5, total
/// of an invoice; [`HalfEven`](Self::HalfEven) IEEE 754-2019 § 4.3.1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Rounding {
    /// To the nearest; a half goes away from zero.
    HalfUp,
    /// To the nearest; a half goes toward zero.
    HalfDown,
    /// To the nearest; a half goes to the even digit ("banker's").
    HalfEven,
    /// Away from zero: any part of a cent counts as a cent.
    Up,
    /// Toward zero: any part of a cent is dropped.
    Down,
}

impl Rounding {
    /// Every rule, for tables and tests.
    pub const ALL: [Self; 5] = [Self::HalfUp, Self::HalfDown, Self::HalfEven, Self::Up, Self::Down];

    /// `value` kept to `places` decimal places.
    ///
    /// # Units
    /// None: a decimal number in, the same unit out.
    ///
    /// # Source
    /// The definitions above.
    ///
    /// # Valid range
    /// Every decimal.
    ///
    /// # Accuracy
    /// Exact by the rule; off the value by at most half a unit of the last place, less than one for `Up` and `Down`.
    ///
    /// # Errors
    /// None.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::{Decimal, Rounding};
    /// let half = Decimal::new(2_125, 3);
    /// assert_eq!(Rounding::HalfUp.to_places(half, 2), Decimal::new(213, 2));
    /// assert_eq!(Rounding::HalfEven.to_places(half, 2), Decimal::new(212, 2));
    /// ```
    pub fn to_places(self, value: Decimal, places: u32) -> Decimal {
        value.round_dp_with_strategy(places, self.strategy()).normalize()
    }

    fn strategy(self) -> RoundingStrategy {
        match self {
            Self::HalfUp => RoundingStrategy::MidpointAwayFromZero,
            Self::HalfDown => RoundingStrategy::MidpointTowardZero,
            Self::HalfEven => RoundingStrategy::MidpointNearestEven,
            Self::Up => RoundingStrategy::AwayFromZero,
            Self::Down => RoundingStrategy::ToZero,
        }
    }
}

/// The product with every digit, or `None` where 28 digits do not hold it.
///
/// `Decimal`'s own multiplication rounds silently there, and a rounded product rounded again can be a cent off.
pub(super) fn exact_product(a: Decimal, b: Decimal) -> Option<Decimal> {
    let (a, b) = (a.normalize(), b.normalize());
    let mantissa = a.mantissa().checked_mul(b.mantissa())?;
    Decimal::try_from_i128_with_scale(mantissa, a.scale() + b.scale()).ok()
}

/// `dividend ÷ divisor` kept to `places` by a rule, from integers: the remainder decides, not a quotient already cut off.
/// `None` where the divisor is zero or the digits do not fit.
pub(super) fn rounded_quotient(
    rounding: Rounding,
    dividend: Decimal,
    divisor: Decimal,
    places: u32,
) -> Option<Decimal> {
    let (dividend, divisor) = (dividend.normalize(), divisor.normalize());
    let (raise, lower) = (places + divisor.scale(), dividend.scale());
    let power = |exponent: u32| 10_i128.checked_pow(exponent);
    let above = dividend.mantissa().checked_mul(power(raise.saturating_sub(lower))?)?;
    let below = divisor.mantissa().checked_mul(power(lower.saturating_sub(raise))?)?;
    let (quotient, remainder) = (above.checked_div(below)?, above.checked_rem(below)?);
    let sign = above.signum() * below.signum();
    let (rest, whole) = (remainder.unsigned_abs(), below.unsigned_abs());
    let half = rest.cmp(&(whole - rest));
    let away = match rounding {
        Rounding::Up => rest != 0,
        Rounding::Down => false,
        Rounding::HalfUp => half.is_ge(),
        Rounding::HalfDown => half.is_gt(),
        Rounding::HalfEven => half.is_gt() || (half.is_eq() && quotient % 2 != 0),
    };
    let quotient = if away { quotient.checked_add(sign)? } else { quotient };
    Decimal::try_from_i128_with_scale(quotient, places).ok().map(|rounded| rounded.normalize())
}
