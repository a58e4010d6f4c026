//! Doubt carried through a result by drawing from it, for results that are too crooked for the linear form.

mod generator;
mod shape;
mod simulated;

use std::marker::PhantomData;

use super::source::{Cause, Contribution, Identity};
use super::{Known, Measured};
use crate::quantity::Quantity;
use crate::{Error, Result};

pub use generator::Generator;
pub use shape::Distribution;
use shape::Shape;
pub use simulated::{Agreement, Simulated};

/// Draws where no other number is asked for: a 95 % interval good to one or two digits (JCGM 101:2008, 7.2.2).
const DRAWS: usize = 1_000_000;

/// A Monte Carlo evaluation: the same readings in as for the linear form, the distribution of the result out.
///
/// Each source of doubt is drawn once a turn, so what two inputs share (one meter's accuracy, one reading used twice)
/// they share here too. A display's step and an accuracy that means limits are rectangular, an expanded uncertainty
/// normal, the scatter of repeats Student's t.
///
/// # Units
/// Any quantities in, any out.
/// # Source
/// JCGM 101:2008, clauses 5 to 7; shapes by table 1. Observations read together ([`Together`](super::Together)) as
/// JCGM 102:2011, 5.3.2 (multivariate t).
/// # Valid range
/// Scatter of four observations or more: with fewer, the t distribution has no variance.
/// # Accuracy
/// The mean to u/√M for M draws; the ends of a 95 % interval to about 3·u/√M.
/// # Errors
/// See [`run`](Simulation::run).
/// # Example
/// ```
/// use kingvalve::measure::{Instrument, Level, Reading, Simulation};
/// use kingvalve::quantity::*;
/// let clamp = Instrument::resolution(amperes(0.1)).accuracy_percent_of_reading(2.0).counts(5.0);
/// let current = Reading::new(amperes(0.6), clamp)?;
/// let mut simulation = Simulation::seeded(1).draws(100_000);
/// let amps = simulation.input(&current)?;
/// let resistance = simulation.run(|draw| ohms(24.0 / draw.of(amps).amperes()))?;
/// // By the linear form 40 Ω; most of the doubt lies above.
/// assert!(resistance.mean() > ohms(50.0));
/// assert!(resistance.shortest(Level::default())?.low() > ohms(20.0));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Simulation {
    seed: u64,
    draws: usize,
    sources: Vec<Source>,
    inputs: Vec<Drawn>,
}

/// An input of a [`Simulation`], to be asked for in a [`Draw`].
#[derive(Debug)]
pub struct Input<Q> {
    at: usize,
    of: PhantomData<fn() -> Q>,
}

impl<Q> Clone for Input<Q> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<Q> Copy for Input<Q> {}

/// One draw of every input.
#[derive(Debug)]
pub struct Draw<'a> {
    inputs: &'a [f64],
}

impl Draw<'_> {
    /// The value drawn for an input of this simulation.
    #[inline]
    pub fn of<Q: Quantity>(&self, input: Input<Q>) -> Q {
        Q::from_base(self.inputs.get(input.at).copied().unwrap_or(f64::NAN))
    }
}

/// What is drawn: a shape, scaled by the inputs that depend on it.
#[derive(Debug, Clone)]
struct Source {
    identity: Option<Identity>,
    shape: Shape,
    /// Observations of one set share one draw of its scatter: the set, and its degrees of freedom.
    set: Option<(Identity, usize)>,
}

/// An input: its value, and how many of each source it holds, SI units.
#[derive(Debug, Clone)]
struct Drawn {
    value: f64,
    parts: Vec<(usize, f64)>,
}

impl Simulation {
    /// A simulation of that seed: the same seed gives the same result.
    pub fn seeded(seed: u64) -> Self {
        Simulation { seed, draws: DRAWS, sources: Vec::new(), inputs: Vec::new() }
    }

    /// So many draws instead of a million; a hundred at least.
    #[must_use]
    pub fn draws(mut self, draws: usize) -> Self {
        self.draws = draws.max(100);
        self
    }

    /// Adds an input: a reading, a measured result, or a plain quantity, which does not vary.
    ///
    /// # Errors
    /// Scatter of fewer than four observations; a value or doubt that is not finite.
    pub fn input<Q: Quantity>(&mut self, known: impl Known<Q>) -> Result<Input<Q>> {
        let measured = Measured::exact(known.value()).depending_on(known, 1.0);
        let mut parts = Vec::new();
        for contribution in measured.doubt().all().iter().filter(|c| c.amount != 0.0) {
            let source = self.source_of(contribution)?;
            parts.push((source, contribution.amount));
        }
        self.push(measured.value(), parts)
    }

    /// Adds an input that is spread about its value in a way of its own.
    ///
    /// # Errors
    /// Parameters that cannot be: a negative width, limits inexact by more than half their width, two degrees of
    /// freedom or fewer, anything not finite.
    pub fn drawn<Q: Quantity>(
        &mut self,
        value: Q,
        distribution: Distribution<Q::Difference>,
    ) -> Result<Input<Q>> {
        let Some((shape, amount)) = distribution.shape() else {
            return Err(Error::out_of_range(
                format!("distribution of {}", Q::NAME),
                format!("{distribution:?}"),
                "widths are finite and not negative, limits inexact by at most half their width, \
                 degrees of freedom more than two",
                "check the parameters",
            ));
        };
        self.sources.push(Source { identity: None, shape, set: None });
        let at = self.sources.len() - 1;
        self.push(value, vec![(at, amount)])
    }

    fn push<Q: Quantity>(&mut self, value: Q, parts: Vec<(usize, f64)>) -> Result<Input<Q>> {
        let value = value.base();
        if !(value.is_finite() && parts.iter().all(|(_, amount)| amount.is_finite())) {
            return Err(not_finite::<Q>("an input"));
        }
        self.inputs.push(Drawn { value, parts });
        Ok(Input { at: self.inputs.len() - 1, of: PhantomData })
    }

    /// The source of a contribution, made where it is new.
    fn source_of(&mut self, contribution: &Contribution) -> Result<usize> {
        if let Some(at) = self.sources.iter().position(|s| s.identity == Some(contribution.source)) {
            return Ok(at);
        }
        let degrees = contribution.degrees_of_freedom();
        if degrees <= 2.0 {
            return Err(Error::out_of_range(
                format!("degrees of freedom of {}", contribution.describe()),
                degrees,
                "with two or fewer the t distribution has no variance to simulate",
                "repeat the reading four times or more, or use the linear form",
            ));
        }
        let (shape, set) = match contribution.cause {
            Cause::Step { .. } | Cause::Limits | Cause::Accuracy { limits: true } => {
                (Shape::Rectangular, None)
            }
            Cause::Accuracy { limits: false } => (Shape::Normal, None),
            Cause::Repeats { .. } | Cause::Stated { .. } => {
                let normal = degrees.is_infinite();
                (if normal { Shape::Normal } else { Shape::Student(degrees) }, None)
            }
            Cause::Together { count } => (Shape::Normal, Some((contribution.reading, count - 1))),
        };
        self.sources.push(Source { identity: Some(contribution.source), shape, set });
        Ok(self.sources.len() - 1)
    }

    /// Draws, and computes the result of each draw.
    ///
    /// # Errors
    /// Where a draw gives a result that is not finite: the result has no value everywhere within the doubt.
    pub fn run<R: Quantity>(&self, mut model: impl FnMut(&Draw<'_>) -> R) -> Result<Simulated<R>> {
        self.try_run(|draw| Ok(model(draw)))
    }

    /// The same, of a result that may fail.
    ///
    /// # Errors
    /// The first error of the model, and as [`run`](Simulation::run).
    pub fn try_run<R: Quantity>(
        &self,
        mut model: impl FnMut(&Draw<'_>) -> Result<R>,
    ) -> Result<Simulated<R>> {
        let mut generator = Generator::seeded(self.seed);
        let sets = self.sets();
        let mut factors = vec![1.0; sets.len()];
        let mut drawn = vec![0.0; self.sources.len()];
        let mut inputs = vec![0.0; self.inputs.len()];
        let mut results = Vec::with_capacity(self.draws);
        for _ in 0..self.draws {
            for (factor, (_, degrees)) in factors.iter_mut().zip(&sets) {
                let squares: f64 = (0..*degrees).map(|_| generator.normal().powi(2)).sum();
                *factor = (*degrees as f64 / squares).sqrt();
            }
            for (value, source) in drawn.iter_mut().zip(&self.sources) {
                *value = source.shape.draw(&mut generator);
                if let Some(set) = source.set {
                    *value *= sets.iter().zip(&factors).find(|(s, _)| **s == set).map_or(1.0, |(_, f)| *f);
                }
            }
            for (value, input) in inputs.iter_mut().zip(&self.inputs) {
                let parts = input.parts.iter();
                *value = parts.fold(input.value, |sum, (at, amount)| {
                    sum + amount * drawn.get(*at).copied().unwrap_or(f64::NAN)
                });
            }
            let result = model(&Draw { inputs: &inputs })?.base();
            if !result.is_finite() {
                return Err(not_finite::<R>("a draw"));
            }
            results.push(result);
        }
        Ok(Simulated::of(results))
    }

    /// The sets of observations, each once.
    fn sets(&self) -> Vec<(Identity, usize)> {
        let mut sets: Vec<_> = self.sources.iter().filter_map(|source| source.set).collect();
        sets.sort_unstable();
        sets.dedup();
        sets
    }
}

fn not_finite<Q: Quantity>(what: &str) -> Error {
    Error::inconsistent(
        format!("simulation of {}", Q::NAME),
        format!("{what} is not a finite number"),
        "check the readings: their doubt reaches values for which there is no result",
    )
}

#[cfg(test)]
mod tests;
