//! What was read and weighed, in JSON.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::charge::FullCharge;
use crate::charge::inventory::{Inventory, RunningReading, StandingReading};
use crate::error::in_field;
use crate::measure::{Instrument, Interval, Measured, Reading};
use crate::quantity::{GaugePressure, Mass, Pressure, Site, Temperature};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// One piece of evidence: exactly one of the five.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Evidence {
    /// The system off, equalised and settled.
    #[serde(default)]
    pub(super) standing: Option<StillStanding>,
    /// A weighed step.
    #[serde(default)]
    weighed: Option<Weighed>,
    /// What came out.
    #[serde(default)]
    removed: Option<Removed>,
    /// Recovered, evacuated, and the vacuum held: what was read before counts no more.
    #[serde(default)]
    evacuated: Option<Evacuated>,
    /// The system running until steady.
    #[serde(default)]
    running: Option<StillRunning>,
}

#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct StillStanding {
    /// Standing pressure.
    pub(super) pressure: GaugePressure,
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

/// What came out between readings: recovered onto the scale, lost otherwise, or both.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Removed {
    /// The recovery cylinder's weight before.
    #[serde(default)]
    before: Option<Mass>,
    /// Its weight after.
    #[serde(default)]
    after: Option<Mass>,
    /// What left otherwise: vented, leaked while it was worked on, taken away in hoses.
    #[serde(default)]
    lost: Option<Interval<Mass>>,
}

#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Evacuated {
    /// The most that may have stayed, in the oil above all; left out, 0.02 lb.
    #[serde(default)]
    left: Option<Mass>,
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

/// What it was read with, and where.
pub(super) struct Kit<'a> {
    pub refrigerant: &'a Refrigerant,
    pub site: &'a Site,
    pub gauge: &'a Instrument<GaugePressure>,
    pub thermometer: &'a Instrument<Temperature>,
    pub scale: Option<&'a Instrument<Mass>>,
}

impl Kit<'_> {
    /// The inventory with one more piece of evidence.
    pub fn take(&self, inventory: &Inventory, evidence: &Evidence) -> Result<Inventory> {
        let Evidence { standing, weighed, removed, evacuated, running } = evidence;
        match (standing, weighed, removed, evacuated, running) {
            (Some(standing), None, None, None, None) => self
                .still_standing(standing)
                .and_then(|reading| inventory.standing(&reading))
                .map_err(in_field("standing")),
            (None, Some(weighed), None, None, None) => {
                self.entered(weighed).and_then(|mass| inventory.weighed_in(mass)).map_err(in_field("weighed"))
            }
            (None, None, Some(removed), None, None) => {
                self.left(removed).and_then(|mass| inventory.removed(mass)).map_err(in_field("removed"))
            }
            (None, None, None, Some(evacuated), None) => {
                inventory.evacuated(evacuated.left).map_err(in_field("evacuated.left"))
            }
            (None, None, None, None, Some(running)) => self
                .still_running(running)
                .and_then(|reading| inventory.running(&reading))
                .map_err(in_field("running")),
            _ => Err(Error::inconsistent(
                "evidence",
                "one piece is a standing reading, a weighed step, what came out, an evacuation or a running reading",
                "give exactly one of `standing`, `weighed`, `removed`, `evacuated` and `running` in each",
            )),
        }
    }

    fn still_running(&self, running: &StillRunning) -> Result<RunningReading> {
        let suction = self.pressure(running.suction_pressure).map_err(in_field("suction_pressure"))?;
        let liquid = self.pressure(running.liquid_pressure).map_err(in_field("liquid_pressure"))?;
        let line = Reading::new(running.suction_line, self.thermometer.clone())?;
        let superheat = self.refrigerant.superheat(&suction, &line)?;
        let line = Reading::new(running.liquid_line, self.thermometer.clone())?;
        let subcooling = self.refrigerant.subcooling(&liquid, &line)?;
        Ok(RunningReading::of(superheat, subcooling, running.full))
    }

    fn pressure(&self, shown: GaugePressure) -> Result<Measured<Pressure>> {
        self.site.absolute(&Reading::new(shown, self.gauge.clone())?)
    }

    pub fn still_standing(&self, standing: &StillStanding) -> Result<StandingReading> {
        let temperatures = standing
            .temperatures
            .iter()
            .map(|t| Ok(Reading::new(*t, self.thermometer.clone())?.measured()))
            .collect::<Result<Vec<_>>>()?;
        let pressure = self.pressure(standing.pressure).map_err(|error| error.in_field("pressure"))?;
        let label = format!("standing {:.1}", standing.pressure);
        Ok(StandingReading::at_parts(pressure, temperatures).labelled(label))
    }

    fn weighing(&self, mass: Mass) -> Result<Reading<Mass>> {
        let scale = self.scale.ok_or_else(|| {
            Error::inconsistent(
                "weight",
                "no scale is given to weigh it on",
                "give the scale's resolution and accuracy",
            )
        })?;
        Reading::new(mass, scale.clone())
    }

    /// What reached the system in one step.
    fn entered(&self, weighed: &Weighed) -> Result<Measured<Mass>> {
        let (before, after) = (self.weighing(weighed.before)?, self.weighing(weighed.after)?);
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

    /// What came out of it.
    fn left(&self, removed: &Removed) -> Result<Measured<Mass>> {
        let lost = |lost: Interval<Mass>| {
            if lost.low() < Mass::ZERO {
                let advice = "give the least and the most that may have left";
                return Err(
                    Error::out_of_range("mass lost", lost, "it is zero or more", advice).in_field("lost")
                );
            }
            Measured::from_limits(lost.middle(), 0.5 * lost.width(), "mass lost")
        };
        let recovered = match (removed.before, removed.after) {
            (Some(before), Some(after)) => {
                let (empty, full) = (self.weighing(before)?, self.weighing(after)?);
                if after < before {
                    return Err(Error::inconsistent(
                        "recovery cylinder",
                        format!("its weight falls from {before} to {after}"),
                        "a recovery cylinder gets heavier: check the order, the cylinder and the scale's zero",
                    ));
                }
                Some(full.measured() - empty.measured())
            }
            (None, None) => None,
            _ => {
                return Err(Error::inconsistent(
                    "recovery cylinder",
                    "one weight is given without the other",
                    "give its weight before and after",
                ));
            }
        };
        match (recovered, removed.lost.map(lost).transpose()?) {
            (Some(recovered), Some(lost)) => Ok(recovered + lost),
            (Some(only), None) | (None, Some(only)) => Ok(only),
            (None, None) => Err(Error::inconsistent(
                "what came out",
                "neither weights nor a loss are given",
                "give the recovery cylinder's weight before and after, or what was lost",
            )),
        }
    }
}
