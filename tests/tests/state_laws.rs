//! Thermodynamic relations between the properties of one phase, for every listed refrigerant.
//!
//! Left sides come from `Fluid::state`; right sides are differences of pressure, enthalpy and entropy at neighbouring
//! temperatures and densities.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::refrigerant::Refrigerant;
use kingvalve_fluid::{Fluid, Reference, State};
use kingvalve_tests::{close, close_on_scale, hold_every_refrigerant};

/// A stable single-phase state away from the critical point; `None` where the numbers land between the phases.
fn single_phase(r: &Refrigerant, [warmth, squeeze, ..]: [f64; 4]) -> Option<(f64, f64)> {
    let fluid = r.fluid();
    let critical = fluid.critical_point().ok()?;
    let (low, high) = fluid.temperature_range();
    let t = 1.005 * low + warmth * (high.min(1.5 * critical.temperature) / 1.005 - 1.005 * low);
    let p = critical.pressure * 1e-4 * (0.5 * fluid.pressure_max() / critical.pressure * 1e4).powf(squeeze);
    let density = fluid.density(t, p).ok()?;
    let near_critical =
        (t / critical.temperature - 1.0).abs() < 0.03 && (density / critical.density - 1.0).abs() < 0.6;
    (!near_critical).then_some((t, density))
}

fn state(fluid: &Fluid, t: f64, density: f64) -> State {
    fluid.state(t, density, Reference::Ashrae).unwrap()
}

/// A five-point first difference, relative step `h`.
fn slope(at: f64, h: f64, of: impl Fn(f64) -> f64) -> f64 {
    let pair = |steps: f64| of(at * (1.0 + steps * h)) - of(at * (1.0 - steps * h));
    (8.0 * pair(1.0) - pair(2.0)) / (12.0 * h * at)
}

fn gas_constant(fluid: &Fluid, state: &State) -> f64 {
    let alpha = fluid.residual_helmholtz(state.temperature, state.density).unwrap();
    state.pressure / (state.density * state.temperature * (1.0 + alpha.alpha01))
}

#[test]
fn heat_capacities_and_sound_follow_from_the_pressure() {
    hold_every_refrigerant(12, |r, numbers| {
        let Some((t, rho)) = single_phase(r, numbers) else { return Ok(()) };
        let fluid = r.fluid();
        let at = state(fluid, t, rho);
        let p_t = slope(t, 1e-4, |t| state(fluid, t, rho).pressure);
        let p_rho = slope(rho, 1e-4, |rho| state(fluid, t, rho).pressure);
        let of = |what: &str| format!("{what} at {t} K, {rho} mol/m³");
        // c_p − c_v = T/ρ² (∂p/∂T)²/(∂p/∂ρ)
        let excess = t / (rho * rho) * p_t * p_t / p_rho;
        let (cp, cv) = (at.isobaric_heat_capacity, at.isochoric_heat_capacity);
        close_on_scale(&of("c_p − c_v"), cp - cv, excess, 1e-6 * cp)?;
        // w² = (c_p/c_v)(∂p/∂ρ)_T/M
        let sound = (cp / cv * p_rho / fluid.molar_mass()).sqrt();
        close(&of("w"), at.speed_of_sound, sound, 1e-6)?;
        // μ = (T(∂v/∂T)_p − v)/c_p with (∂v/∂T)_p = (∂p/∂T)/(ρ²(∂p/∂ρ))
        let thomson = (t * p_t / (rho * rho * p_rho) - 1.0 / rho) / cp;
        let scale = 1e-6 / (rho * cp);
        close_on_scale(&of("μ"), at.joule_thomson, thomson, scale)?;
        if cv <= 0.0 || cp < cv || p_rho <= 0.0 {
            return Err(of("not a stable state"));
        }
        Ok(())
    });
}

#[test]
fn maxwells_relation_and_the_slopes_of_energy_and_entropy() {
    hold_every_refrigerant(12, |r, numbers| {
        let Some((t, rho)) = single_phase(r, numbers) else { return Ok(()) };
        let fluid = r.fluid();
        let at = state(fluid, t, rho);
        let gas = gas_constant(fluid, &at);
        let of = |what: &str| format!("{what} at {t} K, {rho} mol/m³");
        let p_t = slope(t, 1e-4, |t| state(fluid, t, rho).pressure);
        // (∂s/∂ρ)_T = −(∂p/∂T)_ρ/ρ²
        let s_rho = slope(rho, 1e-4, |rho| state(fluid, t, rho).entropy);
        close_on_scale(&of("∂s/∂ρ"), s_rho * rho, -p_t / rho, 1e-7 * gas + 1e-6 * (p_t / rho).abs())?;
        // (∂c_v/∂ρ)_T = −(T/ρ²)(∂²p/∂T²)_ρ, the left side times ρ against the right from differences of ∂p/∂T
        let cv_rho = slope(rho, 1e-4, |rho| state(fluid, t, rho).isochoric_heat_capacity);
        let p_tt = slope(t, 1e-3, |t| slope(t, 1e-3, |t| state(fluid, t, rho).pressure));
        close_on_scale(
            &of("∂c_v/∂ρ"),
            cv_rho * rho,
            -t / rho * p_tt,
            1e-4 * gas + 1e-4 * (cv_rho * rho).abs(),
        )?;
        // (∂s/∂T)_ρ = c_v/T, (∂u/∂T)_ρ = c_v with u = h − p/ρ
        let s_t = slope(t, 1e-4, |t| state(fluid, t, rho).entropy);
        close(&of("T ∂s/∂T"), t * s_t, at.isochoric_heat_capacity, 1e-6)?;
        let energy = |t: f64| {
            let state = state(fluid, t, rho);
            state.enthalpy - state.pressure / rho
        };
        close(&of("∂u/∂T"), slope(t, 1e-4, energy), at.isochoric_heat_capacity, 1e-6)?;
        // Gibbs: dh = T ds + v dp along ρ
        let h_rho = slope(rho, 1e-4, |rho| state(fluid, t, rho).enthalpy);
        let p_rho = slope(rho, 1e-4, |rho| state(fluid, t, rho).pressure);
        close_on_scale(
            &of("∂h/∂ρ"),
            h_rho * rho,
            t * s_rho * rho + p_rho,
            1e-6 * gas * t + 1e-6 * p_rho.abs(),
        )
    });
}

#[test]
fn a_reference_state_shifts_and_does_nothing_else() {
    hold_every_refrigerant(4, |r, numbers| {
        let Some((t, rho)) = single_phase(r, numbers) else { return Ok(()) };
        let fluid = r.fluid();
        let state = |t: f64, rho: f64, reference| fluid.state(t, rho, reference).map_err(|e| e.to_string());
        for reference in [Reference::Ashrae, Reference::NormalBoilingPoint] {
            let (here, there) = (state(t, rho, Reference::Iir)?, state(t, rho, reference)?);
            let (hot, thin) = (t * 1.001, rho * 0.999);
            let (here_2, there_2) = (state(hot, thin, Reference::Iir)?, state(hot, thin, reference)?);
            close_on_scale("h", here_2.enthalpy - here.enthalpy, there_2.enthalpy - there.enthalpy, 1e-7)?;
            close_on_scale("s", here_2.entropy - here.entropy, there_2.entropy - there.entropy, 1e-9)?;
            close_on_scale("w", here.speed_of_sound, there.speed_of_sound, 0.0)?;
        }
        Ok(())
    });
}

#[test]
fn the_reference_states_are_where_they_are_said_to_be() {
    hold_every_refrigerant(1, |r, _| {
        let fluid = r.fluid();
        let cases = [(Reference::Iir, 273.15, 200e3, 1e3), (Reference::Ashrae, 233.15, 0.0, 0.0)];
        for (reference, t, enthalpy, entropy) in cases {
            // Out of a fluid's range another reference stands in, as `Reference` says.
            let Ok(bubble) = fluid.bubble_at_temperature(t) else { continue };
            let liquid = fluid.phase_state(t, &bubble.liquid, reference).map_err(|e| e.to_string())?;
            close_on_scale("h", liquid.enthalpy / fluid.molar_mass(), enthalpy, 1e-5)?;
            close_on_scale("s", liquid.entropy / fluid.molar_mass(), entropy, 1e-8)?;
        }
        let (low, _) =
            fluid.curve(kingvalve_fluid::Line::Bubble).map_err(|e| e.to_string())?.pressure_range();
        if low < 101_325.0 {
            let boiling = fluid.bubble_at_pressure(101_325.0).map_err(|e| e.to_string())?;
            let liquid =
                fluid.phase_state(boiling.temperature, &boiling.liquid, Reference::NormalBoilingPoint);
            close_on_scale("h", liquid.map_err(|e| e.to_string())?.enthalpy, 0.0, 1e-6)?;
        }
        Ok(())
    });
}
