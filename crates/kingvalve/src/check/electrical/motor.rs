//! A motor's current, its winding, its power factor.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::Result;
use crate::check::shared::called;
use crate::check::{Check, Fields};
use crate::electrical::{CompressorCurrent, Insulation, Phases, PowerFactor, corrected_to_40_celsius};
use crate::measure::{Finding, Label, Level, Reading};
use crate::quantity::{Current, ElectricPotential, Power, Resistance, Temperature};

/// A compressor's running current beside its rated-load current, which is a ceiling and no target.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Compressor {
    /// Through the common lead, a minute or more after the start.
    current: Reading<Current>,
    /// On the data plate: RLA.
    rated_load_current: Current,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

impl Check for Compressor {
    const NAME: &'static str = "compressor_current";
    const EXAMPLE: &'static str = include_str!("../examples/compressor_current.json");
    const FIELDS: Fields = &[("compressor current", "current"), ("rated-load current", "rated_load_current")];

    fn find(self) -> Result<Finding> {
        let current = called(self.current, "ammeter");
        CompressorCurrent::of(&current, self.rated_load_current, self.level)?.finding()
    }
}

/// The resistance from winding to ground against a threshold somebody named.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Winding {
    /// Power locked out, electronics disconnected, never in vacuum.
    resistance: Reading<Resistance>,
    /// The winding's temperature, where the threshold is for 40 °C: the reading is then brought to it.
    #[serde(default)]
    winding_temperature: Option<Reading<Temperature>>,
    /// The least it should be: its maker's, or the shop's.
    at_least: Resistance,
    /// Whose threshold that is.
    threshold_from: Label,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

impl Check for Winding {
    const NAME: &'static str = "insulation_resistance";
    const EXAMPLE: &'static str = include_str!("../examples/insulation_resistance.json");
    const FIELDS: Fields = &[("threshold", "at_least"), ("insulation resistance", "resistance")];

    fn find(self) -> Result<Finding> {
        let read = called(self.resistance, "insulation tester");
        match self.winding_temperature {
            None => Insulation::of(&read, self.at_least, self.threshold_from, self.level)?.finding(),
            Some(temperature) => {
                let temperature = called(temperature, "winding thermometer");
                let at_40 = corrected_to_40_celsius(&read, &temperature)
                    .map_err(|error| error.in_field("winding_temperature"))?;
                let found = Insulation::of(&at_40, self.at_least, self.threshold_from, self.level)?;
                Ok(found
                    .finding()?
                    .saying("The reading was brought to 40 °C, by halves for each 10 K of warmth.")
                    .source("IEEE 43: halves for every 10 K of warmth, from memory"))
            }
        }
    }
}

/// A power factor from a wattmeter beside voltmeter and ammeter.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Factor {
    /// Real power.
    power: Reading<Power>,
    /// Between conductors.
    voltage: Reading<ElectricPotential>,
    /// Of one conductor.
    current: Reading<Current>,
    /// Of the circuit.
    phases: Phases,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

impl Check for Factor {
    const NAME: &'static str = "power_factor";
    const EXAMPLE: &'static str = include_str!("../examples/power_factor.json");
    const FIELDS: Fields = &[("voltage ", "voltage"), ("current ", "current"), ("power ", "power")];

    fn find(self) -> Result<Finding> {
        let power = called(self.power, "wattmeter");
        let (voltage, current) = (called(self.voltage, "voltmeter"), called(self.current, "ammeter"));
        PowerFactor::of(&power, &voltage, &current, self.phases, self.level)?.finding()
    }
}
