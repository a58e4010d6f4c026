//! The units in which a sheet is printed.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Language;
use crate::measure::Interval;
use crate::quantity::Quantity;

/// The units in which a sheet is printed: pounds and °F, or kilograms and °C.
///
/// # Example
/// ```
/// use kingvalve::estimate::UnitSystem;
/// use kingvalve::quantity::{fahrenheit, pounds};
/// assert_eq!(UnitSystem::Us.text(pounds(6.5)), "6.50 lb");
/// assert_eq!(UnitSystem::Si.text(pounds(6.5)), "2.95 kg");
/// assert_eq!(UnitSystem::Si.text(fahrenheit(50.0)), "10.0 °C");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum UnitSystem {
    /// Pounds, psig, °F.
    #[default]
    Us,
    /// Kilograms, kPa by the gauge, °C.
    Si,
}

/// Units of the SI column, where a quantity is not printed in them anyway.
const SI: [&str; 6] = ["kg", "kPag", "kPa", "°C", "Δ°C", "m"];
/// Decimal places by unit: as fine as instruments of the trade read. Common practice, no source.
const PLACES: [(&str, usize); 6] = [("lb", 2), ("kg", 2), ("µF", 2), ("kPag", 0), ("kPa", 0), ("V", 0)];

impl UnitSystem {
    /// A quantity with its unit, to the places that instruments of the trade read.
    pub fn text<Q: Quantity>(self, q: Q) -> String {
        format!("{} {}", self.digits(q), self.symbol::<Q>())
    }

    /// From one to the other: `4.1 to 6.5 lb`.
    pub fn range<Q: Quantity>(self, range: Interval<Q>, language: Language) -> String {
        let high = format!("{} {}", self.coarse(range.high()), self.symbol::<Q>());
        language.visit("to", &[("low", &self.coarse(range.low())), ("high", &high)])
    }

    /// To the places of what is only known between two ends: not to a hundredth of a pound.
    pub(super) fn coarse<Q: Quantity>(self, q: Q) -> String {
        match self.symbol::<Q>() {
            "lb" => format!("{:.1}", self.number(q)),
            _ => self.digits(q),
        }
    }

    /// A value and its doubt: `10.8 ± 1.8 °F`.
    pub(crate) fn doubtful<Q: Quantity>(self, value: Q, doubt: Q::Difference) -> String {
        let (half, places) = (self.number_of_difference::<Q>(doubt), self.places::<Q>());
        format!("{} ± {half:.places$} {}", self.digits(value), self.symbol::<Q>())
    }

    pub(super) fn digits<Q: Quantity>(self, q: Q) -> String {
        let (number, places) = (self.number(q), self.places::<Q>());
        let text = format!("{number:.places$}");
        if text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.') {
            return text.trim_start_matches('-').to_owned();
        }
        text
    }

    /// How many of its unit a quantity is.
    pub(super) fn number<Q: Quantity>(self, q: Q) -> f64 {
        let (_, factor, offset) = self.unit::<Q>();
        q.base() / factor - offset
    }

    /// How many of `Q`'s unit a difference of two of them is.
    pub(super) fn number_of_difference<Q: Quantity>(self, difference: Q::Difference) -> f64 {
        difference.base() / self.unit::<Q>().1
    }

    /// The unit's symbol; a temperature difference is printed in °F like a temperature.
    pub(super) fn symbol<Q: Quantity>(self) -> &'static str {
        self.unit::<Q>().0.trim_start_matches('Δ')
    }

    fn places<Q: Quantity>(self) -> usize {
        let symbol = self.symbol::<Q>();
        PLACES.iter().find(|(known, _)| *known == symbol).map_or(1, |(_, places)| *places)
    }

    fn unit<Q: Quantity>(self) -> (&'static str, f64, f64) {
        let units = Q::units();
        let si = units.iter().find(|unit| SI.contains(&unit.symbol));
        let unit = if self == Self::Si { si.or(units.first()) } else { units.first() };
        unit.map_or(("", 1.0, 0.0), |unit| (unit.symbol, unit.factor, unit.offset))
    }
}
