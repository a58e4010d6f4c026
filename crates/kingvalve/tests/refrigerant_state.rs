//! Laws of the trade-term states and splits, and bad input.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::measure::{Instrument, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::{Reference, Refrigerant};
use proptest::prelude::*;

const NAMES: [&str; 6] = ["R-22", "R-134a", "R-744", "R-410A", "R-407C", "R-454B"];

fn refrigerant() -> impl Strategy<Value = Refrigerant> {
    (0..NAMES.len()).prop_map(|k| Refrigerant::named(NAMES[k]).unwrap())
}

/// A temperature between half of the critical one (for R-744 its triple point) and 0.95 of it.
fn saturation(r: &Refrigerant, share: f64) -> Temperature {
    let critical = r.critical_temperature().unwrap().kelvins();
    let low = (0.6 * critical).max(r.fluid().temperature_range().0 + 0.01);
    kelvins(low + share * (0.95 * critical - low))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn the_curve_and_the_state_have_the_same_enthalpy(r in refrigerant(), share in 0.0..1.0_f64) {
        let t = saturation(&r, share);
        for (curve, state) in
            [(r.bubble_enthalpy(t), r.bubble_state(t)), (r.dew_enthalpy(t), r.dew_state(t))]
        {
            let off = curve.unwrap() - state.unwrap().enthalpy;
            prop_assert!(off.joules_per_kilogram().abs() < 0.1, "{r} {t}: {off}");
        }
    }

    #[test]
    fn what_boiling_takes_is_temperature_times_entropy_gained(k in 0..3_usize, share in 0.0..1.0_f64) {
        // One component: Δh = T Δs.
        let r = Refrigerant::named(NAMES[k]).unwrap();
        let t = saturation(&r, share);
        let gained = r.dew_state(t).unwrap().entropy - r.bubble_state(t).unwrap().entropy;
        let latent = r.latent_heat(r.dew_pressure(t).unwrap()).unwrap();
        let expected = gained.joules_per_kilogram_kelvin() * t.kelvins();
        prop_assert!((latent.joules_per_kilogram() / expected - 1.0).abs() < 1e-6);
    }

    #[test]
    fn a_reference_state_cancels_in_differences(r in refrigerant(), share in 0.0..0.9_f64, more in 1.0..40.0_f64) {
        let t = saturation(&r, share);
        let p = r.dew_pressure(t).unwrap() * 0.9;
        let warmer = t + delta_kelvins(more);
        let rise = |reference| {
            r.state_from(reference, p, warmer).unwrap().enthalpy - r.state_from(reference, p, t).unwrap().enthalpy
        };
        let off = rise(Reference::Iir) - rise(Reference::Ashrae);
        prop_assert!(off.joules_per_kilogram().abs() < 1e-6);
        prop_assert!(rise(Reference::Iir) > joules_per_kilogram(0.0));
    }

    #[test]
    fn throttling_keeps_enthalpy_and_mass(r in refrigerant(), share in 0.4..0.9_f64, dryness in 0.02..0.98_f64) {
        let t = saturation(&r, share);
        let p = r.bubble_pressure(t).unwrap();
        let (low, high) = (r.bubble_enthalpy(r.bubble_temperature(p).unwrap()).unwrap(), r.dew_enthalpy(r.dew_temperature(p).unwrap()).unwrap());
        let split = r.split_at_enthalpy(p, low + (high - low) * dryness).unwrap();
        let quality = split.vapour_share.fraction();
        prop_assert!(quality > 0.0 && quality < 1.0);
        for (k, (_, whole)) in r.components().enumerate() {
            let sum = quality * split.vapour[k].1.fraction() + (1.0 - quality) * split.liquid[k].1.fraction();
            prop_assert!((sum - whole.fraction()).abs() < 1e-8);
        }
        if !r.is_blend() {
            prop_assert!((quality - dryness).abs() < 1e-6);
        }
    }

    #[test]
    fn joule_thomson_is_what_a_small_throttling_does(r in refrigerant(), share in 0.3..0.9_f64) {
        let t = saturation(&r, share);
        let p = r.dew_pressure(t).unwrap() * 0.5;
        let before = r.state(p, t).unwrap();
        let drop = p * 1e-3 - p * 0.0;
        let expected = before.throttling_drop(drop);
        let after = r.state(p - drop, t - expected).unwrap();
        let off = (after.enthalpy - before.enthalpy).joules_per_kilogram();
        let scale = before.isobaric_heat_capacity.joules_per_kilogram_kelvin() * expected.delta_kelvins();
        prop_assert!(off.abs() < 0.01 * scale, "{r}: {off} of {scale}");
    }
}

#[test]
fn a_reading_of_the_temperature_gives_an_enthalpy_with_doubt() {
    let r = Refrigerant::named("R-410A").unwrap();
    let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    let read = Reading::new(fahrenheit(45.0), clamp).unwrap();
    let measured = r.dew_enthalpy(&read).unwrap();
    assert_eq!(measured.value(), r.dew_enthalpy(fahrenheit(45.0)).unwrap());
    assert!(measured.standard_uncertainty() > joules_per_kilogram(0.0));
}

#[test]
fn bad_input_is_said_in_the_trades_units() {
    let r = Refrigerant::named("R-410A").unwrap();
    let blend = Refrigerant::named("R-407C").unwrap();
    let text = blend.state(psia(150.0), fahrenheit(72.0)).unwrap_err().to_string();
    assert_eq!(
        text,
        "R-407C at 150.00 psia and 72.00 °F: it lies between its bubble and its dew point, where liquid and vapour \
         coexist; ask for the split of both, or check the readings against each other"
    );
    assert!(blend.density(psia(150.0), fahrenheit(72.0)).unwrap_err().is_inconsistent());
    let text = r.bubble_state(fahrenheit(300.0)).unwrap_err().to_string();
    assert!(text.contains("300.00 °F") && text.contains("critical"), "{text}");
    assert!(r.latent_heat(psia(900.0)).unwrap_err().is_out_of_range());
    assert!(r.split(psia(f64::NAN), fahrenheit(60.0)).unwrap_err().is_out_of_range());
    assert!(r.state(psia(-5.0), fahrenheit(60.0)).unwrap_err().is_out_of_range());
    let enthalpy = joules_per_kilogram(f64::NAN);
    assert!(r.split_at_enthalpy(psia(130.0), enthalpy).is_err());
    for far in [1e9, -1e9] {
        let text = r.split_at_enthalpy(psia(130.0), joules_per_kilogram(far)).unwrap_err().to_string();
        assert!(!text.contains("NaN"), "{text}");
    }
    let pure = Refrigerant::named("R-32").unwrap();
    let p = pure.dew_pressure(fahrenheit(60.0)).unwrap();
    // Exactly at saturation a pure refrigerant is on one side or the other, or says that it cannot tell.
    if let Ok(split) = pure.split(p, fahrenheit(60.0)) {
        assert!(split.vapour_share.fraction() == 0.0 || split.vapour_share.fraction() == 1.0);
    }
}
