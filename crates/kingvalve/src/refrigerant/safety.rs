//! Safety groups of ANSI/ASHRAE Standard 34.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Toxicity class (A lower, B higher) and flammability class (1 none, 2L lower with slow flame, 2, 3 higher).
///
/// # Source
/// ANSI/ASHRAE Standard 34, section 6; the group of each refrigerant: the designation table, each row its own
/// source.
///
/// # Example
/// ```
/// use kingvalve::refrigerant::{Refrigerant, SafetyGroup};
/// let group = Refrigerant::named("R-454B")?.safety_group().unwrap();
/// assert_eq!(group, SafetyGroup::A2L);
/// assert!(group.is_flammable());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[allow(missing_docs, reason = "the names are the standard's")]
pub enum SafetyGroup {
    A1,
    A2L,
    A2,
    A3,
    B1,
    B2L,
    B2,
    B3,
}

impl SafetyGroup {
    /// Flammability class 2L, 2 or 3.
    pub fn is_flammable(self) -> bool {
        !matches!(self, SafetyGroup::A1 | SafetyGroup::B1)
    }

    /// Toxicity class B.
    pub fn is_of_higher_toxicity(self) -> bool {
        matches!(self, SafetyGroup::B1 | SafetyGroup::B2L | SafetyGroup::B2 | SafetyGroup::B3)
    }
}

impl fmt::Display for SafetyGroup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(self, f)
    }
}
