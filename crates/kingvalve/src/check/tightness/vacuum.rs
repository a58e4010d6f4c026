//! `vacuum_decay`.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::Result;
use crate::check::Check;
use crate::check::shared::{anywhere, called};
use crate::measure::{Finding, Interval, Reading};
use crate::quantity::{Site, Temperature, Volume};
use crate::tightness::{DecayLog, DecayRule, DecayTest, VacuumTarget};

/// Whether a vacuum held after the valve was shut, and why it rose: leak, moisture, outgassing, or not to be told.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Decay {
    /// What the gauge showed, in order, absolute.
    log: DecayLog,
    /// The coldest metal at which water may sit.
    coldest: Reading<Temperature>,
    /// The vacuum asked for; 500 microns, and 1,000 after 10 minutes, where it is left out.
    #[serde(default)]
    target: VacuumTarget,
    /// When a cause counts as shown.
    #[serde(default)]
    rule: DecayRule,
    /// Volume and place, where the leak's size is wanted.
    #[serde(default)]
    size: Option<Size>,
}

/// What turns a rise into a leak.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Size {
    /// Internal volume under vacuum.
    volume: Interval<Volume>,
    /// Elevation or barometer.
    site: Site,
}

impl Check for Decay {
    const NAME: &'static str = "vacuum_decay";
    const EXAMPLE: &'static str = include_str!("../examples/vacuum_decay.json");

    fn find(self) -> Result<Finding> {
        let coldest = called(self.coldest, "thermometer at the coldest point");
        let temperature = coldest.value();
        let check =
            DecayTest::new(self.log, coldest.measured()).target(self.target).rule(self.rule).check()?;
        let finding = check.finding()?;
        let Some(size) = self.size else { return Ok(finding) };
        let volume = anywhere(&size.volume, "internal volume")?;
        let leak = check.leak_size(&volume, size.site, temperature);
        match leak.map_err(|error| error.in_field("size"))? {
            Some(leak) => finding.measured("leak, as air", leak.throughput()),
            None => Ok(finding),
        }
    }
}
