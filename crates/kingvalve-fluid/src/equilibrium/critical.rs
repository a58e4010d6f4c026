//! The critical point of a blend, by its own conditions.
//!
//! With H the Hessian of the Helmholtz energy density over RT in the molar densities, a blend is critical
//! where H has a zero eigenvalue and the third derivative along its eigenvector vanishes too.
//! The third derivative is a central difference of the exact Hessian.
//!
//! Source: Heidemann and Khalil, AIChE J. 26 (1980) 769, doi:10.1002/aic.690260510; in molar densities:
//! Bell and Jäger, Fluid Phase Equilib. 433 (2017) 159, doi:10.1016/j.fluid.2016.10.030.

use super::eigen;
use crate::mixture::{Matrix, Model, Vector};
use crate::root::brent;

/// Where liquid and vapour become one.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct CriticalPoint {
    /// K
    pub temperature: f64,
    /// Pa
    pub pressure: f64,
    /// mol/m³
    pub density: f64,
}

/// Densities searched, in units of the reducing density, and in how many steps.
const DENSEST: f64 = 1.8;
const THINNEST: f64 = 0.6;
const DENSITY_STEPS: u32 = 24;
/// Stride in temperature of the search for the spinodal.
const STRIDE: f64 = 1.01;

/// A point of the spinodal, with the third derivative there.
#[derive(Clone, Copy)]
struct Spinodal {
    temperature: f64,
    density: f64,
    third: f64,
}

/// The critical point of composition `z`, searched near its reducing point.
pub(crate) fn find(model: &Model, z: &Vector) -> Option<CriticalPoint> {
    let (t_r, rho_r) = model.reducing_point(z);
    // Down the spinodal from dense to thin: the critical point is where the third derivative changes sign.
    let mut candidates = Vec::new();
    let mut last: Option<Spinodal> = None;
    for step in 0..=DENSITY_STEPS {
        let density = rho_r * (DENSEST - (DENSEST - THINNEST) * f64::from(step) / f64::from(DENSITY_STEPS));
        let near = last.map_or(t_r, |last| last.temperature);
        let Some(temperature) = spinodal_temperature(model, z, near, density) else {
            last = None;
            continue;
        };
        let here = Spinodal { temperature, density, third: conditions(model, z, temperature, density).1 };
        if let Some(before) = last
            && before.third > 0.0
            && here.third <= 0.0
        {
            candidates.extend(between(model, z, &before, &here));
        }
        last = Some(here);
    }
    candidates.into_iter().max_by(|a, b| a.temperature.total_cmp(&b.temperature))
}

/// The critical point between two points of the spinodal with third derivatives of opposite sign.
fn between(model: &Model, z: &Vector, before: &Spinodal, after: &Spinodal) -> Option<CriticalPoint> {
    let share = before.third / (before.third - after.third);
    let on_the_way = |a: f64, b: f64| a + share * (b - a);
    let temperature = on_the_way(before.temperature, after.temperature);
    let smooth = polish(model, z, temperature, on_the_way(before.density, after.density))
        .filter(|point| point.density <= before.density && point.density >= after.density);
    smooth.or_else(|| {
        // Non-analytic terms (carbon dioxide, water) make the third derivative rough here: keep the bracket.
        let third = |rho: f64| {
            let t = spinodal_temperature(model, z, temperature, rho)?;
            Some(conditions(model, z, t, rho).1)
        };
        let density = brent(after.density, before.density, 1e-9 * after.density, third)?;
        let temperature = spinodal_temperature(model, z, temperature, density)?;
        Some(point_at(model, z, temperature, density))
    })
}

fn point_at(model: &Model, z: &Vector, temperature: f64, density: f64) -> CriticalPoint {
    let reduced = model.residual(temperature, &z.map(|z| z * density)).reduced_pressure();
    CriticalPoint { temperature, pressure: reduced * model.gas_constant * temperature, density }
}

/// The smallest eigenvalue of the scaled Hessian, and the third derivative along its eigenvector.
fn conditions(model: &Model, z: &Vector, t: f64, rho: f64) -> (f64, f64) {
    let n = model.size();
    let densities = z.map(|z| z * rho);
    let (lowest, vector) = eigen::smallest(scaled_hessian(model, t, &densities, &densities), n);
    // A unit step along the eigenvector, in the densities themselves.
    let mut along = Vector::default();
    for k in 0..n {
        along[k] = vector[k] * densities[k].sqrt();
    }
    // The sign of an eigenvector is free; a denser phase is "ahead".
    if along.iter().sum::<f64>() < 0.0 {
        along = along.map(|x| -x);
    }
    let reach = (0..n).map(|k| (along[k] / densities[k]).abs()).fold(0.0, f64::max);
    let h = 1e-4 / reach;
    let second = |sign: f64| {
        let mut moved = densities;
        for k in 0..n {
            moved[k] += sign * h * along[k];
        }
        let matrix = scaled_hessian(model, t, &moved, &densities);
        quadratic_form(&matrix, &vector, n)
    };
    (lowest, (second(1.0) - second(-1.0)) / (2.0 * h) * reach.recip())
}

/// √ρₖ Hₖₗ √ρₗ with Hₖₗ = δₖₗ/ρₖ + ∂²A/∂ρₖ∂ρₗ at `rho`, scaled by `scale`.
fn scaled_hessian(model: &Model, t: f64, rho: &Vector, scale: &Vector) -> Matrix {
    let n = model.size();
    let residual = model.residual(t, rho);
    let mut matrix: Matrix = Default::default();
    for k in 0..n {
        for l in 0..n {
            matrix[k][l] = (scale[k] * scale[l]).sqrt() * residual.hessian[k][l];
        }
        matrix[k][k] += scale[k] / rho[k];
    }
    matrix
}

fn quadratic_form(matrix: &Matrix, vector: &Vector, n: usize) -> f64 {
    (0..n).map(|k| vector[k] * (0..n).map(|l| matrix[k][l] * vector[l]).sum::<f64>()).sum()
}

/// The temperature nearest to `near` at which the blend, cooled at density `rho`, loses its stability.
fn spinodal_temperature(model: &Model, z: &Vector, near: f64, rho: f64) -> Option<f64> {
    let stable = |t: f64| conditions_first(model, z, t, rho) > 0.0;
    let (mut low, mut high) = (near, near);
    while !stable(high) {
        low = high;
        high *= STRIDE;
        if high > 2.0 * near {
            return None;
        }
    }
    while stable(low) {
        high = low;
        low /= STRIDE;
        if low < 0.5 * near {
            return None;
        }
    }
    for _ in 0..30 {
        let middle = 0.5 * (low + high);
        if stable(middle) { high = middle } else { low = middle }
    }
    Some(0.5 * (low + high))
}

fn conditions_first(model: &Model, z: &Vector, t: f64, rho: f64) -> f64 {
    let densities = z.map(|z| z * rho);
    eigen::smallest(scaled_hessian(model, t, &densities, &densities), model.size()).0
}

/// Newton's iteration in ln T and ln ρ on both conditions.
fn polish(model: &Model, z: &Vector, t: f64, rho: f64) -> Option<CriticalPoint> {
    let (mut ln_t, mut ln_rho) = (t.ln(), rho.ln());
    let at = |ln_t: f64, ln_rho: f64| conditions(model, z, ln_t.exp(), ln_rho.exp());
    for _ in 0..20 {
        let h = 1e-5;
        let (f, g) = at(ln_t, ln_rho);
        let (f_t_up, g_t_up) = at(ln_t + h, ln_rho);
        let (f_t_down, g_t_down) = at(ln_t - h, ln_rho);
        let (f_r_up, g_r_up) = at(ln_t, ln_rho + h);
        let (f_r_down, g_r_down) = at(ln_t, ln_rho - h);
        let (f_t, g_t) = ((f_t_up - f_t_down) / (2.0 * h), (g_t_up - g_t_down) / (2.0 * h));
        let (f_r, g_r) = ((f_r_up - f_r_down) / (2.0 * h), (g_r_up - g_r_down) / (2.0 * h));
        let determinant = f_t * g_r - f_r * g_t;
        let step_t = (-f * g_r + g * f_r) / determinant;
        let step_r = (-g * f_t + f * g_t) / determinant;
        if !(step_t.is_finite() && step_r.is_finite()) {
            return None;
        }
        ln_t += step_t.clamp(-0.05, 0.05);
        ln_rho += step_r.clamp(-0.1, 0.1);
        if step_t.abs() < 1e-9 && step_r.abs() < 1e-6 {
            return Some(point_at(model, z, ln_t.exp(), ln_rho.exp()));
        }
    }
    None
}
