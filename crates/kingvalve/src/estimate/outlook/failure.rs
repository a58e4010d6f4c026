//! How likely equipment fails as it ages.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Ratio, Time, fraction, years};
use crate::{Error, Result};

/// Failure that grows likelier with age, its rate known only so well.
///
/// The cumulative hazard at age *a* is θ·aᵏ (Weibull); θ is gamma distributed, which failures and years of service
/// update.
///
/// # Units
/// Years.
/// # Source
/// Gamma-Poisson updating (conjugate): A. Gelman and others, Bayesian Data Analysis, chapter 2 (from memory). The
/// default, a typical life of 18 years with *k* = 3, as firm as four failures: common practice, no source.
/// # Valid range
/// Ages up to 60 years.
/// # Accuracy
/// Exact for the belief given: the chance to survive from age *a* to *b* is (β/(β + bᵏ − aᵏ))^α.
/// # Errors
/// See [`believed`](Aging::believed).
/// # Example
/// ```
/// use kingvalve::estimate::outlook::Aging;
/// use kingvalve::quantity::years;
/// let aging = Aging::default();
/// let (young, old) = (aging.survives(years(2.0), years(5.0)), aging.survives(years(15.0), years(5.0)));
/// assert!(young > old);
/// assert_eq!(format!("{young:.0} {old:.0}"), "94 % 49 %");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Aging {
    /// The exponent k.
    shape: f64,
    /// Failures, those believed before any record included.
    failures: f64,
    /// Σ of ageᵏ lived through, years to the k.
    exposure: f64,
    /// How many records of the shop are in it.
    #[serde(default)]
    records: u64,
}

/// What a shop saw of one group of like equipment: from what age to what age, how many failed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FailureRecords {
    /// How many pieces were watched.
    pub watched: u64,
    /// Their age when watching began.
    pub from_age: Time,
    /// Their age when it ended, by failure or otherwise: on average.
    pub to_age: Time,
    /// How many of them failed.
    pub failed: u64,
}

impl Default for Aging {
    fn default() -> Self {
        Aging { shape: 3.0, failures: 4.0, exposure: 4.0 * 18.0 * 18.0 * 18.0, records: 0 }
    }
}

impl Aging {
    /// A typical life (that by which 63 % fail), an exponent (1: age does not matter; 3: it does), and as many failures as
    /// the belief is worth.
    ///
    /// # Errors
    /// A life outside 1 to 60 years, an exponent outside 1 to 8, or a weight that is not above zero.
    pub fn believed(life: Time, shape: f64, weight: f64) -> Result<Aging> {
        let aging =
            Aging { shape, failures: weight, exposure: weight * life.years().powf(shape), records: 0 };
        if !(1.0..=60.0).contains(&life.years()) {
            return Err(Error::out_of_range(
                "typical life",
                life,
                "it lies from 1 to 60 years",
                "15 to 20 is usual",
            ));
        }
        aging.check()?;
        Ok(aging)
    }

    /// Equipment that is taken not to fail.
    pub fn never() -> Aging {
        Aging { shape: 1.0, failures: 0.0, exposure: 1.0, records: 0 }
    }

    /// After what the shop saw.
    ///
    /// # Errors
    /// Ages out of order or beyond 60 years; more failures than pieces.
    pub fn learned(self, seen: FailureRecords) -> Result<Aging> {
        let (from, to) = (seen.from_age.years(), seen.to_age.years());
        if !(from >= 0.0 && to >= from && to <= 60.0 && seen.failed <= seen.watched) {
            return Err(Error::inconsistent(
                "records of failures",
                format!(
                    "{} of {} failed from {} to {}",
                    seen.failed, seen.watched, seen.from_age, seen.to_age
                ),
                "ages are in order and up to 60 years, failures no more than pieces",
            ));
        }
        Ok(Aging {
            failures: self.failures + seen.failed as f64,
            exposure: self.exposure + seen.watched as f64 * (to.powf(self.shape) - from.powf(self.shape)),
            records: self.records.saturating_add(seen.watched),
            ..self
        })
    }

    /// The chance that equipment of that age is still running after `more`.
    pub fn survives(&self, age: Time, more: Time) -> Ratio {
        fraction(self.survival(age.years(), more.years()))
    }

    /// How many records of the shop are in it.
    pub fn records(&self) -> u64 {
        self.records
    }

    /// The life by which 63 % fail, at the mean rate believed.
    pub fn typical_life(&self) -> Time {
        years((self.exposure / self.failures).powf(1.0 / self.shape))
    }

    /// Whether it can fail at all.
    pub fn can_fail(&self) -> bool {
        self.failures > 0.0
    }

    fn survival(&self, age: f64, more: f64) -> f64 {
        let lived = (age + more).powf(self.shape) - age.powf(self.shape);
        (self.exposure / (self.exposure + lived)).powf(self.failures)
    }

    /// The chance to fail in each coming year of a horizon, and of not failing within it.
    pub(super) fn by_year(&self, age: f64, horizon: u32) -> (Vec<f64>, f64) {
        let at = |year: u32| self.survival(age, f64::from(year));
        ((1..=horizon).map(|year| at(year - 1) - at(year)).collect(), at(horizon))
    }

    pub(super) fn check(&self) -> Result<()> {
        let fits = (1.0..=8.0).contains(&self.shape)
            && (0.0..=1e9).contains(&self.failures)
            && self.exposure > 0.0
            && self.exposure.is_finite();
        if fits {
            return Ok(());
        }
        Err(Error::inconsistent(
            "aging",
            format!("exponent {}, {} failures in {} years^k", self.shape, self.failures, self.exposure),
            "the exponent lies from 1 to 8, failures are not negative, exposure is above zero",
        ))
    }
}
