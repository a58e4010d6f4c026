//! `airflow_for_charge`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::Airflow;
use crate::Result;
use crate::air::{AirflowCheck, usual_airflow_per_ton};
use crate::check::{Check, Fields};
use crate::measure::{Finding, Level, Limits};
use crate::quantity::{Power, VolumeFlow};

/// Whether there is air enough to judge the charge by: a precondition of superheat and subcooling.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Enough {
    /// Through the indoor coil.
    airflow: Airflow,
    /// Cooling capacity on the data plate.
    nominal_capacity: Power,
    /// Airflow for each ton; 350 to 450 cfm where it is left out.
    #[serde(default = "usual_airflow_per_ton")]
    per_ton: Limits<VolumeFlow>,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

impl Check for Enough {
    const NAME: &'static str = "airflow_for_charge";
    const EXAMPLE: &'static str = include_str!("../examples/airflow_for_charge.json");
    const FIELDS: Fields = &[("nominal capacity", "nominal_capacity")];

    fn find(self) -> Result<Finding> {
        let flow = self.airflow.flow().map_err(|error| error.in_field("airflow"))?;
        AirflowCheck::of(flow, self.nominal_capacity, self.per_ton, self.level)?.finding()
    }
}
