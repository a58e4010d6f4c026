//! A plan in words, and as a finding.

use super::{Action, Form, Plan, Stop};
use crate::Result;
use crate::charge::AirIngress;
use crate::charge::inventory::Conflict;
use crate::measure::{Caution, Finding};
use crate::quantity::Quantity;

impl Plan {
    /// What is known and what to do, to print.
    pub fn text(&self) -> String {
        let missing = match &self.missing {
            Some(missing) => {
                format!(" Missing to the plate charge: {:.2} ({:.2}).", missing.median, missing.ninety)
            }
            None => String::new(),
        };
        let ignored = if self.readings_set_nothing {
            " The running readings were taken with an outdoor coil that was not clean, dry and steady: they set nothing."
        } else {
            ""
        };
        format!(
            "In the system now: {:.2} (nine times in ten {:.2}).{missing}{ignored} {}",
            self.now.median,
            self.now.ninety,
            self.action_in_words()
        )
    }

    fn action_in_words(&self) -> String {
        match &self.action {
            Action::RepairAndEvacuate { air } => format!("Add nothing. {}", air.text()),
            Action::RuleOut { .. } => "Rule out first what stops cooling and is not the refrigerant.".into(),
            Action::CleanCoil => {
                "Clean the outdoor coil before the final charge: a dirty one raises the head pressure, \
                 and a charge set by it is wrong once it is clean."
                    .into()
            }
            Action::DryAndSteady => {
                "Let the cleaned coil dry and the system run until steady, then read again: wet fins \
                 lower the head pressure."
                    .into()
            }
            Action::Weigh { step, form, .. } => format!("Weigh in {step:.2}, {}.", form.text()),
            Action::Stop { because } => format!("Add no more: {}", because.text()),
        }
    }

    /// What to do, one thing a line.
    pub fn next_steps(&self) -> Vec<String> {
        match &self.action {
            Action::RepairAndEvacuate { air } => {
                let mut lines: Vec<String> = air.next().iter().map(|line| (*line).to_owned()).collect();
                if *air == AirIngress::Possible {
                    lines.insert(0, FINER_GAUGE.to_owned());
                }
                lines
            }
            Action::RuleOut { at_fault, look_at } => {
                let first = at_fault.iter().map(|cause| format!("At fault, mend it first. {}", cause.text()));
                first.chain(look_at.iter().map(|cause| cause.text().into())).collect()
            }
            Action::CleanCoil => vec![
                "Power off; clean the outdoor coil with water from the inside out.".into(),
                "Let it dry, then run until two readings five minutes apart agree, and read anew.".into(),
            ],
            Action::DryAndSteady => {
                vec!["Run until two readings five minutes apart agree, with the coil dry; read anew.".into()]
            }
            Action::Weigh { step, wait, .. } => {
                let mut lines = vec![
                    format!(
                        "Weigh in {step:.2} and write the cylinder's weight before and after; allow for the hoses."
                    ),
                    format!("Wait {wait:.0} and until two readings five minutes apart agree."),
                ];
                if let Some(pressure) = &self.standing {
                    lines.push(format!("Expect a standing pressure of {:.1} (absolute).", pressure.ninety));
                }
                if let Some(running) = &self.running {
                    lines.push(format!(
                        "Expect a superheat of {:.1} and a subcooling of {:.1}.",
                        running.superheat.ninety, running.subcooling.ninety
                    ));
                }
                lines.push("If it does not answer so, add no more and find out why.".into());
                if self.nothing_read {
                    lines.insert(0, READ_FIRST.to_owned());
                }
                lines
            }
            Action::Stop { because } => {
                let explained = self.conflict.filter(|_| *because == Stop::ReadingsDisagree);
                let explained = explained.map_or(&[][..], Conflict::alternatives);
                explained.iter().chain(because.next()).map(|line| (*line).to_owned()).collect()
            }
        }
    }

    /// What can hurt someone in it.
    pub fn cautions(&self) -> Vec<Caution> {
        let mut cautions = match &self.action {
            Action::RepairAndEvacuate { .. } => vec![
                Caution::HighPressure,
                Caution::TestGas,
                Caution::Asphyxiation,
                Caution::Frostbite,
                Caution::Venting,
            ],
            Action::RuleOut { .. } => vec![Caution::StoredCharge, Caution::LiveVoltage, Caution::MovingParts],
            Action::CleanCoil | Action::DryAndSteady => vec![Caution::LiveVoltage, Caution::MovingParts],
            Action::Weigh { .. } | Action::Stop { .. } => {
                vec![Caution::HighPressure, Caution::Frostbite, Caution::Venting]
            }
        };
        cautions.extend(&self.refrigerant_cautions);
        cautions
    }

    /// The plan in the shape of every check.
    ///
    /// # Errors
    /// A value that cannot be written.
    pub fn finding(&self, check: &'static str) -> Result<Finding> {
        let conclusion = match &self.action {
            Action::Weigh { .. } if self.nothing_read => "weigh_unread",
            Action::Stop { because } => because.name(),
            action => action.name(),
        };
        let mut finding = Finding::of(check).concluding(conclusion).saying(self.text());
        finding = estimate(finding, "charge now", &self.now)?;
        if let Some(missing) = &self.missing {
            finding = estimate(finding, "missing to the plate charge", missing)?;
        }
        if let Action::Weigh { step, .. } = &self.action {
            finding = finding.given("next step", *step)?;
        }
        if let Some(pressure) = &self.standing {
            finding = estimate(finding, "standing pressure to expect", pressure)?;
        }
        if let Some(running) = &self.running {
            finding = estimate(finding, "superheat to expect", &running.superheat)?;
            finding = estimate(finding, "subcooling to expect", &running.subcooling)?;
        }
        finding = self.next_steps().into_iter().fold(finding, Finding::then);
        let finding = self.cautions().into_iter().fold(finding, Finding::caution);
        Ok(finding.source("order of work and sizes of steps: common practice, no source"))
    }
}

const FINER_GAUGE: &str = "Read it with a finer gauge, if there is one: above the atmosphere beyond doubt, it may be topped up; \
                           else go on as follows.";
const READ_FIRST: &str = "Before anything is added: read the standing pressure. At or below the atmosphere's nothing is topped \
                          up.";

/// A median and a 90 % interval as three named values.
pub(crate) fn estimate<Q: Quantity + serde::Serialize>(
    finding: Finding,
    what: &str,
    estimate: &super::Estimate<Q>,
) -> Result<Finding> {
    finding
        .given(format!("{what}, median"), estimate.median)?
        .given(format!("{what}, nine times in ten at least"), estimate.ninety.low())?
        .given(format!("{what}, nine times in ten at most"), estimate.ninety.high())
}

impl Form {
    /// How, in words.
    pub const fn text(self) -> &'static str {
        match self {
            Form::LiquidThrottled => {
                "as liquid and throttled, since a blend taken as vapour leaves its cylinder in another composition"
            }
            Form::VapourOrLiquid => "as vapour, or as throttled liquid",
        }
    }
}

impl Stop {
    /// Its name, as in JSON.
    pub const fn name(self) -> &'static str {
        match self {
            Stop::TargetMet => "target_met",
            Stop::TooMuch => "too_much",
            Stop::PlateReached => "plate_reached",
            Stop::NotAsPredicted => "not_as_predicted",
            Stop::CylinderEmpty => "cylinder_empty",
            Stop::NotThisRefrigerantAlone => "not_this_refrigerant_alone",
            Stop::ReadingsDisagree => "readings_disagree",
        }
    }

    /// Why, in words.
    pub const fn text(self) -> &'static str {
        match self {
            Stop::TargetMet => "the target is met.",
            Stop::TooMuch => "the readings say there is too much.",
            Stop::PlateReached => "as likely as not the data plate's charge is in.",
            Stop::NotAsPredicted => "the system did not answer the last step as predicted.",
            Stop::CylinderEmpty => "the cylinder on the scale is empty.",
            Stop::NotThisRefrigerantAlone => {
                "air, nitrogen or another refrigerant is likelier in the system than not."
            }
            Stop::ReadingsDisagree => {
                "the last reading does not fit what was read and weighed before it; the answer is widened to hold either way."
            }
        }
    }

    /// What to do then.
    pub const fn next(self) -> &'static [&'static str] {
        match self {
            Stop::TargetMet => &["Write down the charge by weight, the readings and the weather."],
            Stop::TooMuch => &["Recover a weighed part, and read again once steady."],
            Stop::PlateReached => &[
                "Run until steady and hold superheat and subcooling against their targets.",
                "If they are off at this charge, look for another fault; do not add past the plate.",
            ],
            Stop::NotAsPredicted => &[
                "Restriction: measure for a temperature drop along the liquid line and across the filter-drier.",
                "Metering device: check the valve's bulb and insulation, or the orifice's size.",
                "Non-condensables: off and settled, compare the pressure with saturation at outdoor temperature.",
                "Compressor: compare suction and head pressure and current with the maker's table.",
                "Or the refrigerant does not arrive: hose, cylinder valve, scale, a large leak.",
            ],
            Stop::CylinderEmpty => &[
                "Put the next cylinder on the scale and read its weight before it is opened; the tally adds both.",
            ],
            Stop::NotThisRefrigerantAlone => &[
                "Let all temperatures settle and read again; if it stays, recover, evacuate and charge by weight.",
            ],
            Stop::ReadingsDisagree => &[
                "Read again; one weighed step and reading that agree make the answer sure again. If they never agree: \
                   recover, evacuate, and weigh in the whole charge.",
            ],
        }
    }
}
