//! Where the parameters of a pair of components come from, and how good they are.

use crate::data::{PairBasis, Source};
use crate::pair;

/// Where the parameters of one pair of components come from.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PairInfo {
    /// The two components.
    pub components: [String; 2],
    /// Fitted to measurements of this pair, or estimated.
    pub basis: PairBasis,
    /// Whether the pair has a departure function besides its reducing parameters.
    pub has_departure: bool,
    /// Whether that departure function was fitted to this very pair, not shared with others.
    pub own_departure: bool,
    /// Whether both components are halogenated, or neither.
    pub alike: bool,
    /// The paper.
    pub source: Source,
}

/// An expected relative error, and where the number comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ExpectedError {
    /// As a fraction.
    pub relative: f64,
    /// Document, or how it was measured.
    pub source: &'static str,
}

impl PairInfo {
    /// The relative error in bubble pressure to expect of the pair alone at equal moles.
    ///
    /// # Units
    /// A fraction.
    ///
    /// # Source
    /// A departure function of its own: 1 %, as the abstract of Bell, J. Phys. Chem. Ref. Data 52 (2023) 013101
    /// states for R-32/R-1234yf. Fitted reducing parameters: 5 %, as the abstract of Bell and Lemmon, J. Chem. Eng.
    /// Data 61 (2016) 3752 states of the median error of three quarters of its 1,100 pairs. Estimated: measured, by
    /// applying the estimate to all pairs with fitted parameters, nine in ten of which stay below (0.75 of the
    /// critical temperature; 142 pairs of halogenated fluids, 115 of one halogenated and one other).
    ///
    /// # Valid range
    /// Equal moles; with mole fractions x and y about 4xy of it, the pair's share in the reducing functions.
    ///
    /// # Accuracy
    /// An order of magnitude, not a bound.
    pub fn expected_pressure_error(&self) -> ExpectedError {
        match (self.basis, self.own_departure, self.alike) {
            (PairBasis::Fitted, true, _) => {
                ExpectedError { relative: 0.01, source: "Bell (2023), abstract, for R-32/R-1234yf" }
            }
            (PairBasis::Fitted, false, _) => ExpectedError {
                relative: 0.05,
                source: "Bell and Lemmon (2016), abstract: median error of three quarters of the pairs",
            },
            (PairBasis::Estimated, _, true) => ExpectedError {
                relative: pair::ESTIMATED_ALIKE,
                source: "measured: the estimate applied to 142 fitted pairs of halogenated fluids, nine in ten below",
            },
            (PairBasis::Estimated, _, false) => ExpectedError {
                relative: pair::ESTIMATED_UNLIKE,
                source: "measured: the estimate applied to 115 fitted pairs of unlike fluids, nine in ten below",
            },
        }
    }
}
