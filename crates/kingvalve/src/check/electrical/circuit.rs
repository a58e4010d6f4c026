//! The circuit: its sizes, the drop along its wires and across the contactor.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::Result;
use crate::check::shared::called;
use crate::check::{Check, Fields};
use crate::electrical::{
    CONDUCTOR_DROP, CONTACTOR_DROP, Circuit, Conductor, ContactorDrop, Installed, Load, Phases, Plate,
    VoltageDrop,
};
use crate::measure::{Finding, Level, Reading};
use crate::quantity::{Current, ElectricPotential, Length, Ratio};

/// Wire and breaker of a unit's circuit against its data plate; without one, against NEC article 440.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Sizes {
    /// What the circuit feeds, with the currents on the data plates.
    loads: Vec<Load>,
    /// What was found.
    installed: Installed,
    /// What the data plate says of the circuit, which stands above anything computed.
    #[serde(default)]
    plate: Option<Plate>,
}

impl Check for Sizes {
    const NAME: &'static str = "circuit_sizes";
    const EXAMPLE: &'static str = include_str!("../examples/circuit_sizes.json");
    const FIELDS: Fields = &[
        ("conductor ampacity", "installed.conductor_ampacity"),
        ("installed protection", "installed.protection"),
        ("circuit", "loads"),
        ("overcurrent protection", "loads"),
    ];

    fn find(self) -> Result<Finding> {
        let circuit = Circuit::of(self.loads)?;
        let finding = circuit.check(&self.installed, self.plate.as_ref())?.finding()?;
        finding.given("minimum circuit ampacity of the loads", circuit.minimum_ampacity())
    }
}

/// The voltage the conductors of a circuit lose.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Wire {
    /// The wire.
    conductor: Conductor,
    /// One way, from the panel to the unit.
    length: Length,
    /// Of the circuit.
    phases: Phases,
    /// Of one conductor.
    current: Reading<Current>,
    /// Between conductors, at the panel.
    supply_voltage: ElectricPotential,
    /// The share that may be lost; 3 % where it is left out.
    #[serde(default = "wire_limit")]
    limit: Ratio,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

fn wire_limit() -> Ratio {
    CONDUCTOR_DROP
}

impl Check for Wire {
    const NAME: &'static str = "conductor_voltage_drop";
    const EXAMPLE: &'static str = include_str!("../examples/conductor_voltage_drop.json");
    const FIELDS: Fields =
        &[("current in", "current"), ("length of wire", "length"), ("supply voltage", "supply_voltage")];

    fn find(self) -> Result<Finding> {
        let current = called(self.current, "ammeter");
        VoltageDrop::along(
            &self.conductor,
            self.length,
            self.phases,
            &current,
            self.supply_voltage,
            self.limit,
            self.level,
        )?
        .finding()
    }
}

/// The voltage across one closed pole of a contactor under load.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Pole {
    /// From line to load terminal of one pole, the load running.
    drop: Reading<ElectricPotential>,
    /// Between line terminals.
    line_voltage: ElectricPotential,
    /// The share of the line voltage that may be lost; 3 % where it is left out.
    #[serde(default = "pole_limit")]
    limit: Ratio,
    /// How sure to be; 95 % where it is left out.
    #[serde(default)]
    level: Level,
}

fn pole_limit() -> Ratio {
    CONTACTOR_DROP
}

impl Check for Pole {
    const NAME: &'static str = "contactor_drop";
    const EXAMPLE: &'static str = include_str!("../examples/contactor_drop.json");
    const FIELDS: Fields = &[("voltage across", "drop"), ("line voltage", "line_voltage")];

    fn find(self) -> Result<Finding> {
        let drop = called(self.drop, "voltmeter");
        ContactorDrop::of(&drop, self.line_voltage, self.limit, self.level)?.finding()
    }
}
