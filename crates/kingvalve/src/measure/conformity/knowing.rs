//! A verdict that counts what is known of the part beforehand.

use super::Prior;
use super::likelihood::Likelihood;
use crate::measure::judgement::Weighed;
use crate::measure::{Known, Level, Limits, Measured, Verdict};
use crate::quantity::Quantity;
use crate::{Error, Result};

impl<Q: Quantity> Limits<Q> {
    /// Judges whether a value lies within, knowing beforehand how parts of its kind are spread.
    ///
    /// # Units
    /// Those of the limits.
    /// # Source
    /// Bayes' rule: JCGM 106:2012, clauses 6 and 7 (the posterior is proportional to prior × likelihood).
    /// # Valid range
    /// Parts that do come from that population: a prior that does not fit makes firm verdicts that are wrong.
    /// # Accuracy
    /// The integrals to 1e-9 where the doubt is bell-shaped or, with few repeats, Student's t with the effective degrees of
    /// freedom. Steps and limits are counted as the rectangles they are, their convolution to about 1 %: it is never
    /// taken as possible that a meter is off by more than its limits.
    /// # Errors
    /// Where the value or its doubt is not finite, or the value lies where the prior allows none at all.
    /// # Example
    /// See [`Prior`].
    pub fn judge_knowing(&self, prior: &Prior<Q>, value: impl Known<Q>, level: Level) -> Result<Verdict<Q>> {
        let best = value.value();
        let measured = Measured::exact(best).depending_on(value, 1.0);
        let weighed = Weighed::of(best, measured.doubt(), level)?;
        let standard = measured.doubt().standard();
        if standard == 0.0 {
            return Ok(weighed.against(self.clone()));
        }
        let likelihood = Likelihood::of(measured.doubt());
        let [below, within, above] = prior.split(self, &[(best.base(), likelihood.width())], |truth| {
            likelihood.density(best.base() - truth)
        });
        let all = below + within + above;
        if !(all > 0.0 && all.is_finite()) {
            return Err(Error::inconsistent(
                Q::NAME,
                format!("{measured} lies where what was known beforehand allows no part at all"),
                "check the reading, and whether the part comes from that population",
            ));
        }
        Ok(weighed.knowing(self.clone(), below / all, above / all))
    }
}
