//! How a blend's composition drifts while vapour leaks from or is drawn off a closed volume.
//!
//! The vapour that leaves has its own composition, so what stays behind is enriched in the less volatile
//! components: d(n zₖ) = yₖ dn, with y from the split at the volume's temperature and overall density.
//!
//! Source: Rayleigh's differential distillation (Lord Rayleigh, Phil. Mag. 4 (1902) 521), here at constant
//! volume; ASHRAE Standard 34 uses the same model for leakage scenarios.

use crate::blend::Basis;
use crate::equilibrium::Phase;
use crate::error::{Error, Result};
use crate::flash::Split;
use crate::fluid::Fluid;

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
    /// With 16 steps or more, 10⁻⁵ in mass fractions for half the charge; mass is conserved by component exactly.
    ///
    /// # Errors
    /// Outside the range; a volume full of liquid ([`Error::is_composition`]).
    pub fn withdraw_vapour(&self, t: f64, density: f64, mass_share: f64, steps: u32) -> Result<Withdrawal> {
        if !(0.0..1.0).contains(&mass_share) {
            return Err(Error::out_of_range(
                self.label(),
                "mass share",
                "of the charge",
                mass_share,
                (0.0, 1.0),
            ));
        }
        let names: Vec<&str> = self.components().collect();
        let start: Vec<f64> = self.mass_fractions().to_vec();
        // Mass densities of the components in the volume are the state; they sum to the total.
        let total = density * self.molar_mass();
        let mut amounts: Vec<f64> = start.iter().map(|w| w * total).collect();
        let steps = steps.max(1);
        let h = mass_share * total / f64::from(steps);
        if mass_share > 0.0 {
            for _ in 0..steps {
                let k1 = self.leaving(t, &names, &amounts)?;
                let k2 = self.leaving(t, &names, &minus(&amounts, &k1, 0.5 * h))?;
                let k3 = self.leaving(t, &names, &minus(&amounts, &k2, 0.5 * h))?;
                let k4 = self.leaving(t, &names, &minus(&amounts, &k3, h))?;
                for k in 0..amounts.len() {
                    amounts[k] -= h / 6.0 * (k1[k] + 2.0 * k2[k] + 2.0 * k3[k] + k4[k]);
                }
            }
        }
        let left: f64 = amounts.iter().sum();
        let gone = total - left;
        let mass_fractions_gone = if gone > 0.0 {
            start.iter().zip(&amounts).map(|(w, left)| (w * total - left) / gone).collect()
        } else {
            self.leaving(t, &names, &amounts)?
        };
        let split = split_of(t, &names, &amounts)?;
        Ok(Withdrawal {
            mass_share_gone: gone / total,
            mass_fractions_left: amounts.iter().map(|amount| amount / left).collect(),
            mass_fractions_gone,
            pressure: split.pressure,
        })
    }

    /// Mass fractions of the vapour in a volume that holds `amounts` (kg/m³ by component).
    fn leaving(&self, t: f64, names: &[&str], amounts: &[f64]) -> Result<Vec<f64>> {
        let split = split_of(t, names, amounts)?;
        let Some(Phase { mole_fractions, .. }) = split.vapour else {
            return Err(Error::composition(format!(
                "{} fills the volume as liquid: no vapour to draw",
                self.label()
            )));
        };
        let composition: Vec<(&str, f64)> = names.iter().copied().zip(mole_fractions).collect();
        Ok(Fluid::blend(&composition, Basis::Mole)?.mass_fractions().to_vec())
    }
}

fn split_of(t: f64, names: &[&str], amounts: &[f64]) -> Result<Split> {
    let total: f64 = amounts.iter().sum();
    let composition: Vec<(&str, f64)> =
        names.iter().copied().zip(amounts.iter().map(|a| a / total)).collect();
    let blend = Fluid::blend(&composition, Basis::Mass)?;
    blend.split_at_density(t, total / blend.molar_mass())
}

fn minus(amounts: &[f64], slope: &[f64], step: f64) -> Vec<f64> {
    amounts.iter().zip(slope).map(|(amount, slope)| amount - step * slope).collect()
}
