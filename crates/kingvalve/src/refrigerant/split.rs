//! Liquid and vapour side by side: how much of each, and what each is made of.

use kingvalve_fluid::{Phase, Reference};

use super::Refrigerant;
use crate::Result;
use crate::quantity::{Pressure, Ratio, SpecificEnergy, Temperature, kelvins, pascals, percent};

/// A refrigerant as liquid and vapour, or as one of them.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Split {
    /// Temperature of both.
    pub temperature: Temperature,
    /// Absolute pressure of both.
    pub pressure: Pressure,
    /// The vapour's share by mass (the quality): 0 all liquid, 100 % all vapour.
    pub vapour_share: Ratio,
    /// Components of the liquid and their shares by mass; empty where there is none.
    pub liquid: Vec<(String, Ratio)>,
    /// Components of the vapour and their shares by mass; empty where there is none.
    pub vapour: Vec<(String, Ratio)>,
}

impl Refrigerant {
    /// What a blend is at a pressure and a temperature: inside its glide, how much of it is vapour, and the
    /// composition of both.
    ///
    /// # Units
    /// Absolute pressure and temperature in; shares by mass out.
    /// # Source
    /// Equal fugacities in both phases: [`Fluid::split`](kingvalve_fluid::Fluid::split).
    /// # Valid range
    /// Temperatures of the saturation curve; pressures of the equation.
    /// # Accuracy
    /// Solved to 10⁻⁹; the glide itself is good to some tenths of a kelvin, and the quality to that over the glide.
    /// # Errors
    /// Outside the range. A refrigerant of one component at its saturation pressure can be anything from liquid to
    /// vapour: ask [`split_at_enthalpy`](Self::split_at_enthalpy).
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-407C")?;
    /// let p = psia(100.0);
    /// let middle = r.bubble_temperature(p)? + 0.5 * r.glide(p)?;
    /// let split = r.split(p, middle)?;
    /// assert!(split.vapour_share > percent(40.0) && split.vapour_share < percent(60.0));
    /// // The vapour is richer in R-32, the most volatile of the three.
    /// assert!(split.vapour[0].1 > split.liquid[0].1);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn split(&self, p: Pressure, t: Temperature) -> Result<Split> {
        let split = self.fluid().split(t.kelvins(), p.pascals()).map_err(|error| self.failed(&error))?;
        Ok(self.split_by_mass(split))
    }

    /// What it is at a pressure and an enthalpy: after an expansion valve, at the pressure behind it and the enthalpy
    /// before it.
    ///
    /// # Units
    /// Absolute pressure and enthalpy from the IIR reference state in; shares by mass out.
    /// # Source
    /// Throttling changes no enthalpy: [`Fluid::split_at_enthalpy`](kingvalve_fluid::Fluid::split_at_enthalpy).
    /// # Valid range
    /// Pressures of the saturation curve.
    /// # Accuracy
    /// The enthalpy is met to 10⁻⁶ of the latent heat.
    /// # Errors
    /// Outside the range.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-410A")?;
    /// let liquid = r.state(psia(380.0), fahrenheit(98.0))?;
    /// let behind_the_valve = r.split_at_enthalpy(psia(133.0), liquid.enthalpy)?;
    /// assert!(behind_the_valve.vapour_share > percent(18.0) && behind_the_valve.vapour_share < percent(26.0));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn split_at_enthalpy(&self, p: Pressure, enthalpy: SpecificEnergy) -> Result<Split> {
        let molar = enthalpy.joules_per_kilogram() * self.fluid().molar_mass();
        let split = self
            .fluid()
            .split_at_enthalpy(p.pascals(), molar, Reference::Iir)
            .map_err(|error| self.failed(&error))?;
        Ok(self.split_by_mass(split))
    }

    fn split_by_mass(&self, split: kingvalve_fluid::Split) -> Split {
        let fluid = self.fluid();
        let mass = |phase: &Option<Phase>, moles: f64| {
            phase.as_ref().map_or(0.0, |phase| moles * fluid.molar_mass_of(phase))
        };
        let vapour = mass(&split.vapour, split.vapour_fraction);
        let liquid = mass(&split.liquid, 1.0 - split.vapour_fraction);
        let shares = |phase: &Option<Phase>| {
            phase.as_ref().map_or_else(Vec::new, |phase| {
                let shares = fluid.mass_fractions_of(phase);
                let named = fluid.components().zip(shares);
                named.map(|(name, share)| (name.to_owned(), percent(100.0 * share))).collect()
            })
        };
        Split {
            temperature: kelvins(split.temperature),
            pressure: pascals(split.pressure),
            vapour_share: percent(100.0 * vapour / (vapour + liquid)),
            liquid: shares(&split.liquid),
            vapour: shares(&split.vapour),
        }
    }
}
