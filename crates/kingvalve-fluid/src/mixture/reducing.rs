//! The reducing functions T_r(x) and v_r(x) = 1/ρ_r(x), written in molar densities.
//!
//! Y_r = Σ xᵢ² Yᵢ + Σᵢ<ⱼ 2 xᵢxⱼ β γ (xᵢ+xⱼ)/(β²xᵢ+xⱼ) Yᵢⱼ is Q(ρ⃗)/ρ² with the same Q in ρᵢ instead of xᵢ:
//! the derivatives of Q are those of a sum, and those of ln Y_r follow from ln Q − 2 ln ρ.
//!
//! Source: Kunz and Wagner, J. Chem. Eng. Data 57 (2012) 3032, doi:10.1021/je300655b, Eqs. 16–17.

use super::{Matrix, Vector};

/// One reducing function.
#[derive(Debug, Clone, Default)]
pub(crate) struct Reducing {
    own: Vec<f64>,
    cross: Vec<Cross>,
}

#[derive(Debug, Clone, Copy)]
struct Cross {
    i: usize,
    j: usize,
    /// 2 β γ Yᵢⱼ
    weight: f64,
    beta_squared: f64,
}

/// ln Q with its gradient and Hessian.
pub(super) struct LogReducing {
    pub value: f64,
    pub gradient: Vector,
    pub hessian: Matrix,
}

impl Reducing {
    pub fn new(own: Vec<f64>) -> Self {
        Reducing { own, cross: Vec::new() }
    }

    pub fn add_pair(&mut self, i: usize, j: usize, beta: f64, gamma: f64, y_ij: f64) {
        self.cross.push(Cross { i, j, weight: 2.0 * beta * gamma * y_ij, beta_squared: beta * beta });
    }

    /// Y_r at mole fractions `x`.
    pub fn at(&self, x: &Vector) -> f64 {
        let own: f64 = self.own.iter().zip(x).map(|(y, x)| y * x * x).sum();
        let cross: f64 = self
            .cross
            .iter()
            .map(|c| {
                let (x, y) = (x[c.i], x[c.j]);
                // Neither there: 0/0, and nothing to add.
                if x + y > 0.0 { c.weight * x * y * (x + y) / (c.beta_squared * x + y) } else { 0.0 }
            })
            .sum();
        own + cross
    }

    /// ln Q(ρ⃗) and its derivatives.
    #[inline]
    pub(super) fn log(&self, rho: &Vector) -> LogReducing {
        let n = self.own.len();
        let mut q = 0.0;
        let mut first: Vector = Default::default();
        let mut second: Matrix = Default::default();
        for (k, y) in self.own.iter().enumerate() {
            q += y * rho[k] * rho[k];
            first[k] = 2.0 * y * rho[k];
            second[k][k] = 2.0 * y;
        }
        for c in &self.cross {
            let (x, y) = (rho[c.i], rho[c.j]);
            // h = N/D with N = xy(x+y), D = β²x + y, by the quotient rule step by step.
            let inverse = 1.0 / (c.beta_squared * x + y);
            let h = x * y * (x + y) * inverse;
            let h_x = (y * (2.0 * x + y) - h * c.beta_squared) * inverse;
            let h_y = (x * (x + 2.0 * y) - h) * inverse;
            let h_xx = 2.0 * (y - h_x * c.beta_squared) * inverse;
            let h_yy = 2.0 * (x - h_y) * inverse;
            let h_xy = (2.0 * (x + y) - h_x - h_y * c.beta_squared) * inverse;
            q += c.weight * h;
            first[c.i] += c.weight * h_x;
            first[c.j] += c.weight * h_y;
            second[c.i][c.i] += c.weight * h_xx;
            second[c.j][c.j] += c.weight * h_yy;
            second[c.i][c.j] += c.weight * h_xy;
            second[c.j][c.i] += c.weight * h_xy;
        }
        for k in 0..n {
            first[k] /= q;
        }
        for k in 0..n {
            for l in 0..n {
                second[k][l] = second[k][l] / q - first[k] * first[l];
            }
        }
        LogReducing { value: q.ln(), gradient: first, hessian: second }
    }
}
