//! The saturation curves of every listed refrigerant against its own equation of state.
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout, reason = "how a test fails and tells")]

use kingvalve_fluid::{Curve, Fluid, Line, Result, Saturation};
use kingvalve_tests::{ask_every_refrigerant, close, close_on_scale, hold_every_refrigerant};

type Solve = fn(&Fluid, f64) -> Result<Saturation>;

const LINES: [(Line, Solve); 2] =
    [(Line::Bubble, Fluid::bubble_at_temperature), (Line::Dew, Fluid::dew_at_temperature)];

/// Worst differences seen over all refrigerants.
#[derive(Default)]
struct Worst {
    pressure: f64,
    temperature: f64,
    density: f64,
    enthalpy: f64,
}

#[test]
fn curves_follow_their_equation_of_state() {
    // 40 temperatures a line, where nothing makes them fall on the nodes of the fit.
    let worst = ask_every_refrigerant(|r| {
        let fluid = r.fluid();
        let critical = fluid.critical_point().unwrap().temperature;
        let mut worst = Worst::default();
        for (line, solve) in LINES {
            let curve = fluid.curve(line).unwrap();
            let (low, high) = curve.temperature_range();
            for k in 0..40 {
                let t = low + (high - low) * (f64::from(k) + 0.37) / 40.0;
                let exact = solve(fluid, t).unwrap();
                let phase = if line == Line::Bubble { &exact.liquid } else { &exact.vapour };
                let pressure = (curve.pressure(t).unwrap() / exact.pressure - 1.0).abs();
                let temperature = (curve.temperature(exact.pressure).unwrap() - t).abs();
                let most = if t <= 0.97 * critical { 1e-3 } else { 5e-3 };
                assert!(temperature <= most, "{r} {line:?} at {t} K: {temperature} K");
                assert!(pressure <= 2e-5, "{r} {line:?} at {t} K: {pressure:e}");
                worst.pressure = worst.pressure.max(pressure);
                worst.temperature = worst.temperature.max(temperature);
                worst.density = worst.density.max((curve.density(t).unwrap() / phase.density - 1.0).abs());
                let state = fluid.phase_state(t, phase, kingvalve_fluid::Reference::Iir).unwrap();
                worst.enthalpy = worst.enthalpy.max((curve.enthalpy(t).unwrap() - state.enthalpy).abs());
                let (_, slope) = curve.pressure_and_slope(t).unwrap();
                assert!((slope / exact.pressure_slope - 1.0).abs() < 1e-4, "{r} {line:?} at {t} K");
            }
            is_as_good_as_it_says(r.designation(), curve, &worst);
        }
        worst
    });
    let of = |pick: fn(&Worst) -> f64| {
        let (r, worst) = worst.iter().max_by(|a, b| pick(&a.1).total_cmp(&pick(&b.1))).unwrap();
        format!("{:.0e} ({r})", pick(worst))
    };
    println!(
        "curves against their equation of state, worst of {} refrigerants: p {}, T {} K, ρ {}, h {} J/mol",
        worst.len(),
        of(|w| w.pressure),
        of(|w| w.temperature),
        of(|w| w.density),
        of(|w| w.enthalpy),
    );
}

/// A curve measured itself when it was built; elsewhere it may be a little worse, not much.
fn is_as_good_as_it_says(name: &str, curve: &Curve, worst: &Worst) {
    let said = curve.worst_error();
    let room = |said: f64, least: f64| 4.0 * said + least;
    assert!(worst.pressure <= room(said.pressure, 1e-9), "{name}: {:e} {said:?}", worst.pressure);
    assert!(worst.temperature <= room(said.temperature, 1e-7), "{name}: {:e} {said:?}", worst.temperature);
    assert!(worst.density <= room(said.density, 1e-9), "{name}: {:e} {said:?}", worst.density);
    assert!(worst.enthalpy <= room(said.enthalpy, 1e-4), "{name}: {:e} {said:?}", worst.enthalpy);
}

#[test]
fn a_curve_and_its_inverse_undo_each_other() {
    hold_every_refrigerant(100, |r, [a, b, _, _]| {
        for (line, _) in LINES {
            let curve = r.fluid().curve(line).map_err(|e| e.to_string())?;
            let (low, high) = curve.temperature_range();
            let t = low + a * (high - low);
            let back = curve.pressure(t).and_then(|p| curve.temperature(p)).map_err(|e| e.to_string())?;
            close("T → p → T", back, t, 1e-10)?;
            let (low, high) = curve.pressure_range();
            let p = (low * (high / low).powf(b)).clamp(low, high);
            let (t_of_p, by_pressure) = curve.temperature_and_slope(p).map_err(|e| e.to_string())?;
            let (back, by_temperature) = curve.pressure_and_slope(t_of_p).map_err(|e| e.to_string())?;
            close("p → T → p", back, p, 1e-10)?;
            close("dT/dp · dp/dT", by_pressure * by_temperature, 1.0, 1e-6)?;
            let mut slices = ([f64::NAN; 2], [f64::NAN; 2]);
            curve.pressures_into(&[t, f64::NAN], &mut slices.0);
            curve.temperatures_into(&[p, -p], &mut slices.1);
            close_on_scale("slice p", slices.0[0], curve.pressure(t).map_err(|e| e.to_string())?, 0.0)?;
            close_on_scale("slice T", slices.1[0], curve.temperature(p).map_err(|e| e.to_string())?, 0.0)?;
            if !(slices.0[1].is_nan() && slices.1[1].is_nan()) {
                return Err("out of range is not NaN".to_owned());
            }
        }
        Ok(())
    });
}
