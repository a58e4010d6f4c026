//! What each way forward costs.
//!
//! From a rate card, the pounds that are missing and the hours that work takes to priced ways forward, and to the page a
//! customer reads and signs:
//!
//! | step | value |
//! |---|---|
//! | what the shop charges | [`RateCard`], from JSON |
//! | what the visit found | [`Situation`]: refrigerant, pounds missing as an interval, the replacement that fits |
//! | ways forward | [`Way`]: five built in by [`Situation::ways`], any other as data; [`Way::also`] adds chosen work |
//! | their price | [`PricedWay`] by [`Way::price`]: lines, taxes, a total that is their sum to the cent |
//! | the page | [`OptionsSheet`]: one printed page as HTML, the same as text |
//!
//! Money is decimal from the rate card to the total. A measured quantity becomes decimal once, where it is billed.
//! Prices are ranges because pounds and hours are: the low end has every line at its least, the high end at its most.

mod billing;
mod currency;
mod line;
mod money;
mod option;
mod percent;
mod price;
mod range;
mod rates;
mod rounding;
mod sheet;
mod ways;
mod words;
mod work;

pub use rust_decimal::Decimal;

pub use billing::{BilledQuantity, BilledUnit, BillingStep, Count, Step};
pub use currency::Currency;
pub use line::{Line, LineKind, TaxLine};
pub use money::Money;
pub use option::{PricedWay, Way, Words};
pub use percent::Percent;
pub use range::PriceRange;
pub use rates::{RateCard, RefrigerantRate, Tax, TaxBasis, Uplift, WeightUnit};
pub use rounding::Rounding;
pub use sheet::{Consent, Fact, OptionsSheet, Paper};
pub use ways::{CardNames, Situation, WorkHours};
pub use work::{Charge, Item, Task, Work};
