//! What the standing pressure (system off, equalised, temperatures settled) says about the charge.

use serde::Serialize;

use super::Oil;
use crate::measure::{Caution, Interval, Level, Limits, Measured, Verdict};
use crate::quantity::{Density, Mass, Pressure, PressureDifference, Ratio, Temperature, Volume, pascals};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// One part of the system: a space the refrigerant fills, at one temperature.
#[derive(Debug, Clone)]
pub struct Space {
    /// What it is called: "outdoor coil".
    pub name: String,
    /// Its internal volume.
    pub volume: Interval<Volume>,
    /// Its temperature.
    pub temperature: Measured<Temperature>,
}

/// A system standing still.
#[derive(Debug, Clone)]
pub struct Standing {
    /// Absolute pressure, equal everywhere.
    pub pressure: Measured<Pressure>,
    /// Its parts; one at least.
    pub spaces: Vec<Space>,
    /// The compressor's oil, which holds refrigerant of its own.
    pub oil: Option<Oil>,
}

/// What the standing pressure proves.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "state", rename_all = "snake_case")]
#[non_exhaustive]
pub enum StandingFinding {
    /// Below the dew pressure at the coldest point beyond doubt: no liquid anywhere, so pressure, volume and
    /// temperature give the mass.
    AllVapour {
        /// All the refrigerant in the system.
        mass: Interval<Mass>,
        /// The part that fills the spaces as vapour.
        vapour: Interval<Mass>,
        /// The part dissolved in the oil.
        dissolved: Interval<Mass>,
    },
    /// Neither below the dew pressure nor above the bubble pressure at the coldest point beyond doubt: the pressure is
    /// that of saturation as far as the readings tell, so liquid may lie behind it. Once there is liquid, more of it does
    /// not raise the pressure, so the pressure bounds the charge from below and no more.
    LiquidPossible {
        /// At least this much: the vapour that fills the system at this pressure, and what the oil holds.
        at_least: Mass,
        /// How probable it is that there is no liquid after all, by the doubt of the readings.
        probability_all_vapour: Ratio,
    },
    /// Above the bubble pressure at the coldest point beyond doubt: air, nitrogen or another refrigerant is present,
    /// or the temperatures have not settled.
    NotThisRefrigerantAlone {
        /// How far above.
        excess: Interval<PressureDifference>,
    },
}

impl StandingFinding {
    /// Its name, as in JSON.
    pub const fn name(&self) -> &'static str {
        match self {
            StandingFinding::AllVapour { .. } => "all_vapour",
            StandingFinding::LiquidPossible { .. } => "liquid_possible",
            StandingFinding::NotThisRefrigerantAlone { .. } => "not_this_refrigerant_alone",
        }
    }
}

impl Standing {
    /// Reads the standing pressure against saturation at the coldest space.
    ///
    /// # Units
    /// Absolute pressure, temperatures and volumes in; masses out.
    /// # Source
    /// Liquid and vapour in equilibrium have the pressure of the coldest point (Gibbs); the mass of vapour is
    /// Σ Vᵢ·ρ(p, Tᵢ) with ρ from the equation of state; conformity by JCGM 106:2012.
    /// # Valid range
    /// Off, equalised and settled: no space warming or cooling, no part shut off. Temperatures of the saturation
    /// curve at the coldest space; the others may lie above the critical temperature.
    /// # Accuracy
    /// The interval of the mass spans the 95 % limits of the readings, the whole range of the volumes and of the oil's
    /// uptake; it does not cover a composition that has shifted by leaking.
    /// # Errors
    /// No space, a volume that is not above zero, a temperature or pressure outside the equation's range.
    /// # Example
    /// ```
    /// use kingvalve::charge::{Space, Standing, StandingFinding};
    /// use kingvalve::measure::{Interval, Measured};
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let system = Standing {
    ///     pressure: Measured::from_standard(psia(76.7), psi(0.5), "gauge")?,
    ///     spaces: vec![Space {
    ///         name: "whole system".into(),
    ///         volume: Interval::new(liters(7.0), liters(10.0))?,
    ///         temperature: Measured::from_standard(fahrenheit(88.0), delta_fahrenheit(1.0), "thermometer")?,
    ///     }],
    ///     oil: None,
    /// };
    /// match system.read(&Refrigerant::named("R-410A")?)? {
    ///     StandingFinding::AllVapour { mass, .. } => assert!(mass.high() < pounds(0.5)),
    ///     other => panic!("{other:?}"),
    /// }
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn read(&self, refrigerant: &Refrigerant) -> Result<StandingFinding> {
        let coldest = self.coldest()?;
        let dew = refrigerant.dew_pressure(&coldest.temperature).map_err(|e| e.in_field("temperature"))?;
        let bubble = refrigerant.bubble_pressure(&coldest.temperature)?;
        let below_dew = judge_below(&self.pressure, &dew)?;
        let below_bubble = judge_below(&self.pressure, &bubble)?;
        if below_dew.is_within() {
            let (vapour, dissolved) = self.vapour(refrigerant, dew.value())?;
            return Ok(StandingFinding::AllVapour { mass: vapour.plus(dissolved)?, vapour, dissolved });
        }
        if below_bubble.is_outside() {
            let excess = (self.pressure.clone() - bubble).interval(Level::default())?;
            return Ok(StandingFinding::NotThisRefrigerantAlone { excess });
        }
        let (vapour, dissolved) = self.vapour(refrigerant, dew.value())?;
        Ok(StandingFinding::LiquidPossible {
            at_least: vapour.low() + dissolved.low(),
            probability_all_vapour: below_dew.judgement().probability_within(),
        })
    }

    fn coldest(&self) -> Result<&Space> {
        for space in &self.spaces {
            if space.volume.low() <= Volume::ZERO {
                return Err(Error::out_of_range(
                    format!("volume of {}", space.name),
                    space.volume.low(),
                    "an internal volume is above zero",
                    "leave the space out, or give its volume as a range",
                ));
            }
        }
        self.spaces
            .iter()
            .min_by(|a, b| a.temperature.value().kelvins().total_cmp(&b.temperature.value().kelvins()))
            .ok_or_else(|| {
                Error::inconsistent(
                    "standing system",
                    "no space is given",
                    "give its parts with volume and temperature",
                )
            })
    }

    /// Vapour in the spaces, and refrigerant in the oil.
    fn vapour(
        &self,
        refrigerant: &Refrigerant,
        saturation: Pressure,
    ) -> Result<(Interval<Mass>, Interval<Mass>)> {
        let pressure = self.pressure.interval(Level::default())?;
        // Beyond the dew point no more vapour fits: the surplus would be liquid.
        let thickest = pressure.high().min(saturation);
        let thinnest = pressure.low().min(saturation).max(pascals(1.0));
        let (mut low, mut high) = (Mass::ZERO, Mass::ZERO);
        for space in &self.spaces {
            let temperature = space.temperature.interval(Level::default())?;
            low += space.volume.low() * filling(refrigerant, thinnest, temperature.high())?;
            high += space.volume.high() * filling(refrigerant, thickest, temperature.low())?;
        }
        let dissolved = match &self.oil {
            Some(oil) => Interval::new(
                oil.dissolved(thinnest, saturation)?.low(),
                oil.dissolved(thickest, saturation)?.high(),
            )?,
            None => Interval::exactly(Mass::ZERO)?,
        };
        Ok((Interval::new(low, high)?, dissolved))
    }
}

impl StandingFinding {
    /// What the pressure shows, without an amount.
    pub fn meaning(&self) -> &'static str {
        match self {
            StandingFinding::AllVapour { .. } => {
                "The pressure lies below saturation at the coldest point beyond doubt, so there is no liquid anywhere"
            }
            StandingFinding::LiquidPossible { .. } => {
                "The pressure is that of saturation at the coldest point, as far as the readings tell, so liquid may lie \
                 behind it"
            }
            StandingFinding::NotThisRefrigerantAlone { .. } => {
                "The pressure lies above saturation at the coldest point: air, nitrogen or another refrigerant is in the \
                 system, or the temperatures have not settled"
            }
        }
    }

    /// What to print: the finding and why.
    pub fn text(&self) -> String {
        let meaning = self.meaning();
        match self {
            StandingFinding::AllVapour { mass, dissolved, .. } => format!(
                "{meaning}: {:.2} to {:.2} of refrigerant are left, of which {:.2} to {:.2} are dissolved in the oil.",
                mass.low(),
                mass.high(),
                dissolved.low(),
                dissolved.high()
            ),
            StandingFinding::LiquidPossible { at_least, .. } => format!(
                "{meaning}. Once there is any liquid, more of it does not raise the pressure: there are at least \
                 {at_least:.2}, and pressure alone cannot say how much there is."
            ),
            StandingFinding::NotThisRefrigerantAlone { excess } => {
                format!("{meaning}. The excess is {:.1} to {:.1}.", excess.low(), excess.high())
            }
        }
    }

    /// What would tell more.
    pub fn next(&self) -> &'static str {
        match self {
            StandingFinding::AllVapour { .. } => {
                "Weigh in a step of refrigerant and read again: the rise gives the system's own volume."
            }
            StandingFinding::LiquidPossible { .. } => {
                "Run the system and read superheat and subcooling, or recover and weigh the charge."
            }
            StandingFinding::NotThisRefrigerantAlone { .. } => {
                "Wait until all temperatures have settled and read again; if it stays, recover, evacuate and charge by \
                 weight."
            }
        }
    }

    /// What can hurt someone in the work that follows.
    pub fn cautions(&self, refrigerant: &Refrigerant) -> Vec<Caution> {
        let mut cautions = vec![Caution::HighPressure, Caution::Venting, Caution::Frostbite];
        cautions.extend(refrigerant.cautions());
        cautions
    }
}

/// Density of the vapour, or of the densest vapour there can be at that temperature.
fn filling(refrigerant: &Refrigerant, p: Pressure, t: Temperature) -> Result<Density> {
    match refrigerant.dew_pressure(t) {
        Ok(dew) if p >= dew => refrigerant.dew_density(t),
        _ => refrigerant.density(p, t),
    }
}

/// Whether a pressure lies below a saturation pressure, with the doubt of both.
fn judge_below(
    pressure: &Measured<Pressure>,
    saturation: &Measured<Pressure>,
) -> Result<Verdict<PressureDifference>> {
    let above = pressure.clone() - saturation.clone();
    Limits::at_most(PressureDifference::ZERO)?
        .from_source("saturation at the coldest point")
        .judge(above, Level::default())
}
