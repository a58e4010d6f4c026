//! A reading against its target.

use std::fmt;

use super::conditions::brief;
use super::value::measured;
use super::{ChargeTolerance, Condition, Conditions, Requirements, Target, TargetNote, Unmet};
use crate::Result;
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{Temperature, TemperatureDifference};

/// A superheat, subcooling or approach against its target: the distance, the verdict, what else the reading says, and
/// the preconditions that do not hold. While one does not hold there is no verdict.
///
/// # Example
/// ```
/// use kingvalve::cycle::target::{ChargeTolerance, Target, TargetCheck, TargetNote};
/// use kingvalve::measure::{Level, Measured};
/// use kingvalve::quantity::*;
/// let (usual, level) = (ChargeTolerance::default(), Level::default());
/// let plate = Target::given(delta_fahrenheit(10.0), "data plate")?;
/// let subcooling = Measured::from_standard(delta_fahrenheit(4.0), delta_fahrenheit(1.0), "subcooling")?;
/// let check = TargetCheck::subcooling(subcooling, &plate, &usual, level)?
///     .with_valve_superheat(delta_fahrenheit(9.0), &usual, level)?;
/// assert!(check.verdict().is_some_and(|verdict| verdict.is_outside()));
/// assert!(check.notes().is_empty());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct TargetCheck {
    of: Reading,
    actual: Measured<TemperatureDifference>,
    target: Target,
    distance: Measured<TemperatureDifference>,
    verdict: Verdict<TemperatureDifference>,
    valve: Option<(Measured<TemperatureDifference>, Verdict<TemperatureDifference>)>,
    notes: Vec<TargetNote>,
    unmet: Vec<Unmet>,
    level: Level,
}

/// What is held against a target.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reading {
    Superheat,
    Subcooling,
    Approach,
}

impl TargetCheck {
    /// Superheat of a system with a fixed orifice.
    ///
    /// # Units
    /// Temperature differences.
    /// # Source
    /// The target's own; limits by the tolerance given; conformity by JCGM 106:2012.
    /// # Valid range
    /// Fixed orifice or capillary, cooling, the preconditions of [`Requirements`]; targets of
    /// [`lowest_target`](ChargeTolerance::lowest_target) and more.
    /// # Accuracy
    /// That of the readings, with what actual and target share counted once. The formula's own error is not counted.
    /// # Errors
    /// A reading that is not finite.
    /// # Example
    /// See [the room](super).
    pub fn superheat(
        actual: impl Known<TemperatureDifference>,
        target: &Target,
        tolerance: &ChargeTolerance,
        level: Level,
    ) -> Result<TargetCheck> {
        let mut check =
            TargetCheck::of(Reading::Superheat, measured(&actual), target, &tolerance.superheat, level)?;
        let lowest =
            Limits::at_least(tolerance.lowest_target)?.from_source("the lowest that can be tested against");
        let testable = lowest.judge(target.value(), level)?;
        if !testable.is_within() {
            check.unmet.push(Unmet::new(
                Condition::Target,
                format!("the target superheat is too low for a test: {}", brief(&testable)),
                "Test when it is cooler outside or the house is warmer and more humid, or weigh the charge in.",
            ));
        }
        check.notes.extend(TargetNote::of_superheat(&check.actual, level)?);
        Ok(check)
    }

    /// Subcooling of a system with a thermostatic or electronic valve.
    ///
    /// # Units
    /// Temperature differences.
    /// # Source
    /// As [`superheat`](Self::superheat).
    /// # Valid range
    /// A valve that works ([`with_valve_superheat`](Self::with_valve_superheat)), cooling, the preconditions of
    /// [`Requirements`].
    /// # Accuracy
    /// As [`superheat`](Self::superheat).
    /// # Errors
    /// A reading that is not finite.
    /// # Example
    /// See [`TargetCheck`].
    pub fn subcooling(
        actual: impl Known<TemperatureDifference>,
        target: &Target,
        tolerance: &ChargeTolerance,
        level: Level,
    ) -> Result<TargetCheck> {
        let actual = measured(&actual);
        let mut check = TargetCheck::of(Reading::Subcooling, actual, target, &tolerance.subcooling, level)?;
        check.notes.extend(TargetNote::of_subcooling(&check.actual, level)?);
        Ok(check)
    }

    /// Liquid line less outdoor air, where the maker charges by approach.
    ///
    /// # Units
    /// Temperatures in.
    /// # Source
    /// The maker's target and limits; conformity by JCGM 106:2012.
    /// # Valid range
    /// Equipment whose maker gives an approach; the preconditions of [`Requirements`].
    /// # Accuracy
    /// That of the two thermometers; one thermometer for both places cancels its own accuracy.
    /// # Errors
    /// A reading that is not finite.
    /// # Example
    /// ```
    /// use kingvalve::cycle::target::{Target, TargetCheck};
    /// use kingvalve::measure::{Level, Limits};
    /// use kingvalve::quantity::*;
    /// let maker = Target::given(delta_fahrenheit(8.0), "invented data plate")?;
    /// let limits = Limits::between(delta_fahrenheit(-1.0), delta_fahrenheit(1.0))?.from_source("invented data plate");
    /// let check = TargetCheck::approach(fahrenheit(101.0), fahrenheit(90.0), &maker, limits, Level::default())?;
    /// assert_eq!(format!("{:.0}", check.distance().value()), "3 Δ°F");
    /// assert!(check.next()[0].contains("add refrigerant"));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn approach(
        liquid_line: impl Known<Temperature>,
        outdoor_air: impl Known<Temperature>,
        target: &Target,
        limits: Limits<TemperatureDifference>,
        level: Level,
    ) -> Result<TargetCheck> {
        let actual = measured(&liquid_line) - measured(&outdoor_air);
        TargetCheck::of(Reading::Approach, actual, target, &limits, level)
    }

    fn of(
        of: Reading,
        actual: Measured<TemperatureDifference>,
        target: &Target,
        limits: &Limits<TemperatureDifference>,
        level: Level,
    ) -> Result<TargetCheck> {
        let distance = actual.clone() - target.value().clone();
        let verdict = limits.judge(&distance, level)?;
        let target = target.clone();
        Ok(TargetCheck {
            of,
            actual,
            target,
            distance,
            verdict,
            valve: None,
            notes: vec![],
            unmet: vec![],
            level,
        })
    }

    /// Adds the superheat a valve holds: one outside the tolerance's range points to the valve, not to the charge.
    ///
    /// # Errors
    /// A superheat that is not finite.
    pub fn with_valve_superheat(
        mut self,
        superheat: impl Known<TemperatureDifference>,
        tolerance: &ChargeTolerance,
        level: Level,
    ) -> Result<TargetCheck> {
        let superheat = measured(&superheat);
        let verdict = tolerance.valve_superheat.judge(&superheat, level)?;
        self.notes.extend(TargetNote::of_superheat(&superheat, level)?);
        if !verdict.is_within() {
            self.notes.push(TargetNote::ValveOffRange);
        }
        self.valve = Some((superheat, verdict));
        Ok(self)
    }

    /// Adds the conditions it was read under: those not met come back as reasons, and there is no verdict.
    ///
    /// # Errors
    /// A condition that is not finite.
    pub fn under(mut self, requirements: &Requirements, conditions: &Conditions) -> Result<TargetCheck> {
        self.unmet.splice(0..0, requirements.unmet(conditions, self.level)?);
        Ok(self)
    }

    /// What was read.
    pub fn actual(&self) -> &Measured<TemperatureDifference> {
        &self.actual
    }

    /// What it should be.
    pub fn target(&self) -> &Target {
        &self.target
    }

    /// Actual less target.
    pub fn distance(&self) -> &Measured<TemperatureDifference> {
        &self.distance
    }

    /// Whether the distance lies within the limits; `None` while a precondition is not met.
    pub fn verdict(&self) -> Option<&Verdict<TemperatureDifference>> {
        self.unmet.is_empty().then_some(&self.verdict)
    }

    /// The verdict on the superheat of the valve, where it was given.
    pub fn valve_verdict(&self) -> Option<&Verdict<TemperatureDifference>> {
        self.valve.as_ref().map(|(_, verdict)| verdict)
    }

    /// What else the readings say.
    pub fn notes(&self) -> &[TargetNote] {
        &self.notes
    }

    /// The preconditions not met, in the order in which to put them right.
    pub fn unmet(&self) -> &[Unmet] {
        &self.unmet
    }

    /// What to do next.
    pub fn next(&self) -> Vec<&'static str> {
        if !self.unmet.is_empty() {
            return self.unmet.iter().map(Unmet::next).collect();
        }
        if let Some(note) = self.notes.first() {
            return vec![note.next()];
        }
        let judgement = self.verdict.judgement();
        let low = judgement.probability_below() > judgement.probability_above();
        vec![match (&self.verdict, self.of, low) {
            (Verdict::Within(_), ..) => "The charge is right by this reading: write it down and stop.",
            (Verdict::Unresolved(_), ..) => {
                "These instruments cannot tell: improve the reading named, or read again when steady, before adding or \
                 removing anything."
            }
            (Verdict::Outside(_), Reading::Superheat | Reading::Approach, false)
            | (Verdict::Outside(_), Reading::Subcooling, true) => {
                "With the airflow right and no restriction, add refrigerant: one weighed step, then let it settle and \
                 read again. Find the leak."
            }
            (Verdict::Outside(_), ..) => {
                "With the airflow right, the outdoor coil clean and no air in the system, recover a weighed step into a \
                 cylinder, let it settle and read again."
            }
        }]
    }

    /// The finding in the form all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let (check, what) = match self.of {
            Reading::Superheat => ("target_superheat", "superheat"),
            Reading::Subcooling => ("target_subcooling", "subcooling"),
            Reading::Approach => ("target_approach", "approach"),
        };
        let mut finding = Finding::of(check)
            .measured(what, &self.actual)?
            .measured(format!("target {what}"), self.target.value())?
            .measured(format!("{what} less target"), &self.distance)?
            .saying(self.to_string());
        if let Some(verdict) = self.verdict() {
            finding = finding.judged(format!("{what} less target"), verdict)?;
        }
        let note = self.notes.first().map(|note| note.name());
        if let Some(conclusion) = if self.unmet.is_empty() { note } else { Some("unmet") } {
            finding = finding.concluding(conclusion);
        }
        if let Some((superheat, verdict)) = &self.valve {
            finding = finding.measured("superheat of the valve", superheat)?;
            if self.unmet.is_empty() {
                finding = finding.judged("superheat of the valve", verdict)?;
            }
        }
        for next in self.next() {
            finding = finding.then(next);
        }
        Ok(finding
            .caution(Caution::HighPressure)
            .caution(Caution::Frostbite)
            .caution(Caution::MovingParts)
            .caution(Caution::Venting)
            .source(self.target.source())
            .source(self.verdict.judgement().limits().source())
            .source("JCGM 106:2012"))
    }
}

impl fmt::Display for TargetCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let what = match self.of {
            Reading::Superheat => "Superheat",
            Reading::Subcooling => "Subcooling",
            Reading::Approach => "Approach",
        };
        let target = self.target.value().value();
        write!(f, "{what} {} against a target of {target:.1} ({}).", self.actual, self.target.source())?;
        if self.unmet.is_empty() {
            write!(f, " Distance: {}", self.verdict)?;
            if let Some((_, verdict)) = &self.valve {
                write!(f, " Superheat of the valve: {verdict}")?;
            }
        } else {
            let reasons: Vec<&str> = self.unmet.iter().map(Unmet::reason).collect();
            write!(f, " Not judged: {}.", reasons.join("; "))?;
        }
        for note in &self.notes {
            write!(f, " {note}")?;
        }
        Ok(())
    }
}
