//! Where a visit stands when the next step is asked for.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::before::{Before, OutdoorCoil};
use crate::charge::FullCharge;
use crate::measure::Verdict;
use crate::quantity::{Mass, Temperature, TemperatureDifference, Time, minutes, pounds};

/// One weighed step: half a pound.
///
/// # Source
/// Common practice, no source.
pub const COMMON_STEP: Mass = pounds(0.5);

/// How long to let the pressure settle after a step with the system off: a quarter of an hour, and until two readings
/// five minutes apart agree.
///
/// # Source
/// Common practice, no source.
pub const COMMON_REST: Time = minutes(15.0);

/// How long to run after a step before it is read.
///
/// # Source
/// Common practice, no source.
pub const COMMON_RUN: Time = minutes(10.0);

/// What feeds the evaporator.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Metering {
    /// A fixed orifice or capillary: charged to a target superheat.
    Orifice,
    /// A thermostatic or electronic valve: charged to a subcooling.
    Valve,
}

/// What the last running readings say against the target.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OnTarget {
    /// On target.
    Met,
    /// Too little charge.
    TooLittle,
    /// Too much charge.
    TooMuch,
    /// The readings cannot tell.
    Unresolved,
}

impl OnTarget {
    /// From the verdict on a subcooling: too low means too little.
    pub fn by_subcooling(verdict: &Verdict<TemperatureDifference>) -> OnTarget {
        OnTarget::of(verdict, OnTarget::TooLittle, OnTarget::TooMuch)
    }

    /// From the verdict on a fixed orifice's superheat: too high means too little.
    pub fn by_superheat(verdict: &Verdict<TemperatureDifference>) -> OnTarget {
        OnTarget::of(verdict, OnTarget::TooMuch, OnTarget::TooLittle)
    }

    fn of(verdict: &Verdict<TemperatureDifference>, low: OnTarget, high: OnTarget) -> OnTarget {
        let judgement = verdict.judgement();
        match verdict {
            Verdict::Within(_) => OnTarget::Met,
            Verdict::Unresolved(_) => OnTarget::Unresolved,
            Verdict::Outside(_) if judgement.probability_below() > judgement.probability_above() => low,
            Verdict::Outside(_) => high,
        }
    }
}

/// Running readings as they stand now.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Showing {
    /// Superheat.
    pub superheat: TemperatureDifference,
    /// Subcooling.
    pub subcooling: TemperatureDifference,
    /// What they would be at full charge.
    pub full: FullCharge,
    /// What they say against the target.
    pub against_target: OnTarget,
}

/// Where the visit stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Situation {
    /// What was looked at before the refrigerant.
    #[serde(default)]
    pub before: Before,
    /// The outdoor coil.
    #[serde(default)]
    pub outdoor_coil: OutdoorCoil,
    /// What feeds the evaporator.
    pub metering: Metering,
    /// Refrigerant left in the cylinder on the scale: gross less tare.
    pub cylinder: Mass,
    /// The step wanted; left out, [`COMMON_STEP`], or less where less is missing.
    #[serde(default)]
    pub step: Option<Mass>,
    /// Running readings, where the system runs and is steady; with a dirty or wet outdoor coil they set nothing.
    #[serde(default)]
    pub showing: Option<Showing>,
    /// Temperatures of the standing system, one or one for each part, for the pressure to expect after a step.
    #[serde(default)]
    pub standing_at: Vec<Temperature>,
    /// Whether the last step was answered as predicted ([`Response`](super::Response)); left out, it counts so.
    #[serde(default = "as_predicted")]
    pub as_predicted: bool,
}

fn as_predicted() -> bool {
    true
}

impl Situation {
    /// All ruled out, the coil clean, nothing running yet.
    pub fn ready(metering: Metering, cylinder: Mass) -> Situation {
        Situation {
            before: Before::all_fine(),
            outdoor_coil: OutdoorCoil::Clean,
            metering,
            cylinder,
            step: None,
            showing: None,
            standing_at: Vec::new(),
            as_predicted: true,
        }
    }
}
