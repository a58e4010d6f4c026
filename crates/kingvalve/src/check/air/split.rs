//! `temperature_split`.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::air::{MoistAir, SplitCheck, SplitTable, installer_split_limits, split_by_model, usual_bypass};
use crate::check::Check;
use crate::check::shared::{called, on_one};
use crate::measure::{Finding, Label, Level, Limits, Measured, Reading};
use crate::quantity::{Power, Ratio, Site, Temperature, TemperatureDifference, VolumeFlow};
use crate::{Error, Result};

/// Return less supply dry bulb, against its target.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Split {
    /// Dry bulb of the return air, close to the coil.
    return_dry_bulb: Reading<Temperature>,
    /// Its wet bulb: asked for by a table and by the model.
    #[serde(default)]
    return_wet_bulb: Option<Reading<Temperature>>,
    /// Dry bulb of the supply air, close to the coil, out of its sight.
    supply_dry_bulb: Reading<Temperature>,
    /// Whether one thermometer read return and supply: its accuracy then cancels.
    #[serde(default)]
    one_thermometer: bool,
    /// What the split should be.
    target: Target,
    /// How far from the target it may be; 3 °F either way where it is left out.
    #[serde(default = "installer_split_limits")]
    limits: Limits<TemperatureDifference>,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// A target split.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
enum Target {
    /// As somebody says.
    Given {
        /// The split.
        split: TemperatureDifference,
        /// Who says so.
        source: Label,
    },
    /// From a table by return dry and wet bulb.
    Table(SplitTable),
    /// From what the coil is said to deliver.
    Model {
        /// Through the coil.
        airflow: VolumeFlow,
        /// Total net capacity at these conditions, from the maker's table.
        total_capacity: Power,
        /// Of the coil; 0.1 where it is left out.
        #[serde(default = "usual_bypass")]
        bypass: Ratio,
        /// Elevation or barometer.
        site: Site,
    },
}

impl Check for Split {
    const NAME: &'static str = "temperature_split";
    const EXAMPLE: &'static str = include_str!("../examples/temperature_split.json");

    fn find(self) -> Result<Finding> {
        let supply = on_one(self.one_thermometer, &self.return_dry_bulb, self.supply_dry_bulb)
            .map_err(|error| error.in_field("supply_dry_bulb"))?;
        let supply = called(supply, "supply dry bulb");
        let dry = called(self.return_dry_bulb, "return dry bulb");
        let wet = self.return_wet_bulb.map(|wet| called(wet, "return wet bulb"));
        let wet = || {
            wet.as_ref().ok_or_else(|| {
                let why = "this target asks for the wet bulb of the return air";
                Error::inconsistent("wet bulb", why, "read it, or give the target itself")
                    .in_field("return_wet_bulb")
            })
        };
        let (target, source): (Measured<TemperatureDifference>, Label) = match &self.target {
            Target::Given { split, source } => (Measured::exact(*split), source.clone()),
            Target::Table(table) => (table.target(&dry, wet()?)?, table.source().to_owned().into()),
            Target::Model { airflow, total_capacity, bypass, site } => {
                let back = MoistAir::from_wet_bulb(&dry, wet()?, site);
                let back = back.map_err(|error| error.in_field("return_wet_bulb"))?;
                let split = split_by_model(*airflow, &back, *total_capacity, *bypass);
                (split.map_err(|error| error.in_field("target"))?, "what the coil is said to deliver".into())
            }
        };
        SplitCheck::of(&dry, &supply, target, source, self.limits, self.level)?.finding()
    }
}
