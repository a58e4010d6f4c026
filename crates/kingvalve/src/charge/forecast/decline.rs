//! What is left while it leaks.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Day;
use super::crossing::{Closing, Crossing};
use crate::measure::{Interval, Level, Measured};
use crate::quantity::{Mass, MassFlow, Quantity, Time};
use crate::{Error, Result};

/// How the rate of a leak goes on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum LeakForm {
    /// The same mass each day.
    Constant,
    /// The same while there is liquid, whose pressure does not fall; in proportion to the pressure, and so to what is
    /// left, once all is vapour.
    PressureDriven {
        /// What fills the system as saturated vapour, no liquid: volume times density at the dew point.
        all_vapour: Mass,
    },
}

impl LeakForm {
    /// A measure of what is left that falls by the rate each second, whatever the form; and its slope by the mass.
    fn progress(self, mass: f64) -> (f64, f64) {
        match self {
            LeakForm::PressureDriven { all_vapour } if mass < all_vapour.base() => {
                let full = all_vapour.base();
                (full * (1.0 + (mass / full).ln()), full / mass)
            }
            _ => (mass, 1.0),
        }
    }

    /// The mass behind it.
    fn mass(self, progress: f64) -> f64 {
        match self {
            LeakForm::PressureDriven { all_vapour } if progress < all_vapour.base() => {
                let full = all_vapour.base();
                full * (progress / full - 1.0).exp()
            }
            _ => progress.max(0.0),
        }
    }
}

/// A charge that leaks.
///
/// # Example
/// ```
/// use kingvalve::charge::forecast::{Decline, LeakForm, USUAL_HORIZON};
/// use kingvalve::measure::{Level, Measured};
/// use kingvalve::quantity::*;
/// let charge = Measured::from_standard(pounds(7.0), ounces(2.0), "charge")?;
/// let rate = Measured::from_standard(pounds_per_year(3.0), pounds_per_year(0.4), "leak")?;
/// let decline = Decline::of("2026-06-01".parse()?, charge, rate, LeakForm::Constant)?;
/// let short = decline.falls_below(pounds(5.6), USUAL_HORIZON, Level::default())?;
/// assert_eq!(short.likely.map(|day| day.to_string()), Some("2026-11-18".into())); // 1.4 lb at 3 lb a year
/// assert!(short.earliest < short.likely && short.likely < short.latest);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Decline {
    from: Day,
    charge: Measured<Mass>,
    rate: Measured<MassFlow>,
    form: LeakForm,
}

impl Decline {
    /// A charge on a day, and the rate it leaks at then.
    ///
    /// # Units
    /// Mass, mass flow; for a pressure-driven leak the rate while there is liquid.
    /// # Source
    /// Balance of mass. Pressure-driven: flow through a hole at more than about twice the outside pressure is choked and
    /// goes with the pressure (any textbook of gas dynamics); of vapour at one temperature the pressure goes with the
    /// mass, nearly.
    /// # Valid range
    /// A leak that stays as it is; a pressure-driven one of vapour, down to some 15 psi above the atmosphere, below which
    /// it slows further.
    /// # Accuracy
    /// That of charge and rate. Which form holds is not known: leaks of liquid and of vapour, on and off, differ.
    /// # Errors
    /// A charge, a rate or a vapour mass that is not above zero.
    /// # Example
    /// See [`Decline`].
    pub fn of(day: Day, charge: Measured<Mass>, rate: Measured<MassFlow>, form: LeakForm) -> Result<Decline> {
        let refused = |what: &str, value: &dyn std::fmt::Display| {
            Error::out_of_range(
                what,
                value,
                "it is above zero",
                "a system that does not leak has no forecast",
            )
        };
        if !(charge.value() > Mass::ZERO && charge.value().is_finite()) {
            return Err(refused("charge", &charge.value()));
        }
        if !(rate.value() > MassFlow::ZERO && rate.value().is_finite()) {
            return Err(refused("leak rate", &rate.value()));
        }
        if let LeakForm::PressureDriven { all_vapour } = form
            && !(all_vapour > Mass::ZERO && all_vapour.is_finite())
        {
            return Err(refused("mass of vapour that fills the system", &all_vapour));
        }
        Ok(Decline { from: day, charge, rate, form })
    }

    /// What is left on a day.
    ///
    /// # Units
    /// Mass.
    /// # Source
    /// As [`Decline::of`].
    /// # Valid range
    /// The first day and later; a leak that stays as it is.
    /// # Accuracy
    /// The interval holds the doubt of charge and rate at the level, what they share counted once.
    /// # Errors
    /// A day before the first.
    /// # Example
    /// ```
    /// use kingvalve::charge::forecast::{Decline, LeakForm};
    /// use kingvalve::measure::{Level, Measured};
    /// use kingvalve::quantity::*;
    /// let rate = Measured::exact(pounds_per_year(4.0));
    /// let form = LeakForm::PressureDriven { all_vapour: pounds(1.0) };
    /// let decline = Decline::of("2026-01-01".parse()?, Measured::exact(pounds(3.0)), rate, form)?;
    /// let left = decline.left_on("2027-01-01".parse()?, Level::default())?;
    /// assert_eq!(format!("{:.3}", left.middle()), "0.135 lb"); // 1/e² of the vapour
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn left_on(&self, day: Day, level: Level) -> Result<Interval<Mass>> {
        let time = day.since(self.from);
        if time < Time::ZERO {
            return Err(Error::inconsistent(
                "day of the forecast",
                format!("{day} comes before {}", self.from),
                "ask for the first day or a later one",
            ));
        }
        let t = time.seconds();
        let (start, slope) = self.form.progress(self.charge.value().base());
        let now = Mass::from_base(start - self.rate.value().base() * t);
        let progress = Measured::exact(now).depending_on(&self.charge, slope).depending_on(&self.rate, -t);
        let half = progress.expanded(level).base();
        let mass = |progress: f64| Mass::from_base(self.form.mass(progress));
        Interval::new(mass(now.base() - half), mass(now.base() + half))
    }

    /// When less than a limit is left: the charge at which capacity falls, or at which superheat leaves its limits.
    ///
    /// # Units
    /// Mass; how far ahead to look.
    /// # Source
    /// As [`Decline::of`]; interval by E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175.
    /// # Valid range
    /// Up to the horizon ([`USUAL_HORIZON`](super::USUAL_HORIZON)).
    /// # Accuracy
    /// To the day, for doubts that are normal; the latest day is none where the rate is not firmly above zero.
    /// # Errors
    /// A limit that is not above zero.
    /// # Example
    /// See [`Decline`].
    pub fn falls_below(&self, limit: Mass, horizon: Time, level: Level) -> Result<Crossing> {
        if !(limit > Mass::ZERO && limit.is_finite()) {
            return Err(Error::out_of_range(
                "lowest charge",
                limit,
                "it is above zero",
                "give the charge below which the system no longer cools as it should",
            ));
        }
        let (start, slope) = self.form.progress(self.charge.value().base());
        let (end, _) = self.form.progress(limit.base());
        let (a, b) =
            (self.charge.standard_uncertainty().base() * slope, self.rate.standard_uncertainty().base());
        let day = 86_400.0;
        let closing = Closing {
            distance: start - end,
            rate: self.rate.value().base() * day,
            of_distance: a * a,
            of_rate: b * b * day * day,
            shared: self.charge.correlation(&self.rate) * a * b * day,
        };
        Ok(closing.crossing(self.from, horizon, level))
    }
}
