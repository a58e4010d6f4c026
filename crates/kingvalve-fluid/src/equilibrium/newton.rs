//! One point of saturation by an isochoric Newton iteration.
//!
//! The bulk phase has the blend's composition; the incipient phase is the first bubble or the first drop.
//! Unknowns: ln ρ of the bulk phase, ln ρₖ of each component in the incipient phase, ln T.
//! Equations: equal fugacity of each component, equal pressure, and the given temperature or pressure.
//! With densities as unknowns no density root is searched inside the iteration.
//!
//! Source: Bell and Deiters, AIChE J. 64 (2018) 2745, doi:10.1002/aic.16074, and Deiters and Bell, Ind.
//! Eng. Chem. Res. 58 (2019) 19777 (isochoric equations); the logarithmic unknowns are ours.

use super::linear::{self, MAX};
use crate::mixture::{Model, Residual, Vector};

/// What is given.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Given {
    /// K
    Temperature(f64),
    /// Pa
    Pressure(f64),
}

/// The unknowns: [ln ρ bulk, ln ρ₁ … ln ρₙ incipient, ln T].
pub(crate) type Unknowns = [f64; MAX];

/// A converged point.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Point {
    pub unknowns: Unknowns,
    /// d(unknowns)/d ln T along the saturation line.
    pub tangent: Unknowns,
    /// Pa
    pub pressure: f64,
    /// d ln p / d ln T along the saturation line.
    pub pressure_slope: f64,
    pub iterations: u32,
}

const MOST_ITERATIONS: u32 = 40;
/// The iteration converges quadratically: after a step this small the error is below rounding.
const STEP_TOLERANCE: f64 = 1e-8;
/// The largest step taken in any logarithm.
const LONGEST_STEP: f64 = 0.5;

/// Refines `guess`; `None` where the iteration does not settle on two different phases.
pub(crate) fn solve(model: &Model, z: &Vector, given: Given, guess: &Unknowns) -> Option<Point> {
    let n = model.size();
    let mut v = *guess;
    if let Given::Temperature(t) = given {
        v[n + 1] = t.ln();
    }
    let mut last_step = f64::INFINITY;
    for iteration in 1..=MOST_ITERATIONS {
        let trial = Trial::at(model, z, &v);
        let (mut matrix, mut sides) = trial.system(z, given);
        linear::solve(&mut matrix, &mut sides, n + 2)?;
        let step = sides[..n + 2].iter().map(|side| side[0].abs()).fold(0.0, f64::max);
        if !step.is_finite() {
            return None;
        }
        let damp = (LONGEST_STEP / step).min(1.0);
        for (unknown, side) in v.iter_mut().zip(&sides[..n + 2]) {
            *unknown += damp * side[0];
        }
        // Rounding sets a floor to the step close to the critical point: stop there too.
        let settled = step < STEP_TOLERANCE || (step < 1e-6 && step > 0.3 * last_step);
        if settled {
            return (!trial.is_trivial()).then(|| trial.finish(v, &sides, iteration));
        }
        last_step = step;
    }
    None
}

/// The two phases at trial values of the unknowns.
struct Trial {
    n: usize,
    temperature: f64,
    bulk: Residual,
    incipient: Residual,
    rho_bulk: Vector,
    rho_incipient: Vector,
    /// p of the lighter phase, where rounding hurts least, Pa; and d ln p / d(unknowns).
    pressure: f64,
    pressure_row: Unknowns,
}

impl Trial {
    fn at(model: &Model, z: &Vector, v: &Unknowns) -> Self {
        let n = model.size();
        let temperature = v[n + 1].exp();
        let (rho_bulk, rho_incipient) = densities(z, v, n);
        let bulk = model.residual(temperature, &rho_bulk);
        let incipient = model.residual(temperature, &rho_incipient);

        let bulk_is_light = bulk.density < incipient.density;
        let light = if bulk_is_light { &bulk } else { &incipient };
        let reduced = light.reduced_pressure();
        let mut pressure_row = Unknowns::default();
        if bulk_is_light {
            pressure_row[0] = light.pressure_slope() / reduced;
        } else {
            for l in 0..n {
                pressure_row[l + 1] =
                    rho_incipient[l] * pressure_derivative(light, &rho_incipient, l, n) / reduced;
            }
        }
        pressure_row[n + 1] = 1.0 - light.a_tau_delta / reduced;
        let pressure = reduced * model.gas_constant * temperature;
        Trial { n, temperature, bulk, incipient, rho_bulk, rho_incipient, pressure, pressure_row }
    }

    /// The Jacobian, and two right-hand sides: the Newton step, and a unit change of what is given.
    fn system(&self, z: &Vector, given: Given) -> ([[f64; MAX]; MAX], [[f64; 2]; MAX]) {
        let (n, b, i) = (self.n, &self.bulk, &self.incipient);
        let last = n + 1;
        let mut m = [[0.0; MAX]; MAX];
        let mut sides = [[0.0; 2]; MAX];
        for k in 0..n {
            // ln ρₖ + ∂A/∂ρₖ, the logarithm of the fugacity over RT, equal in both phases.
            sides[k][0] = (self.rho_incipient[k] / self.rho_bulk[k]).ln() + i.gradient[k] - b.gradient[k];
            m[k][0] = 1.0 + b.density * (0..n).map(|l| b.hessian[k][l] * z[l]).sum::<f64>();
            for l in 0..n {
                m[k][l + 1] = -i.hessian[k][l] * self.rho_incipient[l];
            }
            m[k][k + 1] -= 1.0;
            m[k][last] = b.gradient_theta[k] - i.gradient_theta[k];
        }
        // p/RT equal in both phases.
        sides[n][0] = i.reduced_pressure() - b.reduced_pressure();
        m[n][0] = b.pressure_slope();
        for l in 0..n {
            m[n][l + 1] = -self.rho_incipient[l] * pressure_derivative(i, &self.rho_incipient, l, n);
        }
        m[n][last] = i.a_tau_delta - b.a_tau_delta;
        match given {
            Given::Temperature(t) => {
                sides[last][0] = (t / self.temperature).ln();
                m[last][last] = 1.0;
            }
            Given::Pressure(p) => {
                // A trial density with p ≤ 0 asks for a longer vapour step than Newton can know of.
                sides[last][0] = if self.pressure > 0.0 { (p / self.pressure).ln() } else { 1.0 };
                m[last] = self.pressure_row;
            }
        }
        sides[last][1] = 1.0;
        (m, sides)
    }

    /// The trivial solution: both phases the same.
    fn is_trivial(&self) -> bool {
        (0..self.n).all(|k| (self.rho_bulk[k] / self.rho_incipient[k] - 1.0).abs() < 1e-4)
    }

    fn finish(&self, unknowns: Unknowns, sides: &[[f64; 2]; MAX], iterations: u32) -> Point {
        let last = self.n + 1;
        let mut tangent = Unknowns::default();
        let (mut step_in_p, mut slope) = (0.0, 0.0);
        for k in 0..=last {
            tangent[k] = sides[k][1] / sides[last][1];
            step_in_p += self.pressure_row[k] * sides[k][0];
            slope += self.pressure_row[k] * tangent[k];
        }
        Point {
            unknowns,
            tangent,
            pressure: self.pressure * step_in_p.exp(),
            pressure_slope: slope,
            iterations,
        }
    }
}

/// ∂(p/RT)/∂ρₗ = 1 + Σ ρₖ ∂²A/∂ρₖ∂ρₗ
pub(super) fn pressure_derivative(phase: &Residual, rho: &Vector, l: usize, n: usize) -> f64 {
    1.0 + (0..n).map(|k| rho[k] * phase.hessian[k][l]).sum::<f64>()
}

/// Molar densities of the components in the bulk and in the incipient phase.
pub(crate) fn densities(z: &Vector, v: &Unknowns, n: usize) -> (Vector, Vector) {
    let bulk = v[0].exp();
    let mut rho_bulk = Vector::default();
    let mut rho_incipient = Vector::default();
    for k in 0..n {
        rho_bulk[k] = bulk * z[k];
        rho_incipient[k] = v[k + 1].exp();
    }
    (rho_bulk, rho_incipient)
}
