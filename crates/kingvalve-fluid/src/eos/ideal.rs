//! The ideal-gas part α⁰(τ, δ) = ln δ + f(τ), as its data file gives it.
//!
//! Source: the forms are those of the fluids' own papers; collected by Lemmon, Jacobsen, Penoncello and
//! Friend, J. Phys. Chem. Ref. Data 29 (2000) 331, doi:10.1063/1.1285884 (ln τ, powers, Planck–Einstein
//! functions).

use crate::data::IdealBlock;

/// f(τ) with its first and second derivatives in ln τ.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct IdealPartials {
    pub value: f64,
    pub t: f64,
    pub tt: f64,
}

#[derive(Debug, Clone, Copy)]
enum IdealTerm {
    /// a₁ + a₂ τ
    Lead { a1: f64, a2: f64 },
    /// a ln τ
    LogTau { a: f64 },
    /// n τ ln τ
    TauLogTau { n: f64 },
    /// n τᵗ
    Power { n: f64, t: f64 },
    /// n ln(1 − exp(−θ τ))
    PlanckEinstein { n: f64, theta: f64 },
    /// n ln(c + d exp(t τ))
    PlanckEinsteinGeneral { n: f64, t: f64, c: f64, d: f64 },
}

/// The ideal-gas part of one pure fluid, but for ln δ.
#[derive(Debug, Clone)]
pub(crate) struct Ideal(Vec<IdealTerm>);

impl Ideal {
    pub fn from_blocks(blocks: &[IdealBlock]) -> Self {
        let mut terms = Vec::new();
        for block in blocks {
            match block {
                &IdealBlock::Lead { a1, a2 } => terms.push(IdealTerm::Lead { a1, a2 }),
                &IdealBlock::LogTau { a } => terms.push(IdealTerm::LogTau { a }),
                &IdealBlock::TauLogTau { n } => terms.push(IdealTerm::TauLogTau { n }),
                IdealBlock::Power(table) => {
                    terms.extend(table.rows.iter().map(|&[n, t]| IdealTerm::Power { n, t }));
                }
                IdealBlock::PlanckEinstein(table) => {
                    terms.extend(table.rows.iter().map(|&[n, theta]| IdealTerm::PlanckEinstein { n, theta }));
                }
                IdealBlock::PlanckEinsteinGeneral(table) => {
                    terms.extend(table.rows.iter().map(|&[n, t, c, d]| IdealTerm::PlanckEinsteinGeneral {
                        n,
                        t,
                        c,
                        d,
                    }))
                }
            }
        }
        Ideal(terms)
    }

    pub fn at(&self, tau: f64) -> IdealPartials {
        let mut sum = IdealPartials::default();
        for term in &self.0 {
            let (value, t, tt) = term.at(tau);
            sum.value += value;
            sum.t += t;
            sum.tt += tt;
        }
        sum
    }
}

impl IdealTerm {
    fn at(self, tau: f64) -> (f64, f64, f64) {
        match self {
            IdealTerm::Lead { a1, a2 } => (a1 + a2 * tau, a2 * tau, a2 * tau),
            IdealTerm::LogTau { a } => (a * tau.ln(), a, 0.0),
            IdealTerm::TauLogTau { n } => {
                let log = tau.ln();
                (n * tau * log, n * tau * (log + 1.0), n * tau * (log + 2.0))
            }
            IdealTerm::Power { n, t } => {
                let value = n * tau.powf(t);
                (value, value * t, value * t * t)
            }
            IdealTerm::PlanckEinstein { n, theta } => {
                // x/(eˣ−1) and its derivative, written with e⁻ˣ so that a large x does not overflow.
                let x = theta * tau;
                let shrink = (-x).exp();
                let rest = -(-x).exp_m1();
                let first = x * shrink / rest;
                (n * rest.ln(), n * first, n * (first - x * first / rest))
            }
            IdealTerm::PlanckEinsteinGeneral { n, t, c, d } => {
                let x = t * tau;
                let grown = d * x.exp();
                let share = grown / (c + grown);
                (n * (c + grown).ln(), n * x * share, n * (x * share + x * x * share * (1.0 - share)))
            }
        }
    }
}
