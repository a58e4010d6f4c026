//! Systems drawn from what the estimator documents that it takes for granted, with readings by its documented relations.
//!
//! Nine volumes in ten between the ends of `COMMON_FILL`, logarithms normal; charge evenly over `COMMON_CHARGE`, and for
//! `beyond` of them up to half as much again; oil over `COMMON_OIL` and its uptake over `COMMON_UPTAKE`, steeper
//! towards saturation over `COMMON_STEEPENING`; a gas in `gas` of them; superheat and subcooling by the virtual-charge relation with its scatter.

use kingvalve::Result;
use kingvalve::charge::inventory::{Assumptions, COMMON_FILL, COMMON_OIL, Inventory, RunningReading, System};
use kingvalve::charge::{COMMON_STEEPENING, COMMON_UPTAKE, FullCharge};
use kingvalve::measure::Generator;
use kingvalve::quantity::{Ratio, delta_kelvins, kilograms};

use super::Class;
use super::score::{Outcome, reads_as_vapour, standing};
use crate::rig::medium::Medium;
use crate::rig::population::{chance, even};
use crate::rig::root;
use crate::rig::standing::Settled;
use crate::rig::visit::{Ports, StandingRead, Visit};
use crate::rig::volumes::Part;

/// The standard normal's value that leaves one in twenty above.
const ONE_IN_TWENTY: f64 = 1.644_853_6;

/// A system as the estimator takes it to be: one temperature, one volume, oil by proportion.
struct Taken {
    plate: f64,
    /// m³
    volume: f64,
    /// kg in the oil per share of saturation, near nothing.
    uptake: f64,
    steepening: f64,
    /// Pa
    gas: f64,
    /// kg
    charge: f64,
    /// K, as read if the thermometer were exact.
    temperature: f64,
    assumed: Assumptions,
}

impl Taken {
    fn drawn(medium: &Medium, generator: &mut Generator) -> Taken {
        let assumed = Assumptions::default();
        let plate = even(generator, 1.0, 5.0);
        let liquid = plate / medium.liquid_density(298.15);
        let (low, high) = (COMMON_FILL.0.fraction().ln(), COMMON_FILL.1.fraction().ln());
        let deviation = (high - low) / (2.0 * ONE_IN_TWENTY);
        let fill = (0.5 * (low + high) + deviation * generator.normal()).exp();
        let mut share = |(low, high): (Ratio, Ratio)| even(generator, low.fraction(), high.fraction());
        let uptake = share(COMMON_OIL) * share(COMMON_UPTAKE) * plate;
        let steepening = share(COMMON_STEEPENING);
        let found = share((assumed.charge.low(), assumed.charge.high()));
        let most = 1.5 * assumed.charge.high().fraction();
        let beyond = chance(generator, assumed.beyond.fraction());
        let charge = plate * if beyond { even(generator, 0.0, most) } else { found };
        let gas = if chance(generator, assumed.gas.fraction()) {
            even(generator, 0.0, assumed.gas_pressure.pascals())
        } else {
            0.0
        };
        let temperature = even(generator, 273.15, 315.15);
        Taken { plate, volume: liquid / fill, uptake, steepening, gas, charge, temperature, assumed }
    }

    /// Reads it settled; nothing where liquid fills it.
    fn read(
        &self,
        medium: &Medium,
        visit: &Visit,
        generator: &mut Generator,
    ) -> Result<Option<StandingRead>> {
        let t = self.temperature + self.assumed.settled.delta_kelvins() * generator.normal();
        let dew = medium.dew_pressure(t) * (1.0 - 1e-9);
        let in_oil = |p: f64| {
            let share = (p / dew).min(1.0);
            self.uptake * share / (1.0 - self.steepening * share)
        };
        let excess = |p: f64| self.volume * medium.vapour_density(t, p) + in_oil(p) - self.charge;
        let alone = match root::between(1.0, dew, 0.1, excess) {
            Some(pressure) => pressure,
            None if self.charge > self.volume * medium.liquid_density(t) => return Ok(None),
            None => medium.shared_pressure(t, (self.charge - in_oil(dew)) / self.volume),
        };
        let settled = Settled { pressure: alone + self.gas, ..Settled::default() };
        Ok(Some(visit.standing(&settled, &[self.temperature; Part::COUNT])?))
    }

    fn known(&self, medium: &Medium) -> Result<System> {
        System::of_plate(medium.refrigerant(), kilograms(self.plate))
    }
}

/// Draws one system; nothing where its readings are of another class.
pub fn judge(medium: &Medium, class: Class, generator: &mut Generator) -> Result<Option<Outcome>> {
    let taken = Taken::drawn(medium, generator);
    let visit = Visit::drawn(generator)?;
    match class {
        Class::RunningOrifice | Class::RunningValve => running(medium, class, &taken, &visit, generator),
        _ => stood(medium, class, taken, &visit, generator),
    }
}

fn stood(
    medium: &Medium,
    class: Class,
    mut taken: Taken,
    visit: &Visit,
    generator: &mut Generator,
) -> Result<Option<Outcome>> {
    let Some(first) = taken.read(medium, visit, generator)? else { return Ok(None) };
    let as_vapour = reads_as_vapour(medium, visit, &first)?;
    let steps = match class {
        Class::StandingVapour if as_vapour => 0,
        Class::StandingSaturated if !as_vapour => 0,
        Class::VapourStep if as_vapour => 1,
        Class::TwoSteps => 2,
        _ => return Ok(None),
    };
    let prior = Inventory::prior(&taken.known(medium)?)?;
    let Ok(mut now) = standing(visit, &first).and_then(|reading| prior.standing(&reading)) else {
        return Ok(Some(Outcome::Refused));
    };
    let mut before = now.clone();
    for step in 1..=steps {
        let (entered, weighed) = visit.half_pound(step, generator)?;
        taken.charge += entered;
        let Some(next) = taken.read(medium, visit, generator)? else { return Ok(None) };
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
    Ok(Some(Outcome::of(&prior, &before, &now, taken.charge)))
}

/// Superheat and subcooling by the relation, off by its scatter: with a valve all of the difference is in the subcooling,
/// with an orifice a share of 20 to 80 % is in the superheat. Neither goes below zero.
fn running(
    medium: &Medium,
    class: Class,
    taken: &Taken,
    visit: &Visit,
    generator: &mut Generator,
) -> Result<Option<Outcome>> {
    let full = FullCharge {
        superheat: delta_kelvins(even(generator, 3.0, 12.0)),
        subcooling: delta_kelvins(even(generator, 3.0, 8.0)),
    };
    let relation = &taken.assumed.running;
    let seen = taken.charge / taken.plate + relation.scatter.fraction() * generator.normal();
    let degrees = (seen - 1.0) * relation.degrees_per_charge(&full)?.delta_kelvins();
    let in_superheat = if class == Class::RunningValve { 0.0 } else { even(generator, 0.2, 0.8) };
    let superheat =
        full.superheat.delta_kelvins() - in_superheat * degrees / relation.superheat_weight.fraction();
    let subcooling = full.subcooling.delta_kelvins() + (1.0 - in_superheat) * degrees;
    // More superheat than warm air can give.
    if superheat > 25.0 {
        return Ok(None);
    }
    let (low, high) = (even(generator, 273.15, 283.15), medium.saturated(even(generator, 303.15, 325.15)));
    let read = visit.running(&Ports {
        suction: medium.dew_pressure(low),
        suction_line: low + superheat.max(0.0),
        liquid: high.pressure,
        liquid_line: high.bubble - subcooling.max(0.0),
    })?;
    let refrigerant = medium.refrigerant();
    let superheat = refrigerant.superheat(visit.site.absolute(&read.suction)?, &read.suction_line)?;
    let subcooling = refrigerant.subcooling(visit.site.absolute(&read.liquid)?, &read.liquid_line)?;
    let prior = Inventory::prior(&taken.known(medium)?)?;
    let answer = prior.running(&RunningReading::of(superheat, subcooling, full));
    Ok(Some(answer.map_or(Outcome::Refused, |now| Outcome::of(&prior, &prior, &now, taken.charge))))
}
