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

/// The critical point of composition `z`, searched near its reducing point.
pub(crate) fn find(model: &Model, z: &Vector) -> Option<CriticalPoint> {
    let (t_r, rho_r) = model.reducing_point(z);
    // The largest of the densities at which the third derivative changes sign on the spinodal.
    let mut starts = vec![];
    let mut last: Option<(f64, f64, f64)> = None;
    for step in 0..=24 {
        let rho = rho_r * (1.8 - 0.05 * f64::from(step));
        let Some(t) = spinodal_temperature(model, z, t_r, rho) else {
            last = None;
            continue;
        };
        let third = conditions(model, z, t, rho).1;
        if let Some((t_before, rho_before, third_before)) = last
            && third_before * third <= 0.0
        {
            let share = third_before / (third_before - third);
            starts.push((t_before + share * (t - t_before), rho_before + share * (rho - rho_before)));
        }
        last = Some((t, rho, third));
    }
    starts
        .into_iter()
        .filter_map(|(t, rho)| polish(model, z, t, rho))
        .max_by(|a, b| a.temperature.total_cmp(&b.temperature))
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

/// The highest temperature at which the blend is at the limit of stability at density `rho`.
fn spinodal_temperature(model: &Model, z: &Vector, t_r: f64, rho: f64) -> Option<f64> {
    let lowest = |t: f64| conditions_first(model, z, t, rho);
    let mut high = 1.25 * t_r;
    if lowest(high) <= 0.0 {
        return None;
    }
    let mut low = high;
    while lowest(low) > 0.0 {
        high = low;
        low *= 0.96;
        if low < 0.6 * t_r {
            return None;
        }
    }
    for _ in 0..30 {
        let middle = 0.5 * (low + high);
        if lowest(middle) > 0.0 { high = middle } else { low = middle }
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
            let (temperature, density) = (ln_t.exp(), ln_rho.exp());
            let reduced = model.residual(temperature, &z.map(|z| z * density)).reduced_pressure();
            let pressure = reduced * model.gas_constant * temperature;
            return Some(CriticalPoint { temperature, pressure, density });
        }
    }
    None
}
