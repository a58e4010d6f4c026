//! How much of a two-phase zone is vapour.

use super::medium::Saturated;

/// Mean density of a zone in which quality runs evenly from one value to another, kg/m³.
///
/// # Source
/// Void fraction by Zivi, J. Heat Transfer 86 (1964) 247 (from memory): α = 1/(1 + (1−x)/x·(ρᵥ/ρₗ)^⅔), integrated over
/// the quality in closed form.
pub fn mean_density(at: &Saturated, from: f64, to: f64) -> f64 {
    let (from, to) = (from.clamp(0.0, 1.0), to.clamp(0.0, 1.0));
    let slip = (at.vapour_density / at.liquid_density).powf(2.0 / 3.0);
    // α = x/(c + (1−c)·x)
    let k = 1.0 - slip;
    let integral = |x: f64| x / k - slip / (k * k) * (slip + k * x).ln();
    let vapour = if (to - from).abs() < 1e-6 {
        to / (slip + k * to)
    } else {
        (integral(to) - integral(from)) / (to - from)
    };
    vapour * at.vapour_density + (1.0 - vapour) * at.liquid_density
}
