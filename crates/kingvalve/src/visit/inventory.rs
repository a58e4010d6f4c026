//! What the system holds, from everything a record has read and weighed, where it asks for it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::evaluate::{reading, standing_spaces};
use super::record::{CylinderReadings, Read, Record, StandingReadings};
use super::results::RunningResult;
use crate::charge::FullCharge;
use crate::charge::inventory::{
    Conflict, Contribution, Estimate, Inventory, Part, RunningReading, StandingReading, System,
};
use crate::error::in_field;
use crate::measure::{Interval, Limits, Measured};
use crate::quantity::{Mass, TemperatureDifference, Volume, percent};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// How the charge is followed through a visit. `{}` asks for it with what the record has: the first standing pressure,
/// then everything that was weighed.
///
/// With `steps`, readings and weights take their places by the name of their own `step`: within a step what came out, what
/// went in, then the standing pressure, then superheat and subcooling. The first standing pressure comes before all steps;
/// a running reading without a step says nothing of the charge (the coil was dirty, it was not steady yet), nor does any
/// where the record's targets leave an end of superheat or subcooling open.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct InventoryAsked {
    /// The steps of the visit, in their order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<String>,
    /// The system off and settled again: the `step` of each pressure says when.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub standing: Vec<StandingReadings>,
}

/// What the system holds by all readings and weights, and what each contributed.
///
/// # Source
/// [`Inventory`]: the plate's charge for this line set, the parts of the equipment and its oil; superheat and subcooling at
/// full charge are the middle of the record's targets.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct InventoryResult {
    /// In the system after the last of them: median, where it lies one time in two, and nine times in ten.
    pub now: Estimate<Mass>,
    /// Missing to the charge due before anything was weighed; below zero where there is too much.
    pub missing_before: Estimate<Mass>,
    /// The internal volume, as given or learned.
    pub volume: Estimate<Volume>,
    /// What each reading and weighing contributed, in order.
    pub contributions: Vec<Contribution>,
    /// How the last reading contradicts the others, where it does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub conflict: Option<Conflict>,
    /// Whether the readings fit the assumptions so badly that the answer was widened.
    pub widened: bool,
    /// Whether something else than this refrigerant is likelier in it than not.
    #[serde(skip)]
    foreign: bool,
}

impl InventoryResult {
    /// What was missing before anything was weighed, nine times in ten, never below zero; nothing where something else is
    /// likelier in the system than this refrigerant alone.
    pub fn missing(&self) -> Option<Interval<Mass>> {
        let ninety = self.missing_before.ninety;
        let missing = Interval::new(ninety.low().max(Mass::ZERO), ninety.high().max(Mass::ZERO));
        missing.ok().filter(|_| !self.foreign)
    }
}

/// The inventory that the record asks for.
pub(super) fn asked(
    record: &Record,
    refrigerant: &Refrigerant,
    due: Mass,
    running: &[RunningResult],
) -> Result<Option<InventoryResult>> {
    let Some(asked) = &record.inventory else { return Ok(None) };
    let mut job = Job {
        record,
        running,
        inventory: Inventory::prior(&system(record, refrigerant, due)?)?,
        before: None,
    };
    if let Some(first) = &record.standing {
        job.stand(first, "standing pressure").map_err(in_field("standing"))?;
    }
    if asked.steps.is_empty() {
        if let Some(stray) = asked.standing.first() {
            let why = format!("the pressure {} has no place among them", stray.pressure.value);
            let advice = "name the steps of the visit in their order, and in each reading its step";
            return Err(Error::inconsistent("steps", why, advice).in_field("inventory.steps"));
        }
        job.weigh(None)?;
    }
    job.places_are_known(&asked.steps, &asked.standing)?;
    for step in &asked.steps {
        job.weigh(Some(step))?;
        for (index, again) in asked.standing.iter().enumerate() {
            if again.pressure.step.as_ref() == Some(step) {
                job.stand(again, &format!("{step}, standing pressure"))
                    .map_err(in_field(format!("inventory.standing[{index}]")))?;
            }
        }
        job.run(step)?;
    }
    let inventory = &job.inventory;
    let before = job.before.as_ref().unwrap_or(inventory);
    Ok(Some(InventoryResult {
        now: inventory.now(),
        missing_before: before.missing(due),
        volume: inventory.volume(),
        contributions: inventory.contributions().to_vec(),
        conflict: inventory.conflict(),
        widened: inventory.is_widened(),
        foreign: before.probability_gas() > percent(50.0),
    }))
}

fn system(record: &Record, refrigerant: &Refrigerant, due: Mass) -> Result<System> {
    let equipment = &record.equipment;
    let mut system = System::of_plate(refrigerant, due).map_err(in_field("equipment.charge"))?;
    if !equipment.spaces.is_empty() {
        let parts =
            equipment.spaces.iter().map(|space| Part { name: space.name.clone(), volume: space.volume });
        system = system.with_parts(parts.collect()).map_err(in_field("equipment.spaces"))?;
    }
    match equipment.oil {
        Some(oil) => system.with_oil(oil).map_err(in_field("equipment.oil")),
        None => Ok(system),
    }
}

/// The visit as it went.
struct Job<'a> {
    record: &'a Record,
    running: &'a [RunningResult],
    inventory: Inventory,
    /// As it was before anything was weighed, once something was.
    before: Option<Inventory>,
}

impl Job<'_> {
    fn stand(&mut self, readings: &StandingReadings, label: &str) -> Result<()> {
        let (pressure, spaces) = standing_spaces(self.record, readings)?;
        let temperatures = spaces.into_iter().map(|space| space.temperature).collect();
        let reading = StandingReading::at_parts(pressure, temperatures).labelled(label.to_owned());
        self.inventory = self.inventory.standing(&reading)?;
        Ok(())
    }

    /// What came out and went in at a step; with none, at all.
    fn weigh(&mut self, step: Option<&String>) -> Result<()> {
        let out = self.change(&self.record.recovered, "recovered", step)?;
        let into = self.change(&self.record.cylinders, "cylinders", step)?.map(|fall| -fall);
        for (mass, comes_out) in [(out, true), (into, false)] {
            // Less than nothing is the scale's doubt, which the check of the cylinders allows for.
            let Some(mass) = mass.filter(|mass| mass.value() > Mass::ZERO) else { continue };
            self.before.get_or_insert_with(|| self.inventory.clone());
            let (next, field, what) = match comes_out {
                true => (self.inventory.removed(mass), "recovered", "removed"),
                false => (self.inventory.weighed_in(mass), "cylinders", "weighed in"),
            };
            let next = next.map_err(in_field(field))?;
            self.inventory = match step {
                Some(step) => next.called(&format!("{step}, {what}")),
                None => next,
            };
        }
        Ok(())
    }

    /// By how much cylinders got heavier at a step; a cylinder's weights at one step count from the last before it.
    fn change(
        &self,
        cylinders: &[CylinderReadings],
        field: &str,
        step: Option<&String>,
    ) -> Result<Option<Measured<Mass>>> {
        let mut sum: Option<Measured<Mass>> = None;
        for (index, cylinder) in cylinders.iter().enumerate() {
            let weigh = |read: &Read<Mass>| {
                let label = format!("weight of {}", cylinder.name);
                let weight = reading(read, &self.record.instruments.mass, &label);
                weight.map(|weight| weight.measured()).map_err(in_field(format!("{field}[{index}].weights")))
            };
            for pair in cylinder.weights.windows(2) {
                let [before, after] = pair else { continue };
                if step.is_none() || after.step.as_ref() == step {
                    let gain = weigh(after)? - weigh(before)?;
                    sum = Some(match sum {
                        Some(sum) => sum + gain,
                        None => gain,
                    });
                }
            }
        }
        Ok(sum)
    }

    /// Superheat and subcooling of a step, where the record says what they should be.
    fn run(&mut self, step: &String) -> Result<()> {
        let Some(full) = self.full() else { return Ok(()) };
        for (index, (readings, result)) in self.record.running.iter().zip(self.running).enumerate() {
            if readings.suction_pressure.step.as_ref() == Some(step) {
                let (superheat, subcooling) = (result.superheat.clone(), result.subcooling.clone());
                let reading = RunningReading::of(superheat, subcooling, full)
                    .labelled(format!("{step}, superheat and subcooling"));
                let next = self.inventory.running(&reading);
                self.inventory = next.map_err(in_field(format!("running[{index}]")))?;
            }
        }
        Ok(())
    }

    fn full(&self) -> Option<FullCharge> {
        let middle = |limits: &Option<Limits<TemperatureDifference>>| {
            let limits = limits.as_ref()?;
            Some(0.5 * (limits.lower()? + limits.upper()?))
        };
        let targets = self.record.targets.as_ref()?;
        Some(FullCharge { superheat: middle(&targets.superheat)?, subcooling: middle(&targets.subcooling)? })
    }

    /// Every weight but a cylinder's first, and every pressure but the first, has a place among the steps.
    fn places_are_known(&self, steps: &[String], standing: &[StandingReadings]) -> Result<()> {
        if steps.is_empty() {
            return Ok(());
        }
        for (index, step) in steps.iter().enumerate() {
            if steps.iter().take(index).any(|before| before == step) {
                let advice = "give each step a name of its own";
                let error = Error::inconsistent("steps", format!("{step:?} stands twice"), advice);
                return Err(error.in_field(format!("inventory.steps[{index}]")));
            }
        }
        let place = |step: &Option<String>, what: &str| match step {
            Some(step) if steps.contains(step) => Ok(()),
            Some(step) => {
                Err(Error::unknown("step", step, steps.iter().map(String::as_str)).in_field("step"))
            }
            None => Err(Error::inconsistent(
                what,
                "it names no step, while the inventory is asked for by steps",
                "name the step at which it was read",
            )
            .in_field("step")),
        };
        for (field, cylinders) in
            [("cylinders", &self.record.cylinders), ("recovered", &self.record.recovered)]
        {
            for (index, cylinder) in cylinders.iter().enumerate() {
                for (turn, weight) in cylinder.weights.iter().enumerate().skip(1) {
                    let at = format!("{field}[{index}].weights[{turn}]");
                    place(&weight.step, &format!("weight of {}", cylinder.name)).map_err(in_field(at))?;
                }
            }
        }
        for (index, again) in standing.iter().enumerate() {
            let at = format!("inventory.standing[{index}].pressure");
            place(&again.pressure.step, "standing pressure").map_err(in_field(at))?;
        }
        for (index, running) in self.record.running.iter().enumerate() {
            if running.suction_pressure.step.is_some() {
                let at = format!("running[{index}].suction_pressure");
                place(&running.suction_pressure.step, "suction pressure").map_err(in_field(at))?;
            }
        }
        Ok(())
    }
}
