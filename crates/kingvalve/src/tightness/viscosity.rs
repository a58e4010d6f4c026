//! Viscosities of gases at low pressure.

use crate::quantity::{Quantity, Temperature, Viscosity};

/// Viscosity at 0 °C and 50 °C and 1 kPa, µPa·s: CoolProp 8.0.0 (its transport models cite their papers).
const TABLE: &[(&str, f64, f64)] = &[
    ("R-702", 8.376, 9.410),
    ("R-704", 18.690, 20.968),
    ("R-728", 16.614, 18.928),
    ("R-729", 17.203, 19.622),
    ("R-740", 20.998, 24.167),
    ("R-744", 13.704, 16.092),
    ("R-717", 9.233, 11.040),
    ("R-170", 8.591, 10.058),
    ("R-290", 7.489, 8.815),
    ("R-600", 6.812, 8.038),
    ("R-600a", 6.910, 8.120),
    ("R-601", 6.195, 7.365),
    ("R-601a", 6.369, 7.573),
    ("R-1270", 7.835, 9.293),
    ("R-E170", 8.544, 9.792),
    ("R-12", 10.838, 12.854),
    ("R-13", 13.211, 15.452),
    ("R-14", 15.915, 18.433),
    ("R-22", 12.606, 14.945),
    ("R-23", 13.708, 16.098),
    ("R-32", 12.231, 14.481),
    ("R-116", 12.978, 15.249),
    ("R-123", 9.863, 11.697),
    ("R-124", 11.782, 13.989),
    ("R-125", 11.892, 14.001),
    ("R-134a", 10.888, 12.805),
    ("R-143a", 10.174, 12.029),
    ("R-152a", 10.174, 12.074),
    ("R-227ea", 10.617, 12.584),
    ("R-245fa", 10.790, 12.826),
    ("R-1234yf", 11.327, 13.428),
    ("R-1234ze(E)", 11.291, 13.397),
];

/// The coldest and hottest at which the table is used, K: 50 K and so beyond its two columns the power law drifts.
pub(super) const RANGE: (f64, f64) = (243.15, 343.15);

/// The viscosity of a listed gas: the power law through its two values.
pub(super) fn of_pure(name: &str, t: Temperature) -> Option<f64> {
    let same = |listed: &str| {
        let plain = |text: &str| text.chars().filter(|c| *c != '-').collect::<String>();
        plain(listed).eq_ignore_ascii_case(&plain(name))
    };
    let (_, cold, warm) = TABLE.iter().find(|(listed, ..)| same(listed))?;
    let exponent = (warm / cold).ln() / (323.15f64 / 273.15).ln();
    Some(1e-6 * cold * (t.base() / 273.15).powf(exponent))
}

/// The viscosity of a mixture, from mole fractions, molar masses and viscosities.
///
/// Wilke, J. Chem. Phys. 18 (1950) 517, doi:10.1063/1.1747673, equations 13 and 14.
pub(super) fn of_mixture(parts: &[(f64, f64, f64)]) -> Viscosity {
    let total = parts.iter().map(|(x, m, eta)| {
        let crowd: f64 = parts
            .iter()
            .map(|(xj, mj, ej)| {
                let phi =
                    (1.0 + (eta / ej).sqrt() * (mj / m).powf(0.25)).powi(2) / (8.0 * (1.0 + m / mj)).sqrt();
                xj * phi
            })
            .sum();
        x * eta / crowd
    });
    Viscosity::from_base(total.sum())
}
