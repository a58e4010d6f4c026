//! Every derivative of A against a central difference of the one below it.

use approx::assert_relative_eq;

use super::{Model, Vector};
use crate::{Basis, Fluid};

fn fluids() -> Vec<Fluid> {
    vec![
        Fluid::pure("R-125").unwrap(),
        Fluid::pure("R-744").unwrap(),
        Fluid::pure("R-717").unwrap(),
        Fluid::blend(&[("R-32", 0.689), ("R-1234yf", 0.311)], Basis::Mass).unwrap(),
        Fluid::blend(&[("R-32", 0.23), ("R-125", 0.25), ("R-134a", 0.52)], Basis::Mass).unwrap(),
        Fluid::blend(&[("R-600a", 0.3), ("R-600", 0.3), ("R-290", 0.4)], Basis::Mole).unwrap(),
    ]
}

/// Temperatures (reduced) and densities (reduced) from vapour to compressed liquid.
const STATES: [(f64, f64); 5] = [(0.7, 0.005), (0.8, 2.4), (0.95, 0.4), (1.1, 0.93), (1.3, 1.7)];

fn states(fluid: &Fluid) -> impl Iterator<Item = (f64, Vector)> + '_ {
    let (t_r, rho_r) = fluid.model().reducing_point(fluid.z());
    STATES.iter().map(move |(t, rho)| (t * t_r, fluid.z().map(|z| z * rho * rho_r)))
}

#[test]
fn gradient_is_the_slope_of_a() {
    for fluid in fluids() {
        let model = fluid.model();
        for (t, rho) in states(&fluid) {
            let exact = model.residual(t, &rho);
            for k in 0..model.size() {
                let slope = difference(&rho, k, |rho| a(model, t, rho));
                assert_relative_eq!(exact.gradient[k], slope, max_relative = 1e-7, epsilon = 1e-9);
                for l in 0..model.size() {
                    let slope = difference(&rho, k, |rho| model.residual(t, rho).gradient[l]);
                    assert_relative_eq!(exact.hessian[k][l], slope, max_relative = 1e-6, epsilon = 1e-12);
                }
            }
        }
    }
}

#[test]
fn derivatives_in_temperature() {
    for fluid in fluids() {
        let model = fluid.model();
        for (t, rho) in states(&fluid) {
            let exact = model.residual(t, &rho);
            let h = 1e-5_f64;
            let (up, down) = (model.residual(t * h.exp(), &rho), model.residual(t * (-h).exp(), &rho));
            let slope = |pick: fn(&super::Residual) -> f64| (pick(&up) - pick(&down)) / (2.0 * h);
            assert_relative_eq!(-exact.a_tau_delta, slope(|r| r.a_delta), max_relative = 1e-6);
            for k in 0..model.size() {
                let along = (up.gradient[k] - down.gradient[k]) / (2.0 * h);
                assert_relative_eq!(exact.gradient_theta[k], along, max_relative = 1e-6, epsilon = 1e-9);
            }
        }
    }
}

#[test]
fn pressure_is_density_times_gradient_less_a() {
    // p/RT = ρ + Σ ρₖ ∂A/∂ρₖ − A: Euler's relation, against the derivative in ln δ.
    for fluid in fluids() {
        for (t, rho) in states(&fluid) {
            let r = fluid.model().residual(t, &rho);
            let euler: f64 =
                rho.iter().zip(&r.gradient).map(|(rho, g)| rho * g).sum::<f64>() - a(fluid.model(), t, &rho);
            assert_relative_eq!(euler, r.a_delta, max_relative = 1e-10, epsilon = 1e-9 * r.density);
        }
    }
}

#[test]
fn a_trace_of_a_component_changes_nothing() {
    let pure = Fluid::pure("R-32").unwrap();
    let traced = Fluid::blend(&[("R-32", 1.0 - 1e-9), ("R-125", 1e-9)], Basis::Mole).unwrap();
    let one = pure.bubble_at_temperature(300.0).unwrap().pressure;
    let other = traced.bubble_at_temperature(300.0).unwrap().pressure;
    // The gas constants differ: the paper's 8.314471 against CODATA 2018.
    assert_relative_eq!(one, other, max_relative = 2e-6);
}

/// A = ρ αʳ by the other route: mole fractions, then the terms.
fn a(model: &Model, t: f64, rho: &Vector) -> f64 {
    let density: f64 = rho.iter().sum();
    density * model.alpha(t, density, &rho.map(|part| part / density)).value
}

fn difference(rho: &Vector, k: usize, of: impl Fn(&Vector) -> f64) -> f64 {
    let h = 1e-5 * rho[k];
    let mut up = *rho;
    let mut down = *rho;
    up[k] += h;
    down[k] -= h;
    (of(&up) - of(&down)) / (up[k] - down[k])
}
