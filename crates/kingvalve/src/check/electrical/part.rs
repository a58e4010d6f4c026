//! The capacitor beside the reading under load: on the bench, by several readings, in two sections, on the shelf, charged.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::check::shared::called;
use crate::check::{Check, Fields};
use crate::electrical::{CapacitorCheck, DualCapacitor, Replacement, RunCapacitor, StockPart, StoredCharge};
use crate::measure::{Finding, Reading};
use crate::quantity::{Capacitance, Current, ElectricPotential, Frequency, Resistance};
use crate::{Error, Result};

/// A run capacitor read out of circuit, disconnected and discharged.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct OnBench {
    /// The part as marked, and the shop's policy where there is one.
    capacitor: RunCapacitor,
    /// Across its terminals, leads off.
    capacitance: Reading<Capacitance>,
}

impl Check for OnBench {
    const NAME: &'static str = "run_capacitor_on_bench";
    const EXAMPLE: &'static str = include_str!("../examples/run_capacitor_on_bench.json");

    fn find(self) -> Result<Finding> {
        let read = called(self.capacitance, "capacitance meter");
        self.capacitor.on_bench(&read).map_err(|error| error.in_field("capacitance"))?.finding()
    }
}

/// One run capacitor measured more than once: the best mean of the readings, or that they disagree.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Together {
    /// The part as marked, and the shop's policy where there is one.
    capacitor: RunCapacitor,
    /// Two readings at least, in the order they were taken.
    readings: Vec<OneReading>,
    /// Whether meters of one specification are different ones; where left out, they are one and the same, whose error
    /// repeating does not lessen.
    #[serde(default)]
    different_meters: bool,
}

/// One reading of a capacitor.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "snake_case", rename = "CapacitorReading")]
#[allow(clippy::large_enum_variant, reason = "read once and used up")]
enum OneReading {
    /// By voltage and current while the motor runs.
    UnderLoad {
        /// Across the terminals of this section.
        voltage: Reading<ElectricPotential>,
        /// Through this section's lead alone.
        current: Reading<Current>,
        /// Of the mains: 60 Hz or 50 Hz.
        frequency: Frequency,
    },
    /// Out of circuit, disconnected and discharged.
    Bench(Reading<Capacitance>),
}

impl Check for Together {
    const NAME: &'static str = "run_capacitor_combined";
    const EXAMPLE: &'static str = include_str!("../examples/run_capacitor_combined.json");

    fn find(self) -> Result<Finding> {
        let (mut volts, mut amps, mut bench) = (Meters::new(&self), Meters::new(&self), Meters::new(&self));
        let mut checks: Vec<CapacitorCheck> = Vec::new();
        for (at, reading) in self.readings.into_iter().enumerate() {
            let check = match reading {
                OneReading::UnderLoad { voltage, current, frequency } => {
                    let voltage = called(volts.taken_on(voltage)?, "voltmeter");
                    let current = called(amps.taken_on(current)?, "ammeter");
                    self.capacitor.under_load(&voltage, &current, frequency)
                }
                OneReading::Bench(read) => {
                    self.capacitor.on_bench(called(bench.taken_on(read)?, "capacitance meter"))
                }
            };
            checks.push(check.map_err(|error| error.in_field(format!("readings[{at}]")))?);
        }
        let combined = self.capacitor.combined(&checks);
        combined.map_err(|error| error.in_field("readings"))?.finding()
    }
}

/// Meters seen so far: one of the same specification is the same meter.
struct Meters<Q: crate::quantity::Quantity> {
    different: bool,
    seen: Vec<Reading<Q>>,
}

impl<Q: crate::quantity::Quantity> Meters<Q> {
    fn new(of: &Together) -> Self {
        Meters { different: of.different_meters, seen: Vec::new() }
    }

    fn taken_on(&mut self, reading: Reading<Q>) -> Result<Reading<Q>> {
        let same = |seen: &&Reading<Q>| !self.different && seen.instrument() == reading.instrument();
        match self.seen.iter().find(same) {
            Some(seen) => reading.on_instrument_of(seen),
            None => {
                self.seen.push(reading.clone());
                Ok(reading)
            }
        }
    }
}

/// A dual run capacitor: compressor section and fan section with a common terminal.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Dual {
    /// Both sections as marked, and the shop's policy where there is one.
    capacitor: DualCapacitor,
    /// How both were read.
    readings: Sections,
}

/// Readings of both sections.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
#[allow(clippy::large_enum_variant, reason = "read once and used up")]
enum Sections {
    /// By voltage and current while both motors run.
    UnderLoad {
        /// HERM to C.
        herm: Loaded,
        /// FAN to C.
        fan: Loaded,
        /// Of the mains: 60 Hz or 50 Hz.
        frequency: Frequency,
    },
    /// Out of circuit, disconnected and discharged.
    Bench {
        /// HERM to C.
        herm: Reading<Capacitance>,
        /// FAN to C.
        fan: Reading<Capacitance>,
    },
}

/// Voltage and current of one section.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Loaded {
    /// From its terminal to C.
    voltage: Reading<ElectricPotential>,
    /// Through its lead alone.
    current: Reading<Current>,
}

impl Check for Dual {
    const NAME: &'static str = "dual_run_capacitor";
    const EXAMPLE: &'static str = include_str!("../examples/dual_run_capacitor.json");

    fn find(self) -> Result<Finding> {
        let check = match self.readings {
            Sections::UnderLoad { herm, fan, frequency } => {
                let named = |of: Loaded, section: &str| {
                    let voltage = called(of.voltage, format!("{section} voltmeter"));
                    (voltage, called(of.current, format!("{section} ammeter")))
                };
                let (herm, fan) = (named(herm, "HERM"), named(fan, "FAN"));
                self.capacitor.under_load((&herm.0, &herm.1), (&fan.0, &fan.1), frequency)
            }
            Sections::Bench { herm, fan } => {
                let named = |read, section: &str| called(read, format!("{section} capacitance meter"));
                self.capacitor.on_bench(named(herm, "HERM"), named(fan, "FAN"))
            }
        };
        check.map_err(|error| error.in_field("readings"))?.finding()
    }
}

/// Which part may take a run capacitor's place, and which of those on the shelf to take.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Shelf {
    /// The part to be replaced, as marked.
    capacitor: RunCapacitor,
    /// The voltage marked on it.
    voltage: ElectricPotential,
    /// Parts there are to choose from.
    #[serde(default)]
    stock: Vec<StockPart>,
}

impl Check for Shelf {
    const NAME: &'static str = "capacitor_replacement";
    const EXAMPLE: &'static str = include_str!("../examples/capacitor_replacement.json");

    fn find(self) -> Result<Finding> {
        let replacement = Replacement::of(&self.capacitor, self.voltage);
        replacement.map_err(|error: Error| error.in_field("voltage"))?.finding(&self.stock)
    }
}

/// What a capacitor may still hold when the power is off, and how long a bleed resistor takes.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Charged {
    /// As marked.
    capacitance: Capacitance,
    /// RMS, across the part while it worked; the one marked where it was not measured.
    working_voltage: ElectricPotential,
    /// Across the terminals.
    bleed_resistor: Resistance,
}

impl Check for Charged {
    const NAME: &'static str = "stored_charge";
    const EXAMPLE: &'static str = include_str!("../examples/stored_charge.json");
    const FIELDS: Fields = &[
        ("bleed resistor", "bleed_resistor"),
        ("capacitance", "capacitance"),
        ("working voltage", "working_voltage"),
    ];

    fn find(self) -> Result<Finding> {
        StoredCharge::at(self.capacitance, self.working_voltage)?.finding(self.bleed_resistor)
    }
}
