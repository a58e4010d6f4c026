//! The units in which a sheet is printed.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Language;
use crate::measure::{Interval, Told};
use crate::quantity::{Quantity, Unit};

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
const SI: [&str; 11] = ["kg", "kPag", "kPa", "°C", "Δ°C", "m", "L", "kW", "m³/h", "m/s", "kg/yr"];
/// Units of the other column, where the first of a quantity's units is not the one for a sheet.
const US: [&str; 1] = ["lb/yr"];
/// Decimal places by unit: as fine as instruments of the trade read. Common practice, no source.
const PLACES: [(&str, usize); 15] = [
    ("lb", 2),
    ("kg", 2),
    ("µF", 2),
    ("kPag", 0),
    ("kPa", 0),
    ("V", 0),
    ("cfm", 0),
    ("m³/h", 0),
    ("Btu/h", 0),
    ("kW", 2),
    ("microns", 0),
    ("%", 1),
    ("A", 2),
    ("lb/yr", 2),
    ("kg/yr", 2),
];
/// Units in which numbers are written with their power of ten.
const POWERS: [&str; 1] = ["Pa·m³/s"];
/// Below so many seconds a time is not printed in minutes.
const SHORT: f64 = 120.0;

/// A unit as it is printed: its symbol, and how a number in base units becomes digits.
#[derive(Clone, Copy)]
pub(super) struct Printed {
    pub symbol: &'static str,
    factor: f64,
    offset: f64,
    places: usize,
}

impl Printed {
    /// How many of the unit a number in base units is.
    pub fn number(self, base: f64) -> f64 {
        base / self.factor - self.offset
    }

    /// How many of the unit a difference in base units is.
    pub fn number_of_difference(self, base: f64) -> f64 {
        base / self.factor
    }

    pub fn digits(self, base: f64) -> String {
        self.written(self.number(base))
    }

    pub fn text(self, base: f64) -> String {
        format!("{} {}", self.digits(base), self.symbol)
    }

    /// A value and its doubt: `10.8 ± 1.8 °F`.
    pub fn doubtful(self, base: f64, doubt: f64) -> String {
        format!("{} ± {} {}", self.digits(base), self.written(self.number_of_difference(doubt)), self.symbol)
    }

    fn written(self, number: f64) -> String {
        if POWERS.contains(&self.symbol) {
            return format!("{number:.1e}");
        }
        let text = format!("{number:.*}", self.places);
        if text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.') {
            return text.trim_start_matches('-').to_owned();
        }
        text
    }
}

impl UnitSystem {
    /// A quantity with its unit, to the places that instruments of the trade read.
    pub fn text<Q: Quantity>(self, q: Q) -> String {
        self.printed(Q::units()).text(q.base())
    }

    /// From one to the other: `4.1 to 6.5 lb`.
    pub fn range<Q: Quantity>(self, range: Interval<Q>, language: Language) -> String {
        let high = format!("{} {}", self.coarse(range.high()), self.printed(Q::units()).symbol);
        language.visit("to", &[("low", &self.coarse(range.low())), ("high", &high)])
    }

    /// To the places of what is only known between two ends: not to a hundredth of a pound.
    pub(super) fn coarse<Q: Quantity>(self, q: Q) -> String {
        let printed = self.printed(Q::units());
        match printed.symbol {
            "lb" => format!("{:.1}", printed.number(q.base())),
            _ => printed.digits(q.base()),
        }
    }

    /// The unit of a quantity in this system; a temperature difference is printed in °F like a temperature.
    pub(super) fn printed(self, units: &'static [Unit]) -> Printed {
        let wanted: &[&str] = if self == Self::Si { &SI } else { &US };
        let unit = units.iter().find(|unit| wanted.contains(&unit.symbol)).or(units.first());
        Self::in_unit(unit)
    }

    /// A value of a finding: with its doubt, where it has one.
    pub(crate) fn told(self, told: &Told) -> String {
        let seconds = || told.units.iter().find(|unit| unit.symbol == "s");
        let is_time = told.units.iter().any(|unit| unit.symbol == "min");
        let printed = match is_time && told.value.abs() < SHORT {
            true => Self::in_unit(seconds()),
            false => self.printed(told.units),
        };
        match told.doubt.filter(|doubt| *doubt > 0.0) {
            Some(doubt) => printed.doubtful(told.value, doubt),
            None => printed.text(told.value),
        }
    }

    fn in_unit(unit: Option<&'static Unit>) -> Printed {
        let (symbol, factor, offset) = unit
            .map_or(("", 1.0, 0.0), |unit| (unit.symbol.trim_start_matches('Δ'), unit.factor, unit.offset));
        let places = PLACES.iter().find(|(known, _)| *known == symbol).map_or(1, |(_, places)| *places);
        Printed { symbol, factor, offset, places }
    }
}
