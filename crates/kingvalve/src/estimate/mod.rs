//! What each way forward costs.

mod billing;
mod currency;
mod json;
mod line;
mod money;
mod percent;
mod range;
mod rates;
mod rounding;

pub use rust_decimal::Decimal;

pub use billing::{BilledQuantity, BilledUnit, BillingStep, Count, Step};
pub use currency::Currency;
pub use line::{Line, LineKind, TaxLine};
pub use money::Money;
pub use percent::Percent;
pub use range::PriceRange;
pub use rates::{RateCard, RefrigerantRate, Tax, TaxBasis, Uplift, WeightUnit};
pub use rounding::Rounding;
