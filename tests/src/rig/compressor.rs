//! The compressor.

use super::medium::Medium;

/// A fixed-speed compressor with its shell on the suction side.
///
/// # Source
/// Volumetric efficiency falling in a straight line with the pressure ratio; work of an isentropic change with a constant
/// exponent over an isentropic efficiency; part of the work lost through the shell: textbook forms, from memory.
#[derive(Debug, Clone, Copy)]
pub struct Compressor {
    /// Swept volume per time, m³/s.
    pub displacement: f64,
    /// Loss of volumetric efficiency per unit of pressure ratio above one.
    pub clearance: f64,
    /// Isentropic efficiency.
    pub efficiency: f64,
    /// Share of the work lost through the shell.
    pub loss: f64,
}

impl Compressor {
    /// kg/s
    pub fn flow(&self, density: f64, ratio: f64) -> f64 {
        self.displacement * density * self.volumetric(ratio)
    }

    /// Volumetric efficiency.
    pub fn volumetric(&self, ratio: f64) -> f64 {
        (0.97 - self.clearance * (ratio - 1.0)).max(0.2)
    }

    /// Work on the refrigerant, J/kg, from suction pressure (Pa) and density (kg/m³).
    pub fn work(&self, medium: &Medium, pressure: f64, density: f64, ratio: f64) -> f64 {
        let n = medium.exponent();
        let ideal = n / (n - 1.0) * pressure / density * (ratio.powf((n - 1.0) / n) - 1.0);
        ideal / self.efficiency
    }
}
