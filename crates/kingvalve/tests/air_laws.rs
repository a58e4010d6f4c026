//! Laws of moist air, and what is refused.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::air::MoistAir;
use kingvalve::measure::{Instrument, Measured, Reading};
use kingvalve::quantity::*;
use proptest::prelude::*;

fn states() -> impl Strategy<Value = (Temperature, Ratio, Site)> {
    (-58.0..88.0f64, 0.001..1.0f64, -300.0..4000.0f64).prop_filter_map("boils", |(t, rh, height)| {
        let site = Site::at_elevation(meters(height)).unwrap();
        let saturated = kingvalve::air::saturation_pressure(celsius(t)).unwrap();
        (rh * saturated.pascals() < 0.8 * site.atmosphere().pascals()).then_some((
            celsius(t),
            fraction(rh),
            site,
        ))
    })
}

fn near(a: Temperature, b: Temperature, kelvin: f64) -> bool {
    (a - b).abs() <= delta_kelvins(kelvin)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn every_measure_of_humidity_leads_back_to_the_same_air((t, rh, site) in states()) {
        let air = MoistAir::from_relative_humidity(t, rh, &site).unwrap();
        let w = air.humidity_ratio().kilograms_per_kilogram();
        let again = [
            MoistAir::from_humidity_ratio(t, air.humidity_ratio(), &site).unwrap(),
            MoistAir::from_wet_bulb(t, air.wet_bulb().unwrap().min(t), &site).unwrap(),
        ];
        for other in again {
            let back = other.humidity_ratio().kilograms_per_kilogram();
            prop_assert!((back - w).abs() <= 1e-9 * w + 1e-12, "{w} {back}");
        }
        if let Ok(dew) = air.dew_point() {
            let back = MoistAir::from_dew_point(t, dew.min(t), &site).unwrap().humidity_ratio();
            prop_assert!((back.kilograms_per_kilogram() / w - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn dew_point_wet_bulb_and_dry_bulb_are_in_order((t, rh, site) in states()) {
        let air = MoistAir::from_relative_humidity(t, rh, &site).unwrap();
        let wet = air.wet_bulb().unwrap();
        prop_assert!(wet <= t + delta_kelvins(1e-9));
        if let Ok(dew) = air.dew_point() {
            prop_assert!(dew <= wet + delta_kelvins(1e-9), "{} {}", dew, wet);
        }
    }

    #[test]
    fn moister_air_is_lighter_and_holds_more((t, rh, site) in states()) {
        let less = MoistAir::from_relative_humidity(t, rh * 0.9, &site).unwrap();
        let more = MoistAir::from_relative_humidity(t, rh, &site).unwrap();
        prop_assert!(more.density() < less.density());
        prop_assert!(more.enthalpy() > less.enthalpy());
        prop_assert!(more.specific_volume() > less.specific_volume());
        prop_assert!(more.wet_bulb().unwrap() > less.wet_bulb().unwrap() - delta_kelvins(3.0));
    }

    #[test]
    fn saturated_air_has_one_temperature(t in -55.0..60.0f64) {
        let t = celsius(t);
        let air = MoistAir::saturated(t, &Site::sea_level()).unwrap();
        prop_assert!(near(air.wet_bulb().unwrap(), t, 1e-7), "{}", air.wet_bulb().unwrap());
        prop_assert!(near(air.dew_point().unwrap(), t, 1e-7));
    }

    /// What a reading in adds to the result is what moving the reading moves it.
    #[test]
    fn doubt_is_carried_by_exact_derivatives(t in 15.0..45.0f64, below in 1.0..12.0f64) {
        let site = Site::sea_level();
        let wet = t - below;
        prop_assume!(wet > 3.0);
        // Near dry air the dew point runs away with the readings, and beyond it there is none; at freezing the
        // saturation lines over ice and over water meet at an angle.
        let Ok(air) = MoistAir::from_wet_bulb(celsius(t), celsius(wet), &site) else {
            return Err(TestCaseError::reject("drier than dry"));
        };
        prop_assume!(air.relative_humidity() > percent(5.0));
        prop_assume!((air.dew_point().unwrap() - celsius(0.01)).abs() > delta_kelvins(0.01));
        let step = 1e-4;
        let known = |t: f64, u: f64| Measured::from_standard(celsius(t), delta_kelvins(u), "probe").unwrap();
        type Property = fn(&MoistAir) -> f64;
        let plain: [Property; 6] = [
            |air| air.wet_bulb().unwrap().kelvins(),
            |air| air.dew_point().unwrap().kelvins(),
            |air| air.relative_humidity().fraction(),
            |air| air.enthalpy().joules_per_kilogram(),
            |air| air.specific_volume().cubic_meters_per_kilogram(),
            |air| air.density().kilograms_per_cubic_meter(),
        ];
        for (dry_moves, u) in [(true, [1.0, 0.0]), (false, [0.0, 1.0])] {
            let air = MoistAir::from_wet_bulb(known(t, u[0]), known(wet, u[1]), &site).unwrap();
            let carried = [
                air.wet_bulb().unwrap().standard_uncertainty().delta_kelvins(),
                air.dew_point().unwrap().standard_uncertainty().delta_kelvins(),
                air.relative_humidity().standard_uncertainty().fraction(),
                air.enthalpy().standard_uncertainty().joules_per_kilogram(),
                air.specific_volume().standard_uncertainty().cubic_meters_per_kilogram(),
                air.density().standard_uncertainty().kilograms_per_cubic_meter(),
            ];
            for (property, carried) in plain.iter().zip(carried) {
                let at = |x: f64| {
                    let [dry, wet] = if dry_moves { [t + x, wet] } else { [t, wet + x] };
                    property(&MoistAir::from_wet_bulb(celsius(dry), celsius(wet), &site).unwrap())
                };
                let moved = ((at(step) - at(-step)) / (2.0 * step)).abs();
                let scale = at(0.0).abs() * 1e-7;
                prop_assert!((carried - moved).abs() <= 1e-4 * moved + scale, "{carried} {moved}");
            }
        }
    }

    #[test]
    fn nothing_panics(t in prop::num::f64::ANY, x in prop::num::f64::ANY, p in 20_000.0..120_000.0f64) {
        let site = Site::with_barometer(pascals(p)).unwrap();
        for air in [
            MoistAir::from_wet_bulb(kelvins(t), kelvins(x), &site),
            MoistAir::from_dew_point(kelvins(t), kelvins(x), &site),
            MoistAir::from_relative_humidity(kelvins(t), fraction(x), &site),
            MoistAir::from_humidity_ratio(celsius(t.abs() % 80.0), kilograms_per_kilogram(x), &site),
        ].into_iter().flatten() {
            prop_assert!(air.wet_bulb().is_ok_and(|wet| wet.is_finite()));
            let _ = air.dew_point();
        }
    }
}

#[test]
fn one_probe_used_twice_counts_its_accuracy_once() {
    let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    let read = |t| Reading::new(fahrenheit(t), probe.clone()).unwrap();
    let site = Site::sea_level();
    let own = MoistAir::from_wet_bulb(read(75.0), read(63.0), &site).unwrap().relative_humidity();
    let other = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    let wet = Reading::new(fahrenheit(63.0), other).unwrap();
    let two = MoistAir::from_wet_bulb(read(75.0), wet, &site).unwrap().relative_humidity();
    assert!(own.standard_uncertainty() < two.standard_uncertainty() * 0.6);
}

#[test]
fn impossible_air_is_refused_in_words() {
    let site = Site::sea_level();
    let said = |air: kingvalve::Result<MoistAir>| air.unwrap_err().to_string();
    let wet = said(MoistAir::from_wet_bulb(fahrenheit(60.0), fahrenheit(62.0), &site));
    assert!(wet.starts_with("wet bulb: 62.0 °F lies above the dry bulb, 60.0 °F; check the wick"), "{wet}");
    let dry = said(MoistAir::from_wet_bulb(fahrenheit(100.0), fahrenheit(40.0), &site));
    assert!(dry.contains("drier than dry air, whose wet bulb is 56.7 °F"), "{dry}");
    let humid = said(MoistAir::from_relative_humidity(fahrenheit(75.0), percent(140.0), &site));
    assert!(
        humid.starts_with("relative humidity 140 % is out of range: air holds from 0 % to 100 %"),
        "{humid}"
    );
    let negative = said(MoistAir::from_relative_humidity(fahrenheit(75.0), percent(-1.0), &site));
    assert!(negative.contains("-1 %"), "{negative}");
    let hot = said(MoistAir::from_relative_humidity(fahrenheit(400.0), percent(10.0), &site));
    assert!(hot.starts_with("dry bulb 400 °F is out of range"), "{hot}");
    let soaked = said(MoistAir::from_humidity_ratio(fahrenheit(60.0), grains_per_pound(100.0), &site));
    assert!(soaked.contains("holds from 0 gr/lb to 7"), "{soaked}");
    let high = Site::at_elevation(meters(9000.0)).unwrap();
    let boiling = said(MoistAir::saturated(celsius(85.0), &high));
    assert!(boiling.contains("water vapor alone"), "{boiling}");
    let bone_dry = MoistAir::from_humidity_ratio(fahrenheit(60.0), grains_per_pound(0.0), &site).unwrap();
    assert!(bone_dry.dew_point().unwrap_err().to_string().contains("no dew point above -148 °F"));
}
