//! Conformity beyond a single verdict: what is known beforehand, guard bands, and the risks of a rule.

mod knowing;
mod likelihood;
mod prior;
mod quadrature;
mod risk;

pub use prior::Prior;
pub use risk::{Acceptance, Risks, SpecificRisk};

#[cfg(test)]
mod tests;
