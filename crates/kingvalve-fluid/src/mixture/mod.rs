//! The multi-fluid mixture model: αʳ(τ, δ, x) = Σ xᵢ αʳᵢ(τ, δ) + Σᵢ<ⱼ xᵢ xⱼ Fᵢⱼ αʳᵢⱼ(τ, δ).
//!
//! Everything is expressed by A(T, ρ⃗) = ρ αʳ, a function of temperature and of the molar densities ρᵢ
//! of the components. Pressure, fugacities and their derivatives are then plain derivatives of A, with no
//! mole fractions to hold fixed, and a pure fluid is the case of one component.
//!
//! Source: Lemmon and Jacobsen, J. Phys. Chem. Ref. Data 33 (2004) 593, doi:10.1063/1.1649997; Kunz and
//! Wagner, J. Chem. Eng. Data 57 (2012) 3032, doi:10.1021/je300655b; the isochoric form of the equations
//! from Deiters and Bell, Fluid Phase Equilib. 447 (2017) 107, doi:10.1016/j.fluid.2017.03.022.

pub(crate) mod model;
pub(crate) mod reducing;

pub(crate) use model::Model;

/// The most components a blend may have. (Listed refrigerant blends have at most seven.)
pub const MAX_COMPONENTS: usize = 8;

/// One number per component; those past the number of components are zero.
pub(crate) type Vector = [f64; MAX_COMPONENTS];
/// One row per component.
pub(crate) type Matrix = [Vector; MAX_COMPONENTS];

/// A(T, ρ⃗) = ρ αʳ with its derivatives; `θ` stands for ln T.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Residual {
    /// Sum of the molar densities, mol/m³.
    pub density: f64,
    /// ∂A/∂ρₖ, the residual chemical potential over RT.
    pub gradient: Vector,
    /// ∂²A/∂ρₖ∂ρₗ, m³/mol.
    pub hessian: Matrix,
    /// ∂²A/∂ρₖ∂θ.
    pub gradient_theta: Vector,
    /// ρ ∂αʳ/∂ln δ: the residual part of p/RT, mol/m³.
    pub a_delta: f64,
    pub a_delta_delta: f64,
    pub a_tau_delta: f64,
}

impl Residual {
    /// p/RT, mol/m³.
    pub fn reduced_pressure(&self) -> f64 {
        self.density + self.a_delta
    }

    /// ∂(p/RT)/∂ln ρ at constant composition, mol/m³.
    pub fn pressure_slope(&self) -> f64 {
        self.density + self.a_delta + self.a_delta_delta
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::panic)]
mod tests;
