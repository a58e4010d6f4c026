//! Density from temperature and pressure, on one branch of the equation of state.
//!
//! Newton's iteration in ln ρ on p/RT = ρ(1 + ∂αʳ/∂ln δ), from a guess on the branch wanted. The caller
//! says which branch; [`crate::Fluid::density`] picks it from the saturation lines.
//!
//! Source: the relation is Eq. 4 of Lemmon and Jacobsen, J. Phys. Chem. Ref. Data 33 (2004) 593.

use crate::eos::Point;
use crate::mixture::{Model, Vector};

const MOST_ITERATIONS: usize = 60;

/// The liquid-like root, mol/m³.
pub(crate) fn liquid(model: &Model, t: f64, p: f64, x: &Vector) -> Option<f64> {
    let (t_r, rho_r) = model.reducing_point(x);
    let reduced = (t / t_r).min(0.98);
    // Rackett's equation with Z_c = 0.27, a little denser: p(ρ) is convex there and Newton comes down on it.
    let guess = 1.05 * rho_r * (1.0_f64 / 0.27).powf((1.0 - reduced).powf(2.0 / 7.0));
    newton(model, t, p, x, guess)
}

/// The vapour-like root, mol/m³.
pub(crate) fn vapour(model: &Model, t: f64, p: f64, x: &Vector) -> Option<f64> {
    newton(model, t, p, x, p / (model.gas_constant * t))
}

/// The root nearest to `guess`, mol/m³; `None` where there is none on the mechanically stable side.
pub(crate) fn newton(model: &Model, t: f64, p: f64, x: &Vector, guess: f64) -> Option<f64> {
    let (t_r, rho_r) = model.reducing_point(x);
    let ln_tau = (t_r / t).ln();
    let target = p / (model.gas_constant * t);
    let mut ln_rho = guess.ln();
    let ln_rho_r = rho_r.ln();
    let mut last_step = f64::INFINITY;
    for _ in 0..MOST_ITERATIONS {
        let rho = ln_rho.exp();
        let alpha = model.alpha_at(&Point::from_logs(ln_tau, ln_rho - ln_rho_r), x);
        let reduced = rho * (1.0 + alpha.d);
        let slope = rho * (1.0 + alpha.d + alpha.dd);
        let mut step = (target - reduced) / slope;
        if !step.is_finite() {
            return None;
        }
        if slope <= 0.0 {
            // Inside the spinodal: walk back towards the side the search came from.
            step = if rho > rho_r { 0.05 } else { -0.2 };
        }
        ln_rho += step.clamp(-0.4, 0.4);
        let settled = step.abs() < 1e-9 || (step.abs() < 1e-6 && step.abs() > 0.3 * last_step);
        if settled && slope > 0.0 {
            return Some(ln_rho.exp());
        }
        last_step = step.abs();
    }
    None
}

/// A starting density above the critical temperature: between an ideal gas and a compressed liquid.
pub(crate) fn supercritical_guess(model: &Model, t: f64, p: f64, x: &Vector) -> f64 {
    let (_, rho_r) = model.reducing_point(x);
    let ideal = p / (model.gas_constant * t);
    ideal / (1.0 + ideal / (2.5 * rho_r))
}
