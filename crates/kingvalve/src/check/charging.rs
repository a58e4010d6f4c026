//! `charge_inventory` and `charge_plan`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Check, refrigerant};
use crate::charge::inventory::{Assumptions, Inventory, Part, RunningReading, StandingReading, System};
use crate::charge::plan::{Plan, Situation, estimate};
use crate::charge::{FullCharge, Oil, StandingFinding};
use crate::measure::{Caution, Finding, Instrument, Interval, Measured, Reading};
use crate::quantity::{GaugePressure, Mass, Site, Temperature, Volume};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// What is in the system now, from everything that was read and weighed, in its order.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ChargeInventory {
    /// Designation by ANSI/ASHRAE Standard 34.
    refrigerant: String,
    /// The site, for its atmosphere.
    site: Site,
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

/// One piece of evidence: exactly one of the three.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Evidence {
    /// The system off, equalised and settled.
    #[serde(default)]
    standing: Option<StillStanding>,
    /// A weighed step.
    #[serde(default)]
    weighed: Option<Weighed>,
    /// The system running until steady.
    #[serde(default)]
    running: Option<StillRunning>,
}

#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StillStanding {
    /// Standing pressure.
    pressure: GaugePressure,
    /// One temperature, or one for each part.
    temperatures: Vec<Temperature>,
}

#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Weighed {
    /// The cylinder's weight before.
    before: Mass,
    /// Its weight after.
    after: Mass,
    /// What the hoses were purged with and still hold.
    #[serde(default)]
    hoses: Option<Interval<Mass>>,
}

#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StillRunning {
    /// Suction pressure.
    suction_pressure: GaugePressure,
    /// Suction line at the same place.
    suction_line: Temperature,
    /// Liquid pressure.
    liquid_pressure: GaugePressure,
    /// Liquid line at the same place.
    liquid_line: Temperature,
    /// What superheat and subcooling would be at full charge in these conditions.
    full: FullCharge,
}

/// What to do next, and what to expect of it.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ChargePlan {
    /// What is known of the charge.
    known: ChargeInventory,
    /// Where the visit stands.
    situation: Situation,
}

impl Check for ChargeInventory {
    const NAME: &'static str = "charge_inventory";
    const EXAMPLE: &'static str = include_str!("examples/charge_inventory.json");

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
        if let Some(reading) = self.last_standing()? {
            let found = inventory.finding(&reading)?;
            // How much vapour that is, the inventory says with all it knows.
            let said = match found {
                StandingFinding::AllVapour { .. } => format!("{}.", found.meaning()),
                _ => found.text(),
            };
            finding = finding.concluding(found.name()).saying(said).then(found.next());
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
        if self.evidence.iter().any(|evidence| evidence.running.is_some()) {
            finding = finding.saying(
                "Superheat and subcooling tell the charge only where airflow, coils and metering device are right: a \
                 restriction reads as a shortage.",
            );
        }
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

impl Check for ChargePlan {
    const NAME: &'static str = "charge_plan";
    const EXAMPLE: &'static str = include_str!("examples/charge_plan.json");

    fn find(self) -> Result<Finding> {
        let inventory = self.known.weighed().map_err(|error| error.in_field("known"))?;
        let plan = Plan::next(&inventory, &self.situation, &self.known.site)
            .map_err(|error| error.in_field("situation"))?;
        plan.finding(Self::NAME)
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
    fn weighed(&self) -> Result<Inventory> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let mut inventory = Inventory::prior(&self.system(&refrigerant)?)?;
        for (index, evidence) in self.evidence.iter().enumerate() {
            let here = |error: Error| error.in_field(format!("[{index}]")).in_field("evidence");
            inventory = self.with(&inventory, &refrigerant, evidence).map_err(here)?;
        }
        Ok(inventory)
    }

    fn with(
        &self,
        inventory: &Inventory,
        refrigerant: &Refrigerant,
        evidence: &Evidence,
    ) -> Result<Inventory> {
        match (&evidence.standing, &evidence.weighed, &evidence.running) {
            (Some(standing), None, None) => inventory.standing(&self.still_standing(standing)?),
            (None, Some(weighed), None) => inventory.weighed_in(self.entered(weighed)?),
            (None, None, Some(running)) => {
                let suction = self.pressure(running.suction_pressure)?;
                let liquid = self.pressure(running.liquid_pressure)?;
                let line = Reading::new(running.suction_line, self.thermometer.clone())?;
                let superheat = refrigerant.superheat(&suction, &line)?;
                let line = Reading::new(running.liquid_line, self.thermometer.clone())?;
                let subcooling = refrigerant.subcooling(&liquid, &line)?;
                inventory.running(&RunningReading::of(superheat, subcooling, running.full))
            }
            _ => Err(Error::inconsistent(
                "evidence",
                "one piece is a standing reading, a weighed step or a running reading",
                "give exactly one of `standing`, `weighed` and `running` in each",
            )),
        }
    }

    fn pressure(&self, shown: GaugePressure) -> Result<Measured<crate::quantity::Pressure>> {
        self.site.absolute(&Reading::new(shown, self.gauge.clone())?)
    }

    fn still_standing(&self, standing: &StillStanding) -> Result<StandingReading> {
        let temperatures = standing
            .temperatures
            .iter()
            .map(|t| Ok(Reading::new(*t, self.thermometer.clone())?.measured()))
            .collect::<Result<Vec<_>>>()?;
        let pressure = self.pressure(standing.pressure).map_err(|error| error.in_field("pressure"))?;
        let label = format!("standing {:.1}", standing.pressure);
        Ok(StandingReading::at_parts(pressure, temperatures).labelled(label))
    }

    fn last_standing(&self) -> Result<Option<StandingReading>> {
        let last = self.evidence.iter().rev().find_map(|evidence| evidence.standing.as_ref());
        last.map(|standing| self.still_standing(standing)).transpose()
    }

    /// What reached the system in one step.
    fn entered(&self, weighed: &Weighed) -> Result<Measured<Mass>> {
        let Some(scale) = &self.scale else {
            return Err(Error::inconsistent(
                "weighed step",
                "no scale is given to weigh it on",
                "give the scale's resolution and accuracy",
            ));
        };
        let before = Reading::new(weighed.before, scale.clone())?;
        let after = Reading::new(weighed.after, scale.clone())?;
        if after.value() > before.value() {
            return Err(Error::inconsistent(
                "weighed step",
                format!("the cylinder's weight rises from {} to {}", weighed.before, weighed.after),
                "a cylinder gets lighter while it charges: check the order, the cylinder and the scale's zero",
            ));
        }
        let fall = before.measured() - after.measured();
        let Some(hoses) = weighed.hoses else { return Ok(fall) };
        let lost = Measured::from_limits(hoses.middle(), 0.5 * hoses.width(), "hoses")?;
        let reached = fall - lost;
        if reached.value() < Mass::ZERO {
            return Err(Error::inconsistent(
                "weighed step",
                "the hoses take more than left the cylinder",
                "check the weights and the hoses",
            ));
        }
        Ok(reached)
    }
}
