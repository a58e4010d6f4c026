//! Laws of saturation, for fluids and blends of every kind of model.
#![allow(clippy::unwrap_used, clippy::panic)]

use approx::assert_relative_eq;
use kingvalve_fluid::{Basis, Fluid, Line};
use proptest::prelude::*;

fn fluid(index: usize) -> Fluid {
    let mass = |composition: &[(&str, f64)]| Fluid::blend(composition, Basis::Mass).unwrap();
    match index {
        0 => Fluid::pure("R-22").unwrap(),
        1 => Fluid::pure("R-32").unwrap(),
        2 => Fluid::pure("R-125").unwrap(),
        3 => Fluid::pure("R-134a").unwrap(),
        4 => Fluid::pure("R-1234yf").unwrap(),
        5 => Fluid::pure("R-290").unwrap(),
        6 => mass(&[("R-32", 0.5), ("R-125", 0.5)]),
        7 => mass(&[("R-32", 0.23), ("R-125", 0.25), ("R-134a", 0.52)]),
        _ => mass(&[("R-32", 0.689), ("R-1234yf", 0.311)]),
    }
}

/// Any of the fluids, at a temperature anywhere in its range.
fn state() -> impl Strategy<Value = (Fluid, f64)> {
    (0..9_usize, 0.0..1.0_f64).prop_map(|(index, share)| {
        let fluid = fluid(index);
        let low = fluid.temperature_range().0;
        let high = 0.994 * fluid.critical_point().unwrap().temperature;
        (fluid, low + share * (high - low))
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn temperature_to_pressure_and_back((fluid, t) in state()) {
        let bubble = fluid.bubble_at_temperature(t).unwrap();
        let dew = fluid.dew_at_temperature(t).unwrap();
        assert_relative_eq!(fluid.bubble_at_pressure(bubble.pressure).unwrap().temperature, t, max_relative = 1e-9);
        assert_relative_eq!(fluid.dew_at_pressure(dew.pressure).unwrap().temperature, t, max_relative = 1e-9);
    }

    #[test]
    fn bubble_lies_above_dew((fluid, t) in state()) {
        let bubble = fluid.bubble_at_temperature(t).unwrap();
        let dew = fluid.dew_at_temperature(t).unwrap();
        prop_assert!(bubble.pressure >= dew.pressure * (1.0 - 1e-9));
        prop_assert!(bubble.liquid.density > dew.vapour.density);
    }

    #[test]
    fn saturation_rises_with_temperature((fluid, t) in state()) {
        let higher = t * 1.001;
        prop_assert!(fluid.bubble_at_temperature(higher).unwrap().pressure > fluid.bubble_at_temperature(t).unwrap().pressure);
        prop_assert!(fluid.dew_at_temperature(higher).unwrap().pressure > fluid.dew_at_temperature(t).unwrap().pressure);
    }

    #[test]
    fn slope_is_the_slope((fluid, t) in state()) {
        let h = 1e-5 * t;
        for line in [Fluid::bubble_at_temperature, Fluid::dew_at_temperature] {
            let (up, down) = (line(&fluid, t + h).unwrap(), line(&fluid, t - h).unwrap());
            let numeric = (up.pressure - down.pressure) / (up.temperature - down.temperature);
            assert_relative_eq!(line(&fluid, t).unwrap().pressure_slope, numeric, max_relative = 1e-5);
        }
    }

    #[test]
    fn density_at_a_pressure_beside_the_line_is_the_phase((fluid, t) in state()) {
        let bubble = fluid.bubble_at_temperature(t).unwrap();
        let dew = fluid.dew_at_temperature(t).unwrap();
        let liquid = fluid.density(t, bubble.pressure * (1.0 + 1e-9)).unwrap();
        let vapour = fluid.density(t, dew.pressure * (1.0 - 1e-9)).unwrap();
        assert_relative_eq!(liquid, bubble.liquid.density, max_relative = 1e-5);
        assert_relative_eq!(vapour, dew.vapour.density, max_relative = 1e-5);
    }

    #[test]
    fn vapour_thickens_with_pressure((fluid, t) in state(), share in 0.01..0.98_f64) {
        let dew = fluid.dew_at_temperature(t).unwrap().pressure;
        let thin = fluid.density(t, share * dew).unwrap();
        let thick = fluid.density(t, 1.01 * share * dew).unwrap();
        prop_assert!(thick > thin);
    }

    #[test]
    fn any_number_is_answered_or_refused(index in 0..9_usize, a in any::<f64>(), b in any::<f64>()) {
        let fluid = fluid(index);
        let _ = fluid.bubble_at_temperature(a);
        let _ = fluid.dew_at_pressure(a);
        if let Ok(density) = fluid.density(a, b) {
            prop_assert!(density > 0.0 && density.is_finite());
        }
    }
}

#[test]
fn two_phase_states_have_no_single_density() {
    let blend = fluid(7);
    let (bubble, dew) =
        (blend.bubble_at_temperature(280.0).unwrap(), blend.dew_at_temperature(280.0).unwrap());
    let error = blend.density(280.0, 0.5 * (bubble.pressure + dew.pressure)).unwrap_err();
    assert!(error.is_two_phase());
}

#[test]
fn outside_the_range_is_refused_with_the_limits() {
    let error = Fluid::pure("R-32").unwrap().bubble_at_temperature(352.0).unwrap_err();
    assert!(error.is_out_of_range());
    assert!(error.to_string().contains("temperature 352 K is outside 136.34"), "{error}");
    assert!(Fluid::pure("R-32").unwrap().bubble_at_temperature(f64::NAN).unwrap_err().is_out_of_range());
    assert!(Fluid::pure("R-9999").unwrap_err().is_unknown_fluid());
    assert!(Fluid::blend(&[("R-32", 0.5), ("R-125", 0.4)], Basis::Mass).unwrap_err().is_composition());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn curves_follow_the_equation_of_state((fluid, t) in state()) {
        for (line, solve) in [
            (Line::Bubble, Fluid::bubble_at_temperature as fn(&Fluid, f64) -> _),
            (Line::Dew, Fluid::dew_at_temperature),
        ] {
            let curve = fluid.curve(line).unwrap();
            let exact = solve(&fluid, t).unwrap();
            assert_relative_eq!(curve.pressure(t).unwrap(), exact.pressure, max_relative = 2e-5);
            let back = curve.temperature(exact.pressure.clamp(curve.pressure_range().0, curve.pressure_range().1));
            prop_assert!((back.unwrap() - t).abs() < 1e-3);
        }
    }

    #[test]
    fn a_curve_and_its_inverse_undo_each_other((fluid, t) in state(), bubble in any::<bool>()) {
        let curve = fluid.curve(if bubble { Line::Bubble } else { Line::Dew }).unwrap();
        let p = curve.pressure(t).unwrap();
        let back = curve.temperature(p).unwrap();
        assert_relative_eq!(back, t, max_relative = 1e-9);
        assert_relative_eq!(curve.pressure(back).unwrap(), p, max_relative = 1e-9);
        let (same, slope) = curve.temperature_and_slope(p).unwrap();
        prop_assert_eq!(same.to_bits(), back.to_bits());
        assert_relative_eq!(slope * curve.pressure_and_slope(back).unwrap().1, 1.0, max_relative = 1e-8);
        let (low, high) = curve.temperature_range();
        if t > 1.01 * low && t < 0.99 * high {
            let numeric = (curve.pressure(t * 1.00001).unwrap() - curve.pressure(t * 0.99999).unwrap()) / (2e-5 * t);
            assert_relative_eq!(curve.pressure_and_slope(t).unwrap().1, numeric, max_relative = 1e-5);
        }
    }
}

#[test]
fn slices_and_scalars_agree_and_mark_what_is_out_of_range() {
    let blend = fluid(8);
    let curve = blend.curve(Line::Dew).unwrap();
    let temperatures = [250.0, 1.0, 300.0, f64::NAN, 900.0];
    let mut pressures = [0.0; 5];
    curve.pressures_into(&temperatures, &mut pressures);
    assert_eq!(pressures[0].to_bits(), curve.pressure(250.0).unwrap().to_bits());
    assert_eq!(pressures[2].to_bits(), curve.pressure(300.0).unwrap().to_bits());
    assert!(pressures[1].is_nan() && pressures[3].is_nan() && pressures[4].is_nan());
    let mut back = [0.0; 5];
    curve.temperatures_into(&pressures, &mut back);
    assert_relative_eq!(back[0], 250.0, max_relative = 1e-9);
    assert!(back[1].is_nan());
}

/// Carbon dioxide's non-analytic terms make the third derivative of these blends rough where it vanishes.
#[test]
fn blends_rich_in_carbon_dioxide_have_a_critical_point() {
    for step in 0..40 {
        let share = 0.173 + 5e-5 * f64::from(step);
        let composition = [("R-744", share), ("R-32", 0.4005), ("R-125", 1.0 - share - 0.4005)];
        let blend = Fluid::blend(&composition, Basis::Mass).unwrap();
        let critical = blend.critical_point().unwrap();
        assert_relative_eq!(critical.temperature, 337.95, max_relative = 1e-3);
        assert!(blend.bubble_at_temperature(0.99 * critical.temperature).is_ok());
    }
}
