//! Caloric properties of a single phase: energy, enthalpy, entropy, heat capacities, speed of sound.

use crate::equilibrium::Phase;
use crate::error::{Error, Result};
use crate::fluid::Fluid;
use crate::mixture::Vector;

/// Where enthalpy and entropy are given their customary values.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum Reference {
    /// International Institute of Refrigeration: 200 kJ/kg and 1 kJ/(kg K) for the liquid at its bubble
    /// point at 0 °C.
    #[default]
    Iir,
    /// ASHRAE: zero for the liquid at its bubble point at −40 °C.
    Ashrae,
    /// Zero for the liquid at its bubble point at 101 325 Pa; also what the other two fall back to where
    /// the fluid has no bubble point at their temperature.
    NormalBoilingPoint,
}

/// Properties of one phase at a temperature and a density.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct State {
    /// K
    pub temperature: f64,
    /// Pa
    pub pressure: f64,
    /// mol/m³
    pub density: f64,
    /// J/mol, from the reference state asked for.
    pub enthalpy: f64,
    /// J/(mol K), from the reference state asked for.
    pub entropy: f64,
    /// J/(mol K), at constant volume.
    pub isochoric_heat_capacity: f64,
    /// J/(mol K), at constant pressure.
    pub isobaric_heat_capacity: f64,
    /// m/s
    pub speed_of_sound: f64,
    /// (∂T/∂p) at constant enthalpy, K/Pa.
    pub joule_thomson: f64,
}

/// mol/m³: thinner than any vapour; less would meet the smallest numbers a computer has.
const LEAST_DENSITY: f64 = 1e-12;
/// J/kg
const IIR_ENTHALPY: f64 = 200e3;
/// J/(kg K)
const IIR_ENTROPY: f64 = 1e3;

impl Fluid {
    /// Properties of the blend as one phase at a temperature and a molar density.
    ///
    /// # Units
    /// `t` in K, `density` in mol/m³; results as the fields of [`State`] say.
    ///
    /// # Source
    /// Derivatives of the Helmholtz energy: Lemmon and Jacobsen, J. Phys. Chem. Ref. Data 33 (2004) 593,
    /// doi:10.1063/1.1649997, Table 4 (relations common to all reference equations).
    ///
    /// # Valid range
    /// [`temperature_range`](Self::temperature_range); a density of a stable single phase (not checked).
    ///
    /// # Accuracy
    /// The relations are exact; the equations are typically good to 0.5–1 % in heat capacity and speed of
    /// sound of the vapour (see the papers named by [`sources`](Self::sources)).
    ///
    /// # Errors
    /// A temperature outside the range, a density that is not above zero.
    ///
    /// # Example
    /// ```
    /// use kingvalve_fluid::{Fluid, Reference};
    /// let fluid = Fluid::pure("R-134a")?;
    /// let dew = fluid.dew_at_temperature(273.15)?;
    /// let vapour = fluid.state(273.15, dew.vapour.density, Reference::Iir)?;
    /// assert!((vapour.enthalpy / fluid.molar_mass() - 398.6e3).abs() < 0.1e3);
    /// # Ok::<(), kingvalve_fluid::Error>(())
    /// ```
    pub fn state(&self, t: f64, density: f64, reference: Reference) -> Result<State> {
        self.check_temperature(t)?;
        self.check_density(density)?;
        let (enthalpy_shift, entropy_shift) = self.reference_shift(reference)?;
        let mut state = self.raw_state(t, density, self.z());
        state.enthalpy += enthalpy_shift;
        state.entropy += entropy_shift;
        Ok(state)
    }

    /// Properties of one of the coexisting phases of a saturation point, at its own composition.
    ///
    /// # Errors
    /// As [`state`](Self::state).
    pub fn phase_state(&self, t: f64, phase: &Phase, reference: Reference) -> Result<State> {
        self.check_temperature(t)?;
        self.check_density(phase.density)?;
        let (enthalpy_shift, entropy_shift) = self.reference_shift(reference)?;
        let mut x = Vector::default();
        for (slot, fraction) in x.iter_mut().zip(&phase.mole_fractions) {
            *slot = *fraction;
        }
        let mut state = self.raw_state(t, phase.density, &x);
        state.enthalpy += enthalpy_shift;
        state.entropy += entropy_shift;
        Ok(state)
    }

    pub(crate) fn check_density(&self, density: f64) -> Result<()> {
        // No equation holds to three times the densest liquid.
        let most = 10.0 * self.model().reducing_point(self.z()).1;
        if density >= LEAST_DENSITY && density < most {
            Ok(())
        } else {
            Err(Error::out_of_range(self.label(), "density", "mol/m³", density, (LEAST_DENSITY, most)))
        }
    }

    /// What is added to the enthalpy and entropy of the papers' own ideal-gas parts.
    fn reference_shift(&self, reference: Reference) -> Result<(f64, f64)> {
        self.cached_shift(reference, || {
            let at = |saturation: crate::Saturation, enthalpy: f64, entropy: f64| {
                let liquid = self.raw_state(saturation.temperature, saturation.liquid.density, self.z());
                (enthalpy - liquid.enthalpy, entropy - liquid.entropy)
            };
            let mass = self.molar_mass();
            let customary = match reference {
                Reference::Iir => self
                    .bubble_at_temperature(273.15)
                    .map(|saturation| at(saturation, IIR_ENTHALPY * mass, IIR_ENTROPY * mass)),
                Reference::Ashrae => {
                    self.bubble_at_temperature(233.15).map(|saturation| at(saturation, 0.0, 0.0))
                }
                Reference::NormalBoilingPoint => Err(Error::composition("no customary temperature")),
            };
            customary.or_else(|_| {
                let (low, _) = self.trace(crate::Line::Bubble)?.pressures();
                let boiling = self.bubble_at_pressure(low.max(101_325.0))?;
                Ok(at(boiling, 0.0, 0.0))
            })
        })
    }

    /// Enthalpy (J/mol, IIR) and its slope d/dT along a line on which the density changes as given.
    pub(crate) fn enthalpy_along(&self, t: f64, density: f64, density_slope: f64) -> Result<(f64, f64)> {
        let state = self.state(t, density, Reference::Iir)?;
        let r = self.model().gas_constant;
        let residual = self.model().alpha(t, density, self.z());
        // (∂h/∂T)ρ = c_v + R(1 + αʳ_d − αʳ_td);  ρ(∂h/∂ρ)_T = RT(αʳ_td + αʳ_dd)
        let in_t = state.isochoric_heat_capacity + r * (1.0 + residual.d - residual.td);
        let in_ln_rho = r * t * (residual.td + residual.dd);
        Ok((state.enthalpy, in_t + in_ln_rho * density_slope / density))
    }

    /// The properties with the papers' own constants of integration.
    pub(crate) fn raw_state(&self, t: f64, density: f64, x: &Vector) -> State {
        let model = self.model();
        let r = model.gas_constant;
        let residual = model.alpha(t, density, x);
        // α⁰ of the mixture, and its derivatives in ln τ, in units of the mixture's R.
        let (mut ideal, mut ideal_t, mut ideal_tt) = (0.0, 0.0, 0.0);
        for (fluid, x) in model.components.iter().zip(x) {
            let part = fluid.ideal.at(fluid.reducing.temperature / t);
            let weight = x * fluid.gas_constant / r;
            // A component's own R scales its heat capacity; what compressing and mixing cost is the mixture's R, or
            // entropy and pressure would not belong together.
            ideal += weight * part.value + x * ((density / fluid.reducing.density).ln() + x.ln());
            ideal_t += weight * part.t;
            ideal_tt += weight * part.tt;
        }
        let t_sum = ideal_t + residual.t;
        let pressure_factor = 1.0 + residual.d;
        let slope_in_t = 1.0 + residual.d - residual.td;
        let slope_in_rho = 1.0 + residual.d + residual.dd;
        let cv = t_sum - ideal_tt - residual.tt;
        let cp = cv + slope_in_t * slope_in_t / slope_in_rho;
        let molar_mass: f64 = model.components.iter().zip(x).map(|(fluid, x)| fluid.molar_mass * x).sum();
        let sound_squared = r * t / molar_mass * (slope_in_rho + slope_in_t * slope_in_t / cv);
        State {
            temperature: t,
            pressure: density * r * t * pressure_factor,
            density,
            enthalpy: r * t * (t_sum + pressure_factor),
            entropy: r * (t_sum - ideal - residual.value),
            isochoric_heat_capacity: r * cv,
            isobaric_heat_capacity: r * cp,
            speed_of_sound: sound_squared.sqrt(),
            joule_thomson: (slope_in_t / slope_in_rho - 1.0) / (density * r * cp),
        }
    }
}
