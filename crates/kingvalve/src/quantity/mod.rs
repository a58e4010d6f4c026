//! Quantities of the trade, each its own type.
//!
//! A quantity is made by the plural word one says after a number and read by the same word:
//! `psig(62.0)`, `.psig()`. Gauge and absolute pressure are different types, and so are a temperature and a
//! difference of temperatures; only sums that mean something compile. Each type wraps the `uom` quantity of
//! its dimension, with `From` both ways.
//!
//! Every one prints in the unit US technicians use, reads `"62 psig"`, and travels in JSON as
//! `{"value": 62.0, "unit": "psig"}` (in: also `"62 psig"`).
//!
//! # Example
//! ```
//! use kingvalve::quantity::*;
//! let rise = fahrenheit(57.5) - fahrenheit(41.0);
//! assert_eq!(format!("{rise:.1}"), "16.5 Δ°F");
//! let added: Mass = "6 lb".parse::<Mass>()? + ounces(8.0);
//! assert_eq!(added, pounds(6.5));
//! assert!("62 psig".parse::<Pressure>().is_err()); // gauge where absolute is wanted
//! # Ok::<(), kingvalve::Error>(())
//! ```

use std::fmt::{Debug, Display};

use schemars::JsonSchema;

mod bulk;
mod define;
mod electric;
mod energy;
mod factor;
mod json;
mod kind;
mod leak;
mod pressure;
mod rate;
mod ratio;
mod schema;
mod site;
mod temperature;
mod text;
mod unit;

pub use bulk::*;
pub use electric::*;
pub use energy::*;
pub(crate) use kind::Kind;
pub use leak::*;
pub use pressure::*;
pub use rate::*;
pub use ratio::*;
pub use site::*;
pub use temperature::*;
pub use unit::{InUnit, Unit};

mod sealed {
    /// Closes [`Quantity`](super::Quantity) to other crates, and holds what only this room calls.
    pub trait Sealed {
        /// What to say when a unit that belongs to a neighbouring quantity was given.
        fn mistaken(unit: &str) -> Option<String>;
    }
}

/// A quantity of this room.
///
/// # Example
/// ```
/// use kingvalve::quantity::{Mass, Quantity};
/// let symbols: Vec<_> = Mass::units().iter().map(|unit| unit.symbol).collect();
/// assert_eq!(symbols, ["lb", "oz", "kg", "g", "gr", "t"]);
/// ```
#[diagnostic::on_unimplemented(
    message = "`{Self}` is not a quantity",
    label = "give it a unit: `psig(62.0)`, `fahrenheit(88.0)`, `pounds(6.5)`"
)]
pub trait Quantity:
    Copy + Debug + Display + PartialEq + PartialOrd + JsonSchema + Send + Sync + 'static + sealed::Sealed
{
    /// What the difference of two of them is: [`TemperatureDifference`] for [`Temperature`],
    /// [`PressureDifference`] for [`Pressure`] and [`GaugePressure`], the type itself for the others.
    type Difference: Quantity<Difference = Self::Difference>;

    /// What it is called in messages: `gauge pressure`.
    const NAME: &'static str;

    /// Every unit it can be read and written in; it is printed in the first.
    fn units() -> &'static [Unit];

    /// From the SI base value (Pa, K, kg, m …): plumbing, not API.
    #[doc(hidden)]
    fn from_base(si: f64) -> Self;

    /// The SI base value: plumbing, not API.
    #[doc(hidden)]
    fn base(self) -> f64;
}
