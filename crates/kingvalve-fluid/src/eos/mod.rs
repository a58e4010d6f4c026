//! The reduced residual Helmholtz energy αʳ(τ, δ), one file per term kind.
//!
//! Every derivative is taken in ln τ and ln δ. In those variables a power term is an exponential of a
//! linear form, so its derivatives are the term times small polynomials, and the chain rule of the
//! mixture model ([`crate::mixture`]) needs no factors of τ and δ.

mod exponential;
mod gao;
mod gaussian;
mod gerg;
pub(crate) mod ideal;
mod non_analytic;
mod power;

use crate::data::ResidualBlock;

/// Where αʳ is evaluated.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Point {
    /// Reciprocal reduced temperature τ = T_r / T.
    pub tau: f64,
    /// Reduced density δ = ρ / ρ_r.
    pub delta: f64,
    pub ln_tau: f64,
    pub ln_delta: f64,
    /// δ⁰ … δ⁷, for the exponentials exp(−δˡ).
    pub delta_powers: [f64; 8],
}

impl Point {
    pub fn from_logs(ln_tau: f64, ln_delta: f64) -> Self {
        let (tau, delta) = (ln_tau.exp(), ln_delta.exp());
        let mut delta_powers = [1.0; 8];
        for l in 1..8 {
            delta_powers[l] = delta_powers[l - 1] * delta;
        }
        Point { tau, delta, ln_tau, ln_delta, delta_powers }
    }
}

/// αʳ (or a part of it) with its first and second derivatives in ln τ (`t`) and ln δ (`d`).
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Partials {
    pub value: f64,
    pub t: f64,
    pub d: f64,
    pub tt: f64,
    pub td: f64,
    pub dd: f64,
}

/// An exponent f with its first and second derivative in the logarithm of its variable.
#[derive(Debug, Clone, Copy)]
struct Exponent {
    value: f64,
    first: f64,
    second: f64,
}

impl Partials {
    /// Adds a term whose logarithm has first derivatives `t`, `d` and second derivatives `tt`, `dd`
    /// (none across: all term kinds but one are a function of τ times a function of δ).
    #[inline(always)]
    fn add_product(&mut self, value: f64, t: f64, tt: f64, d: f64, dd: f64) {
        self.value += value;
        self.t += value * t;
        self.d += value * d;
        self.tt += value * (t * t + tt);
        self.td += value * (t * d);
        self.dd += value * (d * d + dd);
    }

    /// Adds the term n·exp(f(τ) + g(δ)).
    #[inline(always)]
    fn add_exponential(&mut self, n: f64, f: Exponent, g: Exponent) {
        self.add_product(n * (f.value + g.value).exp(), f.first, f.second, g.first, g.second);
    }
}

/// A sum of terms: the αʳ of a pure fluid, or the departure function of a pair.
#[derive(Debug, Clone, Default)]
pub(crate) struct Terms {
    power: Vec<power::Power>,
    exponential: Vec<exponential::Exponential>,
    gaussian: Vec<gaussian::Gaussian>,
    gerg: Vec<gerg::Gerg>,
    gao: Vec<gao::Gao>,
    non_analytic: Vec<non_analytic::NonAnalytic>,
}

impl Terms {
    /// The terms of a data file.
    pub fn from_blocks(blocks: &[ResidualBlock]) -> Self {
        let mut terms = Terms::default();
        for block in blocks {
            match block {
                ResidualBlock::Power(table) => terms.power.extend(table.rows.iter().map(power::Power::new)),
                ResidualBlock::Exponential(table) => {
                    terms.exponential.extend(table.rows.iter().map(exponential::Exponential::in_density));
                }
                ResidualBlock::DoubleExponential(table) => {
                    terms.exponential.extend(table.rows.iter().map(exponential::Exponential::double));
                }
                ResidualBlock::Lemmon2005(table) => {
                    terms.exponential.extend(table.rows.iter().map(exponential::Exponential::lemmon));
                }
                ResidualBlock::Gaussian(table) => {
                    terms.gaussian.extend(table.rows.iter().map(gaussian::Gaussian::new));
                }
                ResidualBlock::Gerg(table) => terms.gerg.extend(table.rows.iter().map(gerg::Gerg::new)),
                ResidualBlock::Gao(table) => terms.gao.extend(table.rows.iter().map(gao::Gao::new)),
                ResidualBlock::NonAnalytic(table) => {
                    terms.non_analytic.extend(table.rows.iter().map(non_analytic::NonAnalytic::new));
                }
            }
        }
        terms
    }

    /// αʳ and its derivatives.
    #[inline]
    pub fn at(&self, point: &Point) -> Partials {
        let mut sum = Partials::default();
        power::add(&self.power, point, &mut sum);
        for term in &self.exponential {
            term.add(point, &mut sum);
        }
        for term in &self.gaussian {
            term.add(point, &mut sum);
        }
        for term in &self.gerg {
            term.add(point, &mut sum);
        }
        for term in &self.gao {
            term.add(point, &mut sum);
        }
        for term in &self.non_analytic {
            term.add(point, &mut sum);
        }
        sum
    }
}
