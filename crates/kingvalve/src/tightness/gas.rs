//! A gas, as far as leaks are concerned: its molar mass and its viscosity.

use super::viscosity;
use crate::quantity::{Quantity, Temperature, Viscosity, kelvins};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// A gas that leaks.
///
/// # Example
/// ```
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// use kingvalve::tightness::LeakGas;
/// let r = LeakGas::of(&Refrigerant::named("R-410A")?);
/// assert_eq!(format!("{:.1}", r.viscosity(celsius(25.0))?), "13.4 µPa·s");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct LeakGas {
    name: String,
    /// kg/mol
    molar_mass: f64,
    viscosity: Source,
}

#[derive(Debug, Clone, PartialEq)]
enum Source {
    Given(Viscosity),
    /// Components by name, with mole fraction and molar mass.
    Table(Vec<(String, f64, f64)>),
}

impl LeakGas {
    fn pure(name: &str, table: &str, molar_mass: f64) -> Self {
        let viscosity = Source::Table(vec![(table.to_owned(), 1.0, molar_mass)]);
        LeakGas { name: name.to_owned(), molar_mass, viscosity }
    }

    /// Nitrogen. Molar mass: CIAAW standard atomic weights.
    pub fn nitrogen() -> Self {
        LeakGas::pure("nitrogen", "R-728", 28.014e-3)
    }

    /// Helium. Molar mass: CIAAW standard atomic weights.
    pub fn helium() -> Self {
        LeakGas::pure("helium", "R-704", 4.0026e-3)
    }

    /// Hydrogen. Molar mass: CIAAW standard atomic weights.
    pub fn hydrogen() -> Self {
        LeakGas::pure("hydrogen", "R-702", 2.016e-3)
    }

    /// Dry air, what leaks into a vacuum. Molar mass: U.S. Standard Atmosphere 1976.
    pub fn air() -> Self {
        LeakGas::pure("air", "R-729", 28.9644e-3)
    }

    /// The vapour of a refrigerant.
    pub fn of(refrigerant: &Refrigerant) -> Self {
        let fluid = refrigerant.fluid();
        let pure_mass = |mass: f64, mole: f64| fluid.molar_mass() * mass / mole;
        let parts = fluid
            .components()
            .zip(fluid.mole_fractions().iter().zip(fluid.mass_fractions()))
            .map(|(name, (mole, mass))| (name.to_owned(), *mole, pure_mass(*mass, *mole)))
            .collect();
        LeakGas {
            name: refrigerant.designation().to_owned(),
            molar_mass: fluid.molar_mass(),
            viscosity: Source::Table(parts),
        }
    }

    /// With a viscosity of one's own, for gases the table does not have.
    ///
    /// # Errors
    /// A viscosity that is not above zero.
    pub fn with_viscosity(mut self, viscosity: Viscosity) -> Result<Self> {
        if !(viscosity.base() > 0.0 && viscosity.is_finite()) {
            return Err(Error::out_of_range(
                format!("viscosity of {}", self.name),
                viscosity,
                "it is above zero",
                "check the value and its unit",
            ));
        }
        self.viscosity = Source::Given(viscosity);
        Ok(self)
    }

    /// What it is called.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// kg/mol: plumbing between files of the room.
    pub(super) fn molar_mass(&self) -> f64 {
        self.molar_mass
    }

    /// Its viscosity at low pressure.
    ///
    /// # Units
    /// Temperature in any unit; a dynamic viscosity.
    /// # Source
    /// CoolProp 8.0.0 at 0 °C and 50 °C, a power law between; blends by Wilke, J. Chem. Phys. 18 (1950) 517.
    /// # Valid range
    /// −30 °C to 70 °C.
    /// # Accuracy
    /// The power law follows CoolProp to 0.4 % between the two; blends lie within 5 % of
    /// CoolProp's own for R-404A, R-407C, R-410A and R-507A; the
    /// pressure inside a system raises the viscosity of the vapour by up to some 15 % near saturation, not counted.
    /// # Errors
    /// A temperature outside the range; a component the table does not have, unless a viscosity was
    /// [given](LeakGas::with_viscosity).
    /// # Example
    /// See [`LeakGas`].
    pub fn viscosity(&self, t: Temperature) -> Result<Viscosity> {
        let (low, high) = viscosity::RANGE;
        if !(low..=high).contains(&t.base()) {
            return Err(Error::out_of_range(
                "temperature of the leaking gas",
                t,
                format!("viscosities are known from {:.0} to {:.0}", kelvins(low), kelvins(high)),
                "check the temperature and its unit",
            ));
        }
        let parts = match &self.viscosity {
            Source::Given(viscosity) => return Ok(*viscosity),
            Source::Table(parts) => parts,
        };
        let known: Vec<(f64, f64, f64)> = parts
            .iter()
            .map(|(name, x, m)| {
                let eta = viscosity::of_pure(name, t).ok_or_else(|| {
                    Error::inconsistent(
                        format!("viscosity of {}", self.name),
                        format!("the table has none for {name}"),
                        "give its vapour viscosity (LeakGas::with_viscosity)",
                    )
                })?;
                Ok((*x, *m, eta))
            })
            .collect::<Result<_>>()?;
        Ok(viscosity::of_mixture(&known))
    }
}
