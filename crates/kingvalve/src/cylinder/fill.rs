//! How full a cylinder may be, and whether it is.

use std::fmt;

use super::vessel::WATER;
use super::{Cylinder, filling_density};
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{Mass, Quantity, Ratio, Temperature, celsius, fahrenheit, percent};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// The share of its volume a cylinder is filled with liquid at most, at [`USUAL_FILL_TEMPERATURE`]: 80 %.
///
/// # Source
/// AHRI Guideline K practice.
pub const USUAL_FILL: Ratio = percent(80.0);

/// The temperature the usual fill is reckoned at: 77 °F.
///
/// # Source
/// AHRI Guideline K practice.
pub const USUAL_FILL_TEMPERATURE: Temperature = fahrenheit(77.0);

/// The warmest a cylinder is reckoned to become in practice: 130 °F (54.4 °C). Common practice, no source.
pub const HOTTEST_IN_PRACTICE: Temperature = fahrenheit(130.0);

/// The temperature at or below which liquid must not fill a package completely: 55 °C (131 °F).
///
/// # Source
/// 49 CFR 173.304(b).
pub const HOTTEST_BY_RULE: Temperature = celsius(55.0);

/// No cylinder is reckoned to become hotter than this: 200 °F. Common practice, no source.
const HOTTEST_BELIEVED: Temperature = fahrenheit(200.0);

/// The usual fill by the trade's formula: share × water capacity × specific gravity of the liquid.
///
/// # Units
/// Masses; specific gravity of the liquid at 77 °F against water.
/// # Source
/// AHRI Guideline K practice.
/// # Valid range
/// A refrigerant well below its critical temperature at 77 °F.
/// # Accuracy
/// That of the specific gravity; [`FillLimit`] takes the density from the equation of state.
/// # Example
/// ```
/// use kingvalve::cylinder::{USUAL_FILL, usual_fill};
/// use kingvalve::quantity::pounds;
/// assert_eq!(format!("{:.2}", usual_fill(pounds(47.7), 1.06, USUAL_FILL)), "40.45 lb");
/// ```
pub fn usual_fill(water_capacity: Mass, specific_gravity: f64, share: Ratio) -> Mass {
    water_capacity * share * specific_gravity
}

/// Which limit is the lowest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum FillRule {
    /// [`USUAL_FILL`] of the volume.
    UsualFill,
    /// Liquid must not fill it at the hottest.
    LiquidFull,
    /// The filling density of 49 CFR 173.304a.
    FillingDensity,
}

impl FillRule {
    /// Where it comes from.
    pub const fn text(self) -> &'static str {
        match self {
            FillRule::UsualFill => "80 % of the volume at 77 °F, AHRI Guideline K practice",
            FillRule::LiquidFull => "liquid must not fill the cylinder at its hottest",
            FillRule::FillingDensity => "filling density of 49 CFR 173.304a(a)(2)",
        }
    }
}

/// What a cylinder may hold of a refrigerant: the lowest of the limits that apply.
///
/// # Example
/// ```
/// use kingvalve::cylinder::{Cylinder, FillLimit, FillRule, HOTTEST_BY_RULE};
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let cylinder = Cylinder::stamped(pounds(24.5), pounds(47.7))?;
/// let limit = FillLimit::of(&Refrigerant::named("R-410A")?, &cylinder, HOTTEST_BY_RULE)?;
/// assert_eq!(limit.rule(), FillRule::UsualFill);
/// assert_eq!(format!("{:.1} {:.1}", limit.net().value(), limit.gross().value()), "40.4 lb 64.9 lb");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct FillLimit {
    cylinder: Cylinder,
    shares: Vec<(FillRule, f64)>,
    rule: FillRule,
    /// Mass of refrigerant over mass of water.
    share: f64,
    hottest: Temperature,
}

impl FillLimit {
    /// The limits for a refrigerant in a cylinder that gets no hotter than `hottest`.
    ///
    /// # Units
    /// Temperature; masses out.
    /// # Source
    /// 80 % of the volume at 77 °F: AHRI Guideline K practice. Liquid-full: 49 CFR 173.304(b), with the density of the
    /// liquid at its bubble point from the equation of state. Filling density: 49 CFR 173.304a(a)(2).
    /// # Valid range
    /// Liquefied refrigerant of known composition. What was recovered may be a mixture with a lower density: fill less.
    /// # Accuracy
    /// Liquid densities are good to 0.1–0.2 %; the water capacity as stamped.
    /// # Errors
    /// A hottest temperature below 77 °F or above 200 °F; a gas that has no liquid at 77 °F nor a filling density.
    /// # Example
    /// See [`FillLimit`].
    pub fn of(refrigerant: &Refrigerant, cylinder: &Cylinder, hottest: Temperature) -> Result<FillLimit> {
        if !(hottest >= USUAL_FILL_TEMPERATURE && hottest <= HOTTEST_BELIEVED) {
            return Err(Error::out_of_range(
                "hottest temperature of the cylinder",
                hottest,
                format!("it lies from {USUAL_FILL_TEMPERATURE:.0} to {HOTTEST_BELIEVED:.0}"),
                "the transport rule reckons with 131 °F (55 °C)",
            ));
        }
        let liquid =
            |t: Temperature| refrigerant.bubble_density(t).map(|density| density.base() / WATER.base());
        let mut shares = Vec::new();
        let usual = liquid(USUAL_FILL_TEMPERATURE);
        if let Ok(gravity) = usual {
            shares.push((FillRule::UsualFill, USUAL_FILL.fraction() * gravity));
        }
        if let Ok(gravity) = liquid(hottest) {
            shares.push((FillRule::LiquidFull, gravity));
        }
        if let Some(density) = filling_density(refrigerant.designation()) {
            shares.push((FillRule::FillingDensity, density.share.fraction()));
        }
        let lowest = shares.iter().copied().min_by(|a, b| a.1.total_cmp(&b.1));
        match (lowest, usual) {
            (Some((rule, share)), _) => {
                Ok(FillLimit { cylinder: cylinder.clone(), shares, rule, share, hottest })
            }
            (None, Err(error)) => Err(error),
            (None, Ok(_)) => Err(Error::inconsistent(
                "fill limit",
                format!("none is known for {}", refrigerant.designation()),
                "ask the supplier of the cylinder",
            )),
        }
    }

    /// The most refrigerant, by the lowest limit.
    pub fn net(&self) -> Measured<Mass> {
        self.mass(self.share)
    }

    /// The most on the scale: net and tare.
    pub fn gross(&self) -> Measured<Mass> {
        self.net() + self.cylinder.tare().clone()
    }

    /// Which limit is the lowest.
    pub fn rule(&self) -> FillRule {
        self.rule
    }

    /// Every limit that applies.
    pub fn all(&self) -> impl Iterator<Item = (FillRule, Mass)> {
        self.shares.iter().map(|(rule, share)| (*rule, self.mass(*share).value()))
    }

    fn mass(&self, share: f64) -> Measured<Mass> {
        let water = self.cylinder.water_capacity().clone();
        let mass = Mass::from_base(water.value().base() * share);
        water.map(mass, share)
    }

    /// Whether the cylinder, so heavy on the scale, is within its limit.
    ///
    /// # Units
    /// Gross weight.
    /// # Source
    /// As [`FillLimit::of`]; conformity by JCGM 106:2012.
    /// # Valid range
    /// As [`FillLimit::of`].
    /// # Accuracy
    /// That of the scale and of the stamps, the tare counted once.
    /// # Errors
    /// A gross weight below the tare beyond doubt.
    /// # Example
    /// ```
    /// use kingvalve::cylinder::{Cylinder, FillLimit, HOTTEST_BY_RULE};
    /// use kingvalve::measure::Level;
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let cylinder = Cylinder::stamped(pounds(24.5), pounds(47.7))?;
    /// let limit = FillLimit::of(&Refrigerant::named("R-410A")?, &cylinder, HOTTEST_BY_RULE)?;
    /// assert!(limit.judge(pounds(70.0), Level::default())?.verdict().is_outside());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn judge(&self, gross: impl Known<Mass>, level: Level) -> Result<FillCheck> {
        let net = self.cylinder.net(gross)?;
        let room = self.net() - net.clone();
        let verdict = Limits::at_least(Mass::ZERO)?.from_source(self.rule.text()).judge(&room, level)?;
        Ok(FillCheck { limit: self.clone(), net, room, verdict })
    }
}

/// A cylinder against its fill limit.
#[derive(Debug, Clone)]
pub struct FillCheck {
    limit: FillLimit,
    net: Measured<Mass>,
    room: Measured<Mass>,
    verdict: Verdict<Mass>,
}

impl FillCheck {
    /// What is in it.
    pub fn net(&self) -> &Measured<Mass> {
        &self.net
    }

    /// How much more it may take; negative where it is too full.
    pub fn room(&self) -> &Measured<Mass> {
        &self.room
    }

    /// Whether there is room left or none missing.
    pub fn verdict(&self) -> &Verdict<Mass> {
        &self.verdict
    }

    /// Whether liquid would fill the cylinder before it reached the hottest temperature, whatever other limit it keeps.
    pub fn becomes_liquid_full(&self) -> bool {
        let full = self.limit.all().find(|(rule, _)| *rule == FillRule::LiquidFull);
        full.is_some_and(|(_, mass)| self.net.value() >= mass)
    }

    /// What to do next.
    pub fn next(&self) -> &'static str {
        match &self.verdict {
            _ if self.becomes_liquid_full() => {
                "Keep it cool, do not move it, and recover the surplus into another cylinder at once: warm, liquid fills \
                 it and bursts it."
            }
            Verdict::Within(_) => "Stop at the gross weight given.",
            Verdict::Outside(_) => "Stop filling. Move the surplus into another cylinder.",
            Verdict::Unresolved(_) => {
                "Stop here and use another cylinder: the scale cannot show that there is room left."
            }
        }
    }

    /// The finding in the form all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of("cylinder_fill")
            .measured("refrigerant in the cylinder", &self.net)?
            .measured("room left", &self.room)?
            .measured("most on the scale", &self.limit.gross())?
            .given("hottest temperature reckoned with", self.limit.hottest)?;
        if self.becomes_liquid_full() {
            finding = finding.concluding("liquid_full");
        }
        for (rule, mass) in self.limit.all() {
            finding = finding.given(rule.text(), mass)?;
        }
        Ok(finding
            .judged("room left", &self.verdict)?
            .saying(self.to_string())
            .then(self.next())
            .caution(Caution::Overfilling)
            .caution(Caution::HighPressure)
            .caution(Caution::Frostbite)
            .source(self.limit.rule.text())
            .source("49 CFR 173.304(b)")
            .source("JCGM 106:2012"))
    }
}

impl fmt::Display for FillCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let limit = &self.limit;
        write!(
            f,
            "{} in the cylinder against at most {:.2} ({}), which is {:.2} on the scale. Room left. {}",
            self.net,
            limit.net().value(),
            limit.rule.text(),
            limit.gross().value(),
            self.verdict
        )?;
        if self.becomes_liquid_full() {
            write!(f, " At {:.0} liquid fills it completely.", limit.hottest)?;
        }
        Ok(())
    }
}
