//! The outdoor coil: zones of vapour, two phases and liquid that share its face.

use super::medium::{Medium, Saturated};
use super::void_fraction;

/// A coil with air across it, lumped.
///
/// # Source
/// Moving zones: each takes the share of the face that its duty needs, air crosses each once; effectiveness
/// 1 − exp(−NTU) of air against a refrigerant side at one temperature (Incropera and DeWitt, from memory).
#[derive(Debug, Clone, Copy)]
pub struct Coil {
    /// Internal volume, m³.
    pub volume: f64,
    /// Heat capacity rate of the air, W/K.
    pub air: f64,
    /// Transfer units of the air in the two-phase zone.
    pub transfer: f64,
    /// Transfer units in single-phase zones, as a share of that.
    pub single_phase: f64,
}

impl Coil {
    /// With another airflow, as a share of this one: the transfer coefficient falls with its square root (from memory), the
    /// transfer units rise with its inverse square root.
    #[must_use]
    pub fn with_airflow(self, share: f64) -> Coil {
        Coil { air: self.air * share, transfer: self.transfer / share.sqrt(), ..self }
    }

    /// W/K of the whole face, were it all two-phase.
    pub fn conductance(&self) -> f64 {
        self.air * (1.0 - (-self.transfer).exp())
    }

    /// W/K of the whole face, were it all single-phase.
    pub fn dry_conductance(&self) -> f64 {
        self.air * (1.0 - (-self.transfer * self.single_phase).exp())
    }
}

/// What leaves the outdoor coil, and what it holds.
#[derive(Debug, Clone, Copy)]
pub struct Condensed {
    /// J/kg at the outlet.
    pub enthalpy: f64,
    /// K at the outlet.
    pub temperature: f64,
    /// Quality at the outlet: 0 where it is liquid.
    pub quality: f64,
    /// kg in the coil.
    pub mass: f64,
    /// Heat given off, W.
    pub heat: f64,
}

/// Runs the coil: flow in kg/s, discharge enthalpy in J/kg, air in K. `None` where vapour leaves it.
pub fn run(
    medium: &Medium,
    coil: &Coil,
    at: &Saturated,
    flow: f64,
    discharge: f64,
    air: f64,
) -> Option<Condensed> {
    let desuperheating = desuperheating_share(medium, coil, at, flow, discharge, air);
    let hot = medium.vapour(at.dew, medium.superheat(at.dew, discharge)).density;
    let vapour_mass = 0.5 * (hot + at.vapour_density);
    let left = 1.0 - desuperheating;
    // A sum that is not above zero, or no number.
    if left.is_nan() || left <= 0.0 {
        return None;
    }
    let condensing = condensing_share(coil, at, flow, air);
    let heat_in = flow * discharge;
    if condensing <= left {
        let subcooling = left - condensing;
        let temperature = air + (at.bubble - air) * cooled(medium, coil, at, flow, subcooling);
        let liquid = medium.liquid_density(0.5 * (temperature + at.bubble));
        let enthalpy = medium.liquid_enthalpy(temperature);
        let two_phase = void_fraction::mean_density(at, 0.0, 1.0);
        let mass =
            coil.volume * (desuperheating * vapour_mass + condensing * two_phase + subcooling * liquid);
        return Some(Condensed {
            enthalpy,
            temperature,
            quality: 0.0,
            mass,
            heat: heat_in - flow * enthalpy,
        });
    }
    let quality = quality_after(coil, at, flow, air, left);
    let enthalpy = at.liquid_enthalpy + quality * at.latent();
    let densities = desuperheating * vapour_mass + left * void_fraction::mean_density(at, quality, 1.0);
    let mass = coil.volume * densities;
    let temperature = at.temperature(quality);
    Some(Condensed { enthalpy, temperature, quality, mass, heat: heat_in - flow * enthalpy })
}

/// Share of the face that condenses all vapour; infinite where the air is not cool enough.
///
/// Temperature falls with quality in a straight line, so it nears the air's along the face as exp(−face).
pub fn condensing_share(coil: &Coil, at: &Saturated, flow: f64, air: f64) -> f64 {
    let (first, last) = (at.dew - air, at.bubble - air);
    if last <= 0.0 {
        return f64::INFINITY;
    }
    let per = flow * at.latent() / coil.conductance();
    let glide = first - last;
    if glide > 1e-3 { per / glide * (first / last).ln() } else { per / first }
}

/// Quality after a share of the face that does not condense all.
fn quality_after(coil: &Coil, at: &Saturated, flow: f64, air: f64, share: f64) -> f64 {
    let first = at.dew - air;
    let glide = at.dew - at.bubble;
    let way = share * coil.conductance() / (flow * at.latent());
    if glide > 1e-3 { 1.0 - first / glide * -(-way * glide).exp_m1() } else { 1.0 - way * first }
}

/// Share of the face that cools the discharge to the dew point.
pub fn desuperheating_share(
    medium: &Medium,
    coil: &Coil,
    at: &Saturated,
    flow: f64,
    discharge: f64,
    air: f64,
) -> f64 {
    let superheat = medium.superheat(at.dew, discharge);
    if superheat <= 0.0 {
        return 0.0;
    }
    let heat = (discharge - at.vapour_enthalpy) / superheat;
    ((at.dew + superheat - air) / (at.dew - air)).ln() * flow * heat / coil.dry_conductance()
}

/// Share of the face that subcools to a liquid temperature.
pub fn subcooling_share(
    medium: &Medium,
    coil: &Coil,
    at: &Saturated,
    flow: f64,
    liquid: f64,
    air: f64,
) -> f64 {
    let heat = medium.liquid_heat(at.bubble);
    ((at.bubble - air) / (liquid - air)).ln() * flow * heat / coil.dry_conductance()
}

/// What is left of the liquid's temperature over the air after a share of the face.
fn cooled(medium: &Medium, coil: &Coil, at: &Saturated, flow: f64, share: f64) -> f64 {
    (-share * coil.dry_conductance() / (flow * medium.liquid_heat(at.bubble))).exp()
}
