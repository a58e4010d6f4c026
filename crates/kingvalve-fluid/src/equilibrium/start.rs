//! A first point of a saturation line from nothing but critical constants.
//!
//! At about 0.7 T_r the phases are far apart, so rough vapour pressures and a successive substitution in
//! pressure and incipient composition lead into the basin of the Newton iteration.
//!
//! Source: Wilson's K-values (G. M. Wilson, AIChE 65th national meeting, Cleveland, 1969, as given in
//! Michelsen and Mollerup, Thermodynamic Models, 2nd ed., 2007) and Rackett's liquid density (J. Chem. Eng.
//! Data 15 (1970) 514, doi:10.1021/je60047a012) serve as guesses only; no result depends on them.

use super::Line;
use super::newton::Unknowns;
use crate::density;
use crate::mixture::{Model, Vector};

/// A guess of the unknowns at `t`, good enough for [`super::newton::solve`].
pub(crate) fn guess(model: &Model, z: &Vector, line: Line, t: f64) -> Option<Unknowns> {
    let n = model.size();
    let mut vapour_pressure = Vector::default();
    for (p, fluid) in vapour_pressure.iter_mut().zip(&model.components) {
        let constant = 5.373 * (1.0 + fluid.acentric_factor);
        *p = fluid.critical.pressure * (constant * (1.0 - fluid.critical.temperature / t)).exp();
    }
    let mut pressure = match line {
        Line::Bubble => z.iter().zip(&vapour_pressure).take(n).map(|(z, p)| z * p).sum::<f64>(),
        Line::Dew => 1.0 / z.iter().zip(&vapour_pressure).take(n).map(|(z, p)| z / p).sum::<f64>(),
    };
    let mut incipient = Vector::default();
    for k in 0..n {
        incipient[k] = match line {
            Line::Bubble => z[k] * vapour_pressure[k] / pressure,
            Line::Dew => z[k] * pressure / vapour_pressure[k],
        };
    }
    let mut found = None;
    for _ in 0..8 {
        let (liquid, vapour) = match line {
            Line::Bubble => (z, &incipient),
            Line::Dew => (&incipient, z),
        };
        let rho_liquid = density::liquid(model, t, pressure, liquid)?;
        let rho_vapour = density::vapour(model, t, pressure, vapour)?;
        let (rho_bulk, rho_incipient) = match line {
            Line::Bubble => (rho_liquid, rho_vapour),
            Line::Dew => (rho_vapour, rho_liquid),
        };
        let bulk = model.residual(t, &scaled(z, rho_bulk));
        let other = model.residual(t, &scaled(&incipient, rho_incipient));
        // yₖ = zₖ exp(ln φ bulk − ln φ incipient) at the same p; the sum tells how p must change.
        let mut next = Vector::default();
        for k in 0..n {
            next[k] = z[k] * (rho_bulk / rho_incipient) * (bulk.gradient[k] - other.gradient[k]).exp();
        }
        let total: f64 = next.iter().sum();
        for k in 0..n {
            incipient[k] = next[k] / total;
        }
        let mut unknowns = Unknowns::default();
        unknowns[0] = rho_bulk.ln();
        for k in 0..n {
            unknowns[k + 1] = (incipient[k] * rho_incipient).ln();
        }
        unknowns[n + 1] = t.ln();
        found = Some(unknowns);
        if !total.is_finite() {
            return None;
        }
        match line {
            Line::Bubble => pressure *= total,
            Line::Dew => pressure /= total,
        }
        if (total - 1.0).abs() < 1e-3 {
            break;
        }
    }
    found
}

fn scaled(x: &Vector, density: f64) -> Vector {
    x.map(|x| x * density)
}
