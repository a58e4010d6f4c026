//! Before and after a piece of work: what changed by more than its doubt, weather and load allowed for.

use std::fmt;

use super::allowance::{Allowance, Response};
use super::carry::measured;
use crate::measure::{Caution, Finding, Known, Label, Level, Limits, Measured, Verdict};
use crate::quantity::{Current, Power, Quantity, Temperature, TemperatureDifference};
use crate::{Error, Result};

/// A set of readings of a running system: the conditions, and what was read of the machine.
///
/// # Example
/// See [`BeforeAfter`].
#[derive(Debug, Clone)]
pub struct RunReadings {
    pub(super) outdoor: Measured<Temperature>,
    pub(super) return_dry_bulb: Measured<Temperature>,
    pub(super) return_wet_bulb: Measured<Temperature>,
    condensing: Option<Measured<Temperature>>,
    supply: Option<Measured<Temperature>>,
    current: Option<Measured<Current>>,
    capacity: Option<Measured<Power>>,
}

impl RunReadings {
    /// Readings at these conditions: outdoor dry bulb at the condenser, return dry and wet bulb.
    pub fn at(
        outdoor: impl Known<Temperature>,
        return_dry_bulb: impl Known<Temperature>,
        return_wet_bulb: impl Known<Temperature>,
    ) -> RunReadings {
        RunReadings {
            outdoor: measured(&outdoor),
            return_dry_bulb: measured(&return_dry_bulb),
            return_wet_bulb: measured(&return_wet_bulb),
            condensing: None,
            supply: None,
            current: None,
            capacity: None,
        }
    }

    /// The condensing temperature, from the liquid-side pressure.
    #[must_use]
    pub fn condensing(mut self, condensing: impl Known<Temperature>) -> Self {
        self.condensing = Some(measured(&condensing));
        self
    }

    /// The supply dry bulb.
    #[must_use]
    pub fn supply(mut self, supply: impl Known<Temperature>) -> Self {
        self.supply = Some(measured(&supply));
        self
    }

    /// The current of the compressor or of the outdoor unit: the same one both times.
    #[must_use]
    pub fn current(mut self, current: impl Known<Current>) -> Self {
        self.current = Some(measured(&current));
        self
    }

    /// The capacity delivered to the air.
    #[must_use]
    pub fn capacity(mut self, capacity: impl Known<Power>) -> Self {
        self.capacity = Some(measured(&capacity));
        self
    }

    fn over_ambient(&self) -> Option<Measured<TemperatureDifference>> {
        self.condensing.clone().map(|condensing| condensing - self.outdoor.clone())
    }

    fn split(&self) -> Option<Measured<TemperatureDifference>> {
        self.supply.clone().map(|supply| self.return_dry_bulb.clone() - supply)
    }
}

/// Which way something went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shift {
    /// It rose, beyond doubt.
    Rose,
    /// It fell, beyond doubt.
    Fell,
    /// What moved it may be the doubt alone.
    WithinDoubt,
}

/// One quantity before and after.
#[derive(Debug, Clone)]
pub struct Compared<Q: Quantity> {
    what: &'static str,
    before: Measured<Q>,
    after: Measured<Q>,
    allowed: Q,
    change: Measured<Q>,
    verdict: Verdict<Q>,
    shift: Shift,
}

/// Two sets of readings around a piece of work, compared with weather and load allowed for.
///
/// The change of each quantity is what was read after, less what was read before, less what the difference in weather
/// and load explains by the [`Allowance`]. One instrument used both times errs alike both times: its accuracy mostly
/// cancels, so give both readings the same [`Instrument`](crate::measure::Instrument).
///
/// # Example
/// ```
/// use kingvalve::air::{Allowance, BeforeAfter, RunReadings, Shift};
/// use kingvalve::measure::{Instrument, Level, Reading};
/// use kingvalve::quantity::*;
/// let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
/// let read = |t| Reading::new(fahrenheit(t), probe.clone());
/// let before = RunReadings::at(read(91.0)?, read(76.0)?, read(64.0)?).condensing(fahrenheit(124.0)).supply(read(60.0)?);
/// let after = RunReadings::at(read(93.0)?, read(75.5)?, read(63.5)?).condensing(fahrenheit(113.0)).supply(read(59.4)?);
/// let washed = BeforeAfter::of("condenser coil washed", &before, &after, &Allowance::default(), Level::default())?;
/// assert_eq!(washed.condensing_over_ambient().map(|c| c.shift()), Some(Shift::Fell));
/// assert_eq!(washed.split().map(|c| c.shift()), Some(Shift::WithinDoubt));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct BeforeAfter {
    work: Label,
    over_ambient: Option<Compared<TemperatureDifference>>,
    split: Option<Compared<TemperatureDifference>>,
    current: Option<Compared<Current>>,
    capacity: Option<Compared<Power>>,
    source: Label,
}

impl BeforeAfter {
    /// Compares what was read both times.
    ///
    /// # Units
    /// Those of the readings.
    /// # Source
    /// Differences by JCGM 100:2008, 5.2, with what the readings share cancelling; the allowance's own source.
    /// # Valid range
    /// Conditions that differ by less than the allowance's reach.
    /// # Accuracy
    /// The allowance's slopes carry their own doubt, so that the more the weather differs, the less is claimed.
    /// # Errors
    /// Nothing read both times; conditions too far apart to allow for.
    /// # Example
    /// See [`BeforeAfter`].
    pub fn of(
        work: impl Into<Label>,
        before: &RunReadings,
        after: &RunReadings,
        allowance: &Allowance,
        level: Level,
    ) -> Result<BeforeAfter> {
        allowance.reaches(before, after)?;
        let both = Conditions { before, after, level };
        let found = BeforeAfter {
            work: work.into(),
            over_ambient: both.compare(
                "condensing over ambient",
                (before.over_ambient(), after.over_ambient()),
                allowance.over_ambient(),
                false,
            )?,
            split: both.compare("split", (before.split(), after.split()), allowance.split(), true)?,
            current: both.compare(
                "current",
                (before.current.clone(), after.current.clone()),
                allowance.current(),
                false,
            )?,
            capacity: both.compare(
                "capacity",
                (before.capacity.clone(), after.capacity.clone()),
                allowance.capacity(),
                true,
            )?,
            source: allowance.source().clone(),
        };
        if found.sentences().is_empty() {
            return Err(Error::inconsistent(
                "before and after",
                "no quantity was read both times",
                "read the same things before and after: condensing temperature, supply air, current or capacity",
            ));
        }
        Ok(found)
    }

    /// Condensing temperature less outdoor dry bulb: it falls when the condenser rejects heat more easily.
    pub fn condensing_over_ambient(&self) -> Option<&Compared<TemperatureDifference>> {
        self.over_ambient.as_ref()
    }

    /// Return less supply dry bulb.
    pub fn split(&self) -> Option<&Compared<TemperatureDifference>> {
        self.split.as_ref()
    }

    /// Current.
    pub fn current(&self) -> Option<&Compared<Current>> {
        self.current.as_ref()
    }

    /// Capacity.
    pub fn capacity(&self) -> Option<&Compared<Power>> {
        self.capacity.as_ref()
    }

    /// One sentence for each quantity that was read both times.
    pub fn sentences(&self) -> Vec<String> {
        let temperatures = [&self.over_ambient, &self.split];
        let mut sentences: Vec<String> =
            temperatures.into_iter().flatten().map(Compared::to_string).collect();
        sentences.extend(self.current.as_ref().map(Compared::to_string));
        sentences.extend(self.capacity.as_ref().map(Compared::to_string));
        sentences
    }

    /// The finding in the form all checks share. Each verdict says whether a quantity moved the way such work is meant
    /// to move it: condensing over ambient and current down, split and capacity up.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of("before_and_after").saying(format!("{}.", self.work));
        for compared in [&self.over_ambient, &self.split].into_iter().flatten() {
            finding = compared.add_to(finding)?;
        }
        if let Some(compared) = &self.current {
            finding = compared.add_to(finding)?.caution(Caution::LiveVoltage);
        }
        if let Some(compared) = &self.capacity {
            finding = compared.add_to(finding)?;
        }
        Ok(finding
            .then(
                "Write both sets of readings into the report. What did not change by more than its doubt proves nothing: \
                 read it again steady, on the same instruments.",
            )
            .caution(Caution::MovingParts)
            .source("JCGM 100:2008, 5.2").source(self.source.as_str()))
    }
}

impl fmt::Display for BeforeAfter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.", self.work)?;
        self.sentences().iter().try_for_each(|sentence| write!(f, " {sentence}"))
    }
}

struct Conditions<'a> {
    before: &'a RunReadings,
    after: &'a RunReadings,
    level: Level,
}

impl Conditions<'_> {
    /// One quantity compared, where it was read both times.
    fn compare<Q>(
        &self,
        what: &'static str,
        (before, after): (Option<Measured<Q>>, Option<Measured<Q>>),
        response: &Response,
        up_is_meant: bool,
    ) -> Result<Option<Compared<Q>>>
    where
        Q: Quantity<Difference = Q>,
    {
        let Some((before, after)) = before.zip(after) else { return Ok(None) };
        let (factor, explained) = response.explained(self.before, self.after)?;
        let from = before.value().base();
        let allowed = from * factor;
        let change = Measured::exact(Q::from_base(after.value().base() - from - allowed))
            .depending_on(&after, 1.0)
            .depending_on(&before, -1.0 - factor)
            .depending_on(&explained, -from);
        let none = Q::from_base(0.0);
        let limits = if up_is_meant { Limits::at_least(none) } else { Limits::at_most(none) }?;
        let verdict = limits.from_source("no change").judge(&change, self.level)?;
        let moved = change.value().base();
        let shift = if verdict.is_unresolved() || moved == 0.0 {
            Shift::WithinDoubt
        } else if moved > 0.0 {
            Shift::Rose
        } else {
            Shift::Fell
        };
        Ok(Some(Compared { what, before, after, allowed: Q::from_base(allowed), change, verdict, shift }))
    }
}

impl<Q: Quantity> Compared<Q> {
    /// As it was before.
    pub fn before(&self) -> &Measured<Q> {
        &self.before
    }

    /// As it was after.
    pub fn after(&self) -> &Measured<Q> {
        &self.after
    }

    /// How much of the difference weather and load explain.
    pub fn allowed(&self) -> Q {
        self.allowed
    }

    /// How much they do not.
    pub fn change(&self) -> &Measured<Q> {
        &self.change
    }

    /// Whether it moved the way such work is meant to move it.
    pub fn verdict(&self) -> &Verdict<Q> {
        &self.verdict
    }

    /// Which way it went.
    pub fn shift(&self) -> Shift {
        self.shift
    }

    fn add_to(&self, finding: Finding) -> Result<Finding>
    where
        Q: Quantity<Difference = Q> + serde::Serialize,
    {
        finding
            .measured(format!("{} before", self.what), &self.before)?
            .measured(format!("{} after", self.what), &self.after)?
            .given(format!("{} explained by weather and load", self.what), self.allowed)?
            .measured(format!("{} changed by", self.what), &self.change)?
            .judged(format!("{} changed by", self.what), &self.verdict)
            .map(|finding| finding.saying(self.to_string()))
    }
}

impl<Q: Quantity> fmt::Display for Compared<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Compared { what, before, after, allowed, change, .. } = self;
        match self.shift {
            Shift::Rose => write!(f, "The {what} rose")?,
            Shift::Fell => write!(f, "The {what} fell")?,
            Shift::WithinDoubt => write!(f, "The {what} did not change by more than its doubt")?,
        }
        write!(f, ": {:.1} before, {:.1} after", before.value(), after.value())?;
        write!(f, ", of which weather and load explain {allowed:.1}; the rest is {change}.")
    }
}
