//! `before_and_after`.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::Result;
use crate::air::{Allowance, BeforeAfter, RunReadings};
use crate::check::shared::{anywhere, called, on_one};
use crate::check::{Check, Fields};
use crate::measure::{Finding, Interval, Label, Level, Reading};
use crate::quantity::{Current, Power, Quantity, Temperature};

/// Two sets of readings around a piece of work, compared with weather and load allowed for.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Work {
    /// What was done: "condenser coil washed".
    work: Label,
    /// As it ran before.
    before: Run,
    /// As it ran after.
    after: Run,
    /// Whether each reading after was taken with the instrument of the one before: its accuracy then cancels.
    #[serde(default)]
    same_instruments: bool,
    /// What weather and load explain; by common practice where it is left out.
    #[serde(default)]
    allowance: Allowance,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

/// Readings of a running system.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Run {
    /// Dry bulb of the air entering the condenser.
    outdoor: Reading<Temperature>,
    /// Dry bulb of the return air.
    return_dry_bulb: Reading<Temperature>,
    /// Wet bulb of the return air.
    return_wet_bulb: Reading<Temperature>,
    /// Condensing temperature, from the liquid-side pressure.
    #[serde(default)]
    condensing: Option<Reading<Temperature>>,
    /// Dry bulb of the supply air.
    #[serde(default)]
    supply: Option<Reading<Temperature>>,
    /// Of the compressor or of the outdoor unit, the same both times.
    #[serde(default)]
    current: Option<Reading<Current>>,
    /// Capacity delivered to the air, between which ends.
    #[serde(default)]
    capacity: Option<Interval<Power>>,
}

impl Check for Work {
    const NAME: &'static str = "before_and_after";
    const EXAMPLE: &'static str = include_str!("../examples/before_and_after.json");
    const FIELDS: Fields = &[
        ("difference in outdoor", "after.outdoor"),
        ("difference in return dry", "after.return_dry_bulb"),
        ("difference in return wet", "after.return_wet_bulb"),
    ];

    fn find(self) -> Result<Finding> {
        let after = if self.same_instruments { self.after.read_as(&self.before) } else { Ok(self.after) };
        let after = after.map_err(|error| error.in_field("after"))?;
        let (before, after) = (self.before.readings("before")?, after.readings("after")?);
        BeforeAfter::of(self.work, &before, &after, &self.allowance, self.level)?.finding()
    }
}

impl Run {
    /// The same, each reading taken with the instrument of the other's.
    fn read_as(self, other: &Run) -> Result<Run> {
        Ok(Run {
            outdoor: on_one(true, &other.outdoor, self.outdoor)?,
            return_dry_bulb: on_one(true, &other.return_dry_bulb, self.return_dry_bulb)?,
            return_wet_bulb: on_one(true, &other.return_wet_bulb, self.return_wet_bulb)?,
            condensing: paired(&other.condensing, self.condensing)?,
            supply: paired(&other.supply, self.supply)?,
            current: paired(&other.current, self.current)?,
            capacity: self.capacity,
        })
    }

    fn readings(self, when: &str) -> Result<RunReadings> {
        let name = |what: &str| format!("{what} {when}");
        let mut run = RunReadings::at(
            called(self.outdoor, name("outdoor dry bulb")),
            called(self.return_dry_bulb, name("return dry bulb")),
            called(self.return_wet_bulb, name("return wet bulb")),
        );
        if let Some(condensing) = self.condensing {
            run = run.condensing(called(condensing, name("condensing temperature")));
        }
        if let Some(supply) = self.supply {
            run = run.supply(called(supply, name("supply dry bulb")));
        }
        if let Some(current) = self.current {
            run = run.current(called(current, name("current")));
        }
        if let Some(capacity) = self.capacity {
            run = run.capacity(anywhere(&capacity, "capacity")?);
        }
        Ok(run)
    }
}

/// Where both were read.
fn paired<Q: Quantity>(first: &Option<Reading<Q>>, other: Option<Reading<Q>>) -> Result<Option<Reading<Q>>> {
    match (first, other) {
        (Some(first), Some(other)) => on_one(true, first, other).map(Some),
        (_, other) => Ok(other),
    }
}
