//! Every pure fluid against the check points its paper prints, or against a reference library where none is known.
//!
//! Three rows (R-125 at 339.15 K, 0.9999 of its critical temperature) lie above the range of the saturation
//! solver; there the equal pressures and Gibbs energies are solved here, from the equation alone.
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout, reason = "how a test fails and tells")]

use std::collections::BTreeMap;

use kingvalve_fluid::{Fluid, Reference};
use kingvalve_tests::{Row, Sheet};

fn computed(row: &Row) -> kingvalve_fluid::Result<f64> {
    let fluid = Fluid::pure(row.text("fluid"))?;
    let t = row.number("temperature_K");
    let property = row.text("property");
    if t > 0.995 * fluid.critical_point()?.temperature && property.starts_with("saturat") {
        return Ok(beside_the_critical_point(&fluid, t, property));
    }
    let state = || fluid.state(t, row.number("density_mol_per_m3"), Reference::Iir);
    Ok(match property {
        "pressure" => state()?.pressure,
        "isochoric_heat_capacity" => state()?.isochoric_heat_capacity,
        "isobaric_heat_capacity" => state()?.isobaric_heat_capacity,
        "speed_of_sound" => state()?.speed_of_sound,
        "saturation_pressure" => fluid.bubble_at_temperature(t)?.pressure,
        "saturated_liquid_density" => fluid.bubble_at_temperature(t)?.liquid.density,
        "saturated_vapor_density" => fluid.dew_at_temperature(t)?.vapour.density,
        other => panic!("{}: no property {other:?}", row.place()),
    })
}

/// Newton's iteration on p(ρ') = p(ρ'') and g(ρ') = g(ρ'') at `t`, from ρ_c (1 ± 2 ∛(1 − T/T_c)).
fn beside_the_critical_point(fluid: &Fluid, t: f64, property: &str) -> f64 {
    let critical = fluid.critical_point().unwrap();
    let away = 2.0 * (1.0 - t / critical.temperature).cbrt();
    let (mut liquid, mut vapour) = (critical.density * (1.0 + away), critical.density * (1.0 - away));
    // p/RT, g/RT but for a constant, and the slope of the first; the slope of the second is that over ρ.
    let at = |rho: f64| {
        let alpha = fluid.residual_helmholtz(t, rho).unwrap();
        let (p, slope) = (rho * (1.0 + alpha.alpha01), 1.0 + 2.0 * alpha.alpha01 + alpha.alpha02);
        (p, alpha.alpha00 + alpha.alpha01 + rho.ln(), slope)
    };
    for _ in 0..100 {
        let ((p_l, g_l, s_l), (p_v, g_v, s_v)) = (at(liquid), at(vapour));
        let step_v = ((p_l - p_v) / liquid - (g_l - g_v)) / (s_v / liquid - s_v / vapour);
        let step_l = (p_v - p_l + s_v * step_v) / s_l;
        liquid += step_l.clamp(-0.05 * liquid, 0.05 * liquid);
        vapour += step_v.clamp(-0.05 * vapour, 0.05 * vapour);
    }
    match property {
        "saturated_liquid_density" => liquid,
        "saturated_vapor_density" => vapour,
        _ => fluid.state(t, vapour, Reference::Iir).unwrap().pressure,
    }
}

#[test]
fn every_published_check_point_is_met() {
    let sheet = Sheet::open("eos_check_points");
    let mut met: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    let mut missed = Vec::new();
    for row in sheet.rows() {
        let expected = row.number("expected");
        match computed(row) {
            Ok(value) if (value / expected - 1.0).abs() <= row.number("tolerance_rel") => {
                *met.entry((row.text("fluid"), row.text("mark"))).or_default() += 1;
            }
            Ok(value) => missed.push(format!(
                "{} {} at {} K: {value}, expected {expected}, off by {:.1e} where {} is allowed",
                row.place(),
                row.text("fluid"),
                row.text("temperature_K"),
                value / expected - 1.0,
                row.text("tolerance_rel"),
            )),
            Err(error) => missed.push(format!("{}: {error}", row.place())),
        }
    }
    println!("check points met, by fluid: {met:?}");
    assert!(missed.is_empty(), "{} of {} missed:\n{}", missed.len(), sheet.rows().len(), missed.join("\n"));
}
