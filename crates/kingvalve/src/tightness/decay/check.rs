//! What a vacuum decay test showed.

use serde::Serialize;

use super::DecayLog;
use super::profile::Fit;
use crate::Result;
use crate::measure::{Caution, Finding, Interval, Measured, Verdict};
use crate::quantity::{
    Pressure, PressureDifference, Quantity, Ratio, Site, Temperature, Throughput, Time, Volume, fraction,
    hours, pascals,
};
use crate::tightness::{Leak, LeakGas};

/// Why the vacuum rises.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Cause {
    /// It does not rise beyond the scatter of the readings.
    Steady,
    /// Air comes in.
    Leak,
    /// Liquid water boils.
    Moisture,
    /// Surfaces, oil or elastomers give off gas or vapour.
    Outgassing,
    /// Water boils and air comes in.
    MoistureAndLeak,
    /// Gas is given off and air comes in.
    OutgassingAndLeak,
    /// This log does not tell.
    Unresolved,
}

impl Cause {
    /// Its name, as in JSON.
    pub const fn name(self) -> &'static str {
        match self {
            Cause::Steady => "steady",
            Cause::Leak => "leak",
            Cause::Moisture => "moisture",
            Cause::Outgassing => "outgassing",
            Cause::MoistureAndLeak => "moisture_and_leak",
            Cause::OutgassingAndLeak => "outgassing_and_leak",
            Cause::Unresolved => "unresolved",
        }
    }
}

/// Whether a cause is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Presence {
    /// Every fit that remains gives it more than a trace.
    Shown,
    /// No fit that remains gives it a material part.
    Excluded,
    /// Neither.
    Open,
}

/// What in the log decides, or does not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Why {
    NoRise,
    StandsAtWater,
    Straight,
    LevelsAtWater,
    Slows,
    BendsThenStraight,
    Falls,
    Misfit,
    OneOfTwo,
    LeakAndOneOfTwo,
    LeakAndPerhapsMore,
    PerhapsALeak,
    Anything,
}

/// The outcome of the fit.
pub(super) struct Found {
    pub cause: Cause,
    pub why: Why,
    pub presence: Presence,
    pub shares: Option<(f64, f64)>,
    pub fit: Option<Fit>,
    pub leak: Option<Measured<PressureDifference>>,
    /// The most a leak can be, in an hour, where none is shown and the fit of shapes was not needed.
    pub bound: Option<PressureDifference>,
}

impl Found {
    /// Nothing can be said.
    pub fn open(why: Why, fit: Option<Fit>) -> Self {
        let cause = Cause::Unresolved;
        Found { cause, why, presence: Presence::Open, shares: None, fit, leak: None, bound: None }
    }
}

/// What a vacuum decay test showed: the cause with its reason, and whether the vacuum held.
#[derive(Debug, Clone, Serialize)]
pub struct DecayCheck {
    cause: Cause,
    reason: String,
    leak: Presence,
    leak_share: Option<Interval<Ratio>>,
    leak_per_hour: Option<Measured<PressureDifference>>,
    leak_at_most_per_hour: Option<PressureDifference>,
    water: Interval<Pressure>,
    pulled: Option<Verdict<Pressure>>,
    hold: Option<Verdict<Pressure>>,
    #[serde(skip)]
    why: Why,
    #[serde(skip)]
    curve: Option<Curve>,
}

/// The fitted rise.
#[derive(Debug, Clone, Copy)]
struct Curve {
    fit: Fit,
    first: Time,
    span: Time,
}

impl DecayCheck {
    pub(super) fn new(
        found: Found,
        log: &DecayLog,
        water: (f64, f64),
        pulled: Option<Verdict<Pressure>>,
        hold: Option<Verdict<Pressure>>,
    ) -> Result<Self> {
        let water = Interval::new(pascals(water.0), pascals(water.1))?;
        let share = |(low, high)| Interval::new(fraction(low), fraction(high));
        let leak_share = found.shares.map(share).transpose()?;
        let span = log.duration();
        let bound = found.shares.zip(found.fit).map(|((_, high), fit)| {
            PressureDifference::from_base(high * fit.rise.max(0.0) * (hours(1.0) / span))
        });
        let first = log.samples().first().map_or(Time::ZERO, |sample| sample.time);
        let mut check = DecayCheck {
            cause: found.cause,
            reason: String::new(),
            leak: found.presence,
            leak_share,
            leak_per_hour: found.leak,
            leak_at_most_per_hour: found.bound.or(bound),
            water,
            pulled,
            hold,
            why: found.why,
            curve: found.fit.map(|fit| Curve { fit, first, span }),
        };
        check.reason = check.in_words()?;
        Ok(check)
    }

    /// Why the vacuum rises.
    pub fn cause(&self) -> Cause {
        self.cause
    }

    /// The cause and the reason for it, in words.
    pub fn reason(&self) -> &str {
        &self.reason
    }

    /// Whether a leak is shown, whatever else is open.
    pub fn leak(&self) -> Presence {
        self.leak
    }

    /// The shares of the rise that a leak may have; none where no shape was fitted.
    pub fn leak_share(&self) -> Option<Interval<Ratio>> {
        self.leak_share
    }

    /// How much the pressure rises in an hour by the leak, where one is shown.
    pub fn leak_per_hour(&self) -> Option<&Measured<PressureDifference>> {
        self.leak_per_hour.as_ref()
    }

    /// The most the pressure can rise in an hour by a leak, shown or not.
    pub fn leak_at_most_per_hour(&self) -> Option<PressureDifference> {
        self.leak_at_most_per_hour
    }

    /// Where water levels off at the coldest point, as this gauge may read it.
    pub fn water(&self) -> Interval<Pressure> {
        self.water
    }

    /// Whether it was pulled down to the target.
    pub fn pulled(&self) -> Option<&Verdict<Pressure>> {
        self.pulled.as_ref()
    }

    /// Whether it stayed at or below the target's limit through the hold; none where the log is shorter.
    pub fn hold(&self) -> Option<&Verdict<Pressure>> {
        self.hold.as_ref()
    }

    /// The fitted pressure at a time of the log; none where nothing was fitted or the time lies outside the log.
    pub fn fitted(&self, time: Time) -> Option<Pressure> {
        let Curve { fit, first, span } = self.curve?;
        let u = (time - first) / span;
        let source = if fit.share < 1.0 { (1.0 - fit.share) * fit.shape.at(fit.x, u) } else { 0.0 };
        (0.0..=1.0).contains(&u).then(|| pascals(fit.start + fit.rise * (fit.share * u + source)))
    }

    /// The size of the leak shown, in a system of that volume: air at the site's pressure into vacuum.
    ///
    /// # Units
    /// Any volume; the leak in Pa·m³/s.
    /// # Source
    /// q = V·dp/dt (any text of vacuum technique).
    /// # Valid range
    /// One temperature all through.
    /// # Accuracy
    /// That of the volume and of the fitted rise, both carried.
    /// # Errors
    /// A volume that is not above zero.
    /// # Example
    /// ```
    /// use kingvalve::measure::{Instrument, Measured};
    /// use kingvalve::quantity::*;
    /// use kingvalve::tightness::{DecayLog, DecayTest};
    /// let gauge = Instrument::resolution(delta_microns(1.0));
    /// let straight = (0..90).map(|n| (minutes(0.5 * f64::from(n)), microns(350.0 + 45.0 * f64::from(n))));
    /// let coldest = Measured::exact(fahrenheit(70.0));
    /// let check = DecayTest::new(DecayLog::new(straight, gauge)?, coldest).check()?;
    /// let leak = check.leak_size(&Measured::exact(liters(8.0)), Site::sea_level(), fahrenheit(70.0))?;
    /// let q = leak.expect("one is shown").throughput().value();
    /// assert_eq!(format!("{:.2e}", q.pascal_cubic_meters_per_second()), "1.60e-3");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn leak_size(
        &self,
        volume: &Measured<Volume>,
        site: Site,
        temperature: Temperature,
    ) -> Result<Option<Leak>> {
        let Some(rise) = &self.leak_per_hour else { return Ok(None) };
        let per_second = rise.value().base() / 3600.0;
        let v = volume.value().base();
        let throughput = Measured::exact(Throughput::from_base(v * per_second))
            .depending_on(rise, v / 3600.0)
            .depending_on(volume, per_second);
        let inside = self.curve.map_or(pascals(0.0), |curve| pascals(curve.fit.start.max(0.0)));
        Leak::new(throughput, LeakGas::air(), inside, site.atmosphere(), temperature).map(Some)
    }

    /// In the shape all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of("vacuum_decay").concluding(self.conclusion()).saying(&self.reason);
        if let Some(hold) = &self.hold {
            finding = finding.judged("hold", hold)?.saying(hold.to_string());
            if hold.is_within() && self.leak == Presence::Shown {
                finding = finding.saying("The hold alone would have passed it; the leak shown decides.");
            }
        } else {
            finding = finding.saying("The log is shorter than the hold asked for.");
        }
        if let Some(pulled) = &self.pulled {
            finding = finding.judged("pulled down", pulled)?;
        }
        if let Some(leak) = &self.leak_per_hour {
            finding = finding.measured("rise in an hour by the leak", leak)?;
        }
        if let Some(most) = self.leak_at_most_per_hour {
            finding = finding.given("most a leak can make it rise in an hour", most)?;
        }
        finding = finding
            .given("lowest pressure at which water may level off", self.water.low())?
            .given("highest pressure at which water may level off", self.water.high())?;
        for next in self.next()? {
            finding = finding.then(next);
        }
        let leaks = self.leak == Presence::Shown;
        if leaks {
            finding = finding
                .caution(Caution::TestGas)
                .caution(Caution::HighPressure)
                .caution(Caution::Asphyxiation);
        }
        Ok(finding
            .caution(Caution::Venting)
            .source("constant inflow; first-order evaporation; outgassing as 1/t and 1/√t (texts of vacuum technique)")
            .source("ASHRAE Handbook—Fundamentals 2017, chapter 1 (vapour pressure of water)")
            .source("vacuum target: common practice, no source"))
    }

    fn in_words(&self) -> Result<String> {
        let water =
            format!("{:.0} to {:.0}", self.water.low().microns(), self.water.high().in_unit("microns")?);
        let leak = match (&self.leak_per_hour, self.leak_at_most_per_hour) {
            (Some(leak), _) => format!("{:.0} an hour", leak.value().in_unit("microns")?),
            (None, Some(most)) => format!("at most {:.0} an hour", most.in_unit("microns")?),
            (None, None) => String::new(),
        };
        let share = self.leak_share.map_or(String::new(), |share| {
            format!("{:.0} % to {:.0} %", share.low().percent(), share.high().percent())
        });
        Ok(match self.why {
            Why::NoRise => format!("Steady: no rise beyond the scatter of the readings; a leak makes {leak}."),
            Why::StandsAtWater => format!(
                "Moisture: the pressure stands where water at the coldest point has its vapour pressure ({water})."
            ),
            Why::Straight => format!("Leak: the pressure rises in a straight line, {leak}, and does not level off."),
            Why::LevelsAtWater => format!(
                "Moisture: the rise levels off where water at the coldest point has its vapour pressure ({water}); \
                 beside it a leak can make {leak}."
            ),
            Why::Slows => format!(
                "Outgassing: the rise keeps slowing, and not toward the vapour pressure of water ({water}); beside it \
                 a leak can make {leak}."
            ),
            Why::BendsThenStraight if self.cause == Cause::MoistureAndLeak => format!(
                "Moisture and a leak: the rise bends toward the vapour pressure of water ({water}) and goes on in a \
                 straight line, {leak}."
            ),
            Why::BendsThenStraight => format!(
                "Outgassing and a leak: the rise slows, not toward the vapour pressure of water ({water}), and goes on \
                 in a straight line, {leak}."
            ),
            Why::Falls => "Unresolved: the pressure falls. The pump still draws, the system cools, or vapour condenses; \
                           a closed vacuum does not fall by itself."
                .into(),
            Why::Misfit => "Unresolved: the rise follows neither leak, moisture, outgassing nor two of them together. \
                            The temperature moved, a valve was touched, or the gauge wandered."
                .into(),
            Why::OneOfTwo => format!(
                "Unresolved: a leak makes {leak}, no material part; whether water or outgassing makes the rest, this \
                 log does not tell."
            ),
            Why::LeakAndOneOfTwo => format!(
                "Unresolved: a leak is shown ({share} of the rise), and something gives off vapour beside it; whether \
                 water or outgassing, this log does not tell."
            ),
            Why::LeakAndPerhapsMore => format!(
                "Unresolved: a leak is shown ({share} of the rise); whether water or outgassing makes a part of it too, \
                 this log does not tell."
            ),
            Why::PerhapsALeak => format!(
                "Unresolved: something inside gives off vapour; whether a leak adds to it ({share} of the rise), this \
                 log does not tell."
            ),
            Why::Anything => format!(
                "Unresolved: the log is too short or too noisy to tell a leak from vapour inside; a leak may make \
                 {share} of the rise."
            ),
        })
    }

    /// What follows from it, by name.
    fn conclusion(&self) -> &'static str {
        match (self.why, &self.hold) {
            (Why::NoRise, _) if self.pulled.as_ref().is_some_and(Verdict::is_outside) => "steady_not_deep",
            (Why::NoRise, Some(hold)) if hold.is_within() => "steady_held",
            (Why::NoRise, Some(_)) => "steady_not_held",
            (Why::LeakAndOneOfTwo | Why::LeakAndPerhapsMore, _) => "leak_and_perhaps_more",
            (Why::Falls | Why::Misfit, _) => "unsettled",
            _ => self.cause.name(),
        }
    }

    fn next(&self) -> Result<Vec<String>> {
        let above = self.water.high().in_unit("microns")?;
        let find = "Break the vacuum with dry nitrogen, pressurise to the test pressure, find the leak and repair it.";
        let dry = "Break the vacuum with dry nitrogen, warm the coldest parts, change the pump's oil and evacuate again.";
        let pump = "Pump longer, with larger hoses and valve cores out, and test again.";
        let log = format!(
            "Log on without touching a valve, temperature steady: water alone cannot pass {above:.0}, and a rise that \
             slows is no leak."
        );
        Ok(match self.why {
            Why::NoRise if self.pulled.as_ref().is_some_and(Verdict::is_outside) => vec![pump.into()],
            Why::NoRise => vec![match &self.hold {
                Some(hold) if hold.is_within() => {
                    "Break the vacuum with refrigerant as the equipment's instructions say.".into()
                }
                Some(_) => pump.into(),
                None => "Keep the valve shut and log on to the end of the hold.".into(),
            }],
            Why::StandsAtWater | Why::LevelsAtWater => vec![dry.into()],
            Why::Slows => vec![pump.into()],
            Why::Straight => vec![find.into()],
            Why::BendsThenStraight if self.cause == Cause::MoistureAndLeak => vec![find.into(), dry.into()],
            Why::BendsThenStraight => vec![find.into(), pump.into()],
            Why::LeakAndOneOfTwo | Why::LeakAndPerhapsMore => vec![find.into(), log],
            Why::Falls | Why::Misfit => {
                vec!["Shut off pump and hoses, let the temperature settle, and log anew.".into()]
            }
            Why::OneOfTwo | Why::PerhapsALeak | Why::Anything => vec![log],
        })
    }
}
