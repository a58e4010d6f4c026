//! Ratings of fuses and breakers.

use serde::Serialize;

use crate::quantity::{Current, Ratio, amperes, percent};

/// Standard ampere ratings of fuses and inverse-time breakers: NEC 240.6(A), from memory; editions from 2020 on also list
/// 10 A, which no circuit here needs.
pub const STANDARD_RATINGS: [Current; 36] = [
    amperes(15.0),
    amperes(20.0),
    amperes(25.0),
    amperes(30.0),
    amperes(35.0),
    amperes(40.0),
    amperes(45.0),
    amperes(50.0),
    amperes(60.0),
    amperes(70.0),
    amperes(80.0),
    amperes(90.0),
    amperes(100.0),
    amperes(110.0),
    amperes(125.0),
    amperes(150.0),
    amperes(175.0),
    amperes(200.0),
    amperes(225.0),
    amperes(250.0),
    amperes(300.0),
    amperes(350.0),
    amperes(400.0),
    amperes(450.0),
    amperes(500.0),
    amperes(600.0),
    amperes(700.0),
    amperes(800.0),
    amperes(1000.0),
    amperes(1200.0),
    amperes(1600.0),
    amperes(2000.0),
    amperes(2500.0),
    amperes(3000.0),
    amperes(4000.0),
    amperes(5000.0),
];

/// The share of the compressor's current the protection is first chosen by: 175 % (NEC 440.22(A)).
pub const FIRST_CHOICE: Ratio = percent(175.0);

/// The largest share, where the first choice does not carry the start: 225 % (NEC 440.22(A)).
pub const LARGEST_SHARE: Ratio = percent(225.0);

/// The largest overcurrent protection a circuit may have.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Overcurrent {
    /// As computed.
    pub calculated: Current,
    /// The standard rating not above that, and 15 A at least (NEC 440.22(A)).
    pub standard: Current,
}

impl Overcurrent {
    /// The computed value with its standard rating.
    pub(super) fn of(calculated: Current) -> Overcurrent {
        // A sum of decimals may come out a rounding below the rating it means.
        let reach = calculated * (1.0 + 1e-9);
        let fitting = STANDARD_RATINGS.into_iter().rfind(|rating| *rating <= reach);
        Overcurrent { calculated, standard: fitting.unwrap_or(amperes(15.0)) }
    }
}
