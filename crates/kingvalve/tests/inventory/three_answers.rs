//! One pressure, three days: all vapour and nearly empty; liquid possible; air or nitrogen.

use kingvalve::charge::StandingFinding;
use kingvalve::charge::inventory::{Inventory, StandingReading, System};
use kingvalve::measure::{Instrument, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

fn on_a_day_of(t: Temperature) -> (Inventory, StandingFinding) {
    let refrigerant = Refrigerant::named("R-410A").unwrap();
    let system = System::of_plate(&refrigerant, pounds(6.5)).unwrap();
    let gauge = Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(500.0));
    let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    let pressure = Site::sea_level().absolute(&Reading::new(psig(62.0), gauge).unwrap()).unwrap();
    let reading = StandingReading::at(pressure, Reading::new(t, clamp).unwrap());
    let inventory = Inventory::prior(&system).unwrap().standing(&reading).unwrap();
    let finding = inventory.finding(&reading).unwrap();
    (inventory, finding)
}

#[test]
fn on_a_warm_day_it_is_nearly_empty() {
    let (inventory, finding) = on_a_day_of(fahrenheit(88.0));
    assert!(matches!(finding, StandingFinding::AllVapour { .. }), "{finding:?}");
    assert!(finding.text().contains("no liquid anywhere"));
    let now = inventory.now();
    assert!(now.median > pounds(0.2) && now.ninety.high() < pounds(1.2), "{now:?}");
    assert!(inventory.missing(pounds(6.5)).ninety.low() > pounds(5.3));
    assert!(inventory.probability_all_vapour() > percent(90.0));
}

#[test]
fn at_its_saturation_temperature_liquid_may_stand_behind_it() {
    let saturation = Refrigerant::named("R-410A").unwrap().dew_temperature(psia(76.7)).unwrap();
    assert!((saturation.fahrenheit() - 9.8).abs() < 0.3, "{saturation}");
    let (inventory, finding) = on_a_day_of(saturation);
    assert!(matches!(finding, StandingFinding::LiquidPossible { .. }), "{finding:?}");
    assert!(finding.text().contains("pressure alone cannot say"));
    let now = inventory.now();
    assert!(now.ninety.width() > pounds(5.0), "{now:?}");
    assert!(now.ninety.low() > pounds(0.2), "{now:?}");
}

#[test]
fn well_below_it_air_or_nitrogen_is_present() {
    let (inventory, finding) = on_a_day_of(fahrenheit(-15.0));
    assert!(matches!(finding, StandingFinding::NotThisRefrigerantAlone { .. }), "{finding:?}");
    assert!(finding.text().contains("air, nitrogen or another"));
    assert!(inventory.probability_gas() > percent(99.0), "{}", inventory.probability_gas());
}
