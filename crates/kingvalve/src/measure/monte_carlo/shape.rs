//! The distributions that inputs of a simulation are drawn from.

use super::Generator;
use crate::quantity::Quantity;

/// How an input is spread about its value.
///
/// # Source
/// JCGM 101:2008, table 1 and clause 6.4.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Distribution<D: Quantity> {
    /// Bell-shaped, of that standard uncertainty (6.4.7).
    Normal {
        /// Standard uncertainty.
        standard: D,
    },
    /// Anywhere within limits as likely (6.4.2).
    Rectangular {
        /// From the value to either limit.
        half_width: D,
    },
    /// Within limits that are themselves known to about so much (6.4.3).
    CurvilinearTrapezoid {
        /// From the value to either limit.
        half_width: D,
        /// How far either limit may be off, at most half the half-width.
        inexactness: D,
    },
    /// Most likely at the value, falling to nothing at the limits (6.4.5).
    Triangular {
        /// From the value to either limit.
        half_width: D,
    },
    /// A quantity that cycles as a sine between limits (6.4.6).
    Arcsine {
        /// From the value to either limit.
        half_width: D,
    },
    /// The mean of few observations (6.4.9).
    Student {
        /// The experimental standard deviation of the mean.
        scale: D,
        /// One less than the number of observations; above two, so that there is a variance.
        degrees_of_freedom: f64,
    },
}

/// A distribution in multiples of its standard uncertainty or scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shape {
    Normal,
    Rectangular,
    /// The inexactness of the limits over their half-width.
    CurvilinearTrapezoid(f64),
    Triangular,
    Arcsine,
    Student(f64),
}

impl<D: Quantity> Distribution<D> {
    /// Its shape and the SI amount that shape is multiplied by; none where the parameters cannot be.
    pub(super) fn shape(&self) -> Option<(Shape, f64)> {
        let (shape, amount) = match *self {
            Distribution::Normal { standard } => (Shape::Normal, standard.base()),
            Distribution::Rectangular { half_width } => (Shape::Rectangular, half_width.base() / 3f64.sqrt()),
            Distribution::CurvilinearTrapezoid { half_width, inexactness } => {
                let share = inexactness.base() / half_width.base();
                (0.0..=0.5).contains(&share).then_some(())?;
                (Shape::CurvilinearTrapezoid(share), half_width.base())
            }
            Distribution::Triangular { half_width } => (Shape::Triangular, half_width.base()),
            Distribution::Arcsine { half_width } => (Shape::Arcsine, half_width.base()),
            Distribution::Student { scale, degrees_of_freedom } => {
                (degrees_of_freedom > 2.0).then_some(())?;
                (Shape::Student(degrees_of_freedom), scale.base())
            }
        };
        (amount >= 0.0 && amount.is_finite()).then_some((shape, amount))
    }
}

impl Shape {
    /// One draw.
    #[inline]
    pub fn draw(self, generator: &mut Generator) -> f64 {
        match self {
            Shape::Normal => generator.normal(),
            Shape::Rectangular => (2.0 * generator.uniform() - 1.0) * 3f64.sqrt(),
            Shape::CurvilinearTrapezoid(inexactness) => {
                let half = 1.0 + inexactness * (2.0 * generator.uniform() - 1.0);
                half * (2.0 * generator.uniform() - 1.0)
            }
            Shape::Triangular => generator.uniform() - generator.uniform(),
            Shape::Arcsine => (std::f64::consts::PI * (generator.uniform() - 0.5)).sin(),
            Shape::Student(degrees_of_freedom) => generator.student(degrees_of_freedom),
        }
    }
}
