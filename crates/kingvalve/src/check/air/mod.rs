//! Checks of the air room, and how air and airflow are given.

mod coil;
mod flow;
mod split;
mod work;

use schemars::JsonSchema;
use serde::Deserialize;

use super::shared::called;
use crate::Result;
use crate::air::{FanTable, MoistAir, airflow_from_heat, airflow_from_traverse, total_external_static};
use crate::measure::{Doubtful, Measured, Reading};
use crate::quantity::{
    Area, HumidityRatio, Power, PressureDifference, Ratio, Site, Temperature, Velocity, VolumeFlow,
};

checks![flow::Enough, split::Split, coil::Delivered, coil::Bypassed, work::Work,];

/// Air at one place: dry bulb and one measure of its humidity.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Air {
    /// Dry bulb.
    dry_bulb: Reading<Temperature>,
    /// How humid it is.
    humidity: Moisture,
}

/// One measure of humidity.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
enum Moisture {
    /// Of a wick, or as a meter computes it.
    WetBulb(Reading<Temperature>),
    /// Of a mirror or a meter.
    DewPoint(Reading<Temperature>),
    /// From 0 % to 100 %.
    RelativeHumidity(Reading<Ratio>),
    /// Mass of water per mass of dry air.
    HumidityRatio(Reading<HumidityRatio>),
}

impl Air {
    /// The state, its readings called after the place.
    fn state(self, place: &str, site: &Site) -> Result<MoistAir<Doubtful>> {
        let dry = called(self.dry_bulb, format!("{place} dry bulb"));
        match self.humidity {
            Moisture::WetBulb(wet) => {
                MoistAir::from_wet_bulb(&dry, called(wet, format!("{place} wet bulb")), site)
            }
            Moisture::DewPoint(dew) => {
                MoistAir::from_dew_point(&dry, called(dew, format!("{place} dew point")), site)
            }
            Moisture::RelativeHumidity(share) => {
                let share = called(share, format!("{place} relative humidity"));
                MoistAir::from_relative_humidity(&dry, share, site)
            }
            Moisture::HumidityRatio(ratio) => {
                MoistAir::from_humidity_ratio(&dry, called(ratio, format!("{place} humidity ratio")), site)
            }
        }
    }
}

/// How the airflow is known.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
#[allow(clippy::large_enum_variant, reason = "read once and used up")]
enum Airflow {
    /// Read off a flow hood or a flow grid.
    Read(Reading<VolumeFlow>),
    /// From the rise of temperature that a known heat gives.
    TemperatureRise {
        /// Heat that reaches the air: volts times amperes of electric heat, or a measured output.
        heat: Reading<Power>,
        /// Before the heat.
        entering: Air,
        /// Dry bulb after it.
        leaving_dry_bulb: Reading<Temperature>,
        /// Where.
        site: Site,
    },
    /// From total external static pressure and the fan's own table.
    StaticPressure {
        /// From the data plate or the manual, for the tap in use.
        fan: FanTable,
        /// On the supply side, to the room.
        supply: Reading<PressureDifference>,
        /// On the return side, to the room: negative.
        #[serde(rename = "return")]
        return_side: Reading<PressureDifference>,
    },
    /// From velocities over an opening.
    Traverse {
        /// Free area of the opening.
        area: Area,
        /// At the points of the traverse, as repeats.
        velocity: Reading<Velocity>,
    },
}

impl Airflow {
    fn flow(self) -> Result<Measured<VolumeFlow>> {
        Ok(match self {
            Airflow::Read(read) => called(read, "flow hood").measured(),
            Airflow::TemperatureRise { heat, entering, leaving_dry_bulb, site } => {
                let entering =
                    entering.state("entering", &site).map_err(|error| error.in_field("entering"))?;
                let leaving = called(leaving_dry_bulb, "leaving dry bulb");
                airflow_from_heat(called(heat, "heat"), &entering, leaving)?
            }
            Airflow::StaticPressure { fan, supply, return_side } => {
                let supply = called(supply, "supply static pressure");
                let return_side = called(return_side, "return static pressure");
                fan.airflow(total_external_static(&supply, &return_side)?)?
            }
            Airflow::Traverse { area, velocity } => {
                airflow_from_traverse(Measured::exact(area), called(velocity, "velocity"))?
            }
        })
    }
}
