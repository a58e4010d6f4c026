//! After an evacuation the charge is what was weighed in, and one pressure tells the volume.

use kingvalve::charge::inventory::{Inventory, StandingReading, System};
use kingvalve::charge::plan::{Action, Metering, Plan, Situation};
use kingvalve::charge::{AirIngress, Oil};
use kingvalve::measure::{Interval, Measured};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

use super::simulated::weighed;

fn opened() -> Inventory {
    let system = System::of_plate(&Refrigerant::named("R-454B").unwrap(), pounds(6.5)).unwrap();
    Inventory::prior(&system).unwrap().standing(&at(psia(8.0))).unwrap()
}

fn at(pressure: Pressure) -> StandingReading {
    let pressure = Measured::from_standard(pressure, psi(0.7), "gauge").unwrap();
    StandingReading::at(
        pressure,
        Measured::from_standard(fahrenheit(80.0), delta_fahrenheit(0.6), "clamp").unwrap(),
    )
}

#[test]
fn what_is_weighed_in_is_what_it_holds() {
    let empty = opened().evacuated(None).unwrap();
    assert!(empty.now().ninety.high() <= pounds(0.02) && empty.is_evacuated());
    for parts in [1, 3, 13] {
        let mut inventory = empty.clone();
        for _ in 0..parts {
            inventory = inventory.weighed_in(weighed(6.5 / f64::from(parts))).unwrap();
        }
        let now = inventory.now();
        assert!(now.ninety.contains(pounds(6.51)), "{now:?}");
        // Independent weighings: the doubt grows as the root of their number.
        let by_scale = 2.0 * 1.645 * ounces(0.2) * f64::from(parts).sqrt();
        assert!(
            (now.ninety.width() / by_scale.max(pounds(0.018)) - 1.0).abs() < 0.25,
            "{parts}: {now:?} {by_scale}"
        );
    }
}

#[test]
fn one_pressure_after_half_a_pound_tells_the_volume() {
    // Without oil, so that it can be told by hand: half a pound in 10 L.
    let refrigerant = Refrigerant::named("R-454B").unwrap();
    let none = Oil::of(Interval::exactly(pounds(0.0)).unwrap());
    let system = System::of_plate(&refrigerant, pounds(6.5)).unwrap().with_oil(none).unwrap();
    let stepped =
        Inventory::prior(&system).unwrap().evacuated(None).unwrap().weighed_in(weighed(0.5)).unwrap();
    let wanted = pounds(0.51).kilograms() / 0.010;
    let density = |p: Pressure| refrigerant.density(p, fahrenheit(80.0)).unwrap().kilograms_per_cubic_meter();
    let (mut low, mut high) = (psia(20.0), psia(180.0));
    for _ in 0..50 {
        let middle = low + 0.5 * (high - low);
        if density(middle) < wanted { low = middle } else { high = middle }
    }
    let read = stepped.standing(&at(low)).unwrap();
    assert_eq!(read.conflict(), None);
    let volume = read.volume();
    assert!(volume.ninety.contains(liters(10.0)), "{volume:?}");
    assert!(volume.ninety.width() < 0.1 * volume.median, "{volume:?}");
}

#[test]
fn the_whole_charge_goes_in_by_weight() {
    let situation = Situation::ready(Metering::Valve, pounds(20.0));
    let site = Site::sea_level();
    let before = Plan::next(&opened(), &situation, &site).unwrap();
    assert_eq!(before.action(), &Action::RepairAndEvacuate { air: AirIngress::DrawnIn });
    let evacuated = opened().evacuated(None).unwrap();
    let Action::Weigh { step, .. } = Plan::next(&evacuated, &situation, &site).unwrap().action().clone()
    else {
        panic!()
    };
    assert!((step - pounds(6.5)).abs() < pounds(0.03), "{step}");
    // A vacuum that stands after it was pulled is no leak.
    let standing = evacuated.standing(&at(psia(0.5))).unwrap();
    assert_eq!(standing.air_ingress(&site).unwrap(), AirIngress::KeptOut);
}
