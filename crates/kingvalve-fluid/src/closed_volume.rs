//! Liquid and vapour in a closed volume: what a temperature and an overall density split into.

use crate::density;
use crate::equilibrium::shared_volume::{self, SharedVolume};
use crate::equilibrium::{Phase, Saturation};
use crate::error::{Error, Result};
use crate::flash::{Split, of_pure, single_phase};
use crate::fluid::Fluid;
use crate::mixture::Vector;

/// Where a march from the bubble point sets out.
const FIRST_BUBBLE: f64 = 1e-6;
/// Halvings of a march's way.
const DEEPEST: u32 = 12;

impl Fluid {
    /// Liquid and vapour in a closed volume: at a temperature and an overall molar density.
    ///
    /// # Units
    /// K, mol/m³ of the whole volume.
    ///
    /// # Source
    /// Equal fugacities and pressures of the phases that together fill the volume, by Newton's iteration; the
    /// conditions are those of Mikyška and Firoozabadi, Fluid Phase Equilib. 321 (2012) 1,
    /// doi:10.1016/j.fluid.2012.01.026.
    ///
    /// # Valid range
    /// Temperatures of the saturation lines.
    ///
    /// # Accuracy
    /// The volume is met exactly, fugacities agree to 10⁻⁹.
    ///
    /// # Errors
    /// Outside the range, or a density above that of the liquid at the highest pressure.
    pub fn split_at_density(&self, t: f64, density: f64) -> Result<Split> {
        let bubble = self.bubble_at_temperature(t)?;
        let dew = self.dew_at_temperature(t)?;
        self.check_density(density)?;
        let most = 3.0 * bubble.liquid.density;
        if density >= most {
            return Err(Error::out_of_range(self.label(), "density", "mol/m³", density, (0.0, most)));
        }
        if density >= bubble.liquid.density || density <= dew.vapour.density {
            let phase = Phase { density, mole_fractions: self.mole_fractions().to_vec() };
            let p = self.raw_state(t, density, self.z()).pressure;
            return Ok(single_phase(t, p, phase, density >= bubble.liquid.density));
        }
        if self.model().size() == 1 {
            let vapour_fraction = vapour_fraction(density, &bubble, &bubble);
            return Ok(of_pure(t, bubble, vapour_fraction));
        }
        let phases = self.shared_volume(t, density, &bubble, &dew).ok_or_else(|| {
            Error::not_converged(self.label(), "split", format!("{t} K and {density} mol/m³"))
        })?;
        Ok(self.split_of(t, density, &phases))
    }

    /// The two phases of this composition between its bubble and its dew density.
    pub(crate) fn shared_volume(
        &self,
        t: f64,
        density: f64,
        bubble: &Saturation,
        dew: &Saturation,
    ) -> Option<SharedVolume> {
        let fraction = vapour_fraction(density, bubble, dew);
        let content = self.z().map(|z| z * density);
        if let Some(guess) = self.between(t, fraction, bubble, dew)
            && let Some(phases) = shared_volume::solve(self.model(), t, &content, &guess)
        {
            return Some(phases);
        }
        let first = self.between(t, FIRST_BUBBLE, bubble, dew)?;
        self.march(t, 0.0, fraction, &first, bubble, dew, 0)
    }

    /// From the phases at one vapour fraction to those at another, halving the way where that fails.
    #[allow(clippy::too_many_arguments, reason = "private recursion")]
    fn march(
        &self,
        t: f64,
        from: f64,
        to: f64,
        phases: &SharedVolume,
        bubble: &Saturation,
        dew: &Saturation,
        depth: u32,
    ) -> Option<SharedVolume> {
        let density = 1.0 / (to / dew.vapour.density + (1.0 - to) / bubble.liquid.density);
        let content = self.z().map(|z| z * density);
        let solved = shared_volume::solve(self.model(), t, &content, phases);
        if solved.is_some() || depth > DEEPEST {
            return solved;
        }
        let middle = 0.5 * (from + to);
        let half = self.march(t, from, middle, phases, bubble, dew, depth + 1)?;
        self.march(t, middle, to, &half, bubble, dew, depth + 1)
    }

    /// Phases between those of the bubble and of the dew point: a guess that need not balance.
    fn between(&self, t: f64, fraction: f64, bubble: &Saturation, dew: &Saturation) -> Option<SharedVolume> {
        let n = self.model().size();
        let mixed = |first: f64, last: f64| first.powf(1.0 - fraction) * last.powf(fraction);
        let (mut x, mut y) = (Vector::default(), Vector::default());
        for k in 0..n {
            let ratio = |at: &Saturation| at.vapour.mole_fractions[k] / at.liquid.mole_fractions[k];
            let ratio = mixed(ratio(bubble), ratio(dew));
            x[k] = self.z()[k] / (1.0 + fraction * (ratio - 1.0));
            y[k] = x[k] * ratio;
        }
        let (sum_x, sum_y) = (x.iter().sum::<f64>(), y.iter().sum::<f64>());
        let (x, y) = (x.map(|x| x / sum_x), y.map(|y| y / sum_y));
        let p = mixed(bubble.pressure, dew.pressure);
        let dense = density::liquid(self.model(), t, p, &x)?;
        let thin = density::vapour(self.model(), t, p, &y)?;
        let ln_ratio = (fraction / (1.0 - fraction) * dense / thin).ln();
        Some(SharedVolume { liquid: x.map(|x| x * dense), vapour: y.map(|y| y * thin), ln_ratio })
    }

    /// Pressure of the phases, by the vapour, where rounding hurts least, Pa.
    pub(crate) fn shared_pressure(&self, t: f64, phases: &SharedVolume) -> f64 {
        self.model().residual(t, &phases.vapour).reduced_pressure() * self.model().gas_constant * t
    }

    pub(crate) fn split_of(&self, t: f64, density: f64, phases: &SharedVolume) -> Split {
        let n = self.model().size();
        let phase = |densities: &Vector| {
            let density: f64 = densities.iter().sum();
            Phase { density, mole_fractions: densities[..n].iter().map(|part| part / density).collect() }
        };
        let vapour = phase(&phases.vapour);
        Split {
            temperature: t,
            pressure: self.shared_pressure(t, phases),
            vapour_fraction: phases.vapour_share() * vapour.density / density,
            liquid: Some(phase(&phases.liquid)),
            vapour: Some(vapour),
        }
    }
}

/// Moles of vapour per mole if the phases had the densities of the bubble liquid and the dew vapour.
fn vapour_fraction(density: f64, bubble: &Saturation, dew: &Saturation) -> f64 {
    let (liquid, vapour) = (1.0 / bubble.liquid.density, 1.0 / dew.vapour.density);
    (1.0 / density - liquid) / (vapour - liquid)
}
