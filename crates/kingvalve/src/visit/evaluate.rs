//! From the readings of a record to its results.

use std::borrow::Cow;
use std::collections::BTreeMap;

use super::amend::value;
use super::compare::{Difference, TOLERANCE, differences};
use super::newer::Beyond;
use super::record::*;
use super::results::*;
use super::{Visit, inventory, outlook, priced};
use crate::charge::{AirIngress, Space, Standing, StandingFinding};
use crate::check;
use crate::cylinder::{CylinderUse, Tally};
use crate::electrical::RunCapacitor;
use crate::error::in_field;
use crate::measure::{Caution, Finding, Instrument, Interval, Level, Limits, Measured, Reading};
use crate::quantity::{Mass, Pressure, Quantity, TemperatureDifference};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// A visit with its results.
#[derive(Debug, Clone)]
pub struct Evaluation {
    pub(super) record: Record,
    pub(super) refrigerant: Refrigerant,
    pub(super) results: Results,
    pub(super) differences: Vec<Difference>,
    pub(super) beyond: Vec<Beyond>,
}

impl Visit {
    /// Computes every result from the readings.
    ///
    /// # Source
    /// The rooms it gathers: [`charge`](crate::charge), [`electrical`](crate::electrical),
    /// [`cylinder`](crate::cylinder), [`cycle`](crate::cycle), [`estimate`](crate::estimate).
    ///
    /// # Errors
    /// A reading that cannot be, names of instruments or spaces that are not there, prices the rate card lacks: the
    /// error names the field.
    ///
    /// # Example
    /// See [the room](super).
    pub fn evaluate(&self) -> Result<Evaluation> {
        let record = match self.record.amendments.is_empty() {
            true => Cow::Borrowed(&self.record),
            false => Cow::Owned(self.as_amended()?.record),
        };
        let refrigerant = Refrigerant::named(&record.equipment.refrigerant)
            .map_err(|error| error.in_field("equipment.refrigerant"))?;
        let results = results(&record, &refrigerant)?;
        let differences = match (&self.record.signed, &self.record.results) {
            (Some(_), Some(signed)) => differences(signed, &value(&results)?, TOLERANCE),
            _ => Vec::new(),
        };
        Ok(Evaluation {
            record: self.record.clone(),
            refrigerant,
            results,
            differences,
            beyond: self.beyond.clone(),
        })
    }
}

impl Evaluation {
    /// The results.
    pub fn results(&self) -> &Results {
        &self.results
    }

    /// The record as it was read.
    pub fn record(&self) -> &Record {
        &self.record
    }

    /// Where the results differ from those that were signed; nothing where none were.
    pub fn differences(&self) -> &[Difference] {
        &self.differences
    }

    /// The record in its JSON form, with the results inside; beside those that were signed, where any were.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn to_json(&self) -> Result<String> {
        self.completed()?.to_json()
    }

    /// The same on one line, for JSON Lines.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn to_json_line(&self) -> Result<String> {
        self.completed()?.to_json_line()
    }

    /// The record with the results inside.
    fn completed(&self) -> Result<Visit> {
        let computed = Some(value(&self.results)?);
        let record = match self.record.signed {
            Some(_) => {
                let differences = self.differences.clone();
                Record { recomputed: computed, differences, ..self.record.clone() }
            }
            None => Record { results: computed, ..self.record.clone() },
        };
        Ok(Visit { record, beyond: self.beyond.clone() })
    }
}

/// Every result of a record.
fn results(record: &Record, refrigerant: &Refrigerant) -> Result<Results> {
    let charge_due = record
        .equipment
        .charge
        .for_line(record.equipment.line_length)
        .map_err(|error| error.in_field("equipment.charge"))?;
    let standing = standing(record, refrigerant)?;
    let held = standing.as_ref().and_then(|result| held(&result.finding, charge_due));
    let (mut charged, recovered) = (charged(record, held)?, recovered(record)?);
    let running = running(record, refrigerant)?;
    let inventory = inventory::asked(record, refrigerant, charge_due, &running)?;
    // Where the inventory is asked for, it alone tells amounts.
    let missing = match &inventory {
        Some(inventory) => inventory.missing(),
        None => held.map(|held| missing(charge_due, held)).transpose()?,
    };
    if let (Some(inventory), Some(charged)) = (&inventory, &mut charged) {
        charged.now = missing.map(|_| inventory.now.ninety);
    }
    let ways = priced::ways(record, refrigerant, missing)?;
    let bill = priced::bill(record, refrigerant, charged.as_ref(), &ways)?;
    let mut results = Results {
        computed_by: concat!("kingvalve ", env!("CARGO_PKG_VERSION")).to_owned(),
        sources: refrigerant.accuracy().papers().map(|(of, paper)| format!("{of}: {paper}")).collect(),
        atmosphere: record.site.atmosphere(),
        charge_due,
        missing,
        inventory,
        capacitors: capacitors(record)?,
        charged,
        recovered,
        running,
        checks: checks(record)?,
        ways,
        outlook: outlook::asked(record, refrigerant, charge_due, missing)?,
        bill,
        cautions: Vec::new(),
        standing,
    };
    results.cautions = cautions(&results, refrigerant);
    Ok(results)
}

/// The reading a record means, taken with the instrument it names.
pub(super) fn reading<Q: Quantity>(
    read: &Read<Q>,
    instruments: &BTreeMap<String, Instrument<Q>>,
    label: &str,
) -> Result<Reading<Q>> {
    let instrument = instruments.get(&read.with).ok_or_else(|| {
        Error::unknown(
            format!("instrument for {}", Q::NAME),
            &read.with,
            instruments.keys().map(String::as_str),
        )
        .in_field("with")
    })?;
    let reading = Reading::new(read.value, instrument.clone()).map_err(|error| error.in_field("value"))?;
    Ok(reading.labelled(label.to_owned()))
}

fn standing(record: &Record, refrigerant: &Refrigerant) -> Result<Option<StandingResult>> {
    let Some(readings) = &record.standing else {
        return Ok(None);
    };
    let (pressure, spaces) = standing_spaces(record, readings).map_err(in_field("standing"))?;
    let air = AirIngress::of(&pressure, &record.site)?;
    let finding = Standing { pressure, spaces, oil: record.equipment.oil }
        .read(refrigerant)
        .map_err(|error| error.in_field("standing"))?;
    // How much vapour that is, the inventory says where there is one.
    let said = match (&finding, &record.inventory) {
        (StandingFinding::AllVapour { .. }, Some(_)) => format!("{}.", finding.meaning()),
        _ => finding.text(),
    };
    // What comes before any refrigerant, where air may have come in.
    let (text, next) = match air {
        AirIngress::KeptOut => (said, finding.next().to_owned()),
        _ => (format!("{said} {}", air.text()), air.next().join(" ")),
    };
    Ok(Some(StandingResult { text, next, finding, air }))
}

/// The standing pressure, and every space of the equipment with its temperature.
pub(super) fn standing_spaces(
    record: &Record,
    readings: &StandingReadings,
) -> Result<(Measured<Pressure>, Vec<Space>)> {
    let gauge = reading(&readings.pressure, &record.instruments.pressure, "standing pressure")
        .map_err(in_field("pressure"))?;
    let pressure = record.site.absolute(&gauge).map_err(in_field("pressure"))?;
    let names = || record.equipment.spaces.iter().map(|space| space.name.as_str());
    if let Some(stray) = readings.temperatures.keys().find(|name| names().all(|known| known != name.as_str()))
    {
        return Err(Error::unknown("space", stray, names()).in_field("temperatures"));
    }
    let mut spaces = Vec::new();
    for space in &record.equipment.spaces {
        let read = readings.temperatures.get(&space.name).ok_or_else(|| {
            Error::inconsistent(
                format!("temperature of {}", space.name),
                "every space of the equipment needs one",
                "read it, or join the space to another of the same temperature",
            )
            .in_field("temperatures")
        })?;
        let here = |error: Error| error.in_field(&space.name).in_field("temperatures");
        let label = format!("temperature of {}", space.name);
        let temperature = reading(read, &record.instruments.temperature, &label).map_err(here)?.measured();
        spaces.push(Space { name: space.name.clone(), volume: space.volume, temperature });
    }
    Ok((pressure, spaces))
}

/// What the system holds, where the finding says so; never more than it should by much, so the due charge caps an
/// open end.
fn held(finding: &StandingFinding, due: Mass) -> Option<Interval<Mass>> {
    match finding {
        StandingFinding::AllVapour { mass, .. } => Some(*mass),
        StandingFinding::LiquidPossible { at_least, .. } => Interval::new(*at_least, due).ok(),
        StandingFinding::NotThisRefrigerantAlone { .. } => None,
    }
}

fn missing(due: Mass, held: Interval<Mass>) -> Result<Interval<Mass>> {
    Interval::new((due - held.high()).max(Mass::ZERO), (due - held.low()).max(Mass::ZERO))
}

fn capacitors(record: &Record) -> Result<Vec<CapacitorResult>> {
    let mut results = Vec::new();
    for (index, capacitor) in record.capacitors.iter().enumerate() {
        let mut rated = RunCapacitor::rated(capacitor.rated, capacitor.tolerance);
        if let Some(policy) = capacitor.policy {
            rated = rated.policy(policy);
        }
        let mut checks = Vec::new();
        for (turn, under_load) in capacitor.under_load.iter().enumerate() {
            let here = |error: Error| error.in_field(format!("capacitors[{index}].under_load[{turn}]"));
            let volts = reading(&under_load.voltage, &record.instruments.voltage, "voltage")
                .map_err(|error| here(error.in_field("voltage")))?;
            let amps = reading(&under_load.current, &record.instruments.current, "current")
                .map_err(|error| here(error.in_field("current")))?;
            checks.push(rated.under_load(&volts, &amps, under_load.frequency).map_err(here)?);
        }
        results.push(CapacitorResult { name: capacitor.name.clone(), checks });
    }
    Ok(results)
}

fn charged(record: &Record, held: Option<Interval<Mass>>) -> Result<Option<ChargedResult>> {
    if record.cylinders.is_empty() {
        return Ok(None);
    }
    let mut uses = Vec::new();
    for (index, cylinder) in record.cylinders.iter().enumerate() {
        let mut weights = Vec::new();
        for (turn, weight) in cylinder.weights.iter().enumerate() {
            weights.push(
                reading(weight, &record.instruments.mass, &format!("weight of {}", cylinder.name))
                    .map_err(|error| error.in_field(format!("cylinders[{index}].weights[{turn}]")))?,
            );
        }
        uses.push(CylinderUse { name: cylinder.name.clone(), weights });
    }
    let tally = Tally::of(&uses).map_err(|error| error.in_field("cylinders"))?;
    let added = tally.total().interval(Level::default())?;
    let now = held.map(|held| held.plus(added)).transpose()?;
    Ok(Some(ChargedResult { steps: tally.steps().to_vec(), total: tally.total().clone(), now }))
}

/// What each cylinder gained, from its first weight to its last.
fn recovered(record: &Record) -> Result<Option<Measured<Mass>>> {
    let mut total: Option<Measured<Mass>> = None;
    for (index, cylinder) in record.recovered.iter().enumerate() {
        let here = |error: Error| error.in_field(format!("recovered[{index}].weights"));
        let [first, .., last] = cylinder.weights.as_slice() else {
            let why = "what was recovered is the difference of two weights";
            let of = format!("weights of {}", cylinder.name);
            return Err(here(Error::inconsistent(of, why, "give the weight before and after")));
        };
        let weigh = |weight: &Read<Mass>| {
            reading(weight, &record.instruments.mass, &format!("weight of {}", cylinder.name)).map_err(here)
        };
        let (before, after) = (weigh(first)?, weigh(last)?);
        let gain = after.measured() - before.measured();
        let slack = before.instrument().step() + after.instrument().step();
        if gain.value() + slack < Mass::ZERO {
            let why = format!("the weight falls from {} to {}", first.value, last.value);
            let advice =
                "a recovery cylinder gets heavier: check the order, the cylinder and the scale's zero";
            return Err(here(Error::inconsistent(format!("weights of {}", cylinder.name), why, advice)));
        }
        total = Some(total.map_or(gain.clone(), |total| total + gain));
    }
    Ok(total)
}

fn checks(record: &Record) -> Result<Vec<Finding>> {
    let run = |(index, asked): (usize, &CheckInput)| {
        let here = |error: Error| error.in_field(format!("checks[{index}]"));
        check::find(&asked.check, &asked.input.to_string()).map_err(here)
    };
    record.checks.iter().enumerate().map(run).collect()
}

fn running(record: &Record, refrigerant: &Refrigerant) -> Result<Vec<RunningResult>> {
    let mut results = Vec::new();
    for (index, readings) in record.running.iter().enumerate() {
        let at =
            |field: &'static str| move |error: Error| error.in_field(format!("running[{index}].{field}"));
        let (gauges, clamps) = (&record.instruments.pressure, &record.instruments.temperature);
        let pressure = |read: &Read<_>, field: &'static str| {
            let gauge = reading(read, gauges, field).map_err(at(field))?;
            record.site.absolute(&gauge).map_err(at(field))
        };
        let temperature = |read: &Read<_>, field: &'static str| {
            Ok::<_, Error>(reading(read, clamps, field).map_err(at(field))?.measured())
        };
        let suction = pressure(&readings.suction_pressure, "suction_pressure")?;
        let liquid = pressure(&readings.liquid_pressure, "liquid_pressure")?;
        let suction_line = temperature(&readings.suction_line, "suction_line")?;
        let liquid_line = temperature(&readings.liquid_line, "liquid_line")?;
        let outdoor = temperature(&readings.outdoor_air, "outdoor_air")?;
        let approach = liquid_line.clone() - outdoor.clone();
        colder_than_possible(&approach, &readings.liquid_line.value, &readings.outdoor_air.value)
            .map_err(at("liquid_line"))?;
        results.push(RunningResult {
            when: readings.when.clone(),
            superheat: refrigerant.superheat(&suction, &suction_line).map_err(at("suction_pressure"))?,
            subcooling: refrigerant.subcooling(&liquid, &liquid_line).map_err(at("liquid_pressure"))?,
            approach,
        });
    }
    Ok(results)
}

/// The outdoor air is what cools the liquid: the liquid line cannot be colder, beyond doubt.
fn colder_than_possible(
    approach: &Measured<TemperatureDifference>,
    liquid_line: &impl std::fmt::Display,
    outdoor_air: &impl std::fmt::Display,
) -> Result<()> {
    let verdict = Limits::at_least(TemperatureDifference::ZERO)?.judge(approach, Level::default())?;
    if verdict.is_outside() {
        return Err(Error::out_of_range(
            "liquid line",
            liquid_line,
            format!("the outdoor air that cools it is {outdoor_air}"),
            "a liquid line cannot be colder than that air: check which line, which thermometer and which air",
        ));
    }
    Ok(())
}

fn cautions(results: &Results, refrigerant: &Refrigerant) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if let Some(standing) = &results.standing {
        cautions.extend(standing.finding.cautions(refrigerant));
    }
    for check in results.capacitors.iter().flat_map(|capacitor| &capacitor.checks) {
        cautions.extend(check.cautions());
    }
    cautions.extend(results.checks.iter().flat_map(Finding::cautions).copied());
    cautions.sort();
    cautions.dedup();
    cautions
}
