//! What test pressure the data plate allows.

use serde::Serialize;

use super::GasState;
use super::nitrogen::at_same_density;
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{GaugePressure, Quantity, Site, Temperature};
use crate::{Error, Result};

/// The highest pressures that may stand in a system, from its data plate and its relief device.
///
/// A system tested as one piece is held to the lowest of them.
///
/// # Example
/// ```
/// use kingvalve::quantity::*;
/// use kingvalve::tightness::TestPressure;
/// let plate = TestPressure::of_plate(psig(450.0))?.low_side(psig(236.0))?;
/// assert!(plate.check(psig(150.0), None)?.verdict().is_within());
/// assert!(plate.check(psig(300.0), None)?.verdict().is_outside());
/// // Filled to 230 psig at 60 °F, then left in the sun:
/// let sun = (Site::sea_level(), fahrenheit(60.0), fahrenheit(120.0));
/// assert!(plate.check(psig(230.0), Some(sun))?.verdict().is_outside());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct TestPressure {
    limits: Vec<(&'static str, GaugePressure)>,
}

/// A planned test pressure held against the plate.
#[derive(Debug, Clone, Serialize)]
pub struct TestPressureCheck {
    planned: Measured<GaugePressure>,
    warmed: Option<Measured<GaugePressure>>,
    verdict: Verdict<GaugePressure>,
}

impl TestPressure {
    /// The limit of the high side as the data plate gives it (test pressure, or design pressure where it gives no
    /// other).
    ///
    /// # Errors
    /// A pressure that is not above the atmosphere.
    pub fn of_plate(high_side: GaugePressure) -> Result<Self> {
        TestPressure { limits: Vec::new() }.with("data plate, high side", high_side)
    }

    /// The limit of the low side, where it is tested too.
    ///
    /// # Errors
    /// A pressure that is not above the atmosphere.
    pub fn low_side(self, low_side: GaugePressure) -> Result<Self> {
        self.with("data plate, low side", low_side)
    }

    /// The set pressure of a relief device that stays on the system.
    ///
    /// # Errors
    /// A pressure that is not above the atmosphere.
    pub fn relief(self, set: GaugePressure) -> Result<Self> {
        self.with("relief device", set)
    }

    fn with(mut self, name: &'static str, limit: GaugePressure) -> Result<Self> {
        if !(limit.is_finite() && limit > GaugePressure::from_base(0.0)) {
            return Err(Error::out_of_range(
                format!("pressure limit ({name})"),
                limit,
                "a test pressure lies above the atmosphere",
                "copy the limit from the data plate, in gauge pressure",
            ));
        }
        self.limits.push((name, limit));
        Ok(self)
    }

    /// The lowest of the limits, and whose it is.
    pub fn limit(&self) -> (GaugePressure, &'static str) {
        let lowest = |a: (&'static str, GaugePressure), b: (&'static str, GaugePressure)| {
            if b.1 < a.1 { b } else { a }
        };
        // `of_plate` gave the first.
        let found = self.limits.iter().copied().reduce(lowest);
        found.map_or((GaugePressure::from_base(0.0), "no limit given"), |(name, limit)| (limit, name))
    }

    /// Holds a planned pressure against the limit; with `warming` (site, temperature at filling, hottest it may get)
    /// the pressure it becomes when warmed with the valves shut.
    ///
    /// # Units
    /// Gauge pressures; temperatures in any unit.
    /// # Source
    /// The data plate decides. Warming: p(ρ₁, T₂) in absolute pressure, by the equation of state of nitrogen (Span et
    /// al., J. Phys. Chem. Ref. Data 29 (2000) 1361).
    /// # Valid range
    /// Nitrogen up to 10 MPa, −40 °C to 80 °C.
    /// # Accuracy
    /// 0.02 % of the pressure, and that of the readings.
    /// # Errors
    /// A pressure below vacuum or above the range, a temperature outside it, or a hottest temperature below that at
    /// filling.
    /// # Example
    /// See [`TestPressure`].
    pub fn check(
        &self,
        planned: impl Known<GaugePressure>,
        warming: Option<(Site, Temperature, Temperature)>,
    ) -> Result<TestPressureCheck> {
        let planned = Measured::exact(planned.value()).depending_on(planned, 1.0);
        if planned.value() <= GaugePressure::from_base(0.0) || !planned.value().is_finite() {
            return Err(Error::out_of_range(
                "planned test pressure",
                planned.value(),
                "a pressure test is made above the atmosphere",
                "check the sign and the unit",
            ));
        }
        let (limit, name) = self.limit();
        let warmed = warming.map(|warming| warm(&planned, warming)).transpose()?;
        let judged = warmed.as_ref().unwrap_or(&planned);
        let verdict = Limits::at_most(limit)?.from_source(name).judge(judged, Level::default())?;
        Ok(TestPressureCheck { planned, warmed, verdict })
    }
}

/// The pressure that stands when the gas has warmed.
fn warm(
    planned: &Measured<GaugePressure>,
    (site, filled, hottest): (Site, Temperature, Temperature),
) -> Result<Measured<GaugePressure>> {
    if hottest < filled {
        return Err(Error::inconsistent(
            "temperatures of the test",
            format!("filled at {filled:.1}, hottest {hottest:.1}"),
            "give the temperature at filling, then the hottest the system may get",
        ));
    }
    let start = GasState { pressure: site.absolute(planned)?, temperature: Measured::exact(filled) };
    start.within_range()?;
    GasState { pressure: start.pressure.clone(), temperature: Measured::exact(hottest) }.within_range()?;
    site.gauge(at_same_density(&start, &Measured::exact(hottest))?)
}

impl TestPressureCheck {
    /// The planned pressure.
    pub fn planned(&self) -> &Measured<GaugePressure> {
        &self.planned
    }

    /// What it becomes at the hottest, where that was asked.
    pub fn warmed(&self) -> Option<&Measured<GaugePressure>> {
        self.warmed.as_ref()
    }

    /// Against the lowest limit: at the hottest where that was asked, as planned otherwise.
    pub fn verdict(&self) -> &Verdict<GaugePressure> {
        &self.verdict
    }

    /// In the shape all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding = Finding::of("test_pressure").measured("planned pressure", &self.planned)?;
        if let Some(warmed) = &self.warmed {
            finding = finding.measured("pressure at the hottest", warmed)?;
        }
        let next = if self.verdict.is_within() {
            "Raise the pressure in steps, listen and look at each, and stay at or below the limit."
        } else {
            "Do not apply this pressure: take a lower one, or valve off the part with the lowest limit."
        };
        Ok(finding
            .judged("test pressure", &self.verdict)?
            .saying(self.verdict.to_string())
            .then(next)
            .caution(Caution::TestGas)
            .caution(Caution::HighPressure)
            .caution(Caution::Asphyxiation)
            .source("data plate")
            .source("Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361"))
    }
}
