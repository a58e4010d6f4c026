//! `leak_size`.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::check::shared::{called, refrigerant};
use crate::check::{Check, Fields};
use crate::measure::{Finding, Reading};
use crate::quantity::{Pressure, Temperature, Throughput};
use crate::refrigerant::Refrigerant;
use crate::tightness::{Flow, Leak, LeakGas};
use crate::{Error, Result};

/// What a leak found with one gas would pass of a refrigerant, in throughput and in mass a year.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Size {
    /// As it was found.
    leak: Reading<Throughput>,
    /// With what: "nitrogen", "helium", "hydrogen", "air" or a refrigerant.
    gas: String,
    /// Absolute pressure inside when it was found.
    inside: Pressure,
    /// Absolute pressure outside.
    outside: Pressure,
    /// Of the gas in the leak.
    temperature: Temperature,
    /// What is to stay inside: "R-454B".
    refrigerant: String,
    /// Its absolute pressure.
    refrigerant_inside: Pressure,
    /// How gas flows through the leak; viscous where it is left out.
    #[serde(default)]
    flow: Flow,
}

impl Check for Size {
    const NAME: &'static str = "leak_size";
    const EXAMPLE: &'static str = include_str!("../examples/leak_size.json");
    const FIELDS: Fields = &[
        ("absolute pressure inside", "inside"),
        ("absolute pressure outside", "outside"),
        ("leak ", "leak"),
        ("temperature of the leak", "temperature"),
    ];

    fn find(self) -> Result<Finding> {
        let found = called(self.leak, "leak detector").measured();
        let gas = gas(&self.gas).map_err(|error| error.in_field("gas"))?;
        let leak = Leak::new(found, gas, self.inside, self.outside, self.temperature)?;
        let refrigerant = refrigerant(&self.refrigerant)?;
        let inside = LeakGas::of(&refrigerant);
        let size = leak.of_gas(&inside, self.refrigerant_inside, self.outside, self.flow);
        let size = size.map_err(|error| error.in_field("refrigerant_inside"))?;
        Ok(refrigerant.cautioned(size.finding()?))
    }
}

fn gas(name: &str) -> Result<LeakGas> {
    const TEST_GASES: [&str; 4] = ["nitrogen", "helium", "hydrogen", "air"];
    match name.trim().to_ascii_lowercase().as_str() {
        "nitrogen" => return Ok(LeakGas::nitrogen()),
        "helium" => return Ok(LeakGas::helium()),
        "hydrogen" => return Ok(LeakGas::hydrogen()),
        "air" => return Ok(LeakGas::air()),
        _ => {}
    }
    let looks_designated = name.trim_start().starts_with(['R', 'r']);
    match Refrigerant::named(name) {
        Ok(refrigerant) => Ok(LeakGas::of(&refrigerant)),
        Err(error) if looks_designated => Err(error),
        Err(_) => Err(Error::unknown("test gas", name, TEST_GASES)),
    }
}
