//! The supply: its sag and its unbalance.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::Result;
use crate::check::shared::{called, on_one};
use crate::check::{Check, Fields};
use crate::electrical::{Supply, UNBALANCE_LIMIT, Unbalance};
use crate::measure::{Finding, Level, Reading};
use crate::quantity::{ElectricPotential, Ratio};

/// How far the supply voltage sags from idle to running or starting, and whether it suits the data plate.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Sagging {
    /// As the data plate asks for it.
    supply: Supply,
    /// At the unit's line terminals, the unit off.
    idle: Reading<ElectricPotential>,
    /// At the same terminals under load; at a start the lowest, as a meter's minimum hold caught it.
    under_load: Reading<ElectricPotential>,
    /// What load.
    #[serde(default)]
    moment: Moment,
    /// Whether one voltmeter took both readings: its percentage error then cancels.
    #[serde(default)]
    one_voltmeter: bool,
}

/// What the supply carries.
#[derive(Debug, Clone, Copy, Default, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Moment {
    /// The unit runs.
    #[default]
    Running,
    /// The compressor starts.
    Starting,
}

impl Check for Sagging {
    const NAME: &'static str = "supply_sag";
    const EXAMPLE: &'static str = include_str!("../examples/supply_sag.json");
    const FIELDS: Fields = &[("idle voltage", "idle"), ("voltage under load", "under_load")];

    fn find(self) -> Result<Finding> {
        let loaded = on_one(self.one_voltmeter, &self.idle, self.under_load)
            .map_err(|error| error.in_field("under_load"))?;
        let (idle, loaded) = (called(self.idle, "idle voltage"), called(loaded, "voltage under load"));
        match self.moment {
            Moment::Running => self.supply.running(&idle, &loaded)?.finding(),
            Moment::Starting => self.supply.starting(&idle, &loaded)?.finding(),
        }
    }
}

/// Unbalance of three voltages between phases, by NEMA MG 1, with the derating it asks for.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Unbalanced {
    /// Between phases 1 and 2.
    voltage_12: Reading<ElectricPotential>,
    /// Between phases 2 and 3.
    voltage_23: Reading<ElectricPotential>,
    /// Between phases 3 and 1.
    voltage_31: Reading<ElectricPotential>,
    /// Whether one voltmeter took all three: its percentage error then cancels.
    #[serde(default)]
    one_voltmeter: bool,
    /// The most allowed; 1 % where it is left out.
    #[serde(default = "no_derating")]
    limit: Ratio,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

fn no_derating() -> Ratio {
    UNBALANCE_LIMIT
}

impl Check for Unbalanced {
    const NAME: &'static str = "voltage_unbalance";
    const EXAMPLE: &'static str = include_str!("../examples/voltage_unbalance.json");
    const FIELDS: Fields =
        &[("voltage 1-2", "voltage_12"), ("voltage 2-3", "voltage_23"), ("voltage 3-1", "voltage_31")];

    fn find(self) -> Result<Finding> {
        let one = |other, field| {
            on_one(self.one_voltmeter, &self.voltage_12, other).map_err(|error| error.in_field(field))
        };
        let (b, c) = (one(self.voltage_23, "voltage_23")?, one(self.voltage_31, "voltage_31")?);
        let a = called(self.voltage_12, "voltage 1-2");
        let (b, c) = (called(b, "voltage 2-3"), called(c, "voltage 3-1"));
        Unbalance::against(self.limit, &a, &b, &c, self.level)?.finding()
    }
}
