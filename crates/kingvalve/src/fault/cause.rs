//! The faults that are told apart.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What may be wrong with the refrigerant circuit or the air over its coils, or that nothing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Fault {
    /// None of these.
    NoFault,
    /// Too little refrigerant.
    LowCharge,
    /// Too much refrigerant.
    Overcharge,
    /// Too little air over the indoor coil: filter, coil, blower, duct.
    LowIndoorAirflow,
    /// Too little air or heat transfer at the outdoor coil.
    DirtyOutdoorCoil,
    /// A restriction between outdoor coil and metering device: drier, kinked line, valve not fully open.
    LiquidLineRestriction,
    /// The metering device lets through too much: valve stuck open, orifice too large or not seated.
    FeedingValve,
    /// The metering device lets through too little: valve stuck or without bulb charge, orifice clogged or too small.
    StarvingValve,
    /// Air or nitrogen in the circuit.
    NonCondensables,
    /// The compressor moves too little: worn or leaking valves or scrolls, reversing valve that leaks across.
    WeakCompressor,
}

impl Fault {
    /// Every one, "no fault" first.
    pub const ALL: [Fault; 10] = [
        Fault::NoFault,
        Fault::LowCharge,
        Fault::Overcharge,
        Fault::LowIndoorAirflow,
        Fault::DirtyOutdoorCoil,
        Fault::LiquidLineRestriction,
        Fault::FeedingValve,
        Fault::StarvingValve,
        Fault::NonCondensables,
        Fault::WeakCompressor,
    ];

    pub(super) const fn at(self) -> usize {
        self as usize
    }

    /// Its name in JSON.
    pub const fn name(self) -> &'static str {
        match self {
            Fault::NoFault => "no_fault",
            Fault::LowCharge => "low_charge",
            Fault::Overcharge => "overcharge",
            Fault::LowIndoorAirflow => "low_indoor_airflow",
            Fault::DirtyOutdoorCoil => "dirty_outdoor_coil",
            Fault::LiquidLineRestriction => "liquid_line_restriction",
            Fault::FeedingValve => "feeding_valve",
            Fault::StarvingValve => "starving_valve",
            Fault::NonCondensables => "non_condensables",
            Fault::WeakCompressor => "weak_compressor",
        }
    }

    /// What confirms it or rules it out at the equipment. Common practice, no source.
    pub const fn confirm(self) -> &'static str {
        match self {
            Fault::NoFault => {
                "Nothing to confirm: check that the readings were taken at a steady run of 15 minutes."
            }
            Fault::LowCharge => {
                "Before adding refrigerant: filter, blower and coils clean, both coils free of ice; then look for the \
                 leak (oil traces, detector, bubbles) and weigh what is added."
            }
            Fault::Overcharge => {
                "Recover a weighed part of the charge and see whether subcooling falls as it should."
            }
            Fault::LowIndoorAirflow => {
                "Look at filter, indoor coil, blower wheel and speed, registers and dampers; measure the airflow."
            }
            Fault::DirtyOutdoorCoil => {
                "Look at the outdoor coil and its fan; clean it, let it dry and steady, and read again."
            }
            Fault::LiquidLineRestriction => {
                "Read the liquid line before and after drier and service valve: a drop, or frost, marks the place."
            }
            Fault::FeedingValve => {
                "Check that the valve's bulb is tight and insulated and its equaliser open, or that the orifice is the \
                 size on the plate and seated."
            }
            Fault::StarvingValve => {
                "Warm the valve's bulb by hand: superheat that does not move points to the valve. Look for a clogged \
                 inlet screen or orifice."
            }
            Fault::NonCondensables => {
                "Power off, let the outdoor coil come to outdoor temperature, and compare the standing pressure with \
                 saturation at that temperature."
            }
            Fault::WeakCompressor => {
                "Compare compressor current with its rating at these pressures; on a heat pump read both sides of the \
                 reversing valve."
            }
        }
    }
}

/// In words: "low indoor airflow".
impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Fault::NoFault => "no fault",
            Fault::LowCharge => "low charge",
            Fault::Overcharge => "overcharge",
            Fault::LowIndoorAirflow => "low indoor airflow",
            Fault::DirtyOutdoorCoil => "dirty outdoor coil",
            Fault::LiquidLineRestriction => "liquid-line restriction",
            Fault::FeedingValve => "metering device that feeds too much",
            Fault::StarvingValve => "metering device that starves the coil",
            Fault::NonCondensables => "air or nitrogen in the circuit",
            Fault::WeakCompressor => "weak compressor",
        })
    }
}
