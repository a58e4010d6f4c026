//! `weigh_in`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Check, refrigerant};
use crate::charge::{
    Accessory, Basis, PlateCharge, Temper, Tube, USUAL_LIQUID, WeighIn, liquid_line_allowance,
};
use crate::measure::Finding;
use crate::quantity::{Length, Mass, Temperature};
use crate::{Error, Result};

/// The charge to weigh into an empty system: data plate, line set and accessories.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct WeighInCharge {
    /// Its designation: "R-410A".
    refrigerant: String,
    /// The data plate.
    plate: PlateCharge,
    /// Installed length of one line of the set.
    line_length: Length,
    /// The liquid line, to compute the allowance from where the plate gives none.
    #[serde(default)]
    liquid_line: Option<LiquidLine>,
    /// What else holds liquid.
    #[serde(default)]
    accessories: Vec<Extra>,
}

/// A liquid line by its size.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LiquidLine {
    /// Outside diameter of copper tube of ASTM B280: "0.375 in".
    outside: Length,
    /// Soft coil where it is left out.
    #[serde(default)]
    temper: Temper,
    /// Of the liquid while the system runs; 95 °F where it is left out.
    #[serde(default)]
    temperature: Option<Temperature>,
}

/// An accessory.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Extra {
    /// What it is called: "filter-drier".
    name: String,
    /// What its maker or the shop allows for it.
    mass: Mass,
}

impl Check for WeighInCharge {
    const NAME: &'static str = "weigh_in";
    const EXAMPLE: &'static str = include_str!("examples/weigh_in.json");

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let computed = match &self.liquid_line {
            Some(line) => {
                let here = |error: Error| error.in_field("liquid_line");
                let tube = Tube::acr(line.outside, line.temper).map_err(here)?;
                let liquid = line.temperature.unwrap_or(USUAL_LIQUID);
                Some(liquid_line_allowance(&refrigerant, tube, liquid).map_err(here)?)
            }
            None => None,
        };
        let in_plate = |error: Error| match error.field() {
            Some("line_length") => error,
            _ => error.in_field("plate"),
        };
        let mut charge = WeighIn::of(&self.plate, self.line_length, computed).map_err(in_plate)?;
        for extra in self.accessories {
            charge = charge.with(Accessory::given(extra.name, extra.mass, Basis::Maker))?;
        }
        charge.finding(&refrigerant)
    }
}
