//! Whether there is air enough to judge a refrigerant charge by.

use std::fmt;

use super::airflow::positive;
use super::carry::measured;
use crate::Result;
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{Power, Quantity, VolumeFlow, cfm, tons_of_refrigeration};

/// The airflow a ton of cooling is usually set up with: 350 to 450 cfm. Common practice, no source.
pub fn usual_airflow_per_ton() -> Limits<VolumeFlow> {
    Limits::ordered(cfm(350.0), cfm(450.0), "350 to 450 cfm per ton, common practice, no source")
}

/// The airflow above which California's charge test may go on without the temperature-split test: 300 cfm per ton.
///
/// # Errors
/// None; the form is that of [`Limits`].
pub fn california_airflow_per_ton() -> Result<Limits<VolumeFlow>> {
    Ok(Limits::at_least(cfm(300.0))?
        .from_source("300 cfm per ton, California 2008 Reference Residential Appendix RA3.2.2.7"))
}

/// Whether the airflow lets one judge the charge: a precondition of superheat, subcooling and what follows from them.
///
/// # Example
/// ```
/// use kingvalve::air::{AirflowCheck, usual_airflow_per_ton};
/// use kingvalve::measure::{Level, Measured};
/// use kingvalve::quantity::*;
/// let flow = Measured::from_standard(cfm(980.0), cfm(30.0), "flow")?;
/// let check = AirflowCheck::of(flow, tons_of_refrigeration(3.0), usual_airflow_per_ton(), Level::default())?;
/// assert!(check.verdict().is_outside());
/// assert!(!check.lets_judge_charge());
/// assert!(check.to_string().contains("Put the airflow right before judging the charge"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct AirflowCheck {
    airflow: Measured<VolumeFlow>,
    per_ton: Measured<VolumeFlow>,
    nominal: Power,
    verdict: Verdict<VolumeFlow>,
}

impl AirflowCheck {
    /// Judges an airflow against limits *per ton* of nominal cooling capacity.
    ///
    /// # Units
    /// Volume flow; capacity from the data plate; limits as the volume flow for one ton.
    /// # Source
    /// The limits' own: [`usual_airflow_per_ton`], [`california_airflow_per_ton`], or the equipment's manual.
    /// # Valid range
    /// Comfort cooling.
    /// # Accuracy
    /// That of the airflow; the nominal capacity is taken as given.
    /// # Errors
    /// An airflow or capacity that is not positive.
    /// # Example
    /// See [`AirflowCheck`].
    pub fn of(
        airflow: impl Known<VolumeFlow>,
        nominal: Power,
        per_ton: Limits<VolumeFlow>,
        level: Level,
    ) -> Result<AirflowCheck> {
        positive("airflow", airflow.value())?;
        positive("nominal capacity", nominal)?;
        let airflow = measured(&airflow);
        let share = tons_of_refrigeration(1.0) / nominal;
        let each = airflow.clone().map(VolumeFlow::from_base(airflow.value().base() * share), share);
        let verdict = per_ton.judge(&each, level)?;
        Ok(AirflowCheck { airflow, per_ton: each, nominal, verdict })
    }

    /// The airflow.
    pub fn airflow(&self) -> &Measured<VolumeFlow> {
        &self.airflow
    }

    /// The airflow for each ton of nominal capacity.
    pub fn per_ton(&self) -> &Measured<VolumeFlow> {
        &self.per_ton
    }

    /// Whether it lies within the limits.
    pub fn verdict(&self) -> &Verdict<VolumeFlow> {
        &self.verdict
    }

    /// Whether the charge may be judged: only where the airflow is within its limits beyond doubt.
    pub fn lets_judge_charge(&self) -> bool {
        self.verdict.is_within()
    }

    /// What to do next.
    pub fn next(&self) -> &'static str {
        let low = self.verdict.judgement().probability_below() > self.verdict.judgement().probability_above();
        match (&self.verdict, low) {
            (Verdict::Within(_), _) => "The airflow lets the charge be judged.",
            (Verdict::Outside(_), true) => {
                "Put the airflow right before judging the charge: filter, coil, blower wheel and speed tap, dampers, ducts."
            }
            (Verdict::Outside(_), false) => {
                "Put the airflow right before judging the charge: blower speed tap, missing filter, open panels."
            }
            (Verdict::Unresolved(_), _) => {
                "Measure the airflow better before judging the charge: what superheat and subcooling say depends on it."
            }
        }
    }

    /// The finding in the form all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let finding = Finding::of("airflow_for_charge")
            .measured("airflow", &self.airflow)?
            .measured("airflow per ton", &self.per_ton)?
            .given("nominal capacity", self.nominal)?
            .judged("airflow per ton", &self.verdict)?
            .saying(format!("Airflow for each ton. {}", self.verdict))
            .then(self.next())
            .caution(Caution::MovingParts)
            .source(self.verdict.judgement().limits().source());
        Ok(finding)
    }
}

impl fmt::Display for AirflowCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Airflow per ton. {} {}", self.verdict, self.next())
    }
}
