//! The metering device.

use super::medium::{Medium, Saturated};

/// What throttles the liquid.
#[derive(Debug, Clone, Copy)]
pub enum Metering {
    /// A fixed orifice: effective area, m².
    Orifice(f64),
    /// A thermostatic valve.
    Valve {
        /// Superheat it holds, K, while it can.
        superheat: f64,
        /// Effective area fully open, m².
        open: f64,
    },
}

/// Pressure in the throat over the saturation pressure of the entering liquid: flashing is delayed. From memory, of the
/// order that short-tube studies find (Aaron and Domanski, ASHRAE Trans. 96 (1990) part 1).
const THROAT: f64 = 0.88;

/// Flow through so much area, kg/s: liquid of an enthalpy at the condensing pressure, to the evaporating pressure.
///
/// # Source
/// ṁ = A·√(2ρ(p − p_throat)), choked at the throat, with the homogeneous density where vapour enters with the liquid.
pub fn flow(medium: &Medium, area: f64, at: &Saturated, enthalpy: f64, temperature: f64, back: f64) -> f64 {
    let quality = at.quality(enthalpy).max(0.0);
    let (density, flashing) = if quality > 0.0 {
        (1.0 / (quality / at.vapour_density + (1.0 - quality) / at.liquid_density), at.pressure)
    } else {
        (medium.liquid_density(temperature), medium.bubble_pressure(temperature))
    };
    let throat = (THROAT * flashing).max(back);
    area * (2.0 * density * (at.pressure - throat).max(0.0)).sqrt()
}
