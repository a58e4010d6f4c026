//! Systems of the rig, read by the instruments of a visit.

use kingvalve::Result;
use kingvalve::charge::FullCharge;
use kingvalve::charge::inventory::{Inventory, RunningReading, System as Known};
use kingvalve::measure::Generator;
use kingvalve::quantity::{delta_kelvins, kilograms};

use super::Class;
use super::score::{Outcome, reads_as_vapour, standing};
use crate::rig::medium::Medium;
use crate::rig::population::{self, System, chance};
use crate::rig::standing::{Temperatures, settle};
use crate::rig::visit::{Ports, StandingRead, Visit};

/// Coldest evaporating dew temperature at which a system keeps running: below it ice closes the indoor coil, or the
/// low-pressure switch opens. −10 °C.
const COLDEST_RUNNING: f64 = 263.15;

/// Draws one system; nothing where its readings are of another class, or it does not run.
pub fn judge(
    medium: &Medium,
    class: Class,
    volumes: f64,
    generator: &mut Generator,
) -> Result<Option<Outcome>> {
    let valve = match class {
        Class::RunningOrifice => false,
        Class::RunningValve => true,
        _ => chance(generator, 0.5),
    };
    let mut system = population::system(medium, valve, generator);
    system.plant = system.plant.with_volumes_scaled(volumes);
    let charge = population::charge_share(generator) * system.plate;
    let visit = Visit::drawn(generator)?;
    match class {
        Class::RunningOrifice | Class::RunningValve => running(medium, &system, charge, &visit, generator),
        _ => stood(medium, class, &system, charge, &visit, generator),
    }
}

fn stood(
    medium: &Medium,
    class: Class,
    system: &System,
    charge: f64,
    visit: &Visit,
    generator: &mut Generator,
) -> Result<Option<Outcome>> {
    let temperatures = population::standing_temperatures(generator);
    let Some(first) = read(medium, system, charge, visit, &temperatures)? else { return Ok(None) };
    let as_vapour = reads_as_vapour(medium, visit, &first)?;
    let steps = match class {
        Class::StandingVapour if as_vapour => 0,
        Class::StandingSaturated if !as_vapour => 0,
        Class::VapourStep if as_vapour => 1,
        Class::TwoSteps => 2,
        _ => return Ok(None),
    };
    let known = Known::of_plate(medium.refrigerant(), kilograms(system.plate))?;
    let prior = Inventory::prior(&known)?;
    let Ok(mut now) = standing(visit, &first).and_then(|reading| prior.standing(&reading)) else {
        return Ok(Some(Outcome::Refused));
    };
    let mut before = now.clone();
    let mut charge = charge;
    for step in 1..=steps {
        let (entered, weighed) = visit.half_pound(step, generator)?;
        charge += entered;
        let drifted = population::drifted(&temperatures, generator);
        let Some(next) = read(medium, system, charge, visit, &drifted)? else { return Ok(None) };
        if class == Class::VapourStep && !reads_as_vapour(medium, visit, &next)? {
            return Ok(None);
        }
        before = now.clone();
        let after = now.weighed_in(weighed).and_then(|now| now.standing(&standing(visit, &next)?));
        let Ok(after) = after else {
            return Ok(Some(Outcome::Refused));
        };
        now = after;
    }
    Ok(Some(Outcome::of(&prior, &before, &now, charge)))
}

fn read(
    medium: &Medium,
    system: &System,
    charge: f64,
    visit: &Visit,
    temperatures: &Temperatures,
) -> Result<Option<StandingRead>> {
    settle(medium, &system.plant.volumes, &system.plant.oil, temperatures, charge)
        .map(|settled| visit.standing(&settled, temperatures))
        .transpose()
}

fn running(
    medium: &Medium,
    system: &System,
    charge: f64,
    visit: &Visit,
    generator: &mut Generator,
) -> Result<Option<Outcome>> {
    let weather = population::weather(generator);
    let Some(state) = system.plant.run(medium, &weather, charge) else { return Ok(None) };
    if medium.dew_temperature(state.suction) < COLDEST_RUNNING {
        return Ok(None);
    }
    // What the technician knows of a full charge: the plate's subcooling; of superheat, the maker's chart for the
    // weather where there is an orifice, and what the valve was seen to hold at the rating point where there is one.
    let superheat = if system.valve {
        Some((1.8 * system.rated.superheat).round() / 1.8)
    } else {
        system.chart_superheat(medium, &weather)
    };
    let Some(superheat) = superheat else { return Ok(None) };
    let full = FullCharge {
        superheat: delta_kelvins(superheat),
        subcooling: delta_kelvins(system.plate_subcooling),
    };
    let read = visit.running(&Ports::of(&state))?;
    let refrigerant = medium.refrigerant();
    let site = &visit.site;
    let superheat = refrigerant.superheat(site.absolute(&read.suction)?, &read.suction_line)?;
    let subcooling = refrigerant.subcooling(site.absolute(&read.liquid)?, &read.liquid_line)?;
    let known = Known::of_plate(refrigerant, kilograms(system.plate))?;
    let prior = Inventory::prior(&known)?;
    let answer = prior.running(&RunningReading::of(superheat, subcooling, full));
    Ok(Some(answer.map_or(Outcome::Refused, |now| Outcome::of(&prior, &prior, &now, charge))))
}
