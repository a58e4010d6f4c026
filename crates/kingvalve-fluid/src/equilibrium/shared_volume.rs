//! Liquid and vapour that share a closed volume of given temperature and content, by Newton's iteration.
//!
//! Unknowns: ln ρₖ of each component in the vapour and the vapour's share of the volume; the liquid follows from
//! the balance of each component. Equations: equal fugacity of each component, equal pressure. As in
//! [`super::newton`] no density root is searched inside the iteration.
//!
//! Source: the conditions are those of the isochoric–isothermal flash, for example Mikyška and Firoozabadi, Fluid
//! Phase Equilib. 321 (2012) 1, doi:10.1016/j.fluid.2012.01.026; the choice of unknowns is ours.

use super::linear::{self, MAX};
use super::newton::pressure_derivative;
use crate::mixture::{Model, Vector};

/// The two phases: molar densities of the components in each, and how much of the volume is vapour.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SharedVolume {
    pub liquid: Vector,
    pub vapour: Vector,
    /// From 0 to 1.
    pub vapour_share: f64,
}

const MOST_ITERATIONS: u32 = 40;
const STEP_TOLERANCE: f64 = 1e-8;
/// The largest step in any logarithm of a density.
const LONGEST_STEP: f64 = 0.3;

/// The phases at `t` that hold `content` (mol of each component per m³ of the whole), near `guess`; `None` where the
/// iteration leaves the two-phase states.
pub(crate) fn solve(model: &Model, t: f64, content: &Vector, guess: &SharedVolume) -> Option<SharedVolume> {
    let n = model.size();
    let mut at = *guess;
    at.liquid = liquid_left(content, &at.vapour, at.vapour_share, n)?;
    let mut last_step = f64::INFINITY;
    for _ in 0..MOST_ITERATIONS {
        let (mut matrix, mut sides) = system(model, t, &at);
        linear::solve(&mut matrix, &mut sides, n + 1)?;
        let in_density = sides[..n].iter().map(|side| side[0].abs()).fold(0.0, f64::max);
        let step = in_density.max(sides[n][0].abs());
        if !step.is_finite() {
            return None;
        }
        let mut damp = (LONGEST_STEP / in_density).min(1.0);
        // No component of the liquid may become negative.
        let moved = loop {
            let mut moved = at;
            for k in 0..n {
                moved.vapour[k] *= (damp * sides[k][0]).exp();
            }
            moved.vapour_share += damp * sides[n][0];
            if let Some(liquid) = liquid_left(content, &moved.vapour, moved.vapour_share, n) {
                moved.liquid = liquid;
                break moved;
            }
            damp *= 0.5;
            if damp < 1e-3 {
                return None;
            }
        };
        at = moved;
        // Rounding sets a floor to the step: stop there too.
        if step < STEP_TOLERANCE || (step < 1e-6 && step > 0.3 * last_step) {
            let (liquid, vapour) = (at.liquid.iter().sum::<f64>(), at.vapour.iter().sum::<f64>());
            return (liquid > vapour * (1.0 + 1e-4)).then_some(at);
        }
        last_step = step;
    }
    None
}

/// What is left of `content` for the liquid, by volume of liquid; `None` where a component would be negative.
fn liquid_left(content: &Vector, vapour: &Vector, vapour_share: f64, n: usize) -> Option<Vector> {
    if !(vapour_share > 0.0 && vapour_share < 1.0) {
        return None;
    }
    let mut liquid = Vector::default();
    for k in 0..n {
        liquid[k] = (content[k] - vapour_share * vapour[k]) / (1.0 - vapour_share);
        if !(liquid[k] > 0.0) {
            return None;
        }
    }
    Some(liquid)
}

/// The Jacobian and the Newton step's right-hand side.
fn system(model: &Model, t: f64, at: &SharedVolume) -> ([[f64; MAX]; MAX], [[f64; 1]; MAX]) {
    let n = model.size();
    let (liquid, vapour) = (model.residual(t, &at.liquid), model.residual(t, &at.vapour));
    // ∂ρₗ(liquid)/∂ρₗ(vapour) = −ratio, ∂ρₗ(liquid)/∂share = drift.
    let ratio = at.vapour_share / (1.0 - at.vapour_share);
    let mut drift = Vector::default();
    for l in 0..n {
        drift[l] = (at.liquid[l] - at.vapour[l]) / (1.0 - at.vapour_share);
    }
    let mut m = [[0.0; MAX]; MAX];
    let mut sides = [[0.0; 1]; MAX];
    for k in 0..n {
        let own = |l: usize, density: f64| if l == k { 1.0 / density } else { 0.0 };
        sides[k][0] = (at.liquid[k] / at.vapour[k]).ln() + liquid.gradient[k] - vapour.gradient[k];
        for l in 0..n {
            let in_vapour = own(l, at.vapour[l]) + vapour.hessian[k][l];
            let in_liquid = own(l, at.liquid[l]) + liquid.hessian[k][l];
            m[k][l] = at.vapour[l] * (in_vapour + ratio * in_liquid);
            m[k][n] -= in_liquid * drift[l];
        }
    }
    sides[n][0] = liquid.reduced_pressure() - vapour.reduced_pressure();
    for l in 0..n {
        let in_vapour = pressure_derivative(&vapour, &at.vapour, l, n);
        let in_liquid = pressure_derivative(&liquid, &at.liquid, l, n);
        m[n][l] = at.vapour[l] * (in_vapour + ratio * in_liquid);
        m[n][n] -= in_liquid * drift[l];
    }
    (m, sides)
}
