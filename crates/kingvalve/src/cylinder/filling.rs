//! The filling densities of the transport rule.

use crate::quantity::{Mass, PressureDifference, Ratio, percent, psi};

/// How much of a gas a cylinder may hold, as a share of the mass of water it holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FillingDensity {
    /// Mass of gas over mass of water.
    pub share: Ratio,
    /// The least service pressure of a cylinder this is for, where the rule says one.
    pub service_pressure: Option<PressureDifference>,
}

impl FillingDensity {
    /// The most refrigerant in a cylinder of that water capacity.
    ///
    /// # Source
    /// 49 CFR 173.304a(a)(2), note 1: mass of gas over mass of water that fills the cylinder at 60 °F.
    pub fn net(&self, water_capacity: Mass) -> Mass {
        water_capacity * self.share
    }
}

/// The maximum filling density of 49 CFR 173.304a(a)(2) for a designation; `None` where it lists none, as it does not
/// for any blend.
///
/// # Units
/// Share of the water capacity by mass.
/// # Source
/// 49 CFR 173.304a(a)(2), table 1.
/// # Valid range
/// Transport in the United States, cylinders of a specification the table allows.
/// # Accuracy
/// As printed.
/// # Example
/// ```
/// use kingvalve::cylinder::filling_density;
/// use kingvalve::quantity::percent;
/// assert_eq!(filling_density("R-22").map(|density| density.share), Some(percent(105.0)));
/// assert_eq!(filling_density("R-410A"), None);
/// ```
pub fn filling_density(designation: &str) -> Option<FillingDensity> {
    let (share, service_pressure) = match designation {
        "R-717" => (54.0, None),
        "R-13B1" => (124.0, None),
        "R-142b" => (100.0, None),
        "R-22" => (105.0, None),
        "R-115" => (110.0, None),
        "R-13" => (100.0, None),
        "R-12" => (119.0, None),
        "R-744" => (68.0, Some(psi(1800.0))),
        _ => return None,
    };
    Some(FillingDensity { share: percent(share), service_pressure })
}
