//! `charge_inventory`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::super::{Check, refrigerant};
use super::evidence::{Evidence, Kit};
use crate::charge::inventory::{Assumptions, Inventory, Part, System};
use crate::charge::plan::estimate;
use crate::charge::{AirIngress, Oil, StandingFinding};
use crate::measure::{Caution, Finding, Instrument, Interval};
use crate::quantity::{GaugePressure, Mass, Site, Temperature, Volume};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// What is in the system now, from everything that was read and weighed, in its order.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(in crate::check) struct ChargeInventory {
    /// Designation by ANSI/ASHRAE Standard 34.
    refrigerant: String,
    /// The site, for its atmosphere.
    pub(super) site: Site,
    /// Charge of the data plate, with that of the line set; this or a volume is needed.
    #[serde(default)]
    plate_charge: Option<Mass>,
    /// Internal volume, where known: nine times in ten inside.
    #[serde(default)]
    volume: Option<Interval<Volume>>,
    /// Parts that stand at temperatures of their own.
    #[serde(default)]
    parts: Vec<Part>,
    /// The compressor's oil, where known.
    #[serde(default)]
    oil: Option<Oil>,
    /// The temperature at which a zeotrope leaked, where its composition may have shifted.
    #[serde(default)]
    leaked_at: Option<Temperature>,
    /// What is taken for granted, where not the defaults.
    #[serde(default)]
    assumptions: Option<Assumptions>,
    /// The one gauge of all pressures, so that its own error is known to be shared.
    gauge: Instrument<GaugePressure>,
    /// The one thermometer of all temperatures.
    thermometer: Instrument<Temperature>,
    /// The scale.
    #[serde(default)]
    scale: Option<Instrument<Mass>>,
    /// What was read and weighed, in its order.
    evidence: Vec<Evidence>,
}

impl Check for ChargeInventory {
    const NAME: &'static str = "charge_inventory";
    const EXAMPLE: &'static str = include_str!("../examples/charge_inventory.json");

    fn find(self) -> Result<Finding> {
        let inventory = self.weighed()?;
        let now = inventory.now();
        let mut finding = estimate(Finding::of(Self::NAME), "charge now", &now)?;
        finding = finding.saying(format!(
            "In the system now: {:.2} (one time in two {:.2}, nine times in ten {:.2}).",
            now.median, now.half, now.ninety
        ));
        if let Some(plate) = inventory.system().plate() {
            let missing = inventory.missing(plate);
            finding = estimate(finding, "missing to the plate charge", &missing)?.saying(format!(
                "Missing to the plate's {plate:.2}: {:.2} (nine times in ten {:.2}).",
                missing.median, missing.ninety
            ));
        }
        finding = estimate(finding, "internal volume", &inventory.volume())?
            .given("probability that all was vapour", inventory.probability_all_vapour())?
            .given("probability of air, nitrogen or another refrigerant", inventory.probability_gas())?;
        finding = self.meaning(finding, &inventory)?;
        for contribution in inventory.contributions() {
            finding = finding.saying(format!("{}.", contribution.text()));
        }
        let cautions = [Caution::HighPressure, Caution::Venting, Caution::Frostbite];
        finding = cautions.into_iter().fold(finding, Finding::caution);
        Ok(inventory
            .system()
            .refrigerant()
            .cautioned(finding)
            .source("Bayes over volume, oil, gauge and composition; densities from the equation of state")
            .source("Li and Braun, HVAC&R Research 15 (2009) 117, constants from memory")
            .source("prior ranges: common practice, no source"))
    }
}

impl ChargeInventory {
    fn system(&self, refrigerant: &Refrigerant) -> Result<System> {
        let mut system = match (self.plate_charge, self.volume) {
            (Some(charge), _) => {
                System::of_plate(refrigerant, charge).map_err(|error| error.in_field("plate_charge"))?
            }
            (None, Some(volume)) => {
                System::of_volume(refrigerant, volume).map_err(|error| error.in_field("volume"))?
            }
            (None, None) => {
                return Err(Error::inconsistent(
                    "system",
                    "neither a plate charge nor a volume is given",
                    "give one of them",
                ));
            }
        };
        if let Some(assumptions) = self.assumptions {
            system = system.assuming(assumptions).map_err(|error| error.in_field("assumptions"))?;
        }
        if let Some(volume) = self.volume {
            system = system.with_volume(volume).map_err(|error| error.in_field("volume"))?;
        }
        if !self.parts.is_empty() {
            system = system.with_parts(self.parts.clone()).map_err(|error| error.in_field("parts"))?;
        }
        if let Some(oil) = self.oil {
            system = system.with_oil(oil).map_err(|error| error.in_field("oil"))?;
        }
        if let Some(t) = self.leaked_at {
            system = system.leaked(t).map_err(|error| error.in_field("leaked_at"))?;
        }
        Ok(system)
    }

    /// Everything weighed.
    pub fn weighed(&self) -> Result<Inventory> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let mut inventory = Inventory::prior(&self.system(&refrigerant)?)?;
        let kit = self.kit(&refrigerant);
        for (index, evidence) in self.evidence.iter().enumerate() {
            let here = |error: Error| error.in_field(format!("[{index}]")).in_field("evidence");
            inventory = kit.take(&inventory, evidence).map_err(here)?;
        }
        Ok(inventory)
    }

    fn kit<'a>(&'a self, refrigerant: &'a Refrigerant) -> Kit<'a> {
        Kit {
            refrigerant,
            site: &self.site,
            gauge: &self.gauge,
            thermometer: &self.thermometer,
            scale: self.scale.as_ref(),
        }
    }

    /// What the readings mean besides the amount, and what to do about it.
    fn meaning(&self, mut finding: Finding, inventory: &Inventory) -> Result<Finding> {
        let air = inventory.air_ingress(&self.site)?;
        if air != AirIngress::KeptOut {
            finding = finding.saying(air.text());
            finding = air.next().iter().fold(finding, |finding, line| finding.then(*line));
        }
        let last = self.evidence.iter().rev().find_map(|evidence| evidence.standing.as_ref());
        if let Some(conflict) = inventory.conflict() {
            finding = finding.saying(conflict.text());
            finding = conflict.alternatives().iter().fold(finding, |finding, line| finding.then(*line));
        } else if let Some(last) = last {
            let reading = self.kit(inventory.system().refrigerant()).still_standing(last)?;
            let found = inventory.finding(&reading)?;
            // How much vapour that is, the inventory says with all it knows.
            let said = match found {
                StandingFinding::AllVapour { .. } => format!("{}.", found.meaning()),
                _ => found.text(),
            };
            finding = finding.concluding(found.name()).saying(said);
            if air == AirIngress::KeptOut {
                finding = finding.then(found.next());
            }
        }
        if inventory.is_widened() {
            finding = finding
                .concluding("widened")
                .saying(
                    "The readings fit what is assumed of the system badly, so the answer was widened beyond what they say.",
                )
                .then(
                    "Before the answer is used: did the refrigerant arrive (cylinder valve, hose, scale), were both pressures \
                     settled, and are the temperatures those of the system?",
                );
        }
        if let Some(says) = inventory.running_says() {
            finding = finding.saying(says.text()).saying(
                "They tell it only where airflow, coils and metering device are right: a restriction reads as a shortage.",
            );
        }
        // What is to be heeded first is the conclusion.
        if let Some(conflict) = inventory.conflict() {
            finding = finding.concluding(conflict.name());
        }
        Ok(if air == AirIngress::KeptOut { finding } else { finding.concluding(air.name()) })
    }
}
