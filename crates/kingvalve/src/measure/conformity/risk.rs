//! What accepting and rejecting by a reading risks.

use super::Prior;
use crate::measure::distribution::normal_cdf;
use crate::measure::{Known, Level, Limits};
use crate::quantity::{Quantity, Ratio};
use crate::{Error, Result};

/// A rule that accepts a part where its reading lies within the limits, or within a guard band inside (or outside) them.
///
/// # Source
/// JCGM 106:2012, clause 8 (decision rules, guard bands) and clause 9 (risks).
/// # Example
/// ```
/// use kingvalve::measure::{Acceptance, Limits, Prior};
/// use kingvalve::quantity::*;
/// // JCGM 106:2012, 9.5.4 in volts: a gamma prior of mean 1, a limit of 2, a meter of u = 0.25.
/// let parts = Prior::gamma(volts(1.0), volts(0.5))?;
/// let simple = Acceptance::simple(Limits::at_most(volts(2.0))?);
/// let risks = simple.global_risks(&parts, volts(0.25))?;
/// assert_eq!(format!("{:.1}", risks.consumer), "0.8 %");
/// let guarded = simple.guarded_for(&parts, volts(0.25), percent(0.1))?;
/// assert_eq!(format!("{:.2}", guarded.guard()), "0.33 V");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Acceptance<Q: Quantity> {
    tolerance: Limits<Q>,
    guard: Q::Difference,
}

/// The two ways a rule goes wrong, over all parts and readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Risks {
    /// That a part is accepted and does not conform.
    pub consumer: Ratio,
    /// That a part is rejected and does conform.
    pub producer: Ratio,
    /// That a part conforms, measured or not.
    pub conforming: Ratio,
}

/// What one decision on one part risks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SpecificRisk {
    /// It is accepted, and does not conform with this probability.
    Consumer(Ratio),
    /// It is rejected, and conforms with this probability.
    Producer(Ratio),
}

impl<Q: Quantity> Acceptance<Q> {
    /// Accepts within the limits themselves (simple acceptance, JCGM 106:2012, 8.2).
    pub fn simple(tolerance: Limits<Q>) -> Self {
        Acceptance { tolerance, guard: Q::Difference::from_base(0.0) }
    }

    /// Accepts that far inside either limit; a negative guard accepts outside (8.3.2 and 8.3.3).
    ///
    /// # Errors
    /// A guard that is not finite, or leaves nothing between two limits.
    pub fn guarded(mut self, guard: Q::Difference) -> Result<Self> {
        if !(guard.base().is_finite() && 2.0 * guard.base() < self.tolerance.bounds().width()) {
            return Err(Error::out_of_range(
                "guard band",
                guard,
                format!("it leaves nothing to accept within {}", self.tolerance),
                "take a narrower guard band, or a better meter",
            ));
        }
        self.guard = guard;
        Ok(self)
    }

    /// Guards so that a reading of that standard uncertainty on the edge still conforms with the level: z·u, the
    /// one-sided form of 8.3.2.
    ///
    /// # Errors
    /// As [`guarded`](Acceptance::guarded).
    pub fn guarded_at(self, level: Level, standard: Q::Difference) -> Result<Self> {
        let guard = Q::Difference::from_base(level.one_sided() * standard.base());
        self.guarded(guard)
    }

    /// The narrowest guard with which the consumer's risk over all parts is at most so much (9.5.4).
    ///
    /// # Errors
    /// Where no guard keeps it so low, or as [`global_risks`](Acceptance::global_risks).
    pub fn guarded_for(&self, prior: &Prior<Q>, standard: Q::Difference, consumer: Ratio) -> Result<Self> {
        let at = |guard: f64| {
            let rule =
                Acceptance { tolerance: self.tolerance.clone(), guard: Q::Difference::from_base(guard) };
            rule.global_risks(prior, standard).map(|risks| (rule, risks.consumer <= consumer))
        };
        let (simple, enough) = at(0.0)?;
        if enough {
            return Ok(simple);
        }
        let half = 0.5 * self.tolerance.bounds().width();
        let (mut low, mut high) = (0.0, (10.0 * standard.base()).min(half * (1.0 - 1e-9)));
        let (mut best, enough) = at(high)?;
        if !enough {
            return Err(Error::out_of_range(
                "consumer's risk asked for",
                consumer,
                "no guard band within the limits keeps it so low",
                "take a better meter, or accept a higher risk",
            ));
        }
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            match at(middle)? {
                (rule, true) => (best, high) = (rule, middle),
                (_, false) => low = middle,
            }
        }
        Ok(best)
    }

    /// The limits that conformity is defined by.
    pub fn tolerance(&self) -> &Limits<Q> {
        &self.tolerance
    }

    /// How far inside them it accepts.
    pub fn guard(&self) -> Q::Difference {
        self.guard
    }

    /// Whether a reading is accepted.
    pub fn accepts(&self, value: Q) -> bool {
        let (low, high) = self.zone();
        (low..=high).contains(&value.base())
    }

    /// What deciding by this reading risks, for this part.
    ///
    /// # Source
    /// JCGM 106:2012, 9.3: the probability, given the reading, that the decision is wrong.
    /// # Accuracy
    /// As [`Limits::judge`] without and [`Limits::judge_knowing`] with a prior.
    /// # Errors
    /// As those.
    pub fn specific_risk(&self, value: impl Known<Q>, prior: Option<&Prior<Q>>) -> Result<SpecificRisk> {
        let accepted = self.accepts(value.value());
        let level = Level::default();
        let verdict = match prior {
            Some(prior) => self.tolerance.judge_knowing(prior, value, level)?,
            None => self.tolerance.judge(value, level)?,
        };
        let within = verdict.judgement().probability_within();
        Ok(if accepted {
            SpecificRisk::Consumer(Ratio::from_si(1.0 - within.fraction()))
        } else {
            SpecificRisk::Producer(within)
        })
    }

    /// What the rule risks over all parts of a population, read with that standard uncertainty.
    ///
    /// # Source
    /// JCGM 106:2012, 9.4 and 9.5 (equations 18 to 21): the prior times the probability that a part is accepted,
    /// integrated beyond the limits; times the probability that it is rejected, within.
    /// # Accuracy
    /// The integrals to 1e-9, for bell-shaped reading errors.
    /// # Errors
    /// Unless the standard uncertainty is positive and finite.
    pub fn global_risks(&self, prior: &Prior<Q>, standard: Q::Difference) -> Result<Risks> {
        let u = standard.base();
        if !(u > 0.0 && u.is_finite()) {
            return Err(Error::out_of_range(
                "standard uncertainty of the readings",
                standard,
                "it must be positive",
                "take it from the meter's specification",
            ));
        }
        let (low, high) = self.zone();
        let accepted = |truth: f64| normal_cdf((high - truth) / u) - normal_cdf((low - truth) / u);
        let edges: Vec<(f64, f64)> =
            [low, high].into_iter().filter(|edge| edge.is_finite()).map(|edge| (edge, u)).collect();
        let [below, inside, above] = prior.split(&self.tolerance, &edges, |_| 1.0);
        let all = below + inside + above;
        let [false_below, _, false_above] = prior.split(&self.tolerance, &edges, accepted);
        let [_, false_reject, _] = prior.split(&self.tolerance, &edges, |truth| 1.0 - accepted(truth));
        Ok(Risks {
            consumer: Ratio::from_si((false_below + false_above) / all),
            producer: Ratio::from_si(false_reject / all),
            conforming: Ratio::from_si(inside / all),
        })
    }

    /// Where readings are accepted, SI units.
    fn zone(&self) -> (f64, f64) {
        let (bounds, guard) = (self.tolerance.bounds(), self.guard.base());
        (bounds.lower + guard, bounds.upper - guard)
    }
}
