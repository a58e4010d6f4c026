//! Instruments, readings, their doubt, and verdicts.
//!
//! A [`Reading`] is a value and the [`Instrument`] it was read on. Library functions take anything [`Known`]: given a
//! reading they return a [`Measured`] result, which keeps its doubt by source, so that what two inputs share (one
//! meter's accuracy, one reading used twice) adds up or cancels exactly. [`Limits::judge`] weighs a result and answers
//! with a [`Verdict`]: within, outside, or unresolved with what would settle it.
//!
//! # Source
//! Propagation and coverage: JCGM 100:2008. Monte Carlo ([`Simulation`]): JCGM 101:2008. Conformity, guard bands and
//! risks ([`Acceptance`], [`Prior`]): JCGM 106:2012. The classes of the [`catalogue`] are generic: common practice, no
//! source.
//! # Valid range
//! Doubt small enough for the result to be straight over its width; where it is not, [`Simulation`] draws it instead.
//! # Accuracy
//! Examples H.1 and H.2 of JCGM 100, clause 9 of JCGM 101 and those of JCGM 106 to the digits printed there; linear
//! results agree with the Python package `uncertainties` 3.2.3 to 1e-9. How often verdicts and intervals are wrong,
//! `make calibration` prints for each meter; see [`Limits::judge`].
//!
//! # Example
//! ```
//! use kingvalve::measure::*;
//! use kingvalve::quantity::*;
//! let meter = Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.0);
//! let line = Reading::new(volts(208.0), meter)?.labelled("line voltage");
//! let plate = Limits::between(volts(207.0), volts(253.0))?.from_source("230 V ±10 %");
//! let verdict = plate.judge(&line, Level::default())?;
//! assert!(verdict.is_unresolved());
//! let settle = verdict.judgement().settle().expect("it is unresolved");
//! assert_eq!(settle.remedy(), Remedy::BetterAccuracy);
//! # Ok::<(), kingvalve::Error>(())
//! ```

mod arithmetic;
mod catalogue;
mod caution;
mod combine;
mod conformity;
mod distribution;
mod dominant;
mod doubt;
mod finding;
mod instrument;
mod instrument_json;
mod interval;
mod judgement;
mod known;
mod label;
mod level;
mod limits;
mod measured;
mod monte_carlo;
mod prose;
mod reading;
mod rows;
mod settle;
mod site;
mod source;
mod spread;
mod together;
mod verdict;

pub use catalogue::{Catalogue, Offer, catalogue};
pub use caution::Caution;
pub use combine::{Combined, Disagreement};
pub use conformity::{Acceptance, Prior, Risks, SpecificRisk};
pub(crate) use distribution::{chi_square_beyond, normal_cdf, normal_quantile};
pub use doubt::Doubt;
pub use finding::Finding;
pub(crate) use finding::Told;
pub use instrument::{Coverage, Instrument};
pub use interval::Interval;
pub use judgement::Judgement;
pub(crate) use judgement::Weighed;
pub use known::{All3, Both, Doubtful, Grade, Known, Plain, carry_all3, carry_both};
pub use label::Label;
pub use level::Level;
pub use limits::Limits;
pub use measured::{Measured, Share};
pub use monte_carlo::{Agreement, Distribution, Draw, Generator, Input, Simulated, Simulation};
pub use reading::Reading;
pub use rows::RowVerdict;
pub(crate) use rows::{RowDoubt, is_at_least, row_verdict, row_verdict_alone};
pub use settle::{Change, Remedy, Settle, Way, Ways};
pub use together::Together;
pub use verdict::Verdict;
