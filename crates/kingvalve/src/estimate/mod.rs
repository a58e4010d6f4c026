//! What each way forward costs.
//!
//! From a rate card, the pounds that are missing and the hours that work takes to priced ways forward, and to the page a
//! customer reads and signs:
//!
//! | step | value |
//! |---|---|
//! | what the shop charges | [`RateCard`], from JSON |
//! | what the visit found | [`Situation`]: refrigerant, pounds missing as an interval, the replacement that fits |
//! | ways forward | [`Way`]: five built in by [`Situation::ways`], a shop's own as data ([`ShopWay`]); [`Addition`] for what is done besides |
//! | their price | [`PricedWay`] by [`Way::price`]: lines, discounts, taxes, a total that is their sum to the cent |
//! | where it likely falls | [`LikelyPrice`] by [`Way::likely`]: simulated, and labelled as such |
//! | over the years | [`outlook`]: what each way is expected to cost, a statistic and not a price |
//! | the pages | [`OptionsSheet`], [`OutlookSheet`], [`WorkReport`], [`Invoice`]: one printed page each as HTML, the same as text and Markdown |
//!
//! Money is decimal from the rate card to the total. A measured quantity becomes decimal once, where it is billed.
//! Prices are ranges because pounds and hours are: the low end has every line at its least, the high end at its most.

mod billing;
mod currency;
mod discounted;
mod language;
mod likely;
mod line;
mod money;
mod option;
pub mod outlook;
mod percent;
mod price;
mod range;
mod rates;
mod rounding;
mod schema;
mod sheet;
mod units;
mod ways;
mod work;

pub use rust_decimal::Decimal;

pub use billing::{BilledQuantity, BilledUnit, BillingStep, Count, Step};
pub use currency::Currency;
pub use language::Language;
pub(crate) use language::{CheckStrings, filled, places};
pub use likely::LikelyPrice;
pub use line::{DiscountLine, Line, LineKind, TaxLine};
pub use money::Money;
pub use option::{PricedWay, Together, Way, Words};
pub use percent::Percent;
pub use range::PriceRange;
pub use rates::{
    Deposit, Discount, MemberDiscount, Membership, Off, RateCard, RefrigerantRate, Tax, TaxBasis, Uplift,
    WeightUnit,
};
pub use rounding::Rounding;
pub use sheet::{
    Consent, Fact, Invoice, OptionsSheet, OutlookSheet, Paper, Payment, ReadingRow, Templates, WorkReport,
};
pub use units::UnitSystem;
pub use ways::{Addition, After, CardNames, ShopWay, Situation, WorkHours};
pub use work::{Charge, Item, Task, Work};
