//! The indoor coil: a zone of two phases, wet or dry outside, and one of superheat.

use super::air;
use super::condenser::Coil;
use super::medium::{Medium, Saturated};
use super::void_fraction;

/// Air that enters the indoor coil.
#[derive(Debug, Clone, Copy)]
pub struct Indoor {
    /// K
    pub dry_bulb: f64,
    /// K
    pub wet_bulb: f64,
}

/// What leaves the indoor coil: one number, superheat in K above zero, and below zero the share of liquid in per cent.
#[derive(Debug, Clone, Copy)]
pub struct Outlet(pub f64);

impl Outlet {
    /// K
    pub fn superheat(self) -> f64 {
        self.0.max(0.0)
    }

    /// 1 where it is dry.
    pub fn quality(self) -> f64 {
        1.0 + 0.01 * self.0.min(0.0)
    }

    /// J/kg
    pub fn enthalpy(self, medium: &Medium, at: &Saturated) -> f64 {
        if self.0 >= 0.0 {
            medium.vapour(at.dew, self.0).enthalpy
        } else {
            at.liquid_enthalpy + self.quality() * at.latent()
        }
    }
}

/// Heat the whole face would take up in the two-phase zone, W: sensible where the coil stays dry, by enthalpy where it is
/// wet, whichever is more.
pub fn duty(coil: &Coil, at: &Saturated, inlet_quality: f64, indoor: &Indoor) -> f64 {
    let surface = at.temperature(0.5 * (1.0 + inlet_quality.clamp(0.0, 1.0)));
    let dry = indoor.dry_bulb - surface;
    // Lines of constant wet bulb are nearly those of constant enthalpy.
    let wet = (air::saturated_enthalpy(indoor.wet_bulb) - air::saturated_enthalpy(surface)) / air::HEAT;
    coil.conductance() * dry.max(wet)
}

/// Share of the face needed to superheat so far; infinite where the air is not warm enough.
pub fn superheating_share(
    medium: &Medium,
    coil: &Coil,
    at: &Saturated,
    flow: f64,
    superheat: f64,
    air: f64,
) -> f64 {
    if superheat <= 0.0 {
        return 0.0;
    }
    let (entering, leaving) = (air - at.dew, air - at.dew - superheat);
    if leaving <= 0.0 {
        return f64::INFINITY;
    }
    let heat = (medium.vapour(at.dew, superheat).enthalpy - at.vapour_enthalpy) / superheat;
    (entering / leaving).ln() * flow * heat / coil.dry_conductance()
}

/// Shares of the face needed for the two-phase zone and for superheat, to reach an outlet from an inlet enthalpy.
pub fn shares(
    medium: &Medium,
    coil: &Coil,
    at: &Saturated,
    flow: f64,
    inlet: f64,
    outlet: Outlet,
    indoor: &Indoor,
) -> (f64, f64) {
    let dry_end = outlet.enthalpy(medium, at).min(at.vapour_enthalpy);
    let duty = duty(coil, at, at.quality(inlet), indoor);
    let boiling = if duty > 0.0 { flow * (dry_end - inlet) / duty } else { f64::INFINITY };
    (boiling, superheating_share(medium, coil, at, flow, outlet.superheat(), indoor.dry_bulb))
}

/// kg in the coil, with its face shared so.
pub fn mass(
    medium: &Medium,
    coil: &Coil,
    at: &Saturated,
    inlet: f64,
    outlet: Outlet,
    (boiling, superheating): (f64, f64),
) -> f64 {
    let whole = boiling + superheating;
    let vapour = 0.5 * (at.vapour_density + medium.vapour(at.dew, outlet.superheat()).density);
    let wet = void_fraction::mean_density(at, at.quality(inlet), outlet.quality());
    coil.volume * (boiling * wet + superheating * vapour) / whole
}
