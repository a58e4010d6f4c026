//! Liquid and vapour that share a closed volume of given temperature and content, by Newton's iteration.
//!
//! Unknowns: ln ρₖ of each component in either phase, and the logarithm of the vapour's volume over the liquid's (in
//! the cold one of the two volumes is a millionth of the other). Equations: equal fugacity
//! of each component, equal pressure, and the balance of each component. The balance is linear enough to be eliminated
//! from each Newton step: for each component the change in the phase that holds more of it. As in [`super::newton`] no
//! density root is searched inside the iteration.
//!
//! Source: the conditions are those of the isochoric–isothermal flash, for example Mikyška and Firoozabadi, Fluid
//! Phase Equilib. 321 (2012) 1, doi:10.1016/j.fluid.2012.01.026; the choice of unknowns is ours.

use super::linear::{self, MAX};
use super::newton::pressure_derivative;
use crate::mixture::{Matrix, Model, Vector};

/// The two phases: molar densities of the components in each, and what each takes of the volume.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SharedVolume {
    pub liquid: Vector,
    pub vapour: Vector,
    /// ln of the vapour's volume over the liquid's.
    pub ln_ratio: f64,
}

impl SharedVolume {
    /// Volume of the vapour by that of the whole.
    pub fn vapour_share(&self) -> f64 {
        1.0 / (1.0 + (-self.ln_ratio).exp())
    }

    /// Volume of the liquid by that of the whole.
    pub fn liquid_share(&self) -> f64 {
        1.0 / (1.0 + self.ln_ratio.exp())
    }
}

const MOST_ITERATIONS: u32 = 60;
const STEP_TOLERANCE: f64 = 1e-8;
/// The largest step in any logarithm of a density, and in that of the volumes.
const LONGEST_STEP: f64 = 0.3;
const LONGEST_RATIO_STEP: f64 = 2.0;

/// An equation of state has false roots between its phases; a liquid that ends this far from its guess may be one.
const FARTHEST_LIQUID: f64 = 0.08;

/// The phases at `t` that hold `content` (mol of each component per m³ of the whole), near `guess`, which need not
/// balance; `None` where the iteration leaves the two-phase states.
pub(crate) fn solve(model: &Model, t: f64, content: &Vector, guess: &SharedVolume) -> Option<SharedVolume> {
    let n = model.size();
    let mut at = *guess;
    let mut last_step = f64::INFINITY;
    for _ in 0..MOST_ITERATIONS {
        let change = Step::at(model, t, content, &at)?;
        let longest = change.longest(n);
        if !longest.is_finite() {
            return None;
        }
        let damp = (LONGEST_STEP / longest).min(LONGEST_RATIO_STEP / change.ln_ratio.abs()).min(1.0);
        for k in 0..n {
            at.liquid[k] *= (damp * change.liquid[k]).exp();
            at.vapour[k] *= (damp * change.vapour[k]).exp();
        }
        at.ln_ratio += damp * change.ln_ratio;
        let step = longest.max(change.ln_ratio.abs());
        // Rounding sets a floor to the step: stop there too.
        if step < STEP_TOLERANCE || (step < 1e-6 && step > 0.3 * last_step) {
            let total = |densities: &Vector| densities.iter().sum::<f64>();
            let near = (total(&at.liquid) / total(&guess.liquid)).ln().abs() < FARTHEST_LIQUID;
            return (near && total(&at.liquid) > total(&at.vapour) * (1.0 + 1e-4)).then_some(at);
        }
        last_step = step;
    }
    None
}

/// A Newton step.
#[derive(Default)]
struct Step {
    liquid: Vector,
    vapour: Vector,
    ln_ratio: f64,
}

impl Step {
    fn at(model: &Model, t: f64, content: &Vector, at: &SharedVolume) -> Option<Step> {
        let n = model.size();
        let (liquid, vapour) = (model.residual(t, &at.liquid), model.residual(t, &at.vapour));
        // What is in each phase of a cubic metre of the whole, and what is missing there.
        let (share, rest) = (at.vapour_share(), at.liquid_share());
        let in_vapour = |l: usize| share * at.vapour[l];
        let in_liquid = |l: usize| rest * at.liquid[l];
        let missing = |l: usize| content[l] - in_vapour(l) - in_liquid(l);
        // Eliminated: the change in the phase that holds more. It is
        // own·(change kept) + drift·(change of the ratio) + debt.
        let mut kept = [Kept::default(); crate::mixture::MAX_COMPONENTS];
        for (l, slot) in kept.iter_mut().enumerate().take(n) {
            let vapour_is_kept = in_vapour(l) < in_liquid(l);
            let (less, more) =
                if vapour_is_kept { (in_vapour(l), in_liquid(l)) } else { (in_liquid(l), in_vapour(l)) };
            *slot = Kept {
                vapour: vapour_is_kept,
                own: -less / more,
                drift: share * rest * (at.liquid[l] - at.vapour[l]) / more,
                debt: missing(l) / more,
            };
        }
        let mut m = [[0.0; MAX]; MAX];
        let mut sides = [[0.0; 1]; MAX];
        // Equations k < n: ln f equal; equation n: p/RT equal. `row[l]`: derivatives by ln ρₗ.
        let mut put = |row: usize, residual: f64, by_liquid: &Vector, by_vapour: &Vector| {
            sides[row][0] = -residual;
            for l in 0..n {
                let kept = &kept[l];
                // The residual is that of the liquid less that of the vapour.
                let (own, other) =
                    if kept.vapour { (-by_vapour[l], by_liquid[l]) } else { (by_liquid[l], -by_vapour[l]) };
                m[row][l] = own + other * kept.own;
                m[row][n] += other * kept.drift;
                sides[row][0] -= other * kept.debt;
            }
        };
        for k in 0..n {
            let residual = (at.liquid[k] / at.vapour[k]).ln() + liquid.gradient[k] - vapour.gradient[k];
            let by = |hessian: &Matrix, densities: &Vector| {
                let mut row = Vector::default();
                for l in 0..n {
                    row[l] = hessian[k][l] * densities[l];
                }
                row[k] += 1.0;
                row
            };
            put(k, residual, &by(&liquid.hessian, &at.liquid), &by(&vapour.hessian, &at.vapour));
        }
        let (mut by_liquid, mut by_vapour) = (Vector::default(), Vector::default());
        for l in 0..n {
            by_liquid[l] = at.liquid[l] * pressure_derivative(&liquid, &at.liquid, l, n);
            by_vapour[l] = at.vapour[l] * pressure_derivative(&vapour, &at.vapour, l, n);
        }
        put(n, liquid.reduced_pressure() - vapour.reduced_pressure(), &by_liquid, &by_vapour);
        linear::solve(&mut m, &mut sides, n + 1)?;
        let mut step = Step { ln_ratio: sides[n][0], ..Step::default() };
        for l in 0..n {
            let own = sides[l][0];
            let other = kept[l].own * own + kept[l].drift * step.ln_ratio + kept[l].debt;
            (step.vapour[l], step.liquid[l]) = if kept[l].vapour { (own, other) } else { (other, own) };
        }
        Some(step)
    }

    fn longest(&self, n: usize) -> f64 {
        self.liquid[..n].iter().chain(&self.vapour[..n]).map(|change| change.abs()).fold(0.0, f64::max)
    }
}

/// How the balance of one component gives the change in the phase that holds more of it from the one kept.
#[derive(Debug, Clone, Copy, Default)]
struct Kept {
    vapour: bool,
    own: f64,
    drift: f64,
    debt: f64,
}
