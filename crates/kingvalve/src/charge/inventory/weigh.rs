//! Weighs all evidence anew when a reading comes.

use std::sync::Arc;

use super::belief::{Belief, nothing_left};
use super::evidence::{self, Weighed};
use super::prior::Prior;
use super::proposal::Proposal;
use super::seen::Half;
use super::{Conflict, Contribution, Estimate, Inventory, RunningReading};
use crate::measure::{Label, Level};
use crate::quantity::{Mass, Quantity, percent};
use crate::{Error, Result};

impl Inventory {
    /// The same, with what was weighed since the last reading counted to what came before the next.
    pub(super) fn up_to_now(&self) -> Inventory {
        let mut next = self.clone();
        let more = self.belief.moved;
        next.weighed = next.weighed.and(more);
        for standing in &mut next.standing {
            standing.since = standing.since.and(more);
        }
        if let Some(running) = &mut next.running {
            running.since = running.since.and(more);
        }
        next
    }

    /// Notes what the last piece of evidence did.
    pub(super) fn noted(mut self, what: Label, before: &Estimate<Mass>, belief: Belief) -> Inventory {
        self.contributions.push(Contribution { what, before: *before, after: belief.now });
        self.belief = Arc::new(belief);
        self
    }

    /// The same, its last contribution called otherwise.
    pub(crate) fn called(mut self, what: &str) -> Inventory {
        if let Some(last) = self.contributions.last_mut() {
            last.what = what.to_owned().into();
        }
        self
    }

    /// All evidence weighed together; nothing where it is less likely than `hardly`.
    pub(super) fn believed(&self, hardly: f64) -> Result<Option<Belief>> {
        let prior = Prior::of(&self.system);
        let of = |standing, running, from, hardly| {
            let evidence = evidence::of(&self.system, standing, running, &self.weighed);
            Belief::of(&prior, &evidence, from, hardly)
        };
        let running = self.running.as_ref();
        let Some(conflict) = self.conflict else { return of(&self.standing, running, self.from, hardly) };
        let either = match conflict {
            // The pressure alone, or any charge whatever.
            Conflict::PressureTooLow | Conflict::PressureTooHigh => {
                let alone = of(&self.standing, None, Proposal::PRIOR, 0.0)?;
                let most = evidence::found(&self.system).high + self.weighed.added;
                alone.and_then(|alone| alone.or_anything(0.0, most))
            }
            Conflict::Running => {
                let alone = of(&self.standing, None, self.from, 0.0)?;
                let evidence = evidence::of(
                    &self.system,
                    &[],
                    running,
                    &Weighed { since_evacuated: None, ..self.weighed },
                );
                let other = Belief::of(&prior, &evidence, Proposal::PRIOR, 0.0)?;
                alone.zip(other).and_then(|(alone, other)| alone.or(&other))
            }
        };
        either.ok_or_else(nothing_left).map(Some)
    }

    /// What is believed without the running reading, where that contradicts the rest.
    pub(super) fn without_doubted_running(&self) -> Result<Option<Belief>> {
        if self.conflict != Some(Conflict::Running) {
            return Ok(None);
        }
        let evidence = evidence::of(&self.system, &self.standing, None, &self.weighed);
        Belief::of(&Prior::of(&self.system), &evidence, self.from, 0.0)
    }

    /// With a standing pressure that does not fit what came before: from here on that pressure alone counts, and whatever
    /// was weighed in before it may not have arrived.
    pub(super) fn contradicted(&self, mut next: Inventory, label: Label) -> Result<Inventory> {
        if let Some(last) = next.standing.pop() {
            let less = self.belief.probability(|draw| {
                let seen = Half::of(&last, &draw.supposed).at(draw.supposed.volume);
                seen.charge < self.belief.charge(draw)
            });
            next.conflict =
                Some(if less > 0.5 { Conflict::PressureTooLow } else { Conflict::PressureTooHigh });
            next.standing = vec![last];
        }
        next.running = None;
        next.weighed = Weighed { in_doubt: next.weighed.added, since_evacuated: None, ..next.weighed };
        next.from = Proposal::PRIOR;
        let belief = next.believed(0.0)?.ok_or_else(nothing_left)?;
        Ok(next.noted(label, &self.now(), belief))
    }

    /// The density of a reading below which a mistake somewhere is likelier, were anything up to `range` as likely then.
    pub(super) fn mistaken_over(&self, range: f64) -> f64 {
        let mistaken = self.system.assumptions.mistaken.fraction();
        mistaken / ((1.0 - mistaken) * range)
    }

    pub(super) fn refuse_subcooling_when_empty(&self, reading: &RunningReading) -> Result<()> {
        let nearly_empty = 0.3 * self.system.nominal().base();
        let empty = self.belief.probability(|draw| self.belief.charge(draw) < nearly_empty);
        let subcooling = reading.subcooling.interval(Level::new(percent(95.0))?)?;
        if empty > 0.95 && subcooling.low().delta_kelvins() > 0.0 {
            return Err(Error::inconsistent(
                "subcooling",
                format!(
                    "{} was read, while {:.2} of refrigerant are in the system: too little to stand as liquid in the \
                     condenser",
                    reading.subcooling, self.belief.now.ninety
                ),
                "check that the gauge sits on the liquid line and its valve is open, the thermometer, the refrigerant, \
                 and that the system ran until steady",
            )
            .in_field("subcooling"));
        }
        Ok(())
    }
}
