//! The size of a leak, from the gas it was found with to the gas one asks about.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::LeakGas;
use crate::measure::{Caution, Finding, Level, Measured};
use crate::quantity::{MassFlow, Pressure, Quantity, Ratio, Temperature, Throughput, fraction};
use crate::{Error, Result};

/// CODATA 2018 (exact by definition of the SI), J/(mol K).
const GAS_CONSTANT: f64 = 8.314_462_618_153_24;
/// Standard uncertainty of the ratio of two viscosities, as a share: table, mixing rule, pressure. This library's
/// estimate, no source.
const VISCOSITY_DOUBT: f64 = 0.05;

/// How gas flows through a leak.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Flow {
    /// Laminar viscous: q ∝ (p₁² − p₂²)/η. Leaks of the size that empties a system in a season.
    #[default]
    Viscous,
    /// Molecular: q ∝ (p₁ − p₂)/√M. The smallest leaks, and those into a deep vacuum's fine pores.
    Molecular,
}

/// What flow a leak of some size usually has.
///
/// # Source
/// The overlapping ranges printed in NASA's Leakage Testing Handbook (NASA CR-952, 1968), as quoted: molecular below
/// 10⁻⁷, transitional 10⁻⁷ to 10⁻⁴, laminar to 10⁻², turbulent above 10⁻² mbar·L/s. From memory of quotations.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Regime {
    /// Below 10⁻⁸ Pa·m³/s.
    Molecular,
    /// Up to 10⁻⁵ Pa·m³/s: either formula bounds it.
    Transitional,
    /// Up to 10⁻³ Pa·m³/s.
    Viscous,
    /// Above: both formulas are outside their range; a leak so large is heard, or found with bubbles.
    Turbulent,
}

impl Regime {
    /// The regime of a leak of that size.
    pub fn of(throughput: Throughput) -> Self {
        match throughput.base() {
            q if q < 1e-8 => Regime::Molecular,
            q if q < 1e-5 => Regime::Transitional,
            q if q <= 1e-3 => Regime::Viscous,
            _ => Regime::Turbulent,
        }
    }
}

/// A leak as it was found: so much of this gas, between these pressures.
///
/// # Example
/// ```
/// use kingvalve::measure::Measured;
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// use kingvalve::tightness::{Flow, Leak, LeakGas};
/// let q = Measured::exact(pascal_cubic_meters_per_second(2e-5));
/// let found = Leak::new(q, LeakGas::nitrogen(), psia(314.7), psia(14.7), fahrenheit(75.0))?;
/// let r = LeakGas::of(&Refrigerant::named("R-410A")?);
/// let size = found.of_gas(&r, psia(232.0), psia(14.7), Flow::Viscous)?;
/// assert_eq!(format!("{:.1}", size.mass_flow().value().in_unit("g/yr")?), "13.4 g/yr");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Leak {
    throughput: Measured<Throughput>,
    gas: LeakGas,
    inside: Pressure,
    outside: Pressure,
    temperature: Temperature,
}

/// The same leak with another gas and other pressures.
#[derive(Debug, Clone, Serialize)]
pub struct LeakSize {
    gas: String,
    flow: Flow,
    regime: Regime,
    throughput: Measured<Throughput>,
    mass_flow: Measured<MassFlow>,
}

impl Leak {
    /// A leak found with a gas, the pressures absolute on both sides; gas flows from the higher to the lower.
    ///
    /// # Errors
    /// A leak that is not above zero; equal or negative pressures; a temperature not above absolute zero.
    pub fn new(
        throughput: Measured<Throughput>,
        gas: LeakGas,
        inside: Pressure,
        outside: Pressure,
        temperature: Temperature,
    ) -> Result<Self> {
        let q = throughput.value();
        if !(q.base() > 0.0 && q.is_finite()) {
            return Err(Error::out_of_range(
                "leak",
                q,
                "a leak to be converted is above zero",
                "where none was found, convert the smallest that would have been",
            ));
        }
        drives(inside, outside)?;
        if !(temperature.base() > 0.0 && temperature.is_finite()) {
            return Err(Error::out_of_range(
                "temperature of the leak",
                temperature,
                "it lies above absolute zero",
                "check the temperature and its unit",
            ));
        }
        Ok(Leak { throughput, gas, inside, outside, temperature })
    }

    /// Its size as found.
    pub fn throughput(&self) -> &Measured<Throughput> {
        &self.throughput
    }

    /// The gas it was found with.
    pub fn gas(&self) -> &LeakGas {
        &self.gas
    }

    /// What flow a leak of this size usually has.
    pub fn regime(&self) -> Regime {
        Regime::of(self.throughput.value())
    }

    /// The leak with another gas and other absolute pressures, at the temperature it was found at.
    ///
    /// # Units
    /// Absolute pressures; throughput in Pa·m³/s and mass a year, as asked.
    /// # Source
    /// Viscous: q·η/(p₁² − p₂²) is the leak's own (Poiseuille's law for a gas). Molecular: q·√M/(p₁ − p₂) is
    /// (Knudsen). Both as in EN 1779 and standard texts of vacuum technique. Mass: ṁ = q·M/(R·T), the throughput
    /// counted at the temperature of the leak.
    /// # Valid range
    /// Vapour on both sides: a leak that drips liquid, or oil that plugs it, follows neither. Which flow holds,
    /// [`Regime`] says; between the two regimes the two results bound the truth. −30 °C to 70 °C.
    /// # Accuracy
    /// The formulas are exact for their regime. Viscosities count with 5 % standard uncertainty (an estimate). Real
    /// leaks widen with pressure and are rarely one straight channel: a factor of two is no surprise, and is not
    /// counted.
    /// # Errors
    /// Equal or negative pressures; a viscosity that is not known.
    /// # Example
    /// See [`Leak`].
    pub fn of_gas(&self, gas: &LeakGas, inside: Pressure, outside: Pressure, flow: Flow) -> Result<LeakSize> {
        drives(inside, outside)?;
        let (factor, doubt) = match flow {
            Flow::Viscous => {
                let here = self.gas.viscosity(self.temperature)?;
                let there = gas.viscosity(self.temperature)?;
                let driving = squares(inside, outside) / squares(self.inside, self.outside);
                let same = self.gas == *gas;
                (here / there * driving, if same { 0.0 } else { VISCOSITY_DOUBT })
            }
            Flow::Molecular => {
                let mass = (self.gas.molar_mass() / gas.molar_mass()).sqrt();
                let driving = (inside - outside).base() / (self.inside - self.outside).base();
                (mass * driving.abs(), 0.0)
            }
        };
        let viscosities: Measured<Ratio> =
            Measured::from_standard(fraction(1.0), fraction(doubt), "viscosities of the two gases")?;
        let q = self.throughput.value().base() * factor;
        let throughput =
            self.throughput.clone().map(Throughput::from_base(q), factor).depending_on(&viscosities, q);
        let per = gas.molar_mass() / (GAS_CONSTANT * self.temperature.base());
        let mass_flow = throughput.clone().map(MassFlow::from_base(q * per), per);
        let regime = Regime::of(throughput.value());
        Ok(LeakSize { gas: gas.name().to_owned(), flow, regime, throughput, mass_flow })
    }
}

impl LeakSize {
    /// The gas.
    pub fn gas(&self) -> &str {
        &self.gas
    }

    /// The flow it was computed by.
    pub fn flow(&self) -> Flow {
        self.flow
    }

    /// What flow a leak of this size usually has.
    pub fn regime(&self) -> Regime {
        self.regime
    }

    /// As gas throughput.
    pub fn throughput(&self) -> &Measured<Throughput> {
        &self.throughput
    }

    /// As mass in a time: `.ounces_per_year()`, `.grams_per_year()`.
    pub fn mass_flow(&self) -> &Measured<MassFlow> {
        &self.mass_flow
    }

    /// In the shape all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let (rate, half) = (self.mass_flow.value(), self.mass_flow.expanded(Level::default()));
        let mut finding = Finding::of("leak_size")
            .measured("throughput", &self.throughput)?
            .measured("mass flow", &self.mass_flow)?
            .saying(format!(
                "As {} vapour the leak passes {:.2e} Pa·m³/s, {:.2} or {:.1}, by the readings give or take {:.1}; how a real \
                 leak is shaped adds up to a factor of two.",
                self.gas,
                self.throughput.value().base(),
                rate.in_unit("oz/yr")?,
                rate.in_unit("g/yr")?,
                half.in_unit("g/yr")?,
            ));
        finding = match (self.flow, self.regime) {
            (_, Regime::Turbulent) => {
                finding.saying("It is so large that flow is turbulent: the figure is an upper bound at best.")
            }
            (Flow::Viscous, Regime::Viscous) | (Flow::Molecular, Regime::Molecular) => finding,
            _ => finding.saying("A leak of this size may follow the other law of flow: convert by both."),
        };
        Ok(finding
            .then("Find and repair it; recover the charge before opening the system.")
            .caution(Caution::Venting)
            .caution(Caution::Asphyxiation)
            .source("Poiseuille and Knudsen flow, as in EN 1779 and texts of vacuum technique")
            .source("CoolProp 8.0.0 (viscosities); Wilke, J. Chem. Phys. 18 (1950) 517"))
    }
}

/// |p₁² − p₂²|, Pa².
fn squares(a: Pressure, b: Pressure) -> f64 {
    ((a.base() - b.base()) * (a.base() + b.base())).abs()
}

/// Whether two absolute pressures drive a flow.
fn drives(inside: Pressure, outside: Pressure) -> Result<()> {
    for (what, p) in [("absolute pressure inside", inside), ("absolute pressure outside", outside)] {
        if !(p.base() >= 0.0 && p.is_finite()) {
            return Err(Error::out_of_range(
                what,
                p,
                "an absolute pressure is zero or more",
                "make it absolute by the site's atmosphere",
            ));
        }
    }
    if inside == outside {
        return Err(Error::inconsistent(
            "pressures across the leak",
            format!("both are {inside:.2}"),
            "nothing flows between equal pressures: check both",
        ));
    }
    Ok(())
}
