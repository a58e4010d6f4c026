//! `run_capacitor_under_load`.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::Result;
use crate::check::shared::called;
use crate::check::{Check, Fields};
use crate::electrical::RunCapacitor;
use crate::measure::{Catalogue, Finding, Reading, Verdict, Ways, catalogue};
use crate::quantity::{Capacitance, Current, ElectricPotential, Frequency};

/// A run capacitor, or one section of a dual one, judged by voltage and current while the motor runs.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct UnderLoad {
    /// The part as marked, and the shop's policy where there is one.
    capacitor: RunCapacitor,
    /// Across the terminals of this section, motor running.
    voltage: Reading<ElectricPotential>,
    /// Through this section's lead alone.
    current: Reading<Current>,
    /// Of the mains: 60 Hz or 50 Hz.
    frequency: Frequency,
    /// Instruments to choose among where the verdict is unresolved; left out, generic classes.
    #[serde(default)]
    instruments: Option<Catalogue>,
}

impl Check for UnderLoad {
    const NAME: &'static str = "run_capacitor_under_load";
    const EXAMPLE: &'static str = include_str!("../examples/run_capacitor_under_load.json");
    const FIELDS: Fields = &[
        ("rated capacitance", "capacitor.rated"),
        ("current through", "current"),
        ("voltage across", "voltage"),
        ("frequency", "frequency"),
    ];

    fn find(self) -> Result<Finding> {
        let voltage = called(self.voltage, "voltmeter");
        let current = called(self.current, "ammeter");
        let part = self.capacitor;
        let check = part.under_load(&voltage, &current, self.frequency)?;
        let mut finding = check.finding()?;
        let offers = match self.instruments {
            Some(own) => own,
            None => catalogue()?,
        };
        let open = check.deciding().clone();
        if open.is_unresolved() {
            let verdict = |v: &Reading<ElectricPotential>, i: &Reading<Current>| {
                let check = part.under_load(v, i, self.frequency)?;
                Ok(check.deciding().clone())
            };
            let (volts, amps) = (offers.offers()?, offers.offers()?);
            let ways = Ways::default()
                .instruments(&current, &amps, |i| verdict(&voltage, i))?
                .instruments(&voltage, &volts, |v| verdict(v, &current))?
                .method(open.judgement().value(), &offers.offers()?, |read| against(&open, read))?
                .two_instruments((&voltage, &volts), (&current, &amps), verdict)?;
            finding = finding.then(ways.to_string());
        }
        Ok(finding)
    }
}

/// The same limits, judged on a reading of the capacitance itself.
fn against(open: &Verdict<Capacitance>, read: &Reading<Capacitance>) -> Result<Verdict<Capacitance>> {
    open.judgement().limits().judge(read, open.judgement().level())
}
