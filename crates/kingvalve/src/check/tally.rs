//! `cylinder_tally`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::Check;
use crate::cylinder::{CylinderUse, Tally, into_system};
use crate::measure::{Caution, Finding, Instrument, Level, Limits, Reading};
use crate::quantity::Mass;
use crate::{Error, Result};

/// What went into the system: the fall of each cylinder's weight on one scale, summed over cylinders.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct CylinderTally {
    /// The scale all weights were read on.
    scale: Instrument<Mass>,
    /// The cylinders, in any order.
    cylinders: Vec<Cylinder>,
    /// Let out to purge air from hoses.
    #[serde(default)]
    purged: Option<Mass>,
    /// Still in the hoses when the last weight was read.
    #[serde(default)]
    in_hoses: Option<Mass>,
    /// How much should have gone in, where that is known.
    #[serde(default)]
    limits: Option<Limits<Mass>>,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// One cylinder on the scale.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Cylinder {
    /// What it is called: "cylinder A".
    name: String,
    /// Its weights in the order they were read, two at least.
    weights: Vec<Mass>,
}

impl Check for CylinderTally {
    const NAME: &'static str = "cylinder_tally";
    const EXAMPLE: &'static str = include_str!("examples/cylinder_tally.json");

    fn find(self) -> Result<Finding> {
        let mut uses = Vec::new();
        for (at, cylinder) in self.cylinders.into_iter().enumerate() {
            let read = |(step, weight): (usize, &Mass)| {
                let label = format!("weight {} of {}", step + 1, cylinder.name);
                let place = |error: Error| error.in_field(format!("cylinders[{at}].weights[{step}]"));
                Ok(Reading::new(*weight, self.scale.clone()).map_err(place)?.labelled(label))
            };
            let weights = cylinder.weights.iter().enumerate().map(read).collect::<Result<Vec<_>>>()?;
            uses.push(CylinderUse { name: cylinder.name, weights });
        }
        let tally = Tally::of(&uses).map_err(|error| error.in_field("cylinders"))?;
        let mut finding = Finding::of(Self::NAME).measured("weighed out in all", tally.total())?;
        for (at, (name, step)) in tally.steps().iter().enumerate() {
            finding = finding.measured(format!("step {} from {name}", at + 1), step)?;
        }
        let none = Mass::ZERO;
        let lost = (self.purged.unwrap_or(none), self.in_hoses.unwrap_or(none));
        let charged =
            into_system(tally.total(), lost.0, lost.1).map_err(|error| error.in_field("in_hoses"))?;
        finding = finding.saying(format!(
            "Weighed out {} of {} cylinders.",
            tally.total(),
            tally.cylinders().len()
        ));
        if lost != (none, none) {
            finding = finding.measured("reached the system", &charged)?;
            finding = finding.saying(format!("Without what the hoses took, {charged} reached the system."));
        }
        for (name, gap) in tally.gaps().iter().filter(|(_, gap)| gap.value() > gap.expanded(self.level)) {
            finding = finding
                .measured(format!("lost by {name} while off the scale"), gap)?
                .saying(format!("{name} came back {gap} lighter than it left: that went elsewhere."));
        }
        if let Some(limits) = self.limits {
            let verdict = limits.judge(&charged, self.level)?;
            finding = finding.judged("charged in all", &verdict)?.saying(verdict.to_string());
        }
        Ok(finding
            .caution(Caution::HighPressure)
            .caution(Caution::Frostbite)
            .caution(Caution::Venting)
            .source("difference of weighings")
            .source("JCGM 100:2008"))
    }
}
