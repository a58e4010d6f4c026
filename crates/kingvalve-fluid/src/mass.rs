//! A phase by mass: its molar mass and mass fractions.

use crate::equilibrium::Phase;
use crate::fluid::Fluid;

impl Fluid {
    /// Molar mass of one of the phases of this fluid, kg/mol.
    ///
    /// # Source
    /// By definition: Σ xᵢMᵢ.
    pub fn molar_mass_of(&self, phase: &Phase) -> f64 {
        let components = self.model().components.iter();
        components.zip(&phase.mole_fractions).map(|(component, x)| component.molar_mass * x).sum()
    }

    /// Mass fractions of one of the phases of this fluid, in the order of the components.
    ///
    /// # Source
    /// By definition: xᵢMᵢ / Σ xⱼMⱼ.
    ///
    /// # Example
    /// ```
    /// use kingvalve_fluid::{Basis, Fluid};
    /// let blend = Fluid::blend(&[("R-32", 0.689), ("R-1234yf", 0.311)], Basis::Mass)?;
    /// let first_bubble = blend.bubble_at_temperature(300.0)?.vapour;
    /// let by_mass = blend.mass_fractions_of(&first_bubble);
    /// assert!(by_mass[0] > 0.74 && (by_mass.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    /// # Ok::<(), kingvalve_fluid::Error>(())
    /// ```
    pub fn mass_fractions_of(&self, phase: &Phase) -> Vec<f64> {
        let total = self.molar_mass_of(phase);
        let components = self.model().components.iter();
        components.zip(&phase.mole_fractions).map(|(component, x)| component.molar_mass * x / total).collect()
    }
}
