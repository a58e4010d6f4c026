//! A vacuum decay test: from a log to a cause.

use super::check::{Cause, DecayCheck, Found, Presence, Why};
use super::profile::{Fit, Profile};
use super::series::Series;
use super::shape::{Bounds, Shape};
use super::{DecayLog, DecayRule, VacuumTarget};
use crate::air::saturation_pressure;
use crate::measure::{Level, Limits, Measured, Reading, Verdict};
use crate::quantity::{Pressure, PressureDifference, Quantity, Temperature, delta_pascals};
use crate::{Error, Result};

/// Parameters of the fullest model: start, rise, share, the source's own, and where it levels off.
const PARAMETERS: usize = 5;
/// Normal quantile beyond which a fit follows none of the shapes: one in a thousand.
const MISFIT: f64 = 3.09;

/// A vacuum decay test: the log, and the coldest point at which water may sit.
///
/// # Example
/// ```
/// use kingvalve::measure::{Instrument, Measured};
/// use kingvalve::quantity::*;
/// use kingvalve::tightness::{Cause, DecayLog, DecayTest};
/// let gauge = Instrument::resolution(delta_microns(1.0)).accuracy_percent_of_reading(10.0);
/// // Invented: 90 microns a minute, straight, for three quarters of an hour.
/// let straight = (0..90).map(|n| (minutes(0.5 * f64::from(n)), microns(350.0 + 45.0 * f64::from(n))));
/// let coldest = Measured::from_standard(fahrenheit(70.0), delta_fahrenheit(1.0), "thermometer")?;
/// let check = DecayTest::new(DecayLog::new(straight, gauge)?, coldest).check()?;
/// assert_eq!(check.cause(), Cause::Leak);
/// assert!(check.hold().is_some_and(|hold| hold.is_outside()));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct DecayTest {
    log: DecayLog,
    coldest: Measured<Temperature>,
    target: VacuumTarget,
    rule: DecayRule,
}

impl DecayTest {
    /// A test of a log, with the default target and rule.
    pub fn new(log: DecayLog, coldest: Measured<Temperature>) -> Self {
        DecayTest { log, coldest, target: VacuumTarget::default(), rule: DecayRule::default() }
    }

    /// Another target.
    #[must_use]
    pub fn target(mut self, target: VacuumTarget) -> Self {
        self.target = target;
        self
    }

    /// Another rule.
    #[must_use]
    pub fn rule(mut self, rule: DecayRule) -> Self {
        self.rule = rule;
        self
    }

    /// What the log shows: whether the vacuum held, and why it rose.
    ///
    /// # Units
    /// Absolute pressures; the rise of a leak as a pressure in an hour.
    /// # Source
    /// Leak: constant inflow, p₀ + a·t (any text of vacuum technique). Water: first-order approach to the saturation
    /// pressure of ASHRAE Handbook—Fundamentals 2017, chapter 1. Outgassing: rates ∝ 1/t and 1/√t (O'Hanlon, A User's
    /// Guide to Vacuum Technology, chapter 4: from memory). Fit: separable least squares (Golub and Pereyra 1973); the
    /// leak's share by its profile, F quantile of one parameter at [`DecayRule::level`]; a fit whose residual variance
    /// exceeds the scatter of the readings beyond one chance in a thousand is none.
    /// # Valid range
    /// Up to 10 kPa; one temperature all the while; one system, shut off from pump and hoses. A spot that cools or
    /// freezes as water leaves it is allowed for by [`DecayRule::cooling`] only as a lower plateau.
    /// # Accuracy
    /// On simulated leaks, moisture, both, and outgassing with gauge noise, 95 % and more are named right where the
    /// log is long enough (a leak has risen by 8,000 microns; water has had five of its own times; outgassing twelve
    /// times the time pumped, that time known to a quarter), 95 % and more of logs far too short are left open, and at
    /// most 2 % of logs of any length are named wrong (this library's tests). On a real log a wandering
    /// temperature is the largest error not counted: it shows as `Unresolved`, or as a share.
    /// # Errors
    /// A target or rule that cannot be; a temperature outside the range of the vapour pressure.
    /// # Example
    /// See [`DecayTest`].
    pub fn check(&self) -> Result<DecayCheck> {
        self.target.validate().map_err(|error| error.in_field("target"))?;
        self.rule.validate().map_err(|error| error.in_field("rule"))?;
        let water = self.water().map_err(|error| error.in_field("coldest"))?;
        let series = Series::of(&self.log);
        let span = series.span;
        let pumped = (self.rule.pumped.low().base() / span, self.rule.pumped.high().base() / span);
        let bounds = Bounds { water, pumped };
        let found = self.find(&series, &bounds)?;
        DecayCheck::new(found, &self.log, bounds.water, self.pulled()?, self.hold()?)
    }

    /// The pressures at which water may level off, as this gauge may read them, Pa.
    fn water(&self) -> Result<(f64, f64)> {
        let at = self.coldest.interval(Level::default())?;
        let gauge = self.log.gauge();
        let low = saturation_pressure(at.low() - self.rule.cooling)?;
        let high = saturation_pressure(at.high())?;
        let (under, over) = (gauge.specified(low).base(), gauge.specified(high).base());
        if under >= low.base() {
            return Err(Error::inconsistent(
                "vacuum gauge",
                format!(
                    "its accuracy of {:.0} at {low:.4} cannot tell water from nothing",
                    gauge.specified(low)
                ),
                "log with a vacuum gauge",
            ));
        }
        Ok((low.base() - under, high.base() + over))
    }

    fn reading(&self, pressure: Pressure, label: &'static str) -> Result<Reading<Pressure>> {
        Ok(Reading::new(pressure, self.log.gauge().clone())?.labelled(label))
    }

    /// Whether it was pulled down far enough to begin with.
    fn pulled(&self) -> Result<Option<Verdict<Pressure>>> {
        let Some(first) = self.log.samples().first() else { return Ok(None) };
        let limits = Limits::at_most(self.target.pull_to)?.from_source("target of the evacuation");
        limits.judge(self.reading(first.pressure, "first pressure")?, Level::default()).map(Some)
    }

    /// Whether it stayed low enough for long enough; none where the log is shorter.
    fn hold(&self) -> Result<Option<Verdict<Pressure>>> {
        let start = self.log.samples().first().map(|sample| sample.time);
        let end = start.and_then(|start| {
            self.log.samples().iter().find(|sample| sample.time - start >= self.target.hold)
        });
        let Some(end) = end else { return Ok(None) };
        let limits = Limits::at_most(self.target.at_most)?.from_source("target of the hold");
        limits.judge(self.reading(end.pressure, "pressure after the hold")?, Level::default()).map(Some)
    }

    fn find(&self, series: &Series, bounds: &Bounds) -> Result<Found> {
        let t = quantile(self.rule.level, series.scatter_freedom)?;
        let line = series.line();
        if line.rise < -t * line.rise_standard {
            return Ok(Found::open(Why::Falls, None));
        }
        if line.rise <= t * line.rise_standard {
            return Ok(steady(series, bounds, &line, t));
        }
        let profiles: Vec<Profile<'_>> =
            Shape::ALL.iter().map(|shape| Profile::of(series, bounds, *shape)).collect();
        let best = profiles.iter().filter_map(Profile::best).min_by(|a, b| a.chi2.total_cmp(&b.chi2));
        let Some(best) = best else { return Ok(Found::open(Why::Misfit, None)) };
        let freedom = (series.len() - PARAMETERS) as f64;
        if misfits(best.chi2 / freedom, freedom, series.scatter_freedom) {
            return Ok(Found::open(Why::Misfit, Some(best)));
        }
        let scale = (best.chi2 / freedom).max(1.0);
        let shares = Shares::of(&profiles, best.chi2 + t * t * scale);
        let mut found = shares.judge(&self.rule, best);
        found.leak = self.leak(series, &profiles, &found, scale)?;
        Ok(found)
    }

    /// The rise of a leak that is shown, in an hour.
    fn leak(
        &self,
        series: &Series,
        profiles: &[Profile<'_>],
        found: &Found,
        scale: f64,
    ) -> Result<Option<Measured<PressureDifference>>> {
        let Some(best) = found.fit.filter(|_| found.presence == Presence::Shown) else { return Ok(None) };
        let per_hour = 3600.0 / series.span;
        let (rise, standard) = if found.cause == Cause::Leak {
            let line = series.line();
            (line.rise, line.rise_standard * scale.sqrt())
        } else {
            // One standard uncertainty: where the profile has risen by one.
            let around = profiles.iter().filter_map(|profile| profile.shares(best.chi2 + scale));
            let leak = |fit: Fit| fit.share * fit.rise;
            let (low, high) = around.fold((f64::INFINITY, 0f64), |(low, high), (a, b)| {
                (low.min(leak(a)).min(leak(b)), high.max(leak(a)).max(leak(b)))
            });
            (leak(best), (0.5 * (high - low)).max(0.0))
        };
        let fitted = Measured::from_sample(
            delta_pascals(rise * per_hour),
            delta_pascals(standard * per_hour),
            series.scatter_freedom,
            "scatter of the readings",
        )?;
        // What the gauge's accuracy makes of a rise, by its own first and last reading.
        let whole = match self.log.samples() {
            [first, .., last] => {
                self.reading(last.pressure, "vacuum gauge")?.measured()
                    - self.reading(first.pressure, "vacuum gauge")?.measured()
            }
            _ => return Ok(Some(fitted)),
        };
        let by = rise * per_hour / whole.value().base();
        Ok(Some(if by.is_finite() { fitted.depending_on(&whole, by) } else { fitted }))
    }
}

/// The shares that remain, of each shape.
struct Shares(Vec<(Shape, f64, f64)>);

impl Shares {
    fn of(profiles: &[Profile<'_>], limit: f64) -> Self {
        let remaining = profiles.iter().filter_map(|profile| {
            let (low, high) = profile.shares(limit)?;
            Some((low.shape, low.share, high.share))
        });
        Shares(remaining.collect())
    }

    fn judge(&self, rule: &DecayRule, best: Fit) -> Found {
        let (material, trace) = (rule.material.fraction(), rule.trace.fraction());
        let low = self.0.iter().map(|(_, low, _)| *low).fold(1.0, f64::min);
        let high = self.0.iter().map(|(.., high)| *high).fold(0.0, f64::max);
        let presence = |shown: bool, excluded: bool| match (shown, excluded) {
            (true, _) => Presence::Shown,
            (_, true) => Presence::Excluded,
            _ => Presence::Open,
        };
        let leak = presence(low > trace, high <= material);
        let source = presence(high < 1.0 - trace, low >= 1.0 - material);
        // A shape whose every share is all but a straight line says nothing of a source.
        let sources = || self.0.iter().filter(|(_, low, _)| *low < 1.0 - 1e-3).map(|(shape, ..)| *shape);
        let water = sources().any(|shape| shape == Shape::Water);
        let other = sources().any(|shape| shape != Shape::Water);
        let (cause, why) = match (leak, source, water, other) {
            (Presence::Shown, Presence::Excluded, ..) => (Cause::Leak, Why::Straight),
            (Presence::Shown, Presence::Shown, true, false) => {
                (Cause::MoistureAndLeak, Why::BendsThenStraight)
            }
            (Presence::Shown, Presence::Shown, false, true) => {
                (Cause::OutgassingAndLeak, Why::BendsThenStraight)
            }
            (Presence::Excluded, Presence::Shown, true, false) => (Cause::Moisture, Why::LevelsAtWater),
            (Presence::Excluded, Presence::Shown, false, true) => (Cause::Outgassing, Why::Slows),
            (Presence::Shown, Presence::Shown, ..) => (Cause::Unresolved, Why::LeakAndOneOfTwo),
            (Presence::Excluded, ..) => (Cause::Unresolved, Why::OneOfTwo),
            (Presence::Shown, ..) => (Cause::Unresolved, Why::LeakAndPerhapsMore),
            (Presence::Open, Presence::Shown, ..) => (Cause::Unresolved, Why::PerhapsALeak),
            (Presence::Open, ..) => (Cause::Unresolved, Why::Anything),
        };
        Found {
            cause,
            why,
            presence: leak,
            shares: Some((low, high)),
            fit: Some(best),
            leak: None,
            bound: None,
        }
    }
}

/// A log that shows no rise: nothing wrong, or water that stands at its vapour pressure already.
fn steady(series: &Series, bounds: &Bounds, line: &super::series::Line, t: f64) -> Found {
    let level = series.mean();
    let chi2 = series.points().map(|(_, y, w)| w * (y - level).powi(2)).sum::<f64>();
    let freedom = series.len() as f64 - 1.0;
    if misfits(chi2 / freedom, freedom, series.scatter_freedom)
        && misfits(line.chi2 / freedom, freedom, series.scatter_freedom)
    {
        return Found::open(Why::Misfit, None);
    }
    let at_water = (bounds.water.0..=bounds.water.1).contains(&level);
    let (cause, why) =
        if at_water { (Cause::Moisture, Why::StandsAtWater) } else { (Cause::Steady, Why::NoRise) };
    let fit =
        Fit { shape: Shape::Water, share: 1.0, x: 1.0, start: line.start, rise: line.rise, chi2: line.chi2 };
    let most = (line.rise + t * line.rise_standard).max(0.0);
    let bound = Some(delta_pascals(most * 3600.0 / series.span));
    Found { cause, why, presence: Presence::Open, shares: None, fit: Some(fit), leak: None, bound }
}

/// Whether a residual variance, in units of the scatter's, is too large to be chance.
///
/// The logarithm of a ratio of variances is about normal, with variance 2/ν₁ + 2/ν₂ (Fisher 1924).
fn misfits(ratio: f64, freedom: f64, scatter_freedom: f64) -> bool {
    ratio.ln() > MISFIT * (2.0 / freedom + 2.0 / scatter_freedom).sqrt()
}

/// Student's t at a level, two-sided.
fn quantile(level: Level, freedom: f64) -> Result<f64> {
    let unit = Measured::from_sample(PressureDifference::ZERO, delta_pascals(1.0), freedom, "unit")?;
    Ok(unit.expanded(level).base())
}
