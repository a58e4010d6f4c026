//! A pure fluid or a blend of one composition: what the crate is asked about.

use std::fmt;
use std::sync::{Arc, OnceLock};

use crate::blend::{self, Basis};
use crate::curve::{self, Curve};
use crate::data::Source;
use crate::density;
use crate::equilibrium::trace::Trace;
use crate::equilibrium::{CriticalPoint, Line, critical};
use crate::error::{Error, Result};
use crate::mixture::model::Departure;
use crate::mixture::reducing::Reducing;
use crate::mixture::{Model, Vector};
use crate::pair::{self, Pair};
use crate::pair_info::PairInfo;
use crate::pure::{Chemistry, Pure};
use crate::state::Reference;

/// CODATA 2018 (exact by definition of the SI), J/(mol K); the gas constant of blends.
const GAS_CONSTANT: f64 = 8.314_462_618_153_24;

/// Pa: far below the triple-point pressure of any fluid here; less would meet the smallest numbers a computer has.
const LEAST_PRESSURE: f64 = 1e-9;

/// A refrigerant of one composition, pure or blended. Cheap to clone; clones share what has been computed.
///
/// # Units
/// SI throughout: K, Pa, mol/m³ (molar) or kg/m³ where the name says mass, J/mol, J/(mol K).
///
/// # Example
/// ```
/// use kingvalve_fluid::{Basis, Fluid};
/// let blend = Fluid::blend(&[("R-32", 0.689), ("R-1234yf", 0.311)], Basis::Mass)?;
/// let bubble = blend.bubble_at_temperature(300.0)?;
/// let dew = blend.dew_at_temperature(300.0)?;
/// assert!(bubble.pressure > dew.pressure);
/// # Ok::<(), kingvalve_fluid::Error>(())
/// ```
#[derive(Clone)]
pub struct Fluid(Arc<Inner>);

struct Inner {
    label: String,
    model: Model,
    /// Mole fractions.
    z: Vector,
    mass_fractions: Vec<f64>,
    molar_mass: f64,
    temperature_range: (f64, f64),
    pressure_max: f64,
    pairs: Vec<PairInfo>,
    critical: OnceLock<Option<CriticalPoint>>,
    lines: [OnceLock<Option<Trace>>; 2],
    curves: [OnceLock<Result<Curve>>; 2],
    /// What a reference state adds to enthalpy and entropy, one per kind of reference.
    shifts: [OnceLock<Result<(f64, f64)>>; 3],
}

/// How the parameters of a pair are found.
pub(crate) type FindPair = dyn Fn(&Pure, &Pure) -> Result<Pair>;

impl Fluid {
    /// A pure fluid by its designation, `"R-32"`.
    ///
    /// # Errors
    /// There is no equation of state by that name ([`Error::is_unknown_fluid`]).
    pub fn pure(name: &str) -> Result<Fluid> {
        Self::blend(&[(name, 1.0)], Basis::Mass)
    }

    /// A blend of pure fluids, up to [`MAX_COMPONENTS`](crate::MAX_COMPONENTS), by fractions that sum to one.
    ///
    /// # Errors
    /// An unknown component, fractions that do not sum to one within 10⁻⁶ or are not above zero, or a
    /// component named twice ([`Error::is_composition`]).
    pub fn blend(composition: &[(&str, f64)], basis: Basis) -> Result<Fluid> {
        Self::with_pairs(composition, basis, &|first, second| pair::find(&first.name, &second.name))
    }

    /// [`blend`](Self::blend) with the pair parameters that `find` gives.
    pub(crate) fn with_pairs(composition: &[(&str, f64)], basis: Basis, find: &FindPair) -> Result<Fluid> {
        let fractions: Vec<f64> = composition.iter().map(|(_, fraction)| *fraction).collect();
        let fractions = blend::normalized(&fractions)?;
        let components = composition.iter().map(|(name, _)| Pure::named(name)).collect::<Result<Vec<_>>>()?;
        for (k, component) in components.iter().enumerate() {
            if components[..k].iter().any(|earlier| earlier.name == component.name) {
                return Err(Error::composition(format!("{} is given twice", component.name)));
            }
        }
        let molar_masses: Vec<f64> = components.iter().map(|component| component.molar_mass).collect();
        let (mole, mass) = match basis {
            Basis::Mass => (blend::mole_from_mass(&fractions, &molar_masses), fractions),
            Basis::Mole => (fractions.clone(), blend::mass_from_mole(&fractions, &molar_masses)),
        };
        let mut z = Vector::default();
        z[..mole.len()].copy_from_slice(&mole);
        let label = label(&components, &mass);
        let (model, pairs) = assemble(components, find)?;
        let limit = |pick: fn(&Pure) -> f64, worst: fn(f64, f64) -> f64, start: f64| {
            model.components.iter().map(|component| pick(component)).fold(start, worst)
        };
        let temperature_range = (
            limit(|pure| pure.valid.temperature.0, f64::max, 0.0),
            limit(|pure| pure.valid.temperature.1, f64::min, f64::INFINITY),
        );
        let pressure_max = limit(|pure| pure.valid.pressure_max, f64::min, f64::INFINITY);
        let molar_mass = mole.iter().zip(&molar_masses).map(|(x, m)| x * m).sum();
        Ok(Fluid(Arc::new(Inner {
            label,
            model,
            z,
            mass_fractions: mass,
            molar_mass,
            temperature_range,
            pressure_max,
            pairs,
            critical: OnceLock::new(),
            lines: Default::default(),
            curves: Default::default(),
            shifts: Default::default(),
        })))
    }

    pub(crate) fn model(&self) -> &Model {
        &self.0.model
    }

    pub(crate) fn z(&self) -> &Vector {
        &self.0.z
    }

    pub(crate) fn label(&self) -> &str {
        &self.0.label
    }

    /// The components' designations, in the order given.
    pub fn components(&self) -> impl Iterator<Item = &str> {
        self.0.model.components.iter().map(|pure| pure.name.as_str())
    }

    /// What the components are, in the order given.
    pub fn chemistry(&self) -> impl Iterator<Item = &Chemistry> {
        self.0.model.components.iter().map(|pure| &pure.chemistry)
    }

    /// The papers of the components' equations of state, in the order of the components.
    pub fn sources(&self) -> impl Iterator<Item = &Source> {
        self.0.model.components.iter().map(|pure| &pure.source)
    }

    /// Where the parameters of each pair of components come from; none for a pure fluid.
    pub fn pairs(&self) -> &[PairInfo] {
        &self.0.pairs
    }

    /// Mole fractions, in the order of the components.
    pub fn mole_fractions(&self) -> &[f64] {
        &self.0.z[..self.0.model.size()]
    }

    /// Mass fractions, in the order of the components.
    pub fn mass_fractions(&self) -> &[f64] {
        &self.0.mass_fractions
    }

    /// kg/mol
    pub fn molar_mass(&self) -> f64 {
        self.0.molar_mass
    }

    /// Lowest and highest temperature in which the equations of all components hold, K.
    pub fn temperature_range(&self) -> (f64, f64) {
        self.0.temperature_range
    }

    /// Highest pressure at which the equations of all components hold, Pa.
    pub fn pressure_max(&self) -> f64 {
        self.0.pressure_max
    }

    /// The critical point: the paper's for a pure fluid, solved from the model for a blend.
    ///
    /// # Source
    /// Heidemann and Khalil, AIChE J. 26 (1980) 769, doi:10.1002/aic.690260510.
    ///
    /// # Accuracy
    /// The conditions are met to 10⁻⁸; the model itself is least accurate here (some tenths of a kelvin).
    ///
    /// # Errors
    /// No critical point was found near the blend's reducing point.
    pub fn critical_point(&self) -> Result<CriticalPoint> {
        let found = self.0.critical.get_or_init(|| match self.0.model.components.as_slice() {
            [pure] => Some(CriticalPoint {
                temperature: pure.critical.temperature,
                pressure: pure.critical.pressure,
                density: pure.critical.density,
            }),
            _ => critical::find(&self.0.model, &self.0.z),
        });
        found.ok_or_else(|| Error::not_converged(self.label(), "critical point", "its composition"))
    }

    /// The traced saturation line, computed on first use.
    pub(crate) fn trace(&self, line: Line) -> Result<&Trace> {
        let critical = self.critical_point()?;
        let found = self.0.lines[line.index()].get_or_init(|| {
            Trace::run(&self.0.model, &self.0.z, line, self.0.temperature_range.0, critical.temperature)
        });
        found.as_ref().ok_or_else(|| Error::not_converged(self.label(), line.name(), "the start of its line"))
    }

    /// The saturation curve of a line, for nanosecond lookups; built on first use, shared by clones.
    ///
    /// # Errors
    /// The line could not be traced.
    pub fn curve(&self, line: Line) -> Result<&Curve> {
        self.0.curves[line.index()].get_or_init(|| curve::build(self, line)).as_ref().map_err(Error::clone)
    }

    /// Molar density at a temperature and a pressure, mol/m³: the liquid above the bubble pressure, the
    /// vapour below the dew pressure.
    ///
    /// # Units
    /// `t` in K, `p` in Pa (absolute); mol/m³.
    ///
    /// # Source
    /// Newton's iteration on the equation of state; Lemmon and Jacobsen, J. Phys. Chem. Ref. Data 33 (2004)
    /// 593, doi:10.1063/1.1649997, Eq. 4.
    ///
    /// # Valid range
    /// [`temperature_range`](Self::temperature_range), 0 < p ≤ [`pressure_max`](Self::pressure_max).
    ///
    /// # Accuracy
    /// The equation of state is solved to 10⁻¹²; the equation itself is typically good to 0.1 % in liquid
    /// and 0.5 % in vapour density (see the paper named by [`sources`](Self::sources)).
    ///
    /// # Errors
    /// Outside the range ([`Error::is_out_of_range`]); between bubble and dew ([`Error::is_two_phase`]).
    pub fn density(&self, t: f64, p: f64) -> Result<f64> {
        self.check_temperature(t)?;
        self.check_pressure(p)?;
        let (model, z) = (&self.0.model, &self.0.z);
        let (dew, bubble) = (self.curve(Line::Dew)?, self.curve(Line::Bubble)?);
        let ideal = p / (model.gas_constant * t);
        let root = if t > dew.temperature_range().1.min(bubble.temperature_range().1) {
            density::newton(model, t, p, z, density::supercritical_guess(model, t, p, z))
        } else {
            match self.side(t, p, dew, bubble)? {
                // The compressibility falls nearly in a line from 1 to that of the dew point.
                Side::Vapour { share } => {
                    let dew_point = dew.density(t.max(dew.temperature_range().0))?;
                    let at_dew = ideal / share / dew_point;
                    density::newton(model, t, p, z, ideal / (1.0 - (1.0 - at_dew) * share))
                }
                Side::Liquid => {
                    density::newton(model, t, p, z, bubble.density(t.max(bubble.temperature_range().0))?)
                }
                Side::Both => return Err(Error::two_phase(self.label(), t, p)),
            }
        };
        root.ok_or_else(|| Error::not_converged(self.label(), "density", format!("{t} K and {p} Pa")))
    }

    /// On which side of saturation a subcritical state lies: by the curves, and so close to them that their error
    /// could decide, by the equation of state.
    fn side(&self, t: f64, p: f64, dew: &Curve, bubble: &Curve) -> Result<Side> {
        const CLOSE: f64 = 1e-4;
        let clear = |curve: &Curve| curve.pressure(t).ok().filter(|line| (p / line - 1.0).abs() > CLOSE);
        let dew_pressure = match clear(dew) {
            Some(p_dew) => p_dew,
            None => self.dew_at_temperature(t)?.pressure,
        };
        if p <= dew_pressure {
            return Ok(Side::Vapour { share: p / dew_pressure });
        }
        let bubble_pressure = match clear(bubble) {
            Some(p_bubble) => p_bubble,
            None => self.bubble_at_temperature(t)?.pressure,
        };
        Ok(if p >= bubble_pressure { Side::Liquid } else { Side::Both })
    }

    /// [`density`](Self::density) together with its slopes: (mol/m³, ∂ρ/∂p in mol/(m³ Pa), ∂ρ/∂T in mol/(m³ K)).
    ///
    /// # Errors
    /// As [`density`](Self::density).
    pub fn density_and_slopes(&self, t: f64, p: f64) -> Result<(f64, f64, f64)> {
        let density = self.density(t, p)?;
        let alpha = self.0.model.alpha(t, density, &self.0.z);
        // p = ρRT(1 + αʳ_d): ∂p/∂ρ = RT(1 + αʳ_d + αʳ_dd), ∂p/∂T = ρR(1 + αʳ_d − αʳ_td)
        let r = self.0.model.gas_constant;
        let by_density = r * t * (1.0 + alpha.d + alpha.dd);
        let by_temperature = density * r * (1.0 + alpha.d - alpha.td);
        Ok((density, 1.0 / by_density, -by_temperature / by_density))
    }

    pub(crate) fn cached_shift(
        &self,
        reference: Reference,
        compute: impl FnOnce() -> Result<(f64, f64)>,
    ) -> Result<(f64, f64)> {
        let slot = match reference {
            Reference::Iir => 0,
            Reference::Ashrae => 1,
            Reference::NormalBoilingPoint => 2,
        };
        self.0.shifts[slot].get_or_init(compute).clone()
    }

    pub(crate) fn check_pressure(&self, p: f64) -> Result<()> {
        if p >= LEAST_PRESSURE && p <= self.0.pressure_max {
            Ok(())
        } else {
            Err(Error::out_of_range(self.label(), "pressure", "Pa", p, (LEAST_PRESSURE, self.0.pressure_max)))
        }
    }

    pub(crate) fn check_temperature(&self, t: f64) -> Result<()> {
        let (low, high) = self.0.temperature_range;
        if t >= low && t <= high {
            Ok(())
        } else {
            Err(Error::out_of_range(self.label(), "temperature", "K", t, (low, high)))
        }
    }
}

impl fmt::Debug for Fluid {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Fluid({})", self.label())
    }
}

/// Where a subcritical state lies.
enum Side {
    /// Below the dew pressure, at this share of it.
    Vapour { share: f64 },
    /// Above the bubble pressure.
    Liquid,
    /// Between.
    Both,
}

/// `R-32/R-125 50.0/50.0` in mass per cent.
fn label(components: &[Arc<Pure>], mass: &[f64]) -> String {
    let names: Vec<&str> = components.iter().map(|component| component.name.as_str()).collect();
    match names.as_slice() {
        [one] => (*one).to_owned(),
        many => {
            let percents: Vec<String> = mass.iter().map(|w| format!("{:.1}", 100.0 * w)).collect();
            format!("{} {}", many.join("/"), percents.join("/"))
        }
    }
}

/// The mixture model of `components`, and where its pair parameters come from.
fn assemble(components: Vec<Arc<Pure>>, find: &FindPair) -> Result<(Model, Vec<PairInfo>)> {
    let mut temperature = Reducing::new(components.iter().map(|c| c.reducing.temperature).collect());
    let mut volume = Reducing::new(components.iter().map(|c| 1.0 / c.reducing.density).collect());
    let mut departures = Vec::new();
    let mut pairs = Vec::new();
    for j in 1..components.len() {
        for i in 0..j {
            let (first, second) = (&components[i], &components[j]);
            let pair = find(first, second)?;
            let t_ij = (first.reducing.temperature * second.reducing.temperature).sqrt();
            let cube_roots = (1.0 / first.reducing.density).cbrt() + (1.0 / second.reducing.density).cbrt();
            temperature.add_pair(i, j, pair.beta_temperature, pair.gamma_temperature, t_ij);
            volume.add_pair(i, j, pair.beta_volume, pair.gamma_volume, cube_roots.powi(3) / 8.0);
            pairs.push(PairInfo {
                components: [first.name.clone(), second.name.clone()],
                basis: pair.basis,
                has_departure: pair.departure.is_some(),
                own_departure: pair.own_departure,
                alike: first.chemistry.is_halogenated() == second.chemistry.is_halogenated(),
                source: pair.source.as_ref().clone(),
            });
            if let Some((factor, terms)) = pair.departure {
                departures.push(Departure { i, j, factor, terms });
            }
        }
    }
    let gas_constant = match components.as_slice() {
        [pure] => pure.gas_constant,
        _ => GAS_CONSTANT,
    };
    Ok((Model { components, temperature, volume, departures, gas_constant }, pairs))
}
