//! Enthalpy, entropy and what follows from them: at saturation, of superheated vapour, of subcooled liquid.

use kingvalve_fluid::{Line, Reference};

use super::{Refrigerant, failure};
use crate::Result;
use crate::measure::Known;
use crate::quantity::{
    Density, Pressure, PressureDifference, SpecificEnergy, SpecificEntropy, Temperature,
    TemperatureDifference, Velocity, delta_kelvins, joules_per_kilogram, joules_per_kilogram_kelvin, kelvins,
    kilograms_per_cubic_meter, meters_per_second, pascals,
};

/// A refrigerant in one phase: all its properties.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct State {
    /// Temperature.
    pub temperature: Temperature,
    /// Absolute pressure.
    pub pressure: Pressure,
    /// Density.
    pub density: Density,
    /// Enthalpy, from the reference state asked for.
    pub enthalpy: SpecificEnergy,
    /// Entropy, from the reference state asked for.
    pub entropy: SpecificEntropy,
    /// Heat capacity at constant volume.
    pub isochoric_heat_capacity: SpecificEntropy,
    /// Heat capacity at constant pressure.
    pub isobaric_heat_capacity: SpecificEntropy,
    /// Speed of sound.
    pub speed_of_sound: Velocity,
    /// K/Pa
    joule_thomson: f64,
}

impl State {
    /// How much colder it becomes when throttled over a small pressure drop: the Joule–Thomson coefficient times it.
    ///
    /// # Source
    /// By definition, μ = (∂T/∂p) at constant enthalpy; Lemmon and Jacobsen, J. Phys. Chem. Ref. Data 33 (2004) 593,
    /// Table 4.
    /// # Accuracy
    /// Exact for a vanishing drop; for a larger one of vapour within some per cent per tenth of the pressure.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let suction = Refrigerant::named("R-410A")?.state(psia(130.0), fahrenheit(55.0))?;
    /// let cooler = suction.throttling_drop(psi(5.0));
    /// assert!(cooler > delta_fahrenheit(0.5) && cooler < delta_fahrenheit(2.0));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn throttling_drop(&self, drop: PressureDifference) -> TemperatureDifference {
        delta_kelvins(self.joule_thomson * drop.delta_pascals())
    }
}

impl Refrigerant {
    /// Superheated vapour (below the dew pressure) or subcooled liquid (above the bubble pressure), with enthalpy and
    /// entropy from the IIR reference state: 200 kJ/kg and 1 kJ/(kg·K) for the liquid at its bubble point at 0 °C.
    ///
    /// # Units
    /// Absolute pressure and temperature in.
    /// # Source
    /// Derivatives of the Helmholtz energy: [`Fluid::state`](kingvalve_fluid::Fluid::state).
    /// # Valid range
    /// Temperatures and pressures of the equation.
    /// # Accuracy
    /// The equations are typically good to 0.5–1 % in heat capacity and speed of sound, and to 0.1–0.5 % in density.
    /// # Errors
    /// Outside the range; between bubble and dew, where liquid and vapour coexist ([`split`](Self::split)).
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-134a")?;
    /// let suction = r.state(kilopascals(200.0), celsius(0.0))?;
    /// let discharge = r.state(kilopascals(1000.0), celsius(60.0))?;
    /// let work = discharge.enthalpy - suction.enthalpy;
    /// assert!((work.kilojoules_per_kilogram() - 40.333).abs() < 0.001); // CoolProp 8.0.0
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn state(&self, p: Pressure, t: Temperature) -> Result<State> {
        self.state_from(Reference::Iir, p, t)
    }

    /// [`state`](Self::state) with enthalpy and entropy from another reference state, such as ASHRAE's: zero for the
    /// liquid at its bubble point at −40 °F.
    ///
    /// # Errors
    /// As [`state`](Self::state).
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::{Reference, Refrigerant};
    /// let r = Refrigerant::named("R-22")?;
    /// let liquid = r.bubble_state_from(Reference::Ashrae, fahrenheit(-40.0))?;
    /// assert!(liquid.enthalpy.btu_per_pound().abs() < 1e-6);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn state_from(&self, reference: Reference, p: Pressure, t: Temperature) -> Result<State> {
        let fluid = self.fluid();
        let state = fluid
            .density(t.kelvins(), p.pascals())
            .and_then(|density| fluid.state(t.kelvins(), density, reference))
            .map_err(|error| failure::at(self.designation(), &error, p, t))?;
        Ok(by_mass(&state, fluid.molar_mass()))
    }

    /// The liquid at its bubble point; IIR reference state.
    ///
    /// # Errors
    /// A temperature outside the range of the saturation line, with its limits.
    pub fn bubble_state(&self, t: Temperature) -> Result<State> {
        self.saturated_state(Line::Bubble, Reference::Iir, t)
    }

    /// The vapour at its dew point; IIR reference state.
    ///
    /// # Errors
    /// A temperature outside the range of the saturation line, with its limits.
    pub fn dew_state(&self, t: Temperature) -> Result<State> {
        self.saturated_state(Line::Dew, Reference::Iir, t)
    }

    /// [`bubble_state`](Self::bubble_state) from another reference state.
    ///
    /// # Errors
    /// A temperature outside the range of the saturation line, with its limits.
    pub fn bubble_state_from(&self, reference: Reference, t: Temperature) -> Result<State> {
        self.saturated_state(Line::Bubble, reference, t)
    }

    /// [`dew_state`](Self::dew_state) from another reference state.
    ///
    /// # Errors
    /// A temperature outside the range of the saturation line, with its limits.
    pub fn dew_state_from(&self, reference: Reference, t: Temperature) -> Result<State> {
        self.saturated_state(Line::Dew, reference, t)
    }

    /// Enthalpy of the liquid at its bubble point, looked up on the saturation curve; IIR reference state.
    ///
    /// # Units
    /// Any temperature in, energy per mass out.
    /// # Source
    /// As [`bubble_pressure`](Self::bubble_pressure).
    /// # Valid range
    /// As [`bubble_pressure`](Self::bubble_pressure).
    /// # Accuracy
    /// The curve follows the equation to 10⁻⁶ of the latent heat; the equations are typically good to 0.5 % in enthalpy
    /// differences.
    /// # Errors
    /// A temperature outside the range, with its limits.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-454B")?;
    /// // What a kilogram takes up between a 100 °F liquid line and dry suction at 45 °F.
    /// let effect = r.dew_enthalpy(fahrenheit(45.0))? - r.bubble_enthalpy(fahrenheit(100.0))?;
    /// assert!((effect.kilojoules_per_kilogram() - 197.635).abs() < 0.002); // CoolProp 8.0.0
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    #[inline]
    pub fn bubble_enthalpy<T: Known<Temperature>>(&self, t: T) -> Result<T::With<SpecificEnergy>> {
        self.saturated_enthalpy(Line::Bubble, t)
    }

    /// Enthalpy of the vapour at its dew point; see [`bubble_enthalpy`](Self::bubble_enthalpy).
    ///
    /// # Errors
    /// A temperature outside the range, with its limits.
    #[inline]
    pub fn dew_enthalpy<T: Known<Temperature>>(&self, t: T) -> Result<T::With<SpecificEnergy>> {
        self.saturated_enthalpy(Line::Dew, t)
    }

    /// What it takes to boil the liquid away at a pressure: h_fg.
    ///
    /// # Units
    /// Absolute pressure in, energy per mass out.
    /// # Source
    /// By definition: enthalpy of the vapour at its dew point less that of the liquid at its bubble point, both at this
    /// pressure and of the refrigerant's own composition; of a blend this includes the warming over its glide.
    /// # Valid range
    /// As [`bubble_temperature`](Self::bubble_temperature).
    /// # Accuracy
    /// As [`bubble_enthalpy`](Self::bubble_enthalpy).
    /// # Errors
    /// A pressure outside the range, with its limits.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let boiling = Refrigerant::named("R-717")?.latent_heat(kilopascals(101.325))?;
    /// assert!((boiling.kilojoules_per_kilogram() - 1369.67).abs() < 0.02); // CoolProp 8.0.0
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn latent_heat(&self, p: Pressure) -> Result<SpecificEnergy> {
        let (bubble, dew) = (self.bubble_temperature(p)?, self.dew_temperature(p)?);
        Ok(self.dew_enthalpy(dew)? - self.bubble_enthalpy(bubble)?)
    }

    fn saturated_state(&self, line: Line, reference: Reference, t: Temperature) -> Result<State> {
        let fluid = self.fluid();
        let t = t.kelvins();
        let state = match line {
            Line::Bubble => fluid.bubble_at_temperature(t).map(|at| at.liquid),
            Line::Dew => fluid.dew_at_temperature(t).map(|at| at.vapour),
        }
        .and_then(|phase| fluid.phase_state(t, &phase, reference))
        .map_err(|error| self.failed(&error))?;
        Ok(by_mass(&state, fluid.molar_mass()))
    }

    #[inline]
    fn saturated_enthalpy<T: Known<Temperature>>(&self, line: Line, t: T) -> Result<T::With<SpecificEnergy>> {
        let curve = self.curve(line)?;
        let (enthalpy, slope) =
            curve.enthalpy_and_slope(t.value().kelvins()).map_err(|error| self.failed(&error))?;
        let molar_mass = self.fluid().molar_mass();
        Ok(t.carry(joules_per_kilogram(enthalpy / molar_mass), slope / molar_mass))
    }
}

/// From molar to mass.
fn by_mass(state: &kingvalve_fluid::State, molar_mass: f64) -> State {
    let capacity = |molar: f64| joules_per_kilogram_kelvin(molar / molar_mass);
    State {
        temperature: kelvins(state.temperature),
        pressure: pascals(state.pressure),
        density: kilograms_per_cubic_meter(state.density * molar_mass),
        enthalpy: joules_per_kilogram(state.enthalpy / molar_mass),
        entropy: capacity(state.entropy),
        isochoric_heat_capacity: capacity(state.isochoric_heat_capacity),
        isobaric_heat_capacity: capacity(state.isobaric_heat_capacity),
        speed_of_sound: meters_per_second(state.speed_of_sound),
        joule_thomson: state.joule_thomson,
    }
}
