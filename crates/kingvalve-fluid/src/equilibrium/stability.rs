//! Whether a liquid and a vapour in equilibrium stay so, or a second liquid of another composition forms.
//!
//! Equal fugacities are necessary, not sufficient: in the cold a blend can meet them at a pressure at which another
//! drop has condensed already. The trial liquid starts as nearly one component and follows its own fugacities; where
//! it ends below the tangent plane of the two phases, they are not stable.
//!
//! Source: the tangent-plane criterion and its successive substitution, Michelsen, Fluid Phase Equilib. 9 (1982) 1,
//! doi:10.1016/0378-3812(82)85001-2.

use super::newton::{self, Point};
use crate::density;
use crate::mixture::{Model, Vector};

const MOST_ITERATIONS: usize = 100;
/// Of a trial's composition from one iteration to the next.
const SETTLED: f64 = 1e-7;
/// How far below the tangent plane counts, as a share of RT: at the two phases themselves it is zero within rounding.
const BELOW: f64 = 1e-6;
/// Mole fraction of its own component in a first trial.
const NEARLY_PURE: f64 = 0.95;

/// Whether no trial liquid lies below the tangent plane of the two phases of `point`.
pub(crate) fn is_stable(model: &Model, z: &Vector, point: &Point) -> bool {
    let n = model.size();
    let t = point.unknowns[n + 1].exp();
    let (bulk, _) = newton::densities(z, &point.unknowns, n);
    let residual = model.residual(t, &bulk);
    let mut potential = Vector::default();
    for k in 0..n {
        potential[k] = bulk[k].ln() + residual.gradient[k];
    }
    (0..n).all(|component| {
        let mut x = Vector::default();
        for k in 0..n {
            x[k] =
                if k == component { NEARLY_PURE } else { (1.0 - NEARLY_PURE) * z[k] / (1.0 - z[component]) };
        }
        follow(model, t, point.pressure, &potential, x).is_none_or(|above| above > -BELOW)
    })
}

/// Where a trial liquid ends, above the tangent plane, as a share of RT; `None` where it has no liquid density.
fn follow(model: &Model, t: f64, p: f64, potential: &Vector, mut x: Vector) -> Option<f64> {
    let n = model.size();
    let mut above = f64::INFINITY;
    for _ in 0..MOST_ITERATIONS {
        let rho = density::liquid(model, t, p, &x)?;
        let residual = model.residual(t, &x.map(|x| x * rho));
        // With the potentials of the phases the trial would have these concentrations.
        let mut wanted = Vector::default();
        for k in 0..n {
            wanted[k] = (potential[k] - residual.gradient[k]).exp();
        }
        let total: f64 = wanted.iter().sum();
        above = -(total / rho).ln();
        let mut change = 0.0_f64;
        for k in 0..n {
            let next = wanted[k] / total;
            change = change.max((next - x[k]).abs());
            x[k] = next;
        }
        if change < SETTLED {
            break;
        }
    }
    Some(above)
}
