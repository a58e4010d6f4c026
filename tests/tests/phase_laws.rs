//! Laws of two phases in equilibrium, for every listed refrigerant.
//!
//! Derivatives are differences of αʳ at neighbouring densities and compositions: nothing of the solver's own
//! gradients is used to judge the solver.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::refrigerant::Refrigerant;
use kingvalve_fluid::{Fluid, Line, Phase, Reference, Saturation, State};
use kingvalve_tests::{close, close_on_scale, hold_every_refrigerant};

/// A state of saturation at a share of its line, away from the very critical end.
fn saturated(r: &Refrigerant, line: Line, share: f64) -> Result<Saturation, String> {
    let fluid = r.fluid();
    let (low, high) = fluid.curve(line).map_err(|e| e.to_string())?.temperature_range();
    let high = high.min(0.98 * fluid.critical_point().map_err(|e| e.to_string())?.temperature);
    let t = low + share * (high - low);
    let solve = if line == Line::Bubble { Fluid::bubble_at_temperature } else { Fluid::dew_at_temperature };
    solve(fluid, t).map_err(|e| e.to_string())
}

/// Where both lines have begun: in the cold some models split into two liquids.
fn coldest(fluid: &Fluid) -> Result<f64, String> {
    let start = |line| Ok::<f64, String>(fluid.curve(line).map_err(|e| e.to_string())?.temperature_range().0);
    Ok(f64::max(start(Line::Bubble)?, start(Line::Dew)?))
}

/// ρ αʳ at molar densities of the components.
fn helmholtz_density(fluid: &Fluid, t: f64, densities: &[f64]) -> f64 {
    let total: f64 = densities.iter().sum();
    let x: Vec<f64> = densities.iter().map(|part| part / total).collect();
    total * fluid.residual_helmholtz_of(t, total, &x).unwrap().alpha00
}

/// ln fᵢ by a six-point difference of ρ αʳ in the density of component `i`.
fn ln_fugacity(fluid: &Fluid, t: f64, phase: &Phase, i: usize) -> f64 {
    let densities: Vec<f64> = phase.mole_fractions.iter().map(|x| x * phase.density).collect();
    let h = (1e-3 * phase.density).min(densities[i] / 4.0);
    let at = |steps: f64| {
        let mut moved = densities.clone();
        moved[i] += steps * h;
        helmholtz_density(fluid, t, &moved)
    };
    let pair = |steps: f64| at(steps) - at(-steps);
    let slope = (45.0 * pair(1.0) - 9.0 * pair(2.0) + pair(3.0)) / (60.0 * h);
    densities[i].ln() + t.ln() + slope
}

fn pressure(fluid: &Fluid, t: f64, phase: &Phase) -> f64 {
    fluid.phase_state(t, phase, Reference::Iir).unwrap().pressure
}

#[test]
fn fugacities_are_equal_in_both_phases() {
    hold_every_refrigerant(12, |r, [share, ..]| {
        for line in [Line::Bubble, Line::Dew] {
            let at = saturated(r, line, share)?;
            let (fluid, t) = (r.fluid(), at.temperature);
            let exact = |phase: &Phase| fluid.fugacities(t, phase.density, &phase.mole_fractions).unwrap();
            let (in_liquid, in_vapour) = (exact(&at.liquid), exact(&at.vapour));
            for i in 0..in_liquid.len() {
                close(&format!("fugacity {i} at {t} K"), in_liquid[i], in_vapour[i], 1e-9)?;
                // Differences of R-22's large cancelling terms are good to 2·10⁻⁸.
                let (liquid, vapour) =
                    (ln_fugacity(fluid, t, &at.liquid, i), ln_fugacity(fluid, t, &at.vapour, i));
                close_on_scale(&format!("ln f {i} by differences at {t} K"), liquid, vapour, 3e-8)?;
            }
            // The liquid's pressure is a difference of large numbers: ρRT(1 + αʳ_δ).
            let (liquid, vapour) = (pressure(fluid, t, &at.liquid), pressure(fluid, t, &at.vapour));
            let scale = 1e-9 * vapour + 3e-11 * at.liquid.density * 8.314 * t;
            close_on_scale(&format!("pressures at {t} K"), liquid, vapour, scale)?;
            close("pressure given", at.pressure, vapour, 1e-9)?;
        }
        Ok(())
    });
}

/// Properties of `phase` moved along `direction` in composition by `step`, at the same temperature and pressure.
fn moved(fluid: &Fluid, t: f64, p: f64, phase: &Phase, direction: &[f64], step: f64) -> State {
    let mut moved = phase.clone();
    for (x, along) in moved.mole_fractions.iter_mut().zip(direction) {
        *x += step * along;
    }
    // Newton's iteration on p from the density before.
    for _ in 0..30 {
        let alpha = fluid.residual_helmholtz_of(t, moved.density, &moved.mole_fractions).unwrap();
        let by_density = 1.0 + 2.0 * alpha.alpha01 + alpha.alpha02;
        let state = fluid.phase_state(t, &moved, Reference::Iir).unwrap();
        let rt = state.pressure / (moved.density * (1.0 + alpha.alpha01));
        moved.density += (p - state.pressure) / (rt * by_density);
    }
    fluid.phase_state(t, &moved, Reference::Iir).unwrap()
}

/// The slope of a line on which the bulk phase keeps its composition x and the other has y:
/// dp/dT = (s_y − Σ yᵢ s̄ᵢ) / (v_y − Σ yᵢ v̄ᵢ), with the partial molar s̄ᵢ and v̄ᵢ of the bulk phase. For one component
/// it is Clapeyron's Δs/Δv.
fn clapeyron(fluid: &Fluid, at: &Saturation, line: Line) -> f64 {
    let (t, p) = (at.temperature, at.pressure);
    let (bulk, incipient) =
        if line == Line::Bubble { (&at.liquid, &at.vapour) } else { (&at.vapour, &at.liquid) };
    let direction: Vec<f64> =
        incipient.mole_fractions.iter().zip(&bulk.mole_fractions).map(|(y, x)| y - x).collect();
    let reach = bulk.mole_fractions.iter().zip(&direction).map(|(x, d)| (d / x).abs()).fold(0.1, f64::max);
    let h = 1e-3 / reach;
    let (up, down) = (moved(fluid, t, p, bulk, &direction, h), moved(fluid, t, p, bulk, &direction, -h));
    let here = moved(fluid, t, p, bulk, &direction, 0.0);
    let there = fluid.phase_state(t, incipient, Reference::Iir).unwrap();
    // Σ yᵢ m̄ᵢ = m(x) + d/dε m(x + ε(y − x))
    let carried = |pick: fn(&State) -> f64| pick(&here) + (pick(&up) - pick(&down)) / (2.0 * h);
    let volume = |state: &State| 1.0 / state.density;
    (there.entropy - carried(|state| state.entropy)) / (volume(&there) - carried(volume))
}

#[test]
fn slope_is_clapeyrons() {
    hold_every_refrigerant(6, |r, [share, ..]| {
        for line in [Line::Bubble, Line::Dew] {
            let at = saturated(r, line, share)?;
            let slope = clapeyron(r.fluid(), &at, line);
            close(&format!("{line:?} dp/dT at {} K", at.temperature), at.pressure_slope, slope, 2e-5)?;
        }
        Ok(())
    });
}

#[test]
fn gibbs_and_duhem() {
    // Σ xᵢ d ln fᵢ = v dp/RT at constant temperature, along any change of composition and density.
    hold_every_refrigerant(8, |r, [share, by_density, one, other]| {
        let fluid = r.fluid();
        for line in [Line::Bubble, Line::Dew] {
            let at = saturated(r, line, share)?;
            let t = at.temperature;
            for phase in [&at.liquid, &at.vapour] {
                let n = phase.mole_fractions.len();
                let (i, j) = ((one * n as f64) as usize, (other * n as f64) as usize);
                let h = 1e-5;
                let least = phase.mole_fractions[i].min(phase.mole_fractions[j]);
                let at_step = |sign: f64| {
                    let mut x = phase.mole_fractions.clone();
                    x[i] += sign * h * least;
                    x[j] -= sign * h * least;
                    let density = phase.density * (1.0 + sign * h * by_density);
                    let mut changed = phase.clone();
                    changed.density = density;
                    changed.mole_fractions.clone_from(&x);
                    (fluid.fugacities(t, density, &x).unwrap(), pressure(fluid, t, &changed))
                };
                let ((f_up, p_up), (f_down, p_down)) = (at_step(1.0), at_step(-1.0));
                let left: f64 = phase
                    .mole_fractions
                    .iter()
                    .zip(f_up.iter().zip(&f_down))
                    .map(|(x, (up, down))| x * (up / down).ln())
                    .sum();
                let alpha = fluid.residual_helmholtz_of(t, phase.density, &phase.mole_fractions).unwrap();
                let rt = pressure(fluid, t, phase) / (phase.density * (1.0 + alpha.alpha01));
                let right = (p_up - p_down) / (phase.density * rt);
                close_on_scale(&format!("Σ x d ln f at {t} K"), left, right, 1e-10)?;
            }
        }
        Ok(())
    });
}

#[test]
fn a_closed_volume_splits_as_its_pressure_says() {
    hold_every_refrigerant(12, |r, [share, filling, ..]| {
        let fluid = r.fluid();
        // Colder, what is left of the liquid as some of it boils may split into two.
        let warm = 0.65 * fluid.critical_point().map_err(|e| e.to_string())?.temperature;
        let t = saturated(r, Line::Dew, share)?.temperature.max(coldest(fluid)?).max(warm);
        let bubble = fluid.bubble_at_temperature(t).map_err(|e| e.to_string())?;
        let dew = fluid.dew_at_temperature(t).map_err(|e| e.to_string())?;
        let (thin, dense) = (dew.vapour.density, bubble.liquid.density);
        let filling = 0.001 + 0.998 * filling;
        let density = 1.0 / (filling / thin + (1.0 - filling) / dense);
        let split = fluid.split_at_density(t, density).map_err(|e| e.to_string())?;
        close("density of the whole", split.density(), density, 1e-9)?;
        let (Some(liquid), Some(vapour)) = (&split.liquid, &split.vapour) else {
            return Err(format!("one phase only: {split:?}"));
        };
        for (k, z) in fluid.mole_fractions().iter().enumerate() {
            let beta = split.vapour_fraction;
            let sum = beta * vapour.mole_fractions[k] + (1.0 - beta) * liquid.mole_fractions[k];
            close("balance", sum, *z, 1e-9)?;
        }
        let exact = |phase: &Phase| fluid.fugacities(t, phase.density, &phase.mole_fractions).unwrap();
        for (i, (liquid, vapour)) in exact(liquid).into_iter().zip(exact(vapour)).enumerate() {
            close(&format!("fugacity {i} at {t} K"), liquid, vapour, 1e-9)?;
        }
        // Where bubble and dew are as close as an azeotrope's, the pressure does not say how much is vapour.
        if r.is_blend() && bubble.pressure > dew.pressure * 1.0001 {
            let again = fluid.split(t, split.pressure).map_err(|e| e.to_string())?;
            close_on_scale("vapour fraction", again.vapour_fraction, split.vapour_fraction, 1e-5)?;
        }
        Ok(())
    });
}

#[test]
fn mass_fractions_sum_to_one_after_withdrawal() {
    hold_every_refrigerant(10, |r, [share, filling, drawn, _]| {
        let fluid = r.fluid();
        let critical = fluid.critical_point().map_err(|e| e.to_string())?.temperature;
        let t = (critical * (0.6 + 0.35 * share)).max(coldest(fluid)?);
        let full = fluid.bubble_at_temperature(t).map_err(|e| e.to_string())?.liquid.density;
        let (density, drawn) = (full * (0.02 + 0.9 * filling), 0.95 * drawn);
        let after = fluid.withdraw_vapour(t, density, drawn, 8).map_err(|e| e.to_string())?;
        let sum = |shares: &[f64]| shares.iter().sum::<f64>();
        close("left", sum(&after.mass_fractions_left), 1.0, 1e-12)?;
        close("gone", sum(&after.mass_fractions_gone), 1.0, 1e-12)?;
        close_on_scale("share", after.mass_share_gone, drawn, 1e-12)?;
        for (k, start) in fluid.mass_fractions().iter().enumerate() {
            let left = after.mass_fractions_left[k] * (1.0 - drawn);
            close_on_scale("balance", left + after.mass_fractions_gone[k] * drawn, *start, 1e-12)?;
        }
        if !(after.pressure > 0.0 && after.pressure < 1.5 * fluid.critical_point().unwrap().pressure) {
            return Err(format!("pressure {}", after.pressure));
        }
        Ok(())
    });
}
