//! Writes a grid of states of every listed refrigerant as JSON lines, for comparison with other libraries.
//!
//! `property_grid [states [temperatures]]`: so many random states of one phase, and so many temperatures on each
//! saturation line, a refrigerant (12 and 12 if not given). The same grid every time.
#![allow(clippy::print_stdout, reason = "the grid goes to standard output")]

use std::process::ExitCode;

use kingvalve::refrigerant::{Refrigerant, designations};
use kingvalve_fluid::{Fluid, Line, Reference, Result};
use kingvalve_tests::Draw;
use serde_json::{Value, json};

fn main() -> ExitCode {
    let count = |position: usize| match std::env::args().nth(position) {
        None => Ok(12),
        Some(text) => text.parse::<u32>().map_err(|e| format!("property_grid: {text:?}: {e}")),
    };
    let written = count(1).and_then(|states| write(states, count(2)?));
    match written {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

fn write(states: u32, temperatures: u32) -> std::result::Result<(), String> {
    for name in designations() {
        let r = Refrigerant::named(name).map_err(|e| e.to_string())?;
        let line = of_refrigerant(&r, states, temperatures).map_err(|e| format!("{name}: {e}"))?;
        println!("{line}");
    }
    Ok(())
}

fn of_refrigerant(r: &Refrigerant, states: u32, temperatures: u32) -> Result<Value> {
    let fluid = r.fluid();
    let critical = fluid.critical_point()?;
    let mut draw = Draw::named(r.designation());
    Ok(json!({
        "designation": r.designation(),
        "components": fluid.components().collect::<Vec<_>>(),
        "mole_fractions": fluid.mole_fractions(),
        "molar_mass": fluid.molar_mass(),
        "critical_temperature": critical.temperature,
        "critical_pressure": critical.pressure,
        "critical_density": critical.density,
        "states": (0..states).map(|_| one_phase(fluid, &mut draw)).collect::<Result<Vec<_>>>()?,
        "bubble": saturated(fluid, Line::Bubble, temperatures, &mut draw)?,
        "dew": saturated(fluid, Line::Dew, temperatures, &mut draw)?,
    }))
}

/// Anywhere between a thin gas and a compressed liquid; stable or not makes no difference to αʳ.
fn one_phase(fluid: &Fluid, draw: &mut Draw) -> Result<Value> {
    let critical = fluid.critical_point()?;
    let (low, high) = fluid.temperature_range();
    let t = draw.between(low, high.min(1.6 * critical.temperature));
    let density = critical.density * 10f64.powf(draw.between(-4.0, 0.45));
    let alpha = fluid.residual_helmholtz(t, density)?;
    let state = fluid.state(t, density, Reference::Iir)?;
    Ok(json!({
        "temperature": t,
        "density": density,
        "tau": alpha.tau,
        "delta": alpha.delta,
        "alpha": [alpha.alpha00, alpha.alpha01, alpha.alpha02, alpha.alpha10, alpha.alpha11, alpha.alpha20],
        "pressure": state.pressure,
        "isochoric_heat_capacity": state.isochoric_heat_capacity,
        "enthalpy": state.enthalpy,
        "entropy": state.entropy,
    }))
}

/// Random temperatures from the cold end up to 0.97 of the critical one.
fn saturated(fluid: &Fluid, line: Line, temperatures: u32, draw: &mut Draw) -> Result<Vec<Value>> {
    let solve = match line {
        Line::Bubble => Fluid::bubble_at_temperature,
        Line::Dew => Fluid::dew_at_temperature,
    };
    let curve = fluid.curve(line)?;
    let (low, high) = curve.temperature_range();
    let high = high.min(0.97 * fluid.critical_point()?.temperature);
    (0..temperatures)
        .map(|_| {
            let t = draw.between(low, high);
            let at = solve(fluid, t)?;
            Ok(json!({
                "temperature": t,
                "pressure": at.pressure,
                "curve_pressure": curve.pressure(t)?,
                "liquid": {"density": at.liquid.density, "mole_fractions": at.liquid.mole_fractions},
                "vapour": {"density": at.vapour.density, "mole_fractions": at.vapour.mole_fractions},
            }))
        })
        .collect()
}
