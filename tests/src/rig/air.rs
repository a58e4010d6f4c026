//! Moist air, as far as a lumped coil needs it.

/// J/(kg K), dry air with a little water: from memory.
pub const HEAT: f64 = 1015.0;
/// kg/m³ at 20 °C and one atmosphere: from memory.
pub const DENSITY: f64 = 1.2;

/// Enthalpy of saturated air at sea level, J/kg of dry air from 0 °C.
///
/// # Source
/// Magnus formula for the vapour pressure of water, p_ws = 611.2·exp(17.62·t/(243.12 + t)) Pa, and
/// h = 1006·t + w·(2.501·10⁶ + 1860·t): from memory.
pub fn saturated_enthalpy(kelvins: f64) -> f64 {
    let t = kelvins - 273.15;
    let water = 611.2 * (17.62 * t / (243.12 + t)).exp();
    let w = 0.622 * water / (101_325.0 - water);
    1006.0 * t + w * (2.501e6 + 1860.0 * t)
}
