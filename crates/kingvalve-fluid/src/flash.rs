//! What a given amount splits into: liquid and vapour at a temperature and a pressure, or at a pressure and an
//! enthalpy. (At a temperature and a total density: [`crate::closed_volume`].)
//!
//! Source: successive substitution in the equilibrium ratios with the Rachford–Rice balance, Michelsen and
//! Mollerup, Thermodynamic Models: Fundamentals and Computational Aspects, 2nd ed., 2007, chapter 10.

use crate::density;
use crate::equilibrium::{Phase, Saturation};
use crate::error::{Error, Result};
use crate::fluid::Fluid;
use crate::mixture::Vector;
use crate::root::brent;
use crate::state::Reference;

/// A liquid and a vapour of given overall composition.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Split {
    /// K
    pub temperature: f64,
    /// Pa
    pub pressure: f64,
    /// Moles of vapour per mole: 0 all liquid, 1 all vapour.
    pub vapour_fraction: f64,
    /// The liquid; at a vapour fraction of 1, the first drop or, away from saturation, nothing.
    pub liquid: Option<Phase>,
    /// The vapour; at a vapour fraction of 0, the first bubble or, away from saturation, nothing.
    pub vapour: Option<Phase>,
}

impl Split {
    /// Molar density of the whole, mol/m³.
    pub fn density(&self) -> f64 {
        let volume = |phase: &Option<Phase>, amount: f64| match phase {
            Some(phase) if amount > 0.0 => amount / phase.density,
            _ => 0.0,
        };
        1.0 / (volume(&self.liquid, 1.0 - self.vapour_fraction) + volume(&self.vapour, self.vapour_fraction))
    }
}

const MOST_ITERATIONS: usize = 200;
const TOLERANCE: f64 = 1e-12;

impl Fluid {
    /// Liquid and vapour at a temperature and a pressure.
    ///
    /// # Units
    /// K, Pa (absolute).
    ///
    /// # Source
    /// Equal fugacities at the given pressure, by successive substitution (see the module's source).
    ///
    /// # Valid range
    /// Temperatures of the saturation lines; any pressure up to [`pressure_max`](Self::pressure_max).
    ///
    /// # Accuracy
    /// Fugacities agree to 10⁻¹⁰.
    ///
    /// # Errors
    /// Outside the range. A pure fluid at its saturation pressure has no single answer: ask
    /// [`split_at_density`](Self::split_at_density) or [`split_at_enthalpy`](Self::split_at_enthalpy).
    pub fn split(&self, t: f64, p: f64) -> Result<Split> {
        self.check_pressure(p)?;
        let bubble = self.bubble_at_temperature(t)?;
        let dew = self.dew_at_temperature(t)?;
        if p >= bubble.pressure || p <= dew.pressure {
            let phase =
                Phase { density: self.density(t, p)?, mole_fractions: self.mole_fractions().to_vec() };
            let liquid = p >= bubble.pressure;
            return Ok(single_phase(t, p, phase, liquid));
        }
        // Equilibrium ratios between those at the bubble and at the dew point.
        let share = (bubble.pressure - p) / (bubble.pressure - dew.pressure);
        let n = self.model().size();
        let mut ratios = Vector::default();
        for k in 0..n {
            let at = |s: &Saturation| s.vapour.mole_fractions[k] / s.liquid.mole_fractions[k];
            ratios[k] = at(&bubble).powf(1.0 - share) * at(&dew).powf(share);
        }
        self.substitute(t, p, ratios, share)
            .or_else(|| self.split_by_volume(t, p, &bubble, &dew))
            .ok_or_else(|| Error::not_converged(self.label(), "split", format!("{t} K and {p} Pa")))
    }

    /// Where substitution does not converge (nearly azeotropic, or close to two liquids): the closed volume that has
    /// this pressure.
    fn split_by_volume(&self, t: f64, p: f64, bubble: &Saturation, dew: &Saturation) -> Option<Split> {
        let at = |ln_density: f64| self.shared_volume(t, ln_density.exp(), bubble, dew);
        let excess = |ln_density: f64| Some((self.shared_pressure(t, &at(ln_density)?) / p).ln());
        let inside = 1e-7;
        let (thin, dense) = (dew.vapour.density.ln() + inside, bubble.liquid.density.ln() - inside);
        let ln_density = match (excess(thin)?, excess(dense)?) {
            // Closer to an end than the ends were taken.
            (above, _) if above >= 0.0 => thin,
            (_, below) if below <= 0.0 => dense,
            _ => brent(thin, dense, 1e-13, excess)?,
        };
        Some(self.split_of(t, ln_density.exp(), &at(ln_density)?))
    }

    fn substitute(&self, t: f64, p: f64, mut ratios: Vector, share: f64) -> Option<Split> {
        let (model, z, n) = (self.model(), self.z(), self.model().size());
        let mut fraction = share;
        for _ in 0..MOST_ITERATIONS {
            fraction = rachford_rice(&z[..n], &ratios[..n], fraction)?;
            let (mut x, mut y) = (Vector::default(), Vector::default());
            for k in 0..n {
                x[k] = z[k] / (1.0 + fraction * (ratios[k] - 1.0));
                y[k] = x[k] * ratios[k];
            }
            let (sum_x, sum_y) = (x.iter().sum::<f64>(), y.iter().sum::<f64>());
            let (x, y) = (x.map(|x| x / sum_x), y.map(|y| y / sum_y));
            let liquid = density::liquid(model, t, p, &x)?;
            let vapour = density::vapour(model, t, p, &y)?;
            let in_liquid = model.residual(t, &x.map(|x| x * liquid));
            let in_vapour = model.residual(t, &y.map(|y| y * vapour));
            let mut change = 0.0_f64;
            for k in 0..n {
                let next = liquid / vapour * (in_liquid.gradient[k] - in_vapour.gradient[k]).exp();
                change = change.max((next / ratios[k] - 1.0).abs());
                ratios[k] = next;
            }
            if change < TOLERANCE {
                let phase = |density: f64, x: &Vector| Phase { density, mole_fractions: x[..n].to_vec() };
                return Some(Split {
                    temperature: t,
                    pressure: p,
                    vapour_fraction: fraction,
                    liquid: Some(phase(liquid, &x)),
                    vapour: Some(phase(vapour, &y)),
                });
            }
        }
        None
    }

    /// Liquid and vapour at a pressure and a molar enthalpy: a state after throttling.
    ///
    /// # Units
    /// Pa (absolute), J/mol from `reference`.
    ///
    /// # Source
    /// The temperature at which [`split`](Self::split) has the enthalpy given.
    ///
    /// # Valid range
    /// Pressures of the saturation lines, temperatures of the equation.
    ///
    /// # Accuracy
    /// The enthalpy is met to 10⁻⁶ J/mol.
    ///
    /// # Errors
    /// Outside the range.
    pub fn split_at_enthalpy(&self, p: f64, enthalpy: f64, reference: Reference) -> Result<Split> {
        let bubble = self.bubble_at_pressure(p)?;
        let dew = self.dew_at_pressure(p)?;
        let liquid = self.phase_state(bubble.temperature, &bubble.liquid, reference)?.enthalpy;
        let vapour = self.phase_state(dew.temperature, &dew.vapour, reference)?.enthalpy;
        let (low, high) = self.temperature_range();
        let fail = || Error::not_converged(self.label(), "split", format!("{p} Pa and {enthalpy} J/mol"));
        if !enthalpy.is_finite() {
            return Err(Error::out_of_range(self.label(), "enthalpy", "J/mol", enthalpy, (liquid, vapour)));
        }
        if enthalpy >= vapour || enthalpy <= liquid {
            let ends = if enthalpy >= vapour { (dew.temperature, high) } else { (low, bubble.temperature) };
            let is_liquid = enthalpy <= liquid;
            let excess = |t: f64| {
                let density = self.single_phase_density(t, p, is_liquid).ok()?;
                Some(self.state(t, density, reference).ok()?.enthalpy - enthalpy)
            };
            let t = brent(ends.0, ends.1, 1e-10, excess).ok_or_else(|| {
                let at = |t: f64| excess(t).map_or(f64::NAN, |excess| excess + enthalpy);
                let range = if is_liquid { (at(low), vapour) } else { (liquid, at(high)) };
                Error::out_of_range(self.label(), "enthalpy", "J/mol", enthalpy, range)
            })?;
            let density = self.single_phase_density(t, p, is_liquid)?;
            let phase = Phase { density, mole_fractions: self.mole_fractions().to_vec() };
            return Ok(single_phase(t, p, phase, is_liquid));
        }
        if self.model().size() == 1 {
            let vapour_fraction = (enthalpy - liquid) / (vapour - liquid);
            return Ok(of_pure(bubble.temperature, bubble, vapour_fraction));
        }
        let excess = |t: f64| {
            // The ends are the bubble and the dew point themselves.
            if t <= bubble.temperature {
                return Some(liquid - enthalpy);
            }
            if t >= dew.temperature {
                return Some(vapour - enthalpy);
            }
            let split = self.split(t, p).ok()?;
            Some(self.enthalpy_of(&split, reference).ok()? - enthalpy)
        };
        let t = brent(bubble.temperature, dew.temperature, 1e-11, excess).ok_or_else(fail)?;
        self.split(t.clamp(bubble.temperature, dew.temperature), p)
    }

    /// Molar enthalpy of the whole, J/mol.
    ///
    /// # Errors
    /// As [`state`](Self::state).
    pub fn enthalpy_of(&self, split: &Split, reference: Reference) -> Result<f64> {
        let part = |phase: &Option<Phase>, amount: f64| match phase {
            Some(phase) if amount > 0.0 => {
                Ok(amount * self.phase_state(split.temperature, phase, reference)?.enthalpy)
            }
            _ => Ok(0.0),
        };
        Ok(part(&split.liquid, 1.0 - split.vapour_fraction)? + part(&split.vapour, split.vapour_fraction)?)
    }

    fn single_phase_density(&self, t: f64, p: f64, liquid: bool) -> Result<f64> {
        let critical = self.critical_point()?.temperature;
        let (model, z) = (self.model(), self.z());
        let root = if liquid {
            density::liquid(model, t, p, z)
        } else if t < critical {
            density::vapour(model, t, p, z)
        } else {
            return self.density(t, p);
        };
        root.ok_or_else(|| Error::not_converged(self.label(), "density", format!("{t} K and {p} Pa")))
    }
}

pub(crate) fn single_phase(temperature: f64, pressure: f64, phase: Phase, liquid: bool) -> Split {
    let (vapour_fraction, liquid, vapour) =
        if liquid { (0.0, Some(phase), None) } else { (1.0, None, Some(phase)) };
    Split { temperature, pressure, vapour_fraction, liquid, vapour }
}

pub(crate) fn of_pure(temperature: f64, saturation: Saturation, vapour_fraction: f64) -> Split {
    Split {
        temperature,
        pressure: saturation.pressure,
        vapour_fraction,
        liquid: Some(saturation.liquid),
        vapour: Some(saturation.vapour),
    }
}

/// The vapour fraction at which Σ zₖ(Kₖ−1)/(1+β(Kₖ−1)) = 0, kept inside its physical bracket.
fn rachford_rice(z: &[f64], ratios: &[f64], start: f64) -> Option<f64> {
    let at = |fraction: f64| {
        let (mut sum, mut slope) = (0.0, 0.0);
        for (z, k) in z.iter().zip(ratios) {
            let term = (k - 1.0) / (1.0 + fraction * (k - 1.0));
            sum += z * term;
            slope -= z * term * term;
        }
        (sum, slope)
    };
    let (mut low, mut high) = (0.0, 1.0);
    let mut fraction = start.clamp(0.0, 1.0);
    for _ in 0..60 {
        let (sum, slope) = at(fraction);
        if sum > 0.0 {
            low = fraction
        } else {
            high = fraction
        }
        let mut next = fraction - sum / slope;
        if !(next > low && next < high) {
            next = 0.5 * (low + high);
        }
        if (next - fraction).abs() < 1e-14 {
            return Some(next);
        }
        fraction = next;
    }
    fraction.is_finite().then_some(fraction)
}
