//! The heel: what stays in a cylinder that is called empty.

use std::fmt;

use super::Cylinder;
use super::vessel::measured;
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured};
use crate::quantity::{Density, Mass, Pressure, PressureDifference, Quantity, Ratio, Temperature, percent};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// What the pressure of an "empty" cylinder says of what is in it.
///
/// # Example
/// ```
/// use kingvalve::cylinder::{Cylinder, Heel, HeelState};
/// use kingvalve::measure::{Level, Measured};
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let r = Refrigerant::named("R-410A")?;
/// let cylinder = Cylinder::stamped(pounds(6.5), pounds(26.2))?;
/// let p = Measured::from_standard(psia(114.7), psi(1.0), "gauge")?;
/// let t = Measured::from_standard(fahrenheit(85.0), delta_fahrenheit(1.0), "thermometer")?;
/// let heel = Heel::of(&r, &cylinder, &p, &t, Level::default())?;
/// assert_eq!(heel.state(), HeelState::AllVapour);
/// assert_eq!(format!("{:.2}", heel.vapour().value()), "0.67 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Heel {
    state: HeelState,
    vapour: Measured<Mass>,
    refrigerant: Refrigerant,
}

/// Whether there is only vapour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum HeelState {
    /// Below the dew pressure beyond doubt: vapour alone, so the mass is known.
    AllVapour,
    /// Not shown to be below it: liquid may be there, and the mass of vapour is the least there is.
    LiquidPossible,
    /// Above the bubble pressure beyond doubt: air, another refrigerant, or a temperature that has not settled.
    NotThisRefrigerantAlone,
}

impl HeelState {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            HeelState::AllVapour => "all_vapour",
            HeelState::LiquidPossible => "liquid_possible",
            HeelState::NotThisRefrigerantAlone => "not_this_refrigerant_alone",
        }
    }
}

impl Heel {
    /// Reads a cylinder's pressure and temperature: mass of vapour = volume × ρ(p, T), or × ρ at the dew point where
    /// liquid may be there.
    ///
    /// # Units
    /// Absolute pressure, temperature of the cylinder.
    /// # Source
    /// Density from the equation of state; conformity by JCGM 106:2012.
    /// # Valid range
    /// Settled: the cylinder as warm as the place it stands in, no frost on it.
    /// # Accuracy
    /// Vapour densities are good to 0.5 %; the doubt of pressure, temperature and water capacity is carried.
    /// # Errors
    /// Pressures and temperatures outside the equation.
    /// # Example
    /// See [`Heel`].
    pub fn of(
        refrigerant: &Refrigerant,
        cylinder: &Cylinder,
        pressure: impl Known<Pressure>,
        temperature: impl Known<Temperature>,
        level: Level,
    ) -> Result<Heel> {
        let (p, t) = (measured(&pressure), measured(&temperature));
        let against = |saturation: Measured<Pressure>| {
            Limits::at_most(PressureDifference::ZERO)?.judge(p.clone() - saturation, level)
        };
        let density: Measured<Density>;
        let state = if against(refrigerant.dew_pressure(&t)?)?.is_within() {
            density = refrigerant.density(&p, &t)?;
            HeelState::AllVapour
        } else if against(refrigerant.bubble_pressure(&t)?)?.is_outside() {
            density = refrigerant.dew_density(&t)?;
            HeelState::NotThisRefrigerantAlone
        } else {
            density = refrigerant.dew_density(&t)?;
            HeelState::LiquidPossible
        };
        let vapour = density * cylinder.volume();
        Ok(Heel { state, vapour, refrigerant: refrigerant.clone() })
    }

    /// Reads the heel of a cylinder that was emptied as vapour: a blend left behind what its vapour did not carry off.
    ///
    /// # Units
    /// As [`Heel::of`]; `filled` is what was in the cylinder at first.
    /// # Source
    /// As [`Heel::of`] and [`left_after_vapour`], mass and composition found together.
    /// # Valid range
    /// As both.
    /// # Accuracy
    /// As both; the doubt of the composition is not counted.
    /// # Errors
    /// As both.
    /// # Example
    /// ```
    /// use kingvalve::cylinder::{Cylinder, Heel, HeelState};
    /// use kingvalve::measure::Level;
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-407C")?;
    /// let cylinder = Cylinder::stamped(pounds(6.5), pounds(26.2))?;
    /// let heel = Heel::emptied_as_vapour(&r, &cylinder, pounds(20.0), psia(60.0), fahrenheit(75.0), Level::default())?;
    /// assert_eq!(heel.state(), HeelState::AllVapour);
    /// let r32 = heel.refrigerant().components().next().map(|(_, share)| share);
    /// assert!(r32 < Some(percent(10.0))); // of 23 % at first
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn emptied_as_vapour(
        refrigerant: &Refrigerant,
        cylinder: &Cylinder,
        filled: Mass,
        pressure: impl Known<Pressure>,
        temperature: impl Known<Temperature>,
        level: Level,
    ) -> Result<Heel> {
        let (p, t) = (measured(&pressure), measured(&temperature));
        let mut heel = Heel::of(refrigerant, cylinder, &p, &t, level)?;
        // The mass depends on the composition by its molar mass alone, so this settles at once.
        for _ in 0..3 {
            let left = heel.vapour.value().min(filled);
            let now = left_after_vapour(refrigerant, cylinder, filled, left, t.value())?;
            heel = Heel::of(&now, cylinder, &p, &t, level)?;
        }
        Ok(heel)
    }

    /// What it is: the refrigerant given, or what was left of it.
    pub fn refrigerant(&self) -> &Refrigerant {
        &self.refrigerant
    }

    /// Whether there is only vapour.
    pub fn state(&self) -> HeelState {
        self.state
    }

    /// The mass of vapour: all there is where there is only vapour, else the least. Times a price it is what the heel
    /// is worth.
    pub fn vapour(&self) -> &Measured<Mass> {
        &self.vapour
    }

    /// What to do next.
    pub fn next(&self) -> &'static str {
        match self.state {
            HeelState::AllVapour => {
                "Recover the heel before the cylinder is returned or scrapped, and write down the amount."
            }
            HeelState::LiquidPossible => {
                "Weigh it against its tare: pressure cannot tell how much liquid is there."
            }
            HeelState::NotThisRefrigerantAlone => {
                "Let it settle and read again; if it stays, have the contents analysed and charge nothing from it."
            }
        }
    }

    /// The finding in the form all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let finding = Finding::of("cylinder_heel")
            .concluding(self.state.name())
            .measured("vapour in the cylinder", &self.vapour)?
            .saying(self.to_string())
            .then(self.next())
            .caution(Caution::HighPressure)
            .caution(Caution::Venting)
            .source("volume × vapour density from the equation of state")
            .source("JCGM 106:2012");
        Ok(self.refrigerant.cautioned(finding))
    }
}

impl fmt::Display for Heel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (vapour, name) = (&self.vapour, self.refrigerant.designation());
        match self.state {
            HeelState::AllVapour => write!(
                f,
                "The pressure lies below the dew point beyond doubt, so {vapour} of {name} are left, all vapour."
            ),
            HeelState::LiquidPossible => write!(
                f,
                "The pressure is that of saturation as far as the readings tell, so liquid may be there: at least {:.2} \
                 of {name}.",
                vapour.value()
            ),
            HeelState::NotThisRefrigerantAlone => write!(
                f,
                "The pressure lies above saturation of {name} beyond doubt: air or another refrigerant is in it, or the \
                 temperature has not settled."
            ),
        }
    }
}

/// What is left of a blend in a cylinder emptied slowly as vapour, from `filled` down to `left`.
///
/// # Units
/// Masses, and the temperature at which the vapour was drawn.
/// # Source
/// Rayleigh withdrawal at constant volume:
/// [`Fluid::withdraw_vapour`](kingvalve_fluid::Fluid::withdraw_vapour).
/// # Valid range
/// Vapour in equilibrium with the liquid, as when drawn slowly; liquid withdrawal shifts little.
/// # Accuracy
/// Some 10⁻³ in mass fractions where the last liquid boils away on the way; mass is conserved by component.
/// # Errors
/// Masses that are not above zero or rise, a cylinder full of liquid, a temperature outside the saturation lines.
/// # Example
/// ```
/// use kingvalve::cylinder::{Cylinder, left_after_vapour};
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let r = Refrigerant::named("R-407C")?;
/// let cylinder = Cylinder::stamped(pounds(6.5), pounds(26.2))?;
/// let heel = left_after_vapour(&r, &cylinder, pounds(20.0), pounds(2.0), fahrenheit(75.0))?;
/// let share = |r: &Refrigerant, name: &str| r.components().find(|(n, _)| *n == name).map(|(_, share)| share);
/// assert!(share(&heel, "R-32") < share(&r, "R-32")); // R-32 leaves first
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn left_after_vapour(
    refrigerant: &Refrigerant,
    cylinder: &Cylinder,
    filled: Mass,
    left: Mass,
    temperature: Temperature,
) -> Result<Refrigerant> {
    if !(filled > Mass::ZERO && filled.is_finite() && left > Mass::ZERO && left <= filled) {
        return Err(Error::inconsistent(
            "refrigerant left in the cylinder",
            format!("{left} of {filled}"),
            "give what it was filled with, and what is left of it: above zero and no more",
        ));
    }
    if !refrigerant.is_blend() {
        return Ok(refrigerant.clone());
    }
    let fluid = refrigerant.fluid();
    let density = filled.base() / cylinder.volume().value().base() / fluid.molar_mass();
    let gone = 1.0 - left / filled;
    let drawn = fluid
        .withdraw_vapour(temperature.kelvins(), density, gone, WITHDRAWAL_STEPS)
        .map_err(|error| refrigerant.failed(&error))?;
    let shares: Vec<(&str, Ratio)> = fluid
        .components()
        .zip(&drawn.mass_fractions_left)
        .map(|(name, share)| (name, percent(100.0 * share)))
        .collect();
    Refrigerant::by_mass(&shares)
}

/// Enough for 10⁻⁵ in mass fractions (see the fluid crate's accuracy).
const WITHDRAWAL_STEPS: u32 = 32;
