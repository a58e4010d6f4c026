//! Laws of two phases in one volume.
#![allow(clippy::unwrap_used, clippy::panic)]

use approx::assert_relative_eq;
use kingvalve_fluid::{Basis, Fluid, Reference, Split};
use proptest::prelude::*;

fn blend() -> Fluid {
    Fluid::blend(&[("R-32", 0.23), ("R-125", 0.25), ("R-134a", 0.52)], Basis::Mass).unwrap()
}

fn balance(fluid: &Fluid, split: &Split) {
    for (k, z) in fluid.mole_fractions().iter().enumerate() {
        let liquid = split.liquid.as_ref().map_or(0.0, |phase| phase.mole_fractions[k]);
        let vapour = split.vapour.as_ref().map_or(0.0, |phase| phase.mole_fractions[k]);
        let sum = (1.0 - split.vapour_fraction) * liquid + split.vapour_fraction * vapour;
        assert_relative_eq!(sum, *z, max_relative = 1e-9);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn a_split_balances_every_component(t in 230.0..340.0_f64, share in 0.01..0.99_f64) {
        let fluid = blend();
        let (bubble, dew) = (fluid.bubble_at_temperature(t).unwrap(), fluid.dew_at_temperature(t).unwrap());
        let p = dew.pressure + share * (bubble.pressure - dew.pressure);
        let split = fluid.split(t, p).unwrap();
        prop_assert!(split.vapour_fraction > 0.0 && split.vapour_fraction < 1.0);
        balance(&fluid, &split);
    }

    #[test]
    fn density_and_enthalpy_lead_back_to_the_same_split(t in 230.0..340.0_f64, share in 0.02..0.98_f64) {
        let fluid = blend();
        let (bubble, dew) = (fluid.bubble_at_temperature(t).unwrap(), fluid.dew_at_temperature(t).unwrap());
        let split = fluid.split(t, dew.pressure + share * (bubble.pressure - dew.pressure)).unwrap();
        let by_density = fluid.split_at_density(t, split.density()).unwrap();
        assert_relative_eq!(by_density.pressure, split.pressure, max_relative = 1e-8);
        let enthalpy = fluid.enthalpy_of(&split, Reference::Iir).unwrap();
        let by_enthalpy = fluid.split_at_enthalpy(split.pressure, enthalpy, Reference::Iir).unwrap();
        assert_relative_eq!(by_enthalpy.temperature, t, max_relative = 1e-8);
        assert_relative_eq!(by_enthalpy.vapour_fraction, split.vapour_fraction, epsilon = 1e-5);
    }

    #[test]
    fn withdrawal_conserves_each_component(share in 0.0..0.9_f64, filling in 0.05..0.8_f64) {
        let fluid = blend();
        let density = filling * fluid.bubble_at_temperature(295.0).unwrap().liquid.density;
        let after = fluid.withdraw_vapour(295.0, density, share, 8).unwrap();
        prop_assert!((after.mass_fractions_left.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        for (k, start) in fluid.mass_fractions().iter().enumerate() {
            let left = after.mass_fractions_left[k] * (1.0 - after.mass_share_gone);
            let gone = after.mass_fractions_gone[k] * after.mass_share_gone;
            prop_assert!((left + gone - start).abs() < 1e-12);
        }
        // R-134a is the least volatile of the three: it stays behind.
        if share > 0.01 {
            prop_assert!(after.mass_fractions_left[2] > fluid.mass_fractions()[2]);
        }
    }
}

#[test]
fn a_single_phase_is_said_to_be_one() {
    let fluid = blend();
    let gas = fluid.split(300.0, 1e5).unwrap();
    assert_eq!(gas.vapour_fraction, 1.0);
    assert!(gas.liquid.is_none());
    let liquid = fluid.split(300.0, 3e6).unwrap();
    assert_eq!(liquid.vapour_fraction, 0.0);
    assert_relative_eq!(liquid.density(), fluid.density(300.0, 3e6).unwrap(), max_relative = 1e-12);
}

#[test]
fn throttling_a_pure_fluid_makes_the_quality_its_enthalpy_asks_for() {
    let fluid = Fluid::pure("R-134a").unwrap();
    let liquid = fluid.bubble_at_temperature(313.15).unwrap();
    let enthalpy = fluid.phase_state(313.15, &liquid.liquid, Reference::Iir).unwrap().enthalpy;
    let after = fluid.split_at_enthalpy(3e5, enthalpy, Reference::Iir).unwrap();
    assert!(after.vapour_fraction > 0.2 && after.vapour_fraction < 0.35);
    assert_relative_eq!(fluid.enthalpy_of(&after, Reference::Iir).unwrap(), enthalpy, max_relative = 1e-9);
}

#[test]
fn superheated_and_subcooled_enthalpies_come_back() {
    let fluid = blend();
    for (t, p) in [(320.0, 8e5), (280.0, 2.5e6)] {
        let density = fluid.density(t, p).unwrap();
        let enthalpy = fluid.state(t, density, Reference::Ashrae).unwrap().enthalpy;
        let split = fluid.split_at_enthalpy(p, enthalpy, Reference::Ashrae).unwrap();
        assert_relative_eq!(split.temperature, t, max_relative = 1e-9);
    }
}
