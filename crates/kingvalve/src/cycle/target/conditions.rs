//! What must hold before a running system tells its charge.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::Result;
use crate::air::AirflowCheck;
use crate::measure::{Level, Limits, Measured, Verdict};
use crate::quantity::{Quantity, Temperature, Time, fahrenheit, minutes};

/// Which way the system runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Mode {
    /// Cooling the house.
    #[default]
    Cooling,
    /// Heating it: the charge is then weighed in, not read from superheat or subcooling.
    Heating,
}

/// The conditions under which a system was read.
#[derive(Debug, Clone)]
pub struct Conditions {
    /// Cooling or heating.
    pub mode: Mode,
    /// How long it has run without a change.
    pub running: Time,
    /// Of the air entering the outdoor coil.
    pub outdoor: Measured<Temperature>,
    /// Of the air entering the indoor coil; `None` where it was not read.
    pub indoor: Option<Measured<Temperature>>,
    /// Whether there is air enough; `None` where it was not measured.
    pub airflow: Option<AirflowCheck>,
}

/// What must hold; the default is [`Requirements::usual`].
///
/// # Example
/// ```
/// use kingvalve::cycle::target::{Condition, Conditions, Mode, Requirements};
/// use kingvalve::measure::{Level, Measured};
/// use kingvalve::quantity::*;
/// let now = Conditions {
///     mode: Mode::Cooling,
///     running: minutes(6.0),
///     outdoor: Measured::exact(fahrenheit(88.0)),
///     indoor: Some(Measured::exact(fahrenheit(76.0))),
///     airflow: None,
/// };
/// let unmet = Requirements::usual().unmet(&now, Level::default())?;
/// let conditions: Vec<_> = unmet.iter().map(|unmet| unmet.condition()).collect();
/// assert_eq!(conditions, [Condition::Airflow, Condition::Settled]);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Requirements {
    /// How long the system must have run since the last change.
    pub running: Time,
    /// Of the outdoor temperature.
    pub outdoor: Limits<Temperature>,
    /// Of the indoor temperature: enough load on the coil.
    pub indoor: Limits<Temperature>,
    /// Whether the airflow must have been shown to be right.
    pub airflow: bool,
}

impl Requirements {
    /// 15 minutes of running, 55 to 115 °F outdoors, 70 °F or more indoors, airflow shown to be right.
    ///
    /// # Source
    /// Minutes and the lower outdoor limit: California Energy Commission, 2008 Reference Residential Appendix RA3.2.1
    /// and RA3.2.2. The upper outdoor limit, the indoor limit and the rule that airflow comes first: common practice,
    /// no source.
    pub fn usual() -> Requirements {
        let indoor = Limits::at_least(fahrenheit(70.0))
            .unwrap_or_else(|_| Limits::ordered(fahrenheit(70.0), fahrenheit(200.0), "70 °F or more"));
        Requirements {
            running: minutes(15.0),
            outdoor: Limits::ordered(
                fahrenheit(55.0),
                fahrenheit(115.0),
                "55 °F: California 2008 RA3.2.1; 115 °F: common practice",
            ),
            indoor: indoor.from_source("70 °F or more, common practice, no source"),
            airflow: true,
        }
    }

    /// What does not hold, or is not shown to, in the order in which to put it right.
    ///
    /// # Source
    /// Common practice, no source: each condition is judged as any other reading is, and counts as met only where it is
    /// within its limits at the level.
    /// # Errors
    /// A condition that is not finite.
    /// # Example
    /// See [`Requirements`].
    pub fn unmet(&self, now: &Conditions, level: Level) -> Result<Vec<Unmet>> {
        let mut unmet = Vec::new();
        if now.mode == Mode::Heating {
            unmet.push(Unmet::new(
                Condition::Cooling,
                "the system is heating; superheat and subcooling targets are for cooling".into(),
                "In heating mode weigh the charge in; check it in cooling when it is warm enough.",
            ));
        }
        if self.airflow {
            match &now.airflow {
                None => unmet.push(Unmet::new(
                    Condition::Airflow,
                    "the airflow was not measured".into(),
                    "Measure the airflow first: what superheat and subcooling say depends on it.",
                )),
                Some(check) if !check.lets_judge_charge() => unmet.push(Unmet::new(
                    Condition::Airflow,
                    format!("the airflow is not shown to be right: {}", brief(check.verdict())),
                    check.next(),
                )),
                Some(_) => {}
            }
        }
        let outdoor = self.outdoor.judge(&now.outdoor, level)?;
        if !outdoor.is_within() {
            unmet.push(Unmet::new(
                Condition::OutdoorAir,
                format!("outdoor air: {}", brief(&outdoor)),
                "Test when the outdoor air is within the limits, or weigh the charge in.",
            ));
        }
        match &now.indoor {
            None => unmet.push(Unmet::new(
                Condition::IndoorLoad,
                "the temperature of the indoor air was not read".into(),
                "Read the air entering the indoor coil.",
            )),
            Some(indoor) => {
                let indoor = self.indoor.judge(indoor, level)?;
                if !indoor.is_within() {
                    unmet.push(Unmet::new(
                        Condition::IndoorLoad,
                        format!("indoor air: {}", brief(&indoor)),
                        "Warm the house with its heating until the coil has a load, then read again.",
                    ));
                }
            }
        }
        // A time that is not a number has not passed.
        let settled = now.running >= self.running;
        if !settled {
            unmet.push(Unmet::new(
                Condition::Settled,
                format!("it has run {:.0} of the {:.0} it takes to settle", now.running, self.running),
                "Let it run until pressures and temperatures are steady, then read again.",
            ));
        }
        Ok(unmet)
    }
}

impl Default for Requirements {
    fn default() -> Requirements {
        Requirements::usual()
    }
}

/// A precondition of judging a charge by running readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Condition {
    /// The system cools.
    Cooling,
    /// The airflow is right.
    Airflow,
    /// The outdoor air is neither too cold nor too hot.
    OutdoorAir,
    /// The indoor coil has a load.
    IndoorLoad,
    /// It has run long enough.
    Settled,
    /// The target is high enough to be tested against.
    Target,
}

/// A precondition that does not hold, or is not shown to: why, and what to do.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Unmet {
    condition: Condition,
    reason: String,
    next: &'static str,
}

impl Unmet {
    pub(super) fn new(condition: Condition, reason: String, next: &'static str) -> Unmet {
        Unmet { condition, reason, next }
    }

    /// Which one.
    pub fn condition(&self) -> Condition {
        self.condition
    }

    /// Why it counts as not met.
    pub fn reason(&self) -> &str {
        &self.reason
    }

    /// What to do.
    pub fn next(&self) -> &'static str {
        self.next
    }
}

impl fmt::Display for Unmet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.reason)
    }
}

/// The first sentence of a verdict, without its stop.
pub(super) fn brief<Q: Quantity>(verdict: &Verdict<Q>) -> String {
    let text = verdict.to_string();
    let first = text.split(". ").next().unwrap_or_default();
    let first = first.trim_end_matches('.');
    let mut letters = first.chars();
    match letters.next() {
        Some(letter) => letter.to_lowercase().chain(letters).collect(),
        None => String::new(),
    }
}
