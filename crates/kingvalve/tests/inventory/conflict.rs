//! Readings that contradict each other: a finding and a wide answer, never a sure one that is wrong.

use kingvalve::charge::FullCharge;
use kingvalve::charge::inventory::{Conflict, Inventory, RunningReading, StandingReading, System};
use kingvalve::charge::plan::{Action, Metering, Plan, Situation, Stop};
use kingvalve::measure::{Instrument, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

use super::simulated::weighed;

/// One gauge and one clamp.
struct Kit(Instrument<GaugePressure>, Instrument<Temperature>);

impl Kit {
    fn new() -> Kit {
        Kit(
            Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(500.0)),
            Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0)),
        )
    }

    fn read(&self, pressure: f64) -> StandingReading {
        let p = Site::sea_level().absolute(&Reading::new(psig(pressure), self.0.clone()).unwrap()).unwrap();
        StandingReading::at(p, Reading::new(fahrenheit(88.0), self.1.clone()).unwrap())
    }
}

fn system(name: &str) -> System {
    System::of_plate(&Refrigerant::named(name).unwrap(), pounds(6.5)).unwrap()
}

/// Read, half a pound weighed in, read again.
fn stepped(kit: &Kit, name: &str, before: f64, after: f64) -> Inventory {
    let first = Inventory::prior(&system(name)).unwrap().standing(&kit.read(before)).unwrap();
    first.weighed_in(weighed(0.5)).unwrap().standing(&kit.read(after)).unwrap()
}

#[test]
fn a_pressure_that_does_not_rise_is_a_finding_and_the_answer_holds_every_explanation() {
    let kit = Kit::new();
    for name in ["R-454B", "R-410A", "R-32", "R-22", "R-407C"] {
        let inventory = stepped(&kit, name, 60.0, 60.0);
        assert_eq!(inventory.conflict(), Some(Conflict::PressureTooLow), "{name}");
        let now = inventory.now().ninety;
        // Nothing arrived; all of it did; liquid was there already.
        let before = Inventory::prior(&system(name)).unwrap().standing(&kit.read(60.0)).unwrap().now();
        for charge in [before.median, before.median + pounds(0.5), pounds(5.0)] {
            assert!(now.contains(charge), "{name}: {charge} {now}");
        }
        assert!(inventory.probability_gas() < percent(20.0), "{name}: {}", inventory.probability_gas());
        let said = Conflict::PressureTooLow.alternatives().join(" ");
        for word in ["cylinder is empty", "valve", "scale", "Not settled", "Liquid was there already"] {
            assert!(said.contains(word), "{said}");
        }
    }
}

#[test]
fn a_rise_within_what_is_assumed_is_no_conflict() {
    let kit = Kit::new();
    for after in [95.0, 110.0, 130.0, 150.0] {
        let inventory = stepped(&kit, "R-454B", 62.0, after);
        assert_eq!(inventory.conflict(), None, "{after}");
        assert!(inventory.now().ninety.width() < pounds(0.5), "{after}: {:?}", inventory.now());
    }
}

#[test]
fn a_rise_far_beyond_is_one_too() {
    let kit = Kit::new();
    let first = Inventory::prior(&system("R-454B")).unwrap().standing(&kit.read(30.0)).unwrap();
    let inventory = first.weighed_in(weighed(0.05)).unwrap().standing(&kit.read(130.0)).unwrap();
    assert_eq!(inventory.conflict(), Some(Conflict::PressureTooHigh));
    assert!(inventory.now().ninety.width() > pounds(3.0), "{:?}", inventory.now());
}

#[test]
fn a_step_and_a_reading_that_agree_settle_it() {
    let kit = Kit::new();
    let doubted = stepped(&kit, "R-454B", 62.0, 62.0);
    // The valve is opened, half a pound goes in, and the pressure rises as it should from there.
    let settled = doubted.weighed_in(weighed(0.5)).unwrap().standing(&kit.read(118.0)).unwrap();
    assert_eq!(settled.conflict(), None);
    let plain = stepped(&kit, "R-454B", 62.0, 118.0);
    let apart = settled.now().median - plain.now().median;
    assert!(apart.abs() < pounds(0.1), "{:?} {:?}", settled.now(), plain.now());
    // And if it does not rise again, it is doubted again.
    let again = doubted.weighed_in(weighed(0.5)).unwrap().standing(&kit.read(62.5)).unwrap();
    assert_eq!(again.conflict(), Some(Conflict::PressureTooLow));
}

#[test]
fn superheat_against_weight_is_a_conflict_that_the_next_reading_may_end() {
    let kit = Kit::new();
    let degrees =
        |x: f64| Measured::from_standard(delta_fahrenheit(x), delta_fahrenheit(0.7), "clamp").unwrap();
    let full = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };
    let running = |superheat, subcooling| RunningReading::of(degrees(superheat), degrees(subcooling), full);
    // A little over half of the plate by weight.
    let known = stepped(&kit, "R-454B", 62.0, 118.0).weighed_in(weighed(2.5)).unwrap();
    let doubted = known.running(&running(6.0, 22.0)).unwrap();
    assert_eq!(doubted.conflict(), Some(Conflict::Running));
    let now = doubted.now().ninety;
    assert!(now.contains(known.now().median) && now.contains(pounds(7.5)), "{now}");
    assert!(doubted.running(&running(6.0, 22.0)).unwrap().conflict().is_some());
    let standing = doubted.standing(&kit.read(222.0)).unwrap();
    assert_eq!(standing.conflict(), None);
}

#[test]
fn after_a_doubted_pressure_superheat_and_subcooling_count_alone() {
    let kit = Kit::new();
    let degrees =
        |x: f64| Measured::from_standard(delta_fahrenheit(x), delta_fahrenheit(0.7), "clamp").unwrap();
    let full = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };
    let running = RunningReading::of(degrees(12.0), degrees(8.0), full);
    let read = stepped(&kit, "R-454B", 62.0, 62.0).running(&running).unwrap();
    assert_eq!(read.conflict(), None);
    assert!(
        read.now().ninety.contains(pounds(6.1)) && read.now().ninety.low() > pounds(4.5),
        "{:?}",
        read.now()
    );
}

#[test]
fn the_plan_stops_there_and_says_what_to_look_at() {
    let kit = Kit::new();
    let inventory = stepped(&kit, "R-454B", 62.0, 62.0);
    let ready = Situation::ready(Metering::Valve, pounds(9.0));
    let plan = Plan::next(&inventory, &ready, &Site::sea_level()).unwrap();
    assert_eq!(plan.action(), &Action::Stop { because: Stop::ReadingsDisagree });
    let steps = plan.next_steps().join(" ");
    assert!(steps.contains("Nothing arrived") && steps.contains("Read again"), "{steps}");
}
