//! How a blend's composition drifts while vapour leaks from or is drawn off a closed volume.
//!
//! The vapour that leaves has its own composition, so what stays behind is enriched in the less volatile
//! components: d(n zₖ) = yₖ dn, with y from the phases that share the volume at its temperature.
//!
//! Source: Rayleigh's differential distillation (Lord Rayleigh, Phil. Mag. 4 (1902) 521), here at constant
//! volume; ASHRAE Standard 34 uses the same model for leakage scenarios.

use crate::equilibrium::shared_volume::{self, SharedVolume};
use crate::error::{Error, Result};
use crate::flash::Split;
use crate::fluid::Fluid;
use crate::mixture::Vector;

/// What is left in a closed volume after some vapour has gone.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Withdrawal {
    /// The share of the original mass that has left, 0 to 1.
    pub mass_share_gone: f64,
    /// Mass fractions of what is left, in the order of the fluid's components.
    pub mass_fractions_left: Vec<f64>,
    /// Mass fractions of what has left, all of it together; those of the first wisp where nothing has.
    pub mass_fractions_gone: Vec<f64>,
    /// Pressure in the volume, Pa.
    pub pressure: f64,
    /// Whether liquid is left.
    pub has_liquid: bool,
}

/// What a volume holds, in mol/m³ of each component, and in which phases.
#[derive(Debug, Clone, Copy)]
struct Volume {
    content: Vector,
    /// `None` where all is vapour: drawing more off keeps it so.
    phases: Option<SharedVolume>,
}

impl Fluid {
    /// Draws vapour slowly from a closed volume at constant temperature.
    ///
    /// # Units
    /// `t` in K, `density` the overall molar density at the start in mol/m³, `mass_share` the share of the
    /// original mass drawn off; `steps` of a fourth-order Runge–Kutta integration.
    ///
    /// # Source
    /// Rayleigh withdrawal at constant volume; see the module.
    ///
    /// # Valid range
    /// 0 ≤ `mass_share` < 1; temperatures of the saturation lines. A state with no vapour (liquid-full) has none
    /// to draw.
    ///
    /// # Accuracy
    /// With 16 steps or more, 10⁻⁵ in mass fractions for half the charge; 10⁻³ where the last liquid boils away
    /// on the way. Mass is conserved by component exactly.
    ///
    /// # Errors
    /// Outside the range; a volume full of liquid ([`Error::is_composition`]).
    pub fn withdraw_vapour(&self, t: f64, density: f64, mass_share: f64, steps: u32) -> Result<Withdrawal> {
        if !(0.0..1.0).contains(&mass_share) {
            let limits = (0.0, 1.0);
            return Err(Error::out_of_range(self.label(), "mass share", "of the charge", mass_share, limits));
        }
        let start = self.volume(t, density)?;
        let total = self.mass(&start.content);
        let steps = steps.max(1);
        // In ln(mass left) and ln(mass of each component left) the equations are d ln mₖ/d ln m = share of k in the
        // vapour over its share in the whole: smooth, and nothing becomes negative.
        let h = -(-mass_share).ln_1p() / f64::from(steps);
        let mut now = start;
        if mass_share > 0.0 {
            for _ in 0..steps {
                let k1 = self.loss(&now);
                let two = self.less(t, &now, &now, 0.5 * h, &k1)?;
                let k2 = self.loss(&two);
                let three = self.less(t, &now, &two, 0.5 * h, &k2)?;
                let k3 = self.loss(&three);
                let four = self.less(t, &now, &three, h, &k3)?;
                let k4 = self.loss(&four);
                let mut mean = Vector::default();
                for k in 0..mean.len() {
                    mean[k] = (k1[k] + 2.0 * k2[k] + 2.0 * k3[k] + k4[k]) / 6.0;
                }
                now = self.less(t, &now, &four, h, &mean)?;
            }
        }
        let left = self.mass(&now.content);
        let mut gone = self.vapour(&start);
        if mass_share > 0.0 {
            for k in 0..gone.len() {
                gone[k] = start.content[k] - now.content[k];
            }
        }
        let reduced = self.model().residual(t, &self.vapour(&now)).reduced_pressure();
        Ok(Withdrawal {
            mass_share_gone: 1.0 - left / total,
            mass_fractions_left: self.shares_by_mass(&now.content),
            mass_fractions_gone: self.shares_by_mass(&gone),
            pressure: reduced * self.model().gas_constant * t,
            has_liquid: now.phases.is_some(),
        })
    }

    /// The volume at the start, its phases found by [`split_at_density`](Self::split_at_density).
    fn volume(&self, t: f64, density: f64) -> Result<Volume> {
        let content = self.z().map(|z| z * density);
        let phases = match self.split_at_density(t, density)? {
            Split { vapour: None, .. } => {
                let why = format!("{} fills the volume as liquid: no vapour to draw", self.label());
                return Err(Error::composition(why));
            }
            Split { liquid: Some(liquid), vapour: Some(vapour), vapour_fraction, .. } => {
                let densities = |phase: &crate::Phase| {
                    let mut densities = Vector::default();
                    for (slot, x) in densities.iter_mut().zip(&phase.mole_fractions) {
                        *slot = x * phase.density;
                    }
                    densities
                };
                let moles_ratio = vapour_fraction / (1.0 - vapour_fraction);
                let ln_ratio = (moles_ratio * liquid.density / vapour.density).ln();
                Some(SharedVolume { liquid: densities(&liquid), vapour: densities(&vapour), ln_ratio })
            }
            Split { liquid: None, .. } => None,
        };
        Ok(Volume { content, phases })
    }

    /// The volume `from` after a step `h` of −ln(mass left), over which each component is lost at the rate `loss`;
    /// `near` has similar phases.
    fn less(&self, t: f64, from: &Volume, near: &Volume, h: f64, loss: &Vector) -> Result<Volume> {
        let mut content = from.content;
        for k in 0..content.len() {
            content[k] *= (-h * loss[k]).exp();
        }
        // The mass is met exactly; what the integration errs in is the shares.
        let correction = (-h).exp() * self.mass(&from.content) / self.mass(&content);
        let content = content.map(|part| part * correction);
        let Some(first) = from.phases else {
            return Ok(Volume { content, phases: None });
        };
        let guess = near.phases.unwrap_or(first);
        if let Some(phases) = shared_volume::solve(self.model(), t, &content, &guess) {
            return Ok(Volume { content, phases: Some(phases) });
        }
        // Too far from the last, or the last liquid has boiled away: from the start, as a blend of its own.
        let total: f64 = content.iter().sum();
        let shares = content.map(|part| part / total);
        let composition: Vec<(&str, f64)> = self.components().zip(shares).collect();
        Fluid::blend(&composition, crate::Basis::Mole)?.volume(t, total)
    }

    /// d ln(mass of each component)/d ln(mass): its share in the vapour over its share in the whole.
    fn loss(&self, volume: &Volume) -> Vector {
        let vapour = self.vapour(volume);
        let scale = self.mass(&volume.content) / self.mass(&vapour);
        let mut loss = Vector::default();
        for k in 0..self.model().size() {
            loss[k] = scale * vapour[k] / volume.content[k];
        }
        loss
    }

    /// mol/m³ of each component in the vapour.
    fn vapour(&self, volume: &Volume) -> Vector {
        volume.phases.map_or(volume.content, |phases| phases.vapour)
    }

    /// kg from mol of each component.
    fn mass(&self, moles: &Vector) -> f64 {
        self.model().components.iter().zip(moles).map(|(component, n)| component.molar_mass * n).sum()
    }

    fn shares_by_mass(&self, moles: &Vector) -> Vec<f64> {
        let total = self.mass(moles);
        let components = self.model().components.iter();
        components.zip(moles).map(|(component, n)| component.molar_mass * n / total).collect()
    }
}
