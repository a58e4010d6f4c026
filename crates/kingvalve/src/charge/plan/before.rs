//! What to rule out before refrigerant is thought of: a house without cooling is most often something else.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What was found on looking at one thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Look {
    /// Nobody has looked.
    #[default]
    NotLooked,
    /// It is as it should be.
    Fine,
    /// It is at fault.
    AtFault,
}

/// What else stops cooling, and what was found on looking.
///
/// # Source
/// Common practice, no source: the order in which a no-cool call is gone through.
/// # Example
/// ```
/// use kingvalve::charge::plan::{Before, Cause, Look};
/// let looked = Before { outdoor_fan: Look::AtFault, ..Before::all_fine() };
/// assert_eq!(looked.at_fault().next(), Some(Cause::OutdoorFan));
/// assert_eq!(Before::default().not_looked().count(), 6);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Before {
    /// The indoor coil: frozen?
    pub indoor_coil: Look,
    /// The blower and the filter.
    pub blower: Look,
    /// The contactor.
    pub contactor: Look,
    /// The outdoor fan: does it start?
    pub outdoor_fan: Look,
    /// The compressor: does it start?
    pub compressor: Look,
    /// The pressure switches.
    pub pressure_switch: Look,
}

/// One thing that stops cooling and is not the refrigerant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// Ice on the indoor coil.
    FrozenIndoorCoil,
    /// The blower does not run or the filter is blocked.
    Blower,
    /// The contactor does not pull in.
    Contactor,
    /// The outdoor fan does not start.
    OutdoorFan,
    /// The compressor does not start.
    Compressor,
    /// A pressure switch is open.
    PressureSwitch,
}

impl Before {
    /// All looked at, nothing at fault.
    pub const fn all_fine() -> Before {
        Before {
            indoor_coil: Look::Fine,
            blower: Look::Fine,
            contactor: Look::Fine,
            outdoor_fan: Look::Fine,
            compressor: Look::Fine,
            pressure_switch: Look::Fine,
        }
    }

    const fn looks(&self) -> [(Cause, Look); 6] {
        [
            (Cause::FrozenIndoorCoil, self.indoor_coil),
            (Cause::Blower, self.blower),
            (Cause::Contactor, self.contactor),
            (Cause::OutdoorFan, self.outdoor_fan),
            (Cause::Compressor, self.compressor),
            (Cause::PressureSwitch, self.pressure_switch),
        ]
    }

    /// What is at fault, in the order to see to it.
    pub fn at_fault(&self) -> impl Iterator<Item = Cause> {
        self.looks().into_iter().filter(|(_, look)| *look == Look::AtFault).map(|(cause, _)| cause)
    }

    /// What nobody has looked at, in the order to look.
    pub fn not_looked(&self) -> impl Iterator<Item = Cause> {
        self.looks().into_iter().filter(|(_, look)| *look == Look::NotLooked).map(|(cause, _)| cause)
    }
}

impl Cause {
    /// What to do about it.
    pub const fn text(self) -> &'static str {
        match self {
            Cause::FrozenIndoorCoil => {
                "Look at the indoor coil: where there is ice, thaw it with the blower alone before any reading. Ice is a \
                 sign of low airflow as often as of low charge."
            }
            Cause::Blower => "See that the blower runs at its speed and the filter is clean.",
            Cause::Contactor => "See that the contactor gets its control voltage and pulls in.",
            Cause::OutdoorFan => {
                "See that the outdoor fan starts and turns freely; test its run capacitor under load."
            }
            Cause::Compressor => {
                "See that the compressor starts: supply voltage, run capacitor, overload. One that hums or trips is not \
                 short of refrigerant for that reason."
            }
            Cause::PressureSwitch => {
                "See whether a pressure switch is open. A low-pressure switch may be open because the charge is low: read \
                 the standing pressure, and never leave a switch bridged."
            }
        }
    }
}

/// The outdoor coil, which sets the head pressure and so every reading of the running system.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OutdoorCoil {
    /// Nobody has looked.
    #[default]
    NotLooked,
    /// Clean as found.
    Clean,
    /// Dirty.
    Dirty,
    /// Cleaned on this visit, still wet or not run until steady since.
    Wet,
    /// Cleaned on this visit, dry, and run until steady since.
    DrySteady,
}
