//! Saturation: bubble and dew points, azeotropes, continuation in temperature, the critical end.

pub(crate) mod critical;
mod eigen;
pub(crate) mod linear;
pub(crate) mod newton;
pub(crate) mod shared_volume;
mod stability;
mod start;
pub(crate) mod trace;

pub use critical::CriticalPoint;

/// Which saturation line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Line {
    /// The liquid has the blend's composition; the first bubble is incipient.
    Bubble,
    /// The vapour has the blend's composition; the first drop is incipient.
    Dew,
}

impl Line {
    pub(crate) fn index(self) -> usize {
        match self {
            Line::Bubble => 0,
            Line::Dew => 1,
        }
    }

    pub(crate) fn name(self) -> &'static str {
        match self {
            Line::Bubble => "bubble point",
            Line::Dew => "dew point",
        }
    }
}

/// One of the two coexisting phases.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Phase {
    /// Molar density, mol/m³.
    pub density: f64,
    /// Mole fractions, in the order of the fluid's components.
    pub mole_fractions: Vec<f64>,
}

/// A liquid and a vapour in equilibrium.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Saturation {
    /// K
    pub temperature: f64,
    /// Pa
    pub pressure: f64,
    /// dp/dT along the line, Pa/K.
    pub pressure_slope: f64,
    /// The liquid.
    pub liquid: Phase,
    /// The vapour.
    pub vapour: Phase,
}
