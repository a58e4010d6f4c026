//! Conversion factors against `uom` and among themselves; names of units; sites.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::quantity::*;

/// Every unit of every quantity: quantity name, unit.
fn all_units() -> Vec<(&'static str, Unit)> {
    fn of<Q: Quantity>(units: &mut Vec<(&'static str, Unit)>) {
        units.extend(Q::units().iter().map(|unit| (Q::NAME, *unit)));
    }
    let mut units = Vec::new();
    of::<Pressure>(&mut units);
    of::<GaugePressure>(&mut units);
    of::<PressureDifference>(&mut units);
    of::<Temperature>(&mut units);
    of::<TemperatureDifference>(&mut units);
    of::<Mass>(&mut units);
    of::<Length>(&mut units);
    of::<Area>(&mut units);
    of::<Volume>(&mut units);
    of::<Density>(&mut units);
    of::<Time>(&mut units);
    of::<VolumeFlow>(&mut units);
    of::<MassFlow>(&mut units);
    of::<Velocity>(&mut units);
    of::<Energy>(&mut units);
    of::<Power>(&mut units);
    of::<SpecificEnergy>(&mut units);
    of::<SpecificEntropy>(&mut units);
    of::<ElectricPotential>(&mut units);
    of::<Current>(&mut units);
    of::<Resistance>(&mut units);
    of::<Capacitance>(&mut units);
    of::<Frequency>(&mut units);
    of::<Ratio>(&mut units);
    of::<HumidityRatio>(&mut units);
    of::<SpecificVolume>(&mut units);
    of::<Throughput>(&mut units);
    of::<Viscosity>(&mut units);
    units
}

#[test]
fn factors_are_those_of_uom_to_its_seven_digits() {
    use uom::si::{f64 as si, mass, pressure, thermodynamic_temperature, volume};
    let close = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 2e-7, "{a} {b}");
    close(Mass::from(si::Mass::new::<mass::pound>(6.5)).pounds(), 6.5);
    close(Mass::from(si::Mass::new::<mass::ounce>(9.0)).ounces(), 9.0);
    close(Pressure::from(si::Pressure::new::<pressure::psi>(77.0)).psia(), 77.0);
    close(si::Pressure::from(psig(62.0)).get::<pressure::psi>(), 62.0);
    close(PressureDifference::from(si::Pressure::new::<pressure::inch_of_water>(0.5)).inches_of_water(), 0.5);
    close(Volume::from(si::Volume::new::<volume::gallon>(3.0)).gallons(), 3.0);
    let warm = si::ThermodynamicTemperature::new::<thermodynamic_temperature::degree_fahrenheit>(88.0);
    assert_eq!(Temperature::from(warm), fahrenheit(88.0));
    assert_eq!(si::Mass::from(kilograms(2.5)), si::Mass::new::<mass::kilogram>(2.5));
}

#[test]
fn sixteen_ounces_are_a_pound_and_twelve_inches_a_foot() {
    assert_eq!(ounces(16.0), pounds(1.0));
    assert!((inches(12.0) / feet(1.0) - 1.0).abs() < 3e-16);
    assert_eq!(btu_per_pound(1.0) * pounds(1.0), btu(1.0));
}

#[test]
fn names_of_units_are_unambiguous() {
    let units = all_units();
    for (i, (quantity, unit)) in units.iter().enumerate() {
        let names = |unit: &Unit| {
            let mut names = vec![unit.symbol, unit.word];
            names.extend(unit.aliases);
            names.dedup();
            names
        };
        for (other_quantity, other) in &units[i + 1..] {
            if quantity == other_quantity {
                for name in names(unit) {
                    assert!(!names(other).contains(&name), "{quantity}: {name} twice");
                }
            }
        }
        assert!(unit.factor.is_finite() && unit.factor != 0.0);
    }
}

#[test]
fn a_site_outside_the_standard_atmosphere_is_refused() {
    for elevation in [meters(-5000.1), meters(11_000.1), feet(f64::NAN), feet(f64::INFINITY)] {
        assert!(Site::at_elevation(elevation).unwrap_err().is_out_of_range());
    }
    for barometer in [psia(0.0), psia(62.0), psia(f64::NAN)] {
        assert!(Site::with_barometer(barometer).unwrap_err().is_out_of_range());
    }
    let error = Site::at_elevation(feet(130_000.0)).unwrap_err().to_string();
    assert_eq!(
        error,
        "elevation 130000 ft is out of range: the standard atmosphere is used from -16404 ft to 36089 ft; \
         check the elevation and its unit, or give a barometer reading"
    );
}

#[test]
fn gauge_below_vacuum_is_refused() {
    let error = Site::sea_level().absolute(psig(-20.0)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "gauge pressure -20 psig is out of range: a full vacuum at this site is -14.70 psig; \
         a gauge pressure below vacuum cannot be: check the sign, the unit, the gauge's zero and the site"
    );
    assert!(Site::sea_level().absolute(psig(f64::NAN)).is_err());
    assert!(Site::sea_level().absolute(psig(f64::INFINITY)).is_err());
    assert!(Site::sea_level().gauge(psia(-0.1)).unwrap_err().is_out_of_range());
}

#[test]
fn a_site_in_json() {
    let site: Site = serde_json::from_str(r#"{"elevation": "130 ft"}"#).unwrap();
    assert_eq!(site, Site::at_elevation(feet(130.0)).unwrap());
    assert_eq!(serde_json::to_string(&site).unwrap(), r#"{"elevation":{"value":130.0,"unit":"ft"}}"#);
    let site: Site = serde_json::from_str(r#"{"barometer": {"value": 29.4, "unit": "inHg"}}"#).unwrap();
    let again: Site = serde_json::from_str(&serde_json::to_string(&site).unwrap()).unwrap();
    assert!((site.atmosphere().psia() / again.atmosphere().psia() - 1.0).abs() < 4e-16);
    assert!(serde_json::from_str::<Site>(r#"{"elevation": "90000 ft"}"#).is_err());
    assert!(serde_json::from_str::<Site>(r#"{"altitude": "130 ft"}"#).is_err());
}
