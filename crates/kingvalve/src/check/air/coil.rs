//! `delivered_capacity` and `bypass_factor`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Air, Airflow};
use crate::Result;
use crate::air::{FlowAt, MoistAir, bypass, delivered};
use crate::check::{Check, Fields};
use crate::measure::{Doubtful, Finding};
use crate::quantity::Site;

/// What a coil delivers to the air: sensible, latent and total capacity.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Delivered {
    /// Through the coil.
    airflow: Airflow,
    /// Where it was measured.
    #[serde(default)]
    airflow_at: Place,
    /// Before the coil.
    entering: Air,
    /// After it.
    leaving: Air,
    /// Elevation or barometer.
    site: Site,
}

/// Before or after the coil.
#[derive(Debug, Clone, Copy, Default, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Place {
    /// Before the coil.
    #[default]
    Entering,
    /// After it.
    Leaving,
}

impl Check for Delivered {
    const NAME: &'static str = "delivered_capacity";
    const EXAMPLE: &'static str = include_str!("../examples/delivered_capacity.json");
    const FIELDS: Fields = &[("airflow", "airflow")];

    fn find(self) -> Result<Finding> {
        let flow = self.airflow.flow().map_err(|error| error.in_field("airflow"))?;
        let [entering, leaving] = both(self.entering, self.leaving, &self.site)?;
        let at = match self.airflow_at {
            Place::Entering => FlowAt::Entering,
            Place::Leaving => FlowAt::Leaving,
        };
        delivered(flow, at, &entering, &leaving)?.finding()
    }
}

/// How much air passes a cooling coil untouched, and how cold the coil seems.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Bypassed {
    /// Before the coil.
    entering: Air,
    /// After it.
    leaving: Air,
    /// Elevation or barometer.
    site: Site,
}

impl Check for Bypassed {
    const NAME: &'static str = "bypass_factor";
    const EXAMPLE: &'static str = include_str!("../examples/bypass_factor.json");

    fn find(self) -> Result<Finding> {
        let [entering, leaving] = both(self.entering, self.leaving, &self.site)?;
        bypass(&entering, &leaving)?.finding()
    }
}

fn both(entering: Air, leaving: Air, site: &Site) -> Result<[MoistAir<Doubtful>; 2]> {
    let entering = entering.state("entering", site).map_err(|error| error.in_field("entering"))?;
    let leaving = leaving.state("leaving", site).map_err(|error| error.in_field("leaving"))?;
    Ok([entering, leaving])
}
