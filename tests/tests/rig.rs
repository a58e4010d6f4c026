//! Laws of the simulated system that the charge estimator is judged by.
#![allow(clippy::unwrap_used, reason = "how a test fails")]

use kingvalve::measure::Generator;
use kingvalve::quantity::{Quantity, fahrenheit, psig};
use kingvalve_tests::rig::cycle::{Plant, Steady};
use kingvalve_tests::rig::design::RATING;
use kingvalve_tests::rig::instrument::{GRADES, Kit};
use kingvalve_tests::rig::medium::{Medium, TEN};
use kingvalve_tests::rig::oil::Oil;
use kingvalve_tests::rig::population::{self, System};
use kingvalve_tests::rig::standing::settle;
use kingvalve_tests::rig::volumes::Part;
use kingvalve_tests::rig::{root, void_fraction};

/// Every refrigerant with an orifice and with a valve.
fn systems(mut law: impl FnMut(&Medium, &System, &mut Generator)) {
    let mut generator = Generator::seeded(11);
    for name in TEN {
        let medium = Medium::named(name).unwrap();
        for valve in [false, true] {
            let system = population::system(&medium, valve, &mut generator);
            law(&medium, &system, &mut generator);
        }
    }
}

/// States at rising shares of the right charge, those that do not run left out.
fn by_charge(medium: &Medium, plant: &Plant, full: f64) -> Vec<Steady> {
    (10..=24).filter_map(|n| plant.run(medium, &RATING, 0.05 * f64::from(n) * full)).collect()
}

fn rises(what: &str, numbers: impl Iterator<Item = f64>, slack: f64) {
    let numbers: Vec<f64> = numbers.collect();
    assert!(numbers.windows(2).all(|pair| pair[1] >= pair[0] - slack), "{what} should rise: {numbers:?}");
}

#[test]
fn a_settled_charge_is_all_there_and_never_lowers_the_pressure() {
    systems(|medium, system, generator| {
        let temperatures = population::standing_temperatures(generator);
        let coldest = temperatures.iter().copied().fold(f64::INFINITY, f64::min);
        let plant = &system.plant;
        let mut last = 0.0;
        for n in 1..=24 {
            let charge = 0.05 * f64::from(n) * system.plate;
            let settled = settle(medium, &plant.volumes, &plant.oil, &temperatures, charge).unwrap();
            let sum = settled.vapour + settled.liquid + settled.dissolved;
            assert!(settled.vapour > 0.0 && settled.dissolved > 0.0 && settled.liquid >= 0.0);
            assert!((sum / charge - 1.0).abs() < 1e-4, "{sum} of {charge}");
            assert!(settled.pressure >= last * (1.0 - 1e-6), "{} after {last}", settled.pressure);
            last = settled.pressure;
            // Where there is no liquid the pressure lies below the dew pressure at the coldest point, unless the oil is
            // coldest and takes the liquid up.
            let dew = medium.dew_pressure(coldest);
            if temperatures[Part::Shell.index()] == coldest {
                continue;
            }
            assert_eq!(settled.liquid == 0.0, settled.pressure < dew, "{settled:?} beside {dew}");
        }
    });
}

#[test]
fn a_pure_refrigerant_with_liquid_has_the_saturation_pressure_of_its_pool() {
    let medium = Medium::named("R-32").unwrap();
    let mut generator = Generator::seeded(5);
    let system = population::system(&medium, true, &mut generator);
    let plant = &system.plant;
    let temperatures = [300.0, 295.0, 300.0, 298.0, 302.0];
    let settled = settle(&medium, &plant.volumes, &plant.oil, &temperatures, 0.5 * system.plate).unwrap();
    assert!((settled.pressure / medium.bubble_pressure(295.0) - 1.0).abs() < 1e-6, "{settled:?}");
}

#[test]
fn oil_takes_nothing_from_a_vacuum_and_without_bound_at_saturation() {
    let medium = Medium::named("R-410A").unwrap();
    let oil = Oil { mass: 1.0, molar_mass: 0.5, activity: 0.3 };
    let t = 313.15;
    let saturation = medium.bubble_pressure(t);
    let held: Vec<f64> =
        (0..20).map(|n| oil.dissolved(&medium, 0.05 * f64::from(n) * saturation, t)).collect();
    assert!(held[0] < 1e-9);
    rises("dissolved mass", held.iter().copied(), 0.0);
    assert!(oil.dissolved(&medium, saturation, t).is_infinite());
    // Warmer oil at one pressure holds less.
    assert!(oil.dissolved(&medium, 5e5, 330.0) < oil.dissolved(&medium, 5e5, 300.0));
    // Without interaction, Raoult's law by hand at half the saturation pressure: one mole in one mole.
    let ideal = Oil { activity: 0.0, ..oil };
    let by_hand = medium.molar_mass() / 0.5;
    assert!((ideal.dissolved(&medium, 0.5 * saturation, t) / by_hand - 1.0).abs() < 1e-9);
}

#[test]
fn more_charge_means_more_subcooling_and_no_more_superheat() {
    systems(|medium, system, _| {
        let states = by_charge(medium, &system.plant, system.rated.charge);
        assert!(states.len() >= 5, "{} of 15 run", states.len());
        rises("charge", states.iter().map(|s| s.charge), 0.0);
        // Liquid that leaves the indoor coil cools the discharge, so the high side may ease then.
        rises("liquid pressure", states.iter().filter(|s| s.outlet.0 > 0.0).map(|s| s.liquid), 1.0);
        rises("subcooling", states.iter().filter(|s| s.subcooling > 0.1).map(|s| s.subcooling), 1e-3);
        rises("superheat turned over", states.iter().map(|s| -s.superheat), 0.05);
        if system.valve {
            let fed = states.iter().filter(|s| s.charge > 0.999 * system.rated.charge);
            let held = fed.map(|s| s.outlet.superheat());
            let (low, high) = held.fold((f64::MAX, f64::MIN), |(l, h), x| (l.min(x), h.max(x)));
            assert!(
                high - low < 1e-3,
                "a valve that is fed with liquid holds its superheat: {low} to {high}"
            );
        }
    });
}

#[test]
fn energy_and_mass_balance_and_the_rating_point_comes_back() {
    systems(|medium, system, generator| {
        let state = system.as_built.run(medium, &RATING, system.rated.charge).unwrap();
        assert!((state.subcooling - system.rated.subcooling).abs() < 0.02, "{state:?}");
        assert!((state.superheat - system.rated.superheat).abs() < 0.05, "{state:?}");
        let weather = population::weather(generator);
        if let Some(state) = system.plant.run(medium, &weather, system.plate) {
            let energy = state.cooling + state.put_in - state.rejected;
            assert!(energy.abs() < 1e-6 * state.rejected, "{energy} W are missing");
            assert!((state.charge / system.plate - 1.0).abs() < 1e-4);
            assert!(state.discharge > state.suction_line);
            assert!(state.liquid_line > weather.outdoor - 1e-6);
        }
    });
}

#[test]
fn warmer_outdoors_condenses_hotter_and_drier_indoors_lowers_an_orifice_s_superheat() {
    systems(|medium, system, _| {
        let with = |outdoor: f64, wet_bulb: f64| {
            let mut weather = RATING;
            weather.outdoor += outdoor;
            weather.indoor.wet_bulb += wet_bulb;
            system.as_built.run(medium, &weather, system.rated.charge).unwrap()
        };
        let (here, hotter, drier) = (with(0.0, 0.0), with(4.0, 0.0), with(0.0, -3.0));
        assert!(hotter.liquid > here.liquid);
        assert!(drier.cooling < here.cooling);
        if !system.valve {
            assert!(drier.superheat <= here.superheat + 1e-6, "{drier:?}");
        }
    });
}

#[test]
fn mean_density_of_a_zone_lies_between_its_phases_and_agrees_with_summing() {
    let medium = Medium::named("R-407C").unwrap();
    let at = medium.saturated(300.0);
    let mean = void_fraction::mean_density(&at, 0.1, 0.9);
    let steps = 4_000;
    let slices = (0..steps).map(|n| {
        let x = 0.1 + 0.8 * (f64::from(n) + 0.5) / f64::from(steps);
        void_fraction::mean_density(&at, x, x)
    });
    let summed = slices.sum::<f64>() / f64::from(steps);
    assert!((mean / summed - 1.0).abs() < 1e-5, "{mean} beside {summed}");
    assert!(mean > at.vapour_density && mean < at.liquid_density);
}

#[test]
fn the_table_of_vapour_is_the_equation_of_state() {
    for name in TEN {
        let medium = Medium::named(name).unwrap();
        for (dew, superheat) in [(271.3, 3.1), (281.0, 12.2), (315.7, 33.0)] {
            let table = medium.vapour(dew, superheat);
            let exact = medium.vapour_density(dew + superheat, medium.dew_pressure(dew));
            assert!((table.density / exact - 1.0).abs() < 3e-3, "{name}: {} beside {exact}", table.density);
            assert!((medium.superheat(dew, table.enthalpy) - superheat).abs() < 1e-6);
        }
    }
}

#[test]
fn an_instrument_stays_within_its_accuracy_and_keeps_its_error() {
    let mut generator = Generator::seeded(2);
    for grade in &GRADES {
        let kit = Kit::of(grade, &mut generator);
        let limit = 0.01 * grade.gauge.1 * 500.0 + 0.5 * grade.gauge.0;
        let first = kit.low.read(psig(100.0)).unwrap().value().psig() - 100.0;
        for truth in [40.0, 118.3, 230.0] {
            let off = kit.low.read(psig(truth)).unwrap().value().psig() - truth;
            assert!(off.abs() <= limit + 1e-9, "{off} psi off");
            assert!((off - first).abs() <= grade.gauge.0 + 1e-9, "{off} psi off, {first} psi before");
        }
        let warm = kit.first.read(fahrenheit(95.0)).unwrap();
        assert!((warm.value().fahrenheit() - 95.0).abs() <= grade.thermometer.1 + 0.5 * grade.thermometer.0);
        assert!(warm.value().base().is_finite());
    }
}

#[test]
fn the_root_is_found_or_refused() {
    let root = root::between(0.0, 3.0, 1e-10, |x| x * x - 2.0).unwrap();
    assert!((root - 2f64.sqrt()).abs() < 1e-9);
    assert!(root::between(2.0, 3.0, 1e-10, |x| x * x - 2.0).is_none());
    assert!(root::between(0.0, 1.0, 1e-10, |_| f64::NAN).is_none());
    let walled = root::between(0.0, 1.0, 1e-9, |x| if x < 0.3 { -1.0 } else { f64::INFINITY }).unwrap();
    assert!((walled - 0.3).abs() < 1e-6);
}
