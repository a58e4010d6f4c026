//! How good a refrigerant's model is: what each pair of its components rests on.

use std::fmt;

use kingvalve_fluid::PairInfo;

use super::Refrigerant;
use crate::quantity::{Ratio, percent};

/// What the model of a pair of components rests on, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum PairBasis {
    /// Measured well enough that the pair has a departure function of its own.
    Measured,
    /// Measured: its mixing parameters are fitted, its shape is borrowed from others.
    Fitted,
    /// Not measured, or not published: a combining rule without parameters.
    Estimated,
}

/// One pair of components.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PairAccuracy {
    /// Designations of the two.
    pub components: [String; 2],
    /// What the pair rests on.
    pub basis: PairBasis,
    /// The relative error in saturation pressure that the pair may bring into this refrigerant.
    pub pressure_error: Ratio,
    /// Where the expected error of such pairs comes from.
    pub error_source: &'static str,
    /// The paper of its parameters.
    pub paper: String,
}

/// What a refrigerant's properties rest on, and the error in pressure to expect.
#[derive(Debug, Clone, PartialEq)]
pub struct Accuracy {
    papers: Vec<(String, String)>,
    pairs: Vec<PairAccuracy>,
    pressure_error: Ratio,
}

/// What an equation of state of a pure fluid is typically good to in vapour pressure. From memory: their papers
/// state 0.02 to 0.5 %.
const PURE: f64 = 0.5;

impl Refrigerant {
    /// What the properties rest on: the papers, and for a blend whether each pair of components was measured.
    ///
    /// # Units
    /// Errors as a [`Ratio`] of the pressure.
    /// # Source
    /// Each pair: [`PairInfo::expected_pressure_error`](kingvalve_fluid::PairInfo::expected_pressure_error), which is
    /// for equal moles, times 4xy for mole fractions x and y, its share in the mixing rule. The components themselves:
    /// 0.5 %, from memory of what their papers state.
    /// # Valid range
    /// Any refrigerant the library knows, away from the critical point (below 0.97 of its temperature).
    /// # Accuracy
    /// An order of magnitude to choose and to warn by, not a bound. The whole is the worst of its parts, not their
    /// sum: errors of several pairs partly cancel.
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::refrigerant::{PairBasis, Refrigerant};
    /// let measured = Refrigerant::named("R-454B")?.accuracy();
    /// assert_eq!(measured.basis(), Some(PairBasis::Measured));
    /// let estimated = Refrigerant::named("R-401A")?.accuracy();
    /// assert_eq!(estimated.basis(), Some(PairBasis::Estimated));
    /// assert!(estimated.pressure_error() > 3.0 * measured.pressure_error());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn accuracy(&self) -> Accuracy {
        let fluid = self.fluid();
        let shares: Vec<(&str, f64)> =
            fluid.components().zip(fluid.mole_fractions().iter().copied()).collect();
        let share = |name: &str| shares.iter().find(|(known, _)| *known == name).map_or(0.0, |(_, x)| *x);
        let pairs: Vec<PairAccuracy> = fluid
            .pairs()
            .iter()
            .map(|pair| of_pair(pair, pair.components.each_ref().map(|c| share(c))))
            .collect();
        let worst = pairs.iter().map(|pair| pair.pressure_error.percent()).fold(PURE, f64::max);
        let papers = fluid.components().zip(fluid.sources());
        Accuracy {
            papers: papers.map(|(name, source)| (name.to_owned(), source.citation.clone())).collect(),
            pairs,
            pressure_error: percent(worst),
        }
    }
}

fn of_pair(pair: &PairInfo, [x, y]: [f64; 2]) -> PairAccuracy {
    let expected = pair.expected_pressure_error();
    PairAccuracy {
        components: pair.components.clone(),
        basis: match pair.basis {
            kingvalve_fluid::PairBasis::Fitted if pair.own_departure => PairBasis::Measured,
            kingvalve_fluid::PairBasis::Fitted => PairBasis::Fitted,
            _ => PairBasis::Estimated,
        },
        pressure_error: percent(100.0 * expected.relative * 4.0 * x * y),
        error_source: expected.source,
        paper: pair.source.citation.clone(),
    }
}

impl Accuracy {
    /// What the worst of its pairs rests on; `None` for a refrigerant of one component.
    pub fn basis(&self) -> Option<PairBasis> {
        self.pairs.iter().map(|pair| pair.basis).max()
    }

    /// The relative error in saturation pressure to expect of the whole: the worst of its parts.
    pub fn pressure_error(&self) -> Ratio {
        self.pressure_error
    }

    /// Each pair of components.
    pub fn pairs(&self) -> &[PairAccuracy] {
        &self.pairs
    }

    /// Each component with the paper of its equation of state.
    pub fn papers(&self) -> impl Iterator<Item = (&str, &str)> {
        self.papers.iter().map(|(name, paper)| (name.as_str(), paper.as_str()))
    }
}

impl fmt::Display for PairBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            PairBasis::Measured => "measured",
            PairBasis::Fitted => "fitted",
            PairBasis::Estimated => "estimated",
        })
    }
}

impl fmt::Display for Accuracy {
    /// `R-32/R-1234yf measured; about 1 % in pressure`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for pair in &self.pairs {
            let [first, second] = &pair.components;
            write!(f, "{first}/{second} {}; ", pair.basis)?;
        }
        write!(f, "about {:.1} % in pressure", self.pressure_error.percent())
    }
}
