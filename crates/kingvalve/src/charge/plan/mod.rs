//! What to do next: what to rule out, when to clean, how much to weigh in, what to expect, when to stop.
//!
//! A [`Plan`] is made anew after every step from the [`Inventory`] and the [`Situation`]. Steps are what reached the
//! system: what left the cylinders less what the hoses were purged with and still hold
//! ([`into_system`](crate::cylinder::into_system), [`purge_allowance`](crate::cylinder::purge_allowance),
//! [`Hose`](crate::cylinder::Hose)).
//!
//! # Example
//! ```
//! use kingvalve::charge::inventory::{Inventory, System};
//! use kingvalve::charge::plan::{Action, Form, Metering, Plan, Situation};
//! use kingvalve::quantity::*;
//! use kingvalve::refrigerant::Refrigerant;
//! let system = System::of_plate(&Refrigerant::named("R-454B")?, pounds(6.5))?;
//! let inventory = Inventory::prior(&system)?;
//! let ready = Situation::ready(Metering::Valve, pounds(11.0));
//! let plan = Plan::next(&inventory, &ready, &Site::sea_level())?;
//! let Action::Weigh { step, form, .. } = plan.action() else { panic!() };
//! assert_eq!((*step, *form), (pounds(0.5), Form::LiquidThrottled));
//! # Ok::<(), kingvalve::Error>(())
//! ```

mod additive;
mod before;
mod expect;
mod response;
mod situation;
mod text;

use serde::Serialize;

pub use additive::{Additive, AdditiveKind};
pub use before::{Before, Cause, Look, OutdoorCoil};
pub use expect::COMMON_RESPONSE;
pub use response::{Alternative, Response, Running};
pub use situation::{COMMON_REST, COMMON_RUN, COMMON_STEP, Metering, OnTarget, Showing, Situation};
pub(crate) use text::estimate;

use super::AirIngress;
use super::inventory::{Conflict, Estimate, Inventory};
use crate::measure::Caution;
use crate::quantity::{Mass, Pressure, Site, Time, percent, pounds};
use crate::refrigerant::Kind;
use crate::{Error, Result};

/// How the refrigerant leaves the cylinder.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Form {
    /// As liquid, throttled so that it reaches the compressor as vapour: a blend taken as vapour would leave its less
    /// volatile components behind.
    LiquidThrottled,
    /// As vapour or as throttled liquid: a refrigerant of one component stays what it is.
    VapourOrLiquid,
}

/// Why no more is added.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stop {
    /// The target is met.
    TargetMet,
    /// The readings say there is too much.
    TooMuch,
    /// As likely as not the data plate's charge is in.
    PlateReached,
    /// The system did not answer the last step as predicted.
    NotAsPredicted,
    /// The cylinder on the scale is empty.
    CylinderEmpty,
    /// Air, nitrogen or another refrigerant is likelier than not.
    NotThisRefrigerantAlone,
    /// The last reading contradicts what was read and weighed before it ([`Conflict`]).
    ReadingsDisagree,
}

/// The next thing to do.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "do", rename_all = "snake_case")]
pub enum Action {
    /// Add nothing: recover, mend, test with nitrogen, evacuate, weigh in the whole charge. The standing pressure may be
    /// at or below the atmosphere's.
    RepairAndEvacuate {
        /// Possibly, or beyond doubt.
        air: AirIngress,
    },
    /// Look at these, and mend what is at fault, before refrigerant is thought of.
    RuleOut {
        /// At fault.
        at_fault: Vec<Cause>,
        /// Not looked at yet.
        look_at: Vec<Cause>,
    },
    /// Clean the outdoor coil; then dry and steady before anything is read.
    CleanCoil,
    /// Let the cleaned coil dry and the system run until steady, then read again.
    DryAndSteady,
    /// Weigh in a step.
    Weigh {
        /// How much.
        step: Mass,
        /// In which form.
        form: Form,
        /// How long to wait before reading: off, or running.
        wait: Time,
    },
    /// Add no more.
    Stop {
        /// Why.
        because: Stop,
    },
}

impl Action {
    /// Its name.
    pub const fn name(&self) -> &'static str {
        match self {
            Action::RepairAndEvacuate { .. } => "repair_and_evacuate",
            Action::RuleOut { .. } => "rule_out",
            Action::CleanCoil => "clean_coil",
            Action::DryAndSteady => "dry_and_steady",
            Action::Weigh { .. } => "weigh",
            Action::Stop { .. } => "stop",
        }
    }
}

/// What to do next, and what to expect of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Plan {
    action: Action,
    now: Estimate<Mass>,
    missing: Option<Estimate<Mass>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    standing: Option<Estimate<Pressure>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    running: Option<Running>,
    readings_set_nothing: bool,
    nothing_read: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    conflict: Option<Conflict>,
    #[serde(skip)]
    refrigerant_cautions: Vec<Caution>,
}

/// A cylinder with less than this counts as empty of liquid. Common practice, no source.
const EMPTY_CYLINDER: Mass = pounds(0.05);

impl Plan {
    /// The next thing to do.
    ///
    /// # Units
    /// Masses in and out.
    /// # Source
    /// The order of work and its numbers are common practice, no source; what is missing and what to expect follow
    /// from the inventory.
    /// # Valid range
    /// Charging in cooling, or with the system off. In heating weigh the whole charge in. A system whose standing pressure
    /// may have been at or below the atmosphere's is not topped up ([`AirIngress`]): that comes before all else.
    /// # Accuracy
    /// That of the inventory. A step is never larger than what is missing in the middle, nor than the cylinder holds.
    /// # Errors
    /// A step that is not above zero, larger than the cylinder holds, or that would overfill beyond doubt; a negative
    /// weight of the cylinder; temperatures outside the saturation curve.
    /// # Example
    /// See the [module](self).
    pub fn next(inventory: &Inventory, situation: &Situation, site: &Site) -> Result<Plan> {
        check_cylinder(situation)?;
        let plate = inventory.system().plate();
        let missing = plate.map(|plate| inventory.missing(plate));
        let at_fault: Vec<Cause> = situation.before.at_fault().collect();
        let look_at: Vec<Cause> = situation.before.not_looked().collect();
        let coil_is_ready = matches!(situation.outdoor_coil, OutdoorCoil::Clean | OutdoorCoil::DrySteady);
        let mut plan = Plan {
            action: Action::RuleOut { at_fault, look_at },
            now: inventory.now(),
            missing,
            standing: None,
            running: None,
            readings_set_nothing: situation.showing.is_some() && !coil_is_ready,
            nothing_read: inventory.has_no_reading(),
            conflict: inventory.conflict(),
            refrigerant_cautions: inventory.system().refrigerant().cautions(),
        };
        let air = inventory.air_ingress(site)?;
        if air != AirIngress::KeptOut {
            plan.action = Action::RepairAndEvacuate { air };
            return Ok(plan);
        }
        if matches!(&plan.action, Action::RuleOut { at_fault, look_at } if !(at_fault.is_empty() && look_at.is_empty()))
        {
            return Ok(plan);
        }
        let far_from_full = match (missing, plate) {
            (Some(missing), Some(plate)) => missing.ninety.low() > 0.5 * plate,
            _ => false,
        };
        let showing = situation.showing.filter(|_| coil_is_ready);
        plan.action = match stop(inventory, situation, showing.map(|s| s.against_target), missing) {
            Some(because) => Action::Stop { because },
            None if !coil_is_ready && !far_from_full => match situation.outdoor_coil {
                OutdoorCoil::Wet => Action::DryAndSteady,
                _ => Action::CleanCoil,
            },
            None => {
                // Into an evacuated system the whole charge goes by weight.
                let usual = match missing {
                    Some(missing) if inventory.is_evacuated() && showing.is_none() => missing.median,
                    _ => COMMON_STEP,
                };
                let step = step(situation, missing, usual)?;
                let after = inventory.weighed_in(crate::measure::Measured::exact(step))?;
                if !situation.standing_at.is_empty() {
                    plan.standing = Some(after.expect_standing(&situation.standing_at)?);
                }
                if let (Some(showing), Some(plate)) = (showing, plate) {
                    let relation = &inventory.system().assumptions().running;
                    plan.running = expect::running(relation, &showing, situation.metering, step / plate)?;
                }
                let wait = if showing.is_some() { COMMON_RUN } else { COMMON_REST };
                let form = match inventory.system().refrigerant().kind() {
                    Kind::Pure => Form::VapourOrLiquid,
                    _ => Form::LiquidThrottled,
                };
                Action::Weigh { step, form, wait }
            }
        };
        Ok(plan)
    }

    /// What to do.
    pub fn action(&self) -> &Action {
        &self.action
    }

    /// The charge now.
    pub fn now(&self) -> Estimate<Mass> {
        self.now
    }

    /// What is missing to the plate charge, where there is a plate.
    pub fn missing(&self) -> Option<Estimate<Mass>> {
        self.missing
    }

    /// The standing pressure to expect after the step, at the temperatures given.
    pub fn expected_standing(&self) -> Option<&Estimate<Pressure>> {
        self.standing.as_ref()
    }

    /// Superheat and subcooling to expect after the step.
    pub fn expected_running(&self) -> Option<&Running> {
        self.running.as_ref()
    }
}

fn check_cylinder(situation: &Situation) -> Result<()> {
    let held = situation.cylinder;
    if !(held.is_finite() && held > -EMPTY_CYLINDER) {
        return Err(Error::out_of_range(
            "refrigerant left in the cylinder",
            held,
            "gross less tare is zero or more",
            "check the tare on the collar and the scale's zero",
        )
        .in_field("cylinder"));
    }
    let Some(step) = situation.step else { return Ok(()) };
    if !(step.is_finite() && step > Mass::ZERO) {
        return Err(Error::out_of_range(
            "step",
            step,
            "a step is above zero",
            "leave it out for half a pound at a time",
        )
        .in_field("step"));
    }
    if step > held && held > EMPTY_CYLINDER {
        return Err(Error::out_of_range(
            "step",
            step,
            format!("the cylinder on the scale holds {held:.2}"),
            "weigh in what it holds, then go on from the next cylinder; the tally adds both",
        )
        .in_field("step"));
    }
    Ok(())
}

fn stop(
    inventory: &Inventory,
    situation: &Situation,
    against_target: Option<OnTarget>,
    missing: Option<Estimate<Mass>>,
) -> Option<Stop> {
    if inventory.conflict().is_some() {
        return Some(Stop::ReadingsDisagree);
    }
    if inventory.probability_gas() > percent(50.0) {
        return Some(Stop::NotThisRefrigerantAlone);
    }
    if !situation.as_predicted {
        return Some(Stop::NotAsPredicted);
    }
    match against_target {
        Some(OnTarget::Met) => return Some(Stop::TargetMet),
        Some(OnTarget::TooMuch) => return Some(Stop::TooMuch),
        _ => {}
    }
    // Within a hundredth of the plate it is as good as reached.
    let full = inventory.system().plate().map_or(Mass::ZERO, |plate| 0.01 * plate);
    if missing.is_some_and(|missing| missing.median <= full) {
        return Some(Stop::PlateReached);
    }
    (situation.cylinder <= EMPTY_CYLINDER).then_some(Stop::CylinderEmpty)
}

fn step(situation: &Situation, missing: Option<Estimate<Mass>>, usual: Mass) -> Result<Mass> {
    if let (Some(step), Some(missing)) = (situation.step, missing)
        && step > missing.ninety.high()
    {
        return Err(Error::out_of_range(
            "step",
            step,
            format!("no more than {:.2} is missing to the data plate's charge", missing.ninety.high()),
            "weigh in less; an overcharged system is recovered and charged anew",
        )
        .in_field("step"));
    }
    let wanted = situation.step.unwrap_or(usual);
    let room = missing.map_or(wanted, |missing| missing.median);
    Ok(if situation.step.is_some() { wanted } else { wanted.min(room) }.min(situation.cylinder))
}
