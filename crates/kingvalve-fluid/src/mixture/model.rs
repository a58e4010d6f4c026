//! A(T, ρ⃗) = ρ αʳ of one set of components, with exact derivatives.

use std::sync::Arc;

use super::reducing::Reducing;
use super::{Matrix, Residual, Vector};
use crate::eos::{Partials, Point, Terms};
use crate::pure::Pure;

/// The components, their reducing functions and departure functions.
#[derive(Debug, Clone)]
pub(crate) struct Model {
    pub components: Vec<Arc<Pure>>,
    pub temperature: Reducing,
    pub volume: Reducing,
    pub departures: Vec<Departure>,
    /// J/(mol K): the paper's for a pure fluid, CODATA 2018 for a blend.
    pub gas_constant: f64,
}

/// Fᵢⱼ αʳᵢⱼ of one pair.
#[derive(Debug, Clone)]
pub(crate) struct Departure {
    pub i: usize,
    pub j: usize,
    pub factor: f64,
    pub terms: Arc<Terms>,
}

impl Model {
    pub fn size(&self) -> usize {
        self.components.len()
    }

    /// T_r and ρ_r at mole fractions `x`.
    pub fn reducing_point(&self, x: &Vector) -> (f64, f64) {
        (self.temperature.at(x), 1.0 / self.volume.at(x))
    }

    /// A and all its first and second derivatives at temperature `t` (K) and molar densities `rho` (mol/m³),
    /// each above zero.
    pub fn residual(&self, t: f64, rho: &Vector) -> Residual {
        let n = self.size();
        let density: f64 = rho[..n].iter().sum();
        let per_density = 1.0 / density;
        let log_t = self.temperature.log(rho);
        let log_v = self.volume.log(rho);
        let ln_density = density.ln();

        // ln τ = ln Q_T − 2 ln ρ − ln T and ln δ = ln Q_v − ln ρ, with their derivatives in ρₖ.
        let point = Point::from_logs(log_t.value - 2.0 * ln_density - t.ln(), log_v.value - ln_density);
        let mut s: Vector = Default::default();
        let mut u: Vector = Default::default();
        for k in 0..n {
            s[k] = log_t.gradient[k] - 2.0 * per_density;
            u[k] = log_v.gradient[k] - per_density;
        }
        let s_curve = 2.0 * per_density * per_density;
        let u_curve = per_density * per_density;

        // G(ln τ, ln δ, ρ⃗): the explicit dependence on ρ⃗ is Σ ρᵢ aᵢ + Σ wᵢⱼ bᵢⱼ with wᵢⱼ = F ρᵢρⱼ/ρ.
        let mut sum = Partials::default();
        let mut own = [Partials::default(); super::MAX_COMPONENTS];
        let mut hessian: Matrix = Default::default();
        for (k, component) in self.components.iter().enumerate() {
            let part = component.residual.at(&point);
            accumulate(&mut sum, rho[k], &part);
            own[k] = part;
        }
        for pair in &self.departures {
            let part = pair.terms.at(&point);
            let (i, j) = (pair.i, pair.j);
            let share_i = rho[i] * per_density;
            let share_j = rho[j] * per_density;
            let w = pair.factor * share_i * rho[j];
            accumulate(&mut sum, w, &part);
            // ∂w/∂ρₖ = F(δₖᵢ xⱼ + δₖⱼ xᵢ − xᵢxⱼ)
            let both = share_i * share_j;
            for (k, slot) in own.iter_mut().enumerate().take(n) {
                let w_k = pair.factor * (in_pair(k, i, share_j) + in_pair(k, j, share_i) - both);
                slot.value += w_k * part.value;
                slot.t += w_k * part.t;
                slot.d += w_k * part.d;
            }
            let value = pair.factor * part.value * per_density;
            for k in 0..n {
                let at_k = in_pair(k, i, share_j) + in_pair(k, j, share_i);
                for l in 0..n {
                    let at_l = in_pair(l, i, share_j) + in_pair(l, j, share_i);
                    hessian[k][l] += value * (2.0 * both - at_k - at_l);
                }
            }
            hessian[i][j] += value;
            hessian[j][i] += value;
        }

        let mut gradient: Vector = Default::default();
        let mut gradient_theta: Vector = Default::default();
        for k in 0..n {
            gradient[k] = own[k].value + sum.t * s[k] + sum.d * u[k];
            gradient_theta[k] = -(own[k].t + sum.tt * s[k] + sum.td * u[k]);
        }
        for k in 0..n {
            for l in k..n {
                let second = own[k].t * s[l]
                    + own[k].d * u[l]
                    + own[l].t * s[k]
                    + own[l].d * u[k]
                    + sum.tt * s[k] * s[l]
                    + sum.td * (s[k] * u[l] + u[k] * s[l])
                    + sum.dd * u[k] * u[l]
                    + sum.t * (log_t.hessian[k][l] + s_curve)
                    + sum.d * (log_v.hessian[k][l] + u_curve);
                hessian[k][l] += second;
                hessian[l][k] = hessian[k][l];
            }
        }
        Residual {
            density,
            gradient,
            hessian,
            gradient_theta,
            a_delta: sum.d,
            a_delta_delta: sum.dd,
            a_tau_delta: sum.td,
        }
    }

    /// αʳ and its derivatives in ln τ and ln δ at mole fractions `x`.
    pub fn alpha(&self, t: f64, density: f64, x: &Vector) -> Partials {
        let (t_r, rho_r) = self.reducing_point(x);
        self.alpha_at(&Point::from_logs((t_r / t).ln(), (density / rho_r).ln()), x)
    }

    /// αʳ at reduced variables: what a density search needs, a fraction of the work of [`Self::residual`].
    pub fn alpha_at(&self, point: &Point, x: &Vector) -> Partials {
        let mut sum = Partials::default();
        for (component, x) in self.components.iter().zip(x) {
            accumulate(&mut sum, *x, &component.residual.at(point));
        }
        for pair in &self.departures {
            accumulate(&mut sum, pair.factor * x[pair.i] * x[pair.j], &pair.terms.at(point));
        }
        sum
    }
}

#[inline(always)]
fn in_pair(k: usize, i: usize, share: f64) -> f64 {
    if k == i { share } else { 0.0 }
}

#[inline(always)]
fn accumulate(sum: &mut Partials, weight: f64, part: &Partials) {
    sum.value += weight * part.value;
    sum.t += weight * part.t;
    sum.d += weight * part.d;
    sum.tt += weight * part.tt;
    sum.td += weight * part.td;
    sum.dd += weight * part.dd;
}
