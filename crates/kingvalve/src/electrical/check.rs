//! What a capacitor check found.

use std::fmt;

use serde::Serialize;

use super::RunCapacitor;
use crate::measure::{Caution, Measured, Verdict};
use crate::quantity::Capacitance;

/// What a check of a run capacitor found: its capacitance with doubt, and what that means.
#[derive(Debug, Clone, Serialize)]
pub struct CapacitorCheck {
    part: RunCapacitor,
    capacitance: Measured<Capacitance>,
    rated: Verdict<Capacitance>,
    #[serde(skip_serializing_if = "Option::is_none")]
    policy: Option<Verdict<Capacitance>>,
    notes: &'static [CapacitorNote],
    cautions: &'static [Caution],
}

/// Something seen beside the capacitance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum CapacitorNote {
    /// No current was read.
    NoCurrent,
}

impl CapacitorNote {
    /// What to print.
    pub const fn text(self) -> &'static str {
        match self {
            CapacitorNote::NoCurrent => {
                "No current was read: the section is open, its lead is off, the clamp was not around this section's \
                 lead alone, or the current is below the meter's first step."
            }
        }
    }
}

impl fmt::Display for CapacitorNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}

impl CapacitorCheck {
    #[inline]
    pub(super) fn new(
        part: RunCapacitor,
        capacitance: Measured<Capacitance>,
        rated: Verdict<Capacitance>,
        policy: Option<Verdict<Capacitance>>,
        no_current: bool,
    ) -> Self {
        let notes: &[CapacitorNote] = if no_current { &[CapacitorNote::NoCurrent] } else { &[] };
        CapacitorCheck {
            part,
            capacitance,
            rated,
            policy,
            notes,
            cautions: &[Caution::LiveVoltage, Caution::StoredCharge],
        }
    }

    /// The part as marked.
    pub fn part(&self) -> &RunCapacitor {
        &self.part
    }

    /// The capacitance, with its doubt.
    pub fn capacitance(&self) -> &Measured<Capacitance> {
        &self.capacitance
    }

    /// Against the tolerance marked on the part.
    pub fn verdict(&self) -> &Verdict<Capacitance> {
        &self.rated
    }

    /// Against the shop's policy, where one was given.
    pub fn policy_verdict(&self) -> Option<&Verdict<Capacitance>> {
        self.policy.as_ref()
    }

    /// What else was seen.
    pub fn notes(&self) -> &[CapacitorNote] {
        self.notes
    }

    /// What can hurt someone at this work.
    pub fn cautions(&self) -> &[Caution] {
        self.cautions
    }
}

/// One line a verdict, then the notes.
impl fmt::Display for CapacitorCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.rated)?;
        if let Some(policy) = &self.policy {
            write!(f, "\n{policy}")?;
        }
        self.notes.iter().try_for_each(|note| write!(f, "\n{note}"))
    }
}
