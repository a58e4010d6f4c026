//! Composition by mass and by mole.

use crate::error::{Error, Result};
use crate::mixture::MAX_COMPONENTS;

/// What the fractions of a composition count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Basis {
    /// Kilograms per kilogram, as on a data plate or in a standard.
    Mass,
    /// Moles per mole.
    Mole,
}

/// How far the fractions may sum from one.
const SUM_TOLERANCE: f64 = 1e-6;

/// Checks fractions and divides them by their sum; those of zero are refused.
pub(crate) fn normalized(fractions: &[f64]) -> Result<Vec<f64>> {
    if fractions.is_empty() || fractions.len() > MAX_COMPONENTS {
        return Err(Error::composition(format!(
            "{} components given, 1 to {MAX_COMPONENTS} can be handled",
            fractions.len()
        )));
    }
    if let Some(bad) = fractions.iter().find(|x| !(x.is_finite() && **x > 0.0)) {
        return Err(Error::composition(format!("fraction {bad} is not above zero; leave the component out")));
    }
    let sum: f64 = fractions.iter().sum();
    if (sum - 1.0).abs() > SUM_TOLERANCE {
        return Err(Error::composition(format!("fractions sum to {sum}, not to 1")));
    }
    Ok(fractions.iter().map(|x| x / sum).collect())
}

/// Mole fractions from mass fractions, both summing to one.
///
/// # Source
/// xᵢ = (wᵢ/Mᵢ) / Σ (wⱼ/Mⱼ), by definition.
pub(crate) fn mole_from_mass(mass: &[f64], molar_masses: &[f64]) -> Vec<f64> {
    let moles: Vec<f64> = mass.iter().zip(molar_masses).map(|(w, m)| w / m).collect();
    share(&moles)
}

/// Mass fractions from mole fractions, both summing to one.
pub(crate) fn mass_from_mole(mole: &[f64], molar_masses: &[f64]) -> Vec<f64> {
    let masses: Vec<f64> = mole.iter().zip(molar_masses).map(|(x, m)| x * m).collect();
    share(&masses)
}

fn share(amounts: &[f64]) -> Vec<f64> {
    let total: f64 = amounts.iter().sum();
    amounts.iter().map(|amount| amount / total).collect()
}
