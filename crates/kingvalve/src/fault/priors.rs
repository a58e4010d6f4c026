//! How likely each fault is before anything was read.

use super::Fault;
use crate::quantity::{Ratio, percent};
use crate::{Error, Result};

/// Weights of the faults and of none, before the readings; only their proportions count.
///
/// # Source
/// The default is common practice, no source: an invented shop's calls for "does not cool well" where fans and
/// compressor run. A shop's own counts are better: replace them.
/// # Example
/// ```
/// use kingvalve::fault::{Fault, Priors};
/// use kingvalve::quantity::percent;
/// let ours = Priors::default().with(Fault::LowCharge, percent(40.0))?;
/// assert!(ours.of(Fault::LowCharge) > Priors::default().of(Fault::LowCharge));
/// let total: f64 = Fault::ALL.iter().map(|fault| ours.of(*fault).fraction()).sum();
/// assert!((total - 1.0).abs() < 1e-12);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Priors([f64; Fault::ALL.len()]);

/// Weights beyond this are no weights of faults.
const HEAVIEST: f64 = 1e6;

impl Default for Priors {
    fn default() -> Self {
        // Percent, in the order of `Fault::ALL`.
        Priors([25.0, 25.0, 8.0, 15.0, 12.0, 3.0, 3.0, 4.0, 2.0, 3.0])
    }
}

impl Priors {
    /// Every fault, and none, as likely.
    pub fn even() -> Priors {
        Priors([1.0; Fault::ALL.len()])
    }

    /// The same with one weight replaced; the others keep theirs. The default weights are percentages.
    ///
    /// # Errors
    /// A weight that is negative or above a million, or one that leaves no weight at all.
    pub fn with(mut self, fault: Fault, weight: Ratio) -> Result<Self> {
        if !(0.0..=HEAVIEST).contains(&weight.fraction()) {
            return Err(Error::out_of_range(
                format!("prior weight of {fault}"),
                weight,
                "it is not negative, and at most a million times one",
                "give a share of the calls, or zero to leave it out",
            ));
        }
        if let Some(slot) = self.0.get_mut(fault.at()) {
            *slot = weight.percent();
        }
        if self.0.iter().sum::<f64>() > 0.0 {
            return Ok(self);
        }
        Err(Error::inconsistent("priors", "every weight is zero", "leave at least one fault in"))
    }

    /// Its share of the whole.
    pub fn of(&self, fault: Fault) -> Ratio {
        let total: f64 = self.0.iter().sum();
        percent(100.0 * self.0.get(fault.at()).copied().unwrap_or(0.0) / total)
    }
}
