//! Every listed refrigerant is solved everywhere in its stated range, and nothing panics outside it.
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout, reason = "how a test fails and tells")]

use kingvalve::refrigerant::Refrigerant;
use kingvalve_fluid::{Fluid, Line, Reference, Result, Saturation};
use kingvalve_tests::{ask_every_refrigerant, close, hold_every_refrigerant};

const BY_TEMPERATURE: [fn(&Fluid, f64) -> Result<Saturation>; 2] =
    [Fluid::bubble_at_temperature, Fluid::dew_at_temperature];
const BY_PRESSURE: [fn(&Fluid, f64) -> Result<Saturation>; 2] =
    [Fluid::bubble_at_pressure, Fluid::dew_at_pressure];

#[test]
fn no_state_in_range_fails() {
    // 250 × (a temperature and a pressure on each of two lines) = 1,000 states a refrigerant.
    hold_every_refrigerant(250, |r, shares| {
        for (index, line) in [Line::Bubble, Line::Dew].into_iter().enumerate() {
            let curve = r.fluid().curve(line).map_err(|e| e.to_string())?;
            let (low, high) = curve.temperature_range();
            let t = low + shares[index] * (high - low);
            let solved = BY_TEMPERATURE[index](r.fluid(), t).map_err(|e| e.to_string())?;
            is_sound(r, &solved)?;
            let (low, high) = curve.pressure_range();
            let p = (low * (high / low).powf(shares[index + 2])).clamp(low, high);
            let solved = BY_PRESSURE[index](r.fluid(), p).map_err(|e| e.to_string())?;
            is_sound(r, &solved)?;
            close("pressure", solved.pressure, p, 1e-9)?;
        }
        Ok(())
    });
}

fn is_sound(r: &Refrigerant, at: &Saturation) -> std::result::Result<(), String> {
    let phases = [&at.liquid, &at.vapour];
    let sums_to_one =
        phases.iter().all(|phase| (phase.mole_fractions.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    if at.pressure > 0.0 && at.pressure_slope > 0.0 && at.liquid.density > at.vapour.density && sums_to_one {
        Ok(())
    } else {
        Err(format!("{r}: {at:?}"))
    }
}

/// From where the models of some blends have one liquid only.
const DEMIXING: &[&str] = &[
    "R-403A Bubble from 174.4 K, equations from 125.5 K",
    "R-403B Bubble from 189.2 K, equations from 125.5 K",
    "R-413A Bubble from 192.5 K, equations from 169.8 K",
    "R-417A Bubble from 187.9 K, equations from 172.5 K",
    "R-417B Bubble from 176.5 K, equations from 172.5 K",
    "R-417C Bubble from 172.7 K, equations from 172.5 K",
    "R-422A Bubble from 179.3 K, equations from 172.5 K",
    "R-422B Bubble from 178.8 K, equations from 172.5 K",
    "R-422C Bubble from 176.3 K, equations from 172.5 K",
    "R-422D Bubble from 181.1 K, equations from 172.5 K",
    "R-422E Bubble from 175.9 K, equations from 172.5 K",
    "R-430A Bubble from 206.2 K, equations from 154.6 K",
    "R-431A Bubble from 193.1 K, equations from 154.6 K",
    "R-431A Dew from 194.5 K, equations from 154.6 K",
    "R-439A Bubble from 195.0 K, equations from 172.5 K",
    "R-446A Bubble from 191.3 K, equations from 168.6 K",
    "R-461A Bubble from 176.5 K, equations from 172.5 K",
    "R-462A Bubble from 185.4 K, equations from 172.5 K",
    "R-465A Bubble from 172.9 K, equations from 136.3 K",
    "R-500 Bubble from 177.2 K, equations from 154.6 K",
    "R-503 Bubble from 143.9 K, equations from 118.0 K",
    "R-504 Bubble from 221.4 K, equations from 173.6 K",
    "R-509A Bubble from 196.5 K, equations from 125.5 K",
    "R-514A Bubble from 241.0 K, equations from 223.3 K",
];

#[test]
fn the_stated_range_reaches_from_the_equations_end_to_the_critical_one() {
    let short: Vec<String> = ask_every_refrigerant(|r| {
        let fluid = r.fluid();
        let critical = fluid.critical_point().unwrap().temperature;
        [Line::Bubble, Line::Dew].map(|line| {
            let (low, high) = fluid.curve(line).unwrap().temperature_range();
            assert!(high >= 0.99 * critical, "{r} ends at {high} K");
            let lowest = fluid.temperature_range().0;
            (low > lowest + 1e-9)
                .then(|| format!("{r} {line:?} from {low:.1} K, equations from {lowest:.1} K"))
        })
    })
    .into_iter()
    .flat_map(|(_, lines)| lines.into_iter().flatten())
    .collect();
    println!("lines that begin above the equations' lowest temperature: {short:#?}");
    // Below that the model has two liquids; `tests/properties` asks teqp for them.
    assert_eq!(short, DEMIXING);
}

/// Numbers no reading should be, and the edges of those it may be.
fn any_numbers() -> Vec<f64> {
    let mut numbers = vec![
        f64::NAN,
        -f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        0.0,
        -0.0,
        f64::MIN_POSITIVE,
        f64::MIN_POSITIVE / 2.0,
        5e-324,
        -5e-324,
        f64::MAX,
        f64::MIN,
        f64::EPSILON,
        1.0,
        -1.0,
        273.15,
        101_325.0,
    ];
    // Every power of ten and of two to the eighth, both signs.
    for exponent in (-300..=300).step_by(10) {
        numbers.push(10f64.powi(exponent));
        numbers.push(-(10f64.powi(exponent)));
    }
    numbers
}

#[test]
fn no_number_makes_it_panic() {
    let numbers = any_numbers();
    ask_every_refrigerant(|r| {
        let fluid = r.fluid();
        let (low, high) = fluid.temperature_range();
        let critical = fluid.critical_point().unwrap();
        let mut numbers = numbers.clone();
        for edge in
            [low, high, critical.temperature, critical.pressure, critical.density, fluid.pressure_max()]
        {
            numbers.extend([edge.next_down(), edge, edge.next_up()]);
        }
        for &a in &numbers {
            for index in 0..2 {
                finite_or_refused(BY_TEMPERATURE[index](fluid, a).map(|s| s.pressure), r, a);
                finite_or_refused(BY_PRESSURE[index](fluid, a).map(|s| s.temperature), r, a);
            }
            for line in [Line::Bubble, Line::Dew] {
                let curve = fluid.curve(line).unwrap();
                finite_or_refused(curve.pressure(a), r, a);
                finite_or_refused(curve.temperature(a), r, a);
                finite_or_refused(curve.density(a), r, a);
                finite_or_refused(curve.enthalpy(a), r, a);
                finite_or_refused(curve.pressure_and_slope(a).map(|(_, slope)| slope), r, a);
            }
            for b in [f64::NAN, f64::INFINITY, -1.0, 0.0, 5e-324, 300.0, 1e5, critical.density, 1e300, a] {
                for (t, other) in [(a, b), (b, a)] {
                    finite_or_refused(fluid.density(t, other), r, a);
                    let state = fluid.state(t, other, Reference::Iir);
                    finite_or_refused(state.map(|state| state.temperature), r, a);
                    let _ = fluid.residual_helmholtz(t, other);
                    let _ = fluid.fugacities(t, other, fluid.mole_fractions());
                }
            }
        }
        for &a in numbers.iter().step_by(5).chain(&[300.0, 1e5]) {
            for b in [f64::NAN, f64::INFINITY, -1.0, 0.0, 5e-324, 300.0, 1e5, 1e300] {
                for (t, other) in [(a, b), (b, a)] {
                    finite_or_refused(fluid.split(t, other).map(|split| split.vapour_fraction), r, a);
                    let by_density = fluid.split_at_density(t, other);
                    finite_or_refused(by_density.map(|split| split.pressure), r, a);
                    let by_enthalpy = fluid.split_at_enthalpy(t, other, Reference::Ashrae);
                    finite_or_refused(by_enthalpy.map(|split| split.temperature), r, a);
                    let _ = fluid.withdraw_vapour(t, other, 0.5, 1);
                    let _ = fluid.withdraw_vapour(300.0, t, other, 1);
                }
            }
        }
    });
}

fn finite_or_refused(result: Result<f64>, r: &Refrigerant, given: f64) {
    if let Ok(value) = result {
        assert!(value.is_finite(), "{r}: {given:e} gives {value}");
    }
}
