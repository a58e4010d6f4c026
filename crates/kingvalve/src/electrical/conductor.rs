//! Building wire by gauge.

use std::fmt;
use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Length, Resistance, Temperature, celsius, feet, ohms};
use crate::{Error, Result};

/// What a conductor is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Metal {
    /// Uncoated copper.
    #[default]
    Copper,
    /// Aluminium.
    Aluminum,
}

/// Solid or stranded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Stranding {
    /// One wire. Building wire is sold so up to 8 AWG.
    Solid,
    /// Several.
    #[default]
    Stranded,
}

/// A gauge from 14 AWG to 4/0 AWG, read from and written as that text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct WireSize(usize);

impl JsonSchema for WireSize {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "WireSize".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "description": "A gauge: \"12\", \"12 AWG\", \"2/0 AWG\".",
            "type": "string",
            "examples": ["12 AWG", "2/0 AWG"],
        })
    }
}

/// One gauge of NEC chapter 9, table 8: area in circular mils, direct-current resistance at 75 °C in Ω/1000 ft.
struct Row {
    gauge: &'static str,
    circular_mils: u32,
    copper_solid: Option<f64>,
    copper_stranded: f64,
    aluminum_stranded: f64,
}

const fn row(gauge: &'static str, mils: u32, solid: Option<f64>, stranded: f64, aluminum: f64) -> Row {
    Row {
        gauge,
        circular_mils: mils,
        copper_solid: solid,
        copper_stranded: stranded,
        aluminum_stranded: aluminum,
    }
}

/// NEC chapter 9, table 8. Copper solid 14 to 8 AWG, stranded from 6 AWG, areas to 4 AWG: as reprinted in general
/// references. Copper stranded 14 to 8 AWG, areas from 3 AWG, all aluminium: from memory.
#[allow(clippy::approx_constant, reason = "3.14 Ω/1000 ft is a resistance")]
const TABLE: [Row; 13] = [
    row("14", 4110, Some(3.07), 3.14, 5.17),
    row("12", 6530, Some(1.93), 1.98, 3.25),
    row("10", 10_380, Some(1.21), 1.24, 2.04),
    row("8", 16_510, Some(0.764), 0.778, 1.28),
    row("6", 26_240, None, 0.491, 0.808),
    row("4", 41_740, None, 0.308, 0.508),
    row("3", 52_620, None, 0.245, 0.403),
    row("2", 66_360, None, 0.194, 0.319),
    row("1", 83_690, None, 0.154, 0.253),
    row("1/0", 105_600, None, 0.122, 0.201),
    row("2/0", 133_100, None, 0.0967, 0.159),
    row("3/0", 167_800, None, 0.0766, 0.126),
    row("4/0", 211_600, None, 0.0608, 0.100),
];

impl WireSize {
    /// Its cross-section in circular mils (NEC chapter 9, table 8).
    pub fn circular_mils(self) -> u32 {
        self.row().map_or(0, |row| row.circular_mils)
    }

    fn row(self) -> Option<&'static Row> {
        TABLE.get(self.0)
    }
}

impl FromStr for WireSize {
    type Err = Error;

    /// `12`, `12 AWG`, `#12`, `2/0 AWG`.
    fn from_str(text: &str) -> Result<WireSize> {
        let bare = text.trim().trim_start_matches('#').trim_end_matches("AWG").trim_end_matches("awg").trim();
        let known = || TABLE.iter().map(|row| row.gauge);
        known().position(|gauge| gauge == bare).map(WireSize).ok_or_else(|| {
            Error::unreadable(
                "wire size",
                text,
                "sizes known are 14, 12, 10, 8, 6, 4, 3, 2, 1, 1/0, 2/0, 3/0, 4/0 AWG",
            )
        })
    }
}

impl fmt::Display for WireSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} AWG", self.row().map_or("", |row| row.gauge))
    }
}

impl TryFrom<String> for WireSize {
    type Error = Error;
    fn try_from(text: String) -> Result<WireSize> {
        text.parse()
    }
}

impl From<WireSize> for String {
    fn from(size: WireSize) -> String {
        size.to_string()
    }
}

/// A conductor.
///
/// # Example
/// ```
/// use kingvalve::electrical::Conductor;
/// use kingvalve::quantity::*;
/// let wire = Conductor::copper("12 AWG".parse()?);
/// assert_eq!(format!("{:.3}", wire.resistance(feet(100.0))?), "0.198 Ω");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Conductor {
    /// Its gauge: "12 AWG".
    size: WireSize,
    /// Copper where left out.
    #[serde(default)]
    metal: Metal,
    /// Stranded where left out.
    #[serde(default)]
    stranding: Stranding,
}

/// Temperatures at which the table's correction is believed. Common practice, no source.
const TEMPERATURES: (Temperature, Temperature) = (celsius(-40.0), celsius(105.0));

impl Conductor {
    /// Stranded copper.
    pub const fn copper(size: WireSize) -> Conductor {
        Conductor { size, metal: Metal::Copper, stranding: Stranding::Stranded }
    }

    /// Stranded aluminium.
    pub const fn aluminum(size: WireSize) -> Conductor {
        Conductor { size, metal: Metal::Aluminum, stranding: Stranding::Stranded }
    }

    /// The same, solid.
    #[must_use]
    pub const fn solid(mut self) -> Conductor {
        self.stranding = Stranding::Solid;
        self
    }

    /// Its gauge.
    pub fn size(&self) -> WireSize {
        self.size
    }

    /// The resistance of a length of it at 75 °C.
    ///
    /// # Units
    /// Any length, one way.
    /// # Source
    /// NEC chapter 9, table 8 (direct current, uncoated copper or aluminium).
    /// # Valid range
    /// 14 AWG to 4/0 AWG; solid copper to 8 AWG. At mains frequency the table for alternating current (table 9) differs
    /// little up to about 1/0 AWG.
    /// # Accuracy
    /// The table's three digits.
    /// # Errors
    /// A kind that is not in the table, a length that is not above zero and finite.
    /// # Example
    /// See [`Conductor`].
    pub fn resistance(&self, length: Length) -> Result<Resistance> {
        if !(length > feet(0.0) && length.is_finite()) {
            return Err(Error::out_of_range(
                "length of wire",
                length,
                "it must be above zero and finite",
                "give the length one way, from the panel to the unit",
            ));
        }
        let per_thousand = self.size.row().and_then(|row| match (self.metal, self.stranding) {
            (Metal::Copper, Stranding::Stranded) => Some(row.copper_stranded),
            (Metal::Copper, Stranding::Solid) => row.copper_solid,
            (Metal::Aluminum, Stranding::Stranded) => Some(row.aluminum_stranded),
            (Metal::Aluminum, Stranding::Solid) => None,
        });
        per_thousand.map(|r| ohms(r * (length / feet(1000.0)))).ok_or_else(|| {
            Error::inconsistent(
                "conductor",
                format!("{self} is not in the table"),
                "solid is listed for copper up to 8 AWG; choose stranded",
            )
        })
    }

    /// The resistance of a length of it at another temperature.
    ///
    /// # Source
    /// NEC chapter 9, table 8, note 2: R₂ = R₁·(1 + α·(T₂ − 75 °C)), α = 0.00323 for copper, 0.00330 for aluminium.
    /// # Valid range
    /// −40 °C to 105 °C, of the conductor itself.
    /// # Accuracy
    /// As [`resistance`](Self::resistance).
    /// # Errors
    /// As [`resistance`](Self::resistance), and a temperature outside the range.
    /// # Example
    /// ```
    /// use kingvalve::electrical::Conductor;
    /// use kingvalve::quantity::*;
    /// let wire = Conductor::copper("12".parse()?);
    /// assert!(wire.resistance_at(feet(100.0), celsius(30.0))? < wire.resistance(feet(100.0))?);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn resistance_at(&self, length: Length, temperature: Temperature) -> Result<Resistance> {
        let (low, high) = TEMPERATURES;
        if !(temperature >= low && temperature <= high) {
            return Err(Error::out_of_range(
                "temperature of the wire",
                temperature,
                "the correction is for -40 °C to 105 °C",
                "give the temperature of the conductor itself",
            ));
        }
        let alpha = match self.metal {
            Metal::Copper => 0.003_23,
            Metal::Aluminum => 0.003_30,
        };
        Ok(self.resistance(length)? * (1.0 + alpha * (temperature.celsius() - 75.0)))
    }
}

impl fmt::Display for Conductor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let stranding = match self.stranding {
            Stranding::Solid => "solid",
            Stranding::Stranded => "stranded",
        };
        let metal = match self.metal {
            Metal::Copper => "copper",
            Metal::Aluminum => "aluminum",
        };
        write!(f, "{} {stranding} {metal}", self.size)
    }
}
