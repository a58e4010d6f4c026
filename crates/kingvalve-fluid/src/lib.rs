//! Refrigerant properties from published Helmholtz-energy equations of state.
//!
//! SI `f64` inside: kelvin, pascal (absolute), mol/m³, J/mol. The crate knows nothing of gauges, shops or
//! money; the `kingvalve` crate wraps it in quantities.
//!
//! ```
//! use kingvalve_fluid::Fluid;
//! let propane = Fluid::pure("R-290")?;
//! let boiling = propane.bubble_at_pressure(101_325.0)?;
//! assert!((boiling.temperature - 231.04).abs() < 0.01);
//! # Ok::<(), kingvalve_fluid::Error>(())
//! ```

mod blend;
mod closed_volume;
mod curve;
mod data;
mod density;
mod eos;
mod equilibrium;
mod error;
mod flash;
mod fluid;
mod helmholtz;
mod mass;
mod mixture;
mod pair;
mod pair_info;
mod pure;
mod root;
mod saturation;
mod state;
mod withdrawal;

pub use blend::Basis;
pub use curve::{Curve, WorstError};
pub use data::{PairBasis, Source, pure_names};
pub use equilibrium::{CriticalPoint, Line, Phase, Saturation};
pub use error::{Error, Result};
pub use flash::Split;
pub use fluid::Fluid;
pub use helmholtz::ResidualHelmholtz;
pub use mixture::MAX_COMPONENTS;
pub use pair_info::{ExpectedError, PairInfo};
pub use pure::Chemistry;
pub use state::{Reference, State};
pub use withdrawal::Withdrawal;
