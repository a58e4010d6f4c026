//! What each way forward is expected to cost over years.
//!
//! A [`Prospect`] holds what is known: prices, how fast it leaks, how likely a sealant or a repair is to hold, how old the
//! equipment is. [`Prospect::outlook`] solves the decision tree exactly and draws the spread from the same tree with a
//! seed. Every chance is an input with a named default and can be [learned](Chances::learned) from a shop's own records;
//! [`Prospect::assumptions`] lists them with what each rests on.
//!
//! What comes out is an expectation, never a price: [`ExpectedCost`] says so wherever it is printed.

mod assumptions;
mod belief;
mod break_even;
mod chances;
mod cost;
mod failure;
mod flows;
mod leak;
mod node;
mod prices;
mod prospect;
mod report;
mod told;
mod tree;

pub(crate) use assumptions::usual_age;
pub use assumptions::{Assumed, Assumption, Basis};
pub use belief::{Chance, Places};
pub use break_even::{SearchValue, WhatWouldChange};
pub use chances::{Chances, ShopRecords, Tried};
pub use cost::ExpectedCost;
pub use failure::{Aging, FailureRecords};
pub use leak::LeakRange;
pub(crate) use prices::{INDOOR_COIL_SHARE, OUTDOOR_UNIT_SHARE};
pub use prices::{LeakPlace, PlacePrices, Prices};
pub use prospect::{EnergyUse, Habits, Prospect};
pub use report::{Forward, Outlook, WayOutlook};
pub(in crate::estimate) use told::Teller;
