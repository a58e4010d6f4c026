//! A refrigerant as the rig sees it: saturation from the equation of state's curves, superheated vapour from a table
//! filled once from the equation of state. SI units by mass: K, Pa, kg/m³, J/kg.

use kingvalve::refrigerant::Refrigerant;
use kingvalve_fluid::{Curve, Fluid, Line, Reference};

/// The refrigerants the rig is filled with.
pub const TEN: [&str; 10] =
    ["R-22", "R-32", "R-134a", "R-290", "R-1234yf", "R-407C", "R-410A", "R-427A", "R-438A", "R-454B"];

/// Table of superheated vapour: rows by dew temperature, columns by superheat, K.
const DEW_FROM: f64 = 228.0;
const DEW_STEP: f64 = 2.0;
const SUPERHEAT_STEP: f64 = 5.0;
const SUPERHEATS: usize = 21;
/// The table ends at this share of the critical temperature.
const NEAR_CRITICAL: f64 = 0.985;

/// A refrigerant and what the rig has tabulated of it.
pub struct Medium {
    refrigerant: Refrigerant,
    fluid: Fluid,
    rows: Vec<[Vapour; SUPERHEATS]>,
    exponent: f64,
    critical: f64,
}

/// Vapour of one density and enthalpy.
#[derive(Debug, Clone, Copy, Default)]
pub struct Vapour {
    /// kg/m³
    pub density: f64,
    /// J/kg
    pub enthalpy: f64,
}

impl Vapour {
    fn beyond(&self, before: &Vapour) -> Vapour {
        Vapour {
            density: self.density * self.density / before.density,
            enthalpy: 2.0 * self.enthalpy - before.enthalpy,
        }
    }
}

/// Both ends of the two-phase region at one pressure.
#[derive(Debug, Clone, Copy)]
pub struct Saturated {
    /// Pa
    pub pressure: f64,
    /// K
    pub bubble: f64,
    /// K
    pub dew: f64,
    /// kg/m³
    pub liquid_density: f64,
    /// kg/m³
    pub vapour_density: f64,
    /// J/kg
    pub liquid_enthalpy: f64,
    /// J/kg
    pub vapour_enthalpy: f64,
}

impl Saturated {
    /// J/kg
    pub fn latent(&self) -> f64 {
        self.vapour_enthalpy - self.liquid_enthalpy
    }

    /// Quality of that enthalpy: below 0 in subcooled liquid, above 1 in superheated vapour.
    pub fn quality(&self, enthalpy: f64) -> f64 {
        (enthalpy - self.liquid_enthalpy) / self.latent()
    }

    /// K: in a straight line from bubble to dew, which is all a lumped coil needs.
    pub fn temperature(&self, quality: f64) -> f64 {
        self.bubble + quality * (self.dew - self.bubble)
    }
}

impl Medium {
    /// A listed refrigerant.
    ///
    /// # Errors
    /// Those of the library.
    pub fn named(name: &str) -> kingvalve::Result<Medium> {
        let refrigerant = Refrigerant::named(name)?;
        let critical = refrigerant.critical_temperature()?.kelvins();
        let fluid = refrigerant.fluid().clone();
        let count = ((NEAR_CRITICAL * critical - DEW_FROM) / DEW_STEP) as usize;
        let row = |at: usize| {
            let dew = DEW_FROM + DEW_STEP * at as f64;
            let mut row = [Vapour { density: f64::NAN, enthalpy: f64::NAN }; SUPERHEATS];
            for column in 0..SUPERHEATS {
                row[column] = match exact(&fluid, dew, SUPERHEAT_STEP * column as f64) {
                    Ok(vapour) => vapour,
                    // Hotter than the equation of state goes: on in a straight line.
                    Err(_) if column > 1 => row[column - 1].beyond(&row[column - 2]),
                    Err(_) => row[column],
                };
            }
            row
        };
        let rows = (0..count).map(row).collect();
        let exponent = exponent(&fluid).unwrap_or(f64::NAN);
        Ok(Medium { refrigerant, fluid, rows, exponent, critical })
    }

    /// As the library knows it.
    pub fn refrigerant(&self) -> &Refrigerant {
        &self.refrigerant
    }

    /// kg/mol
    pub fn molar_mass(&self) -> f64 {
        self.fluid.molar_mass()
    }

    /// K
    pub fn critical_temperature(&self) -> f64 {
        self.critical
    }

    /// Exponent of an isentropic change of the vapour, p·vⁿ constant: n = ρ·w²/p at 10 °C dew and 10 K superheat.
    pub fn exponent(&self) -> f64 {
        self.exponent
    }

    /// Highest dew temperature of the table, K.
    pub fn hottest_dew(&self) -> f64 {
        DEW_FROM + DEW_STEP * (self.rows.len() as f64 - 1.0)
    }

    fn curve(&self, line: Line, of: impl Fn(&Curve) -> kingvalve_fluid::Result<f64>) -> f64 {
        self.fluid.curve(line).and_then(of).unwrap_or(f64::NAN)
    }

    /// Pa; no number outside the curve, as with all that follow.
    pub fn dew_pressure(&self, t: f64) -> f64 {
        self.curve(Line::Dew, |c| c.pressure(t))
    }

    /// Pa
    pub fn bubble_pressure(&self, t: f64) -> f64 {
        self.curve(Line::Bubble, |c| c.pressure(t))
    }

    /// K
    pub fn dew_temperature(&self, p: f64) -> f64 {
        self.curve(Line::Dew, |c| c.temperature(p))
    }

    /// K
    pub fn bubble_temperature(&self, p: f64) -> f64 {
        self.curve(Line::Bubble, |c| c.temperature(p))
    }

    /// Liquid at its bubble point, kg/m³; subcooled liquid counts as incompressible.
    pub fn liquid_density(&self, t: f64) -> f64 {
        self.molar_mass() * self.curve(Line::Bubble, |c| c.density(t))
    }

    /// As [`liquid_density`](Self::liquid_density), J/kg.
    pub fn liquid_enthalpy(&self, t: f64) -> f64 {
        self.curve(Line::Bubble, |c| c.enthalpy(t)) / self.molar_mass()
    }

    /// J/(kg K), of liquid near its bubble point.
    pub fn liquid_heat(&self, t: f64) -> f64 {
        self.curve(Line::Bubble, |c| c.enthalpy_and_slope(t).map(|both| both.1)) / self.molar_mass()
    }

    /// kg/m³
    pub fn dew_density(&self, t: f64) -> f64 {
        self.molar_mass() * self.curve(Line::Dew, |c| c.density(t))
    }

    /// J/kg
    pub fn dew_enthalpy(&self, t: f64) -> f64 {
        self.curve(Line::Dew, |c| c.enthalpy(t)) / self.molar_mass()
    }

    /// Both ends at the pressure of a dew temperature.
    pub fn saturated(&self, dew: f64) -> Saturated {
        let pressure = self.dew_pressure(dew);
        let bubble = self.bubble_temperature(pressure);
        Saturated {
            pressure,
            bubble,
            dew,
            liquid_density: self.liquid_density(bubble),
            vapour_density: self.dew_density(dew),
            liquid_enthalpy: self.liquid_enthalpy(bubble),
            vapour_enthalpy: self.dew_enthalpy(dew),
        }
    }

    /// Vapour by the equation of state at a temperature and a pressure at or below the dew pressure, kg/m³.
    pub fn vapour_density(&self, t: f64, p: f64) -> f64 {
        if p >= self.dew_pressure(t) {
            return self.dew_density(t);
        }
        self.fluid.density(t, p).map_or(f64::NAN, |density| density * self.molar_mass())
    }

    /// Pressure of liquid and vapour of the whole composition at a temperature and overall density (kg/m³), Pa.
    pub fn shared_pressure(&self, t: f64, density: f64) -> f64 {
        match self.refrigerant.is_blend() {
            true => {
                let molar = density / self.molar_mass();
                self.fluid.split_at_density(t, molar).map_or(f64::NAN, |split| split.pressure)
            }
            false => self.bubble_pressure(t),
        }
    }

    /// Superheated vapour from the table.
    pub fn vapour(&self, dew: f64, superheat: f64) -> Vapour {
        let (row, down) = cell(dew - DEW_FROM, DEW_STEP, self.rows.len());
        let (column, right) = cell(superheat, SUPERHEAT_STEP, SUPERHEATS);
        let at = |r: usize, c: usize| self.rows.get(row + r).and_then(|row| row.get(column + c)).copied();
        let (Some(a), Some(b), Some(c), Some(d)) = (at(0, 0), at(0, 1), at(1, 0), at(1, 1)) else {
            return Vapour { density: f64::NAN, enthalpy: f64::NAN };
        };
        let mix = |of: fn(Vapour) -> f64| {
            let (upper, lower) = (of(a) + right * (of(b) - of(a)), of(c) + right * (of(d) - of(c)));
            upper + down * (lower - upper)
        };
        Vapour { density: mix(|v| v.density.ln()).exp(), enthalpy: mix(|v| v.enthalpy) }
    }

    /// Superheat of vapour by its enthalpy, K: undoes [`vapour`](Self::vapour).
    pub fn superheat(&self, dew: f64, enthalpy: f64) -> f64 {
        let at = |column: usize| self.vapour(dew, SUPERHEAT_STEP * column as f64).enthalpy;
        let (mut column, mut low, mut high) = (0, at(0), at(1));
        while enthalpy > high && column + 2 < SUPERHEATS {
            column += 1;
            (low, high) = (high, at(column + 1));
        }
        SUPERHEAT_STEP * (column as f64 + (enthalpy - low) / (high - low))
    }
}

/// The cell a coordinate falls into and how far in; a coordinate outside goes on from the last cell.
fn cell(x: f64, step: f64, nodes: usize) -> (usize, f64) {
    let at = (x / step).floor().clamp(0.0, nodes.saturating_sub(2) as f64);
    (at as usize, x / step - at)
}

fn exact(fluid: &Fluid, dew: f64, superheat: f64) -> kingvalve_fluid::Result<Vapour> {
    let curve = fluid.curve(Line::Dew)?;
    let (p, t) = (curve.pressure(dew)?, dew + superheat);
    let molar = if superheat == 0.0 { curve.density(dew)? } else { fluid.density(t, p)? };
    let state = fluid.state(t, molar, Reference::Iir)?;
    let mass = fluid.molar_mass();
    Ok(Vapour { density: molar * mass, enthalpy: state.enthalpy / mass })
}

fn exponent(fluid: &Fluid) -> kingvalve_fluid::Result<f64> {
    let p = fluid.curve(Line::Dew)?.pressure(283.15)?;
    let molar = fluid.density(293.15, p)?;
    let state = fluid.state(293.15, molar, Reference::Iir)?;
    Ok(molar * fluid.molar_mass() * state.speed_of_sound.powi(2) / p)
}
