//! The residual Helmholtz energy itself, for checks against other implementations and for notebooks.

use crate::error::{Error, Result};
use crate::fluid::Fluid;
use crate::mixture::Vector;

/// αʳ = a^r/(RT) and its derivatives α_ij = τⁱ δʲ ∂ⁱ⁺ʲαʳ/∂τⁱ∂δʲ; all without unit.
///
/// From them follow, for example, p = ρRT(1 + α₀₁) and cᵥʳ = −R α₂₀.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ResidualHelmholtz {
    /// Reciprocal reduced temperature τ = T_r/T.
    pub tau: f64,
    /// Reduced density δ = ρ/ρ_r.
    pub delta: f64,
    /// αʳ
    pub alpha00: f64,
    /// δ ∂αʳ/∂δ
    pub alpha01: f64,
    /// δ² ∂²αʳ/∂δ²
    pub alpha02: f64,
    /// τ ∂αʳ/∂τ
    pub alpha10: f64,
    /// τδ ∂²αʳ/∂τ∂δ
    pub alpha11: f64,
    /// τ² ∂²αʳ/∂τ²
    pub alpha20: f64,
}

impl Fluid {
    /// The residual Helmholtz energy at a temperature and a molar density, with its derivatives.
    ///
    /// # Units
    /// `t` in K, `density` in mol/m³; results without unit.
    ///
    /// # Source
    /// The equations of the components ([`sources`](Self::sources)), joined by the multi-fluid model: Lemmon and
    /// Jacobsen, J. Phys. Chem. Ref. Data 33 (2004) 593, doi:10.1063/1.1649997; the notation α_ij of Bell and Jäger,
    /// J. Res. NIST 121 (2016) 238, doi:10.6028/jres.121.011.
    ///
    /// # Valid range
    /// [`temperature_range`](Self::temperature_range); any density above zero and below ten times the reducing density.
    /// Whether the state is stable is not checked: between bubble and dew there is an αʳ too.
    ///
    /// # Accuracy
    /// 10⁻¹² of the largest term against other implementations of the same equations.
    ///
    /// # Errors
    /// A temperature or a density outside the range ([`Error::is_out_of_range`]).
    ///
    /// # Example
    /// ```
    /// use kingvalve_fluid::{Fluid, Reference};
    /// let fluid = Fluid::pure("R-32")?;
    /// let alpha = fluid.residual_helmholtz(300.0, 1000.0)?;
    /// let pressure = 1000.0 * 8.314471 * 300.0 * (1.0 + alpha.alpha01); // with the paper's R
    /// assert!((fluid.state(300.0, 1000.0, Reference::Iir)?.pressure / pressure - 1.0).abs() < 1e-12);
    /// # Ok::<(), kingvalve_fluid::Error>(())
    /// ```
    pub fn residual_helmholtz(&self, t: f64, density: f64) -> Result<ResidualHelmholtz> {
        self.residual_helmholtz_of(t, density, self.mole_fractions())
    }

    /// [`residual_helmholtz`](Self::residual_helmholtz) of the same components in other shares: of one of two
    /// coexisting phases, or beside a composition, for derivatives in it.
    ///
    /// # Errors
    /// As [`residual_helmholtz`](Self::residual_helmholtz); mole fractions that are not one a component, lie below
    /// zero, or do not sum to one within 10⁻⁹ ([`Error::is_composition`]).
    ///
    /// # Example
    /// ```
    /// use kingvalve_fluid::{Basis, Fluid};
    /// let blend = Fluid::blend(&[("R-32", 0.5), ("R-125", 0.5)], Basis::Mole)?;
    /// let alone = Fluid::pure("R-125")?.residual_helmholtz(300.0, 500.0)?;
    /// let limit = blend.residual_helmholtz_of(300.0, 500.0, &[0.0, 1.0])?;
    /// assert!((limit.alpha00 / alone.alpha00 - 1.0).abs() < 1e-12);
    /// # Ok::<(), kingvalve_fluid::Error>(())
    /// ```
    pub fn residual_helmholtz_of(
        &self,
        t: f64,
        density: f64,
        mole_fractions: &[f64],
    ) -> Result<ResidualHelmholtz> {
        self.check_temperature(t)?;
        self.check_density(density)?;
        let x = self.checked_composition(mole_fractions)?;
        let (t_r, rho_r) = self.model().reducing_point(&x);
        let alpha = self.model().alpha(t, density, &x);
        Ok(ResidualHelmholtz {
            tau: t_r / t,
            delta: density / rho_r,
            alpha00: alpha.value,
            alpha01: alpha.d,
            alpha02: alpha.dd - alpha.d,
            alpha10: alpha.t,
            alpha11: alpha.td,
            alpha20: alpha.tt - alpha.t,
        })
    }

    /// Fugacity of each component at a temperature, a molar density and a composition.
    ///
    /// # Units
    /// `t` in K, `density` in mol/m³; Pa.
    ///
    /// # Source
    /// ln(fᵢ/(ρᵢRT)) = ∂(ραʳ)/∂ρᵢ at constant temperature: Deiters and Bell, Fluid Phase Equilib. 447 (2017) 107,
    /// doi:10.1016/j.fluid.2017.03.022.
    ///
    /// # Valid range
    /// As [`residual_helmholtz`](Self::residual_helmholtz), with every mole fraction above zero.
    ///
    /// # Accuracy
    /// As [`residual_helmholtz`](Self::residual_helmholtz).
    ///
    /// # Errors
    /// As [`residual_helmholtz_of`](Self::residual_helmholtz_of), and a mole fraction of zero.
    ///
    /// # Example
    /// ```
    /// use kingvalve_fluid::Fluid;
    /// let fluid = Fluid::pure("R-32")?;
    /// let gas = fluid.fugacities(300.0, 0.01, &[1.0])?[0];
    /// assert!((gas / (0.01 * 8.314471 * 300.0) - 1.0).abs() < 1e-5); // an ideal gas
    /// # Ok::<(), kingvalve_fluid::Error>(())
    /// ```
    pub fn fugacities(&self, t: f64, density: f64, mole_fractions: &[f64]) -> Result<Vec<f64>> {
        self.check_temperature(t)?;
        self.check_density(density)?;
        let x = self.checked_composition(mole_fractions)?;
        if mole_fractions.contains(&0.0) {
            return Err(Error::composition("a mole fraction is zero; leave the component out"));
        }
        let model = self.model();
        let residual = model.residual(t, &x.map(|x| x * density));
        let ideal = density * model.gas_constant * t;
        Ok((0..model.size()).map(|k| x[k] * ideal * residual.gradient[k].exp()).collect())
    }

    fn checked_composition(&self, mole_fractions: &[f64]) -> Result<Vector> {
        let size = self.model().size();
        if mole_fractions.len() != size {
            return Err(Error::composition(format!(
                "{} mole fractions given for {size} components",
                mole_fractions.len()
            )));
        }
        if let Some(bad) = mole_fractions.iter().find(|x| !(x.is_finite() && **x >= 0.0)) {
            return Err(Error::composition(format!("mole fraction {bad} is below zero or no number")));
        }
        let sum: f64 = mole_fractions.iter().sum();
        if (sum - 1.0).abs() > 1e-9 {
            return Err(Error::composition(format!("mole fractions sum to {sum}, not to 1")));
        }
        let mut x = Vector::default();
        for (slot, fraction) in x.iter_mut().zip(mole_fractions) {
            *slot = *fraction;
        }
        Ok(x)
    }
}
