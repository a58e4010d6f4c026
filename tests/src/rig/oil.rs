//! The compressor's oil and what it dissolves.

use super::medium::Medium;

/// Oil as one substance that mixes with refrigerant.
///
/// # Source
/// Raoult's law with a one-parameter Margules activity: p = p_sat(T)·x·exp(A·(1−x)²), x the mole fraction of
/// refrigerant in the solution. Molar masses of 300 (mineral) to 650 g/mol (polyol ester) and A from 0 to 0.6: from
/// memory, by the order of magnitude of pressure–temperature–solubility charts. A blend counts as one substance with
/// its bubble pressure.
#[derive(Debug, Clone, Copy)]
pub struct Oil {
    /// kg
    pub mass: f64,
    /// kg/mol
    pub molar_mass: f64,
    /// A
    pub activity: f64,
}

/// kg/m³: from memory, polyol ester and mineral oil are near.
const DENSITY: f64 = 950.0;

impl Oil {
    /// Its own volume, m³.
    pub fn volume(&self) -> f64 {
        self.mass / DENSITY
    }

    /// Refrigerant dissolved at a pressure and the oil's temperature, kg; without bound towards saturation.
    pub fn dissolved(&self, medium: &Medium, pressure: f64, temperature: f64) -> f64 {
        let share = pressure / medium.bubble_pressure(temperature);
        if share >= 1.0 {
            return f64::INFINITY;
        }
        let x = self.mole_fraction(share);
        self.mass * medium.molar_mass() / self.molar_mass * x / (1.0 - x)
    }

    /// Solves x·exp(A·(1−x)²) = share; monotone, since A stays below 2.
    fn mole_fraction(&self, share: f64) -> f64 {
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..50 {
            let x: f64 = 0.5 * (low + high);
            if x * (self.activity * (1.0 - x).powi(2)).exp() < share { low = x } else { high = x }
        }
        0.5 * (low + high)
    }
}
