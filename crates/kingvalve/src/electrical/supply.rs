//! How far a supply sags when the unit starts and runs.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Tolerance, deferring, settling};
use crate::measure::{Caution, Finding, Known, Level, Limits, Measured, Verdict};
use crate::quantity::{ElectricPotential, Ratio, percent, volts};
use crate::{Error, Result};

/// How far a supply may sag from idle to running: 5 %, what NEC 215.2 recommends for feeder and branch circuit together
/// (informational note), from memory.
pub const RUNNING_SAG: Ratio = percent(5.0);

/// How far it may sag for the moment of starting: 15 %. Common practice, no source; the compressor's maker decides.
pub const STARTING_SAG: Ratio = percent(15.0);

/// A supply, as the data plate asks for it.
///
/// # Example
/// ```
/// use kingvalve::electrical::Supply;
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let meter = Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.0);
/// let idle = Reading::new(volts(241.0), meter.clone())?;
/// let running = Reading::new(volts(232.5), meter)?;
/// let sag = Supply::rated(volts(230.0)).running(&idle, &running)?;
/// assert!(sag.verdict().is_within());
/// assert_eq!(sag.sag().to_string(), "3.527 ± 0.033 %"); // the meter's own error cancels
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Supply {
    /// The voltage on the data plate.
    rated: ElectricPotential,
    /// How far from it the unit may run; ±10 % where left out.
    #[serde(default = "band")]
    band: Tolerance,
    /// How far it may sag from idle to running; 5 % where left out.
    #[serde(default = "running_sag")]
    running_sag: Ratio,
    /// How far it may sag for the moment of starting; 15 % where left out.
    #[serde(default = "starting_sag")]
    starting_sag: Ratio,
    #[serde(default)]
    level: Level,
}

/// NEMA MG 1, 12.44: a motor runs at ±10 % of rated voltage; from memory.
fn band() -> Tolerance {
    Tolerance::percent(10.0)
}

fn running_sag() -> Ratio {
    RUNNING_SAG
}

fn starting_sag() -> Ratio {
    STARTING_SAG
}

/// How far a supply sagged.
#[derive(Debug, Clone, Serialize)]
pub struct Sag {
    moment: Moment,
    sag: Measured<Ratio>,
    verdict: Verdict<Ratio>,
    #[serde(skip_serializing_if = "Option::is_none")]
    voltage: Option<Verdict<ElectricPotential>>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
enum Moment {
    Running,
    Starting,
}

impl Supply {
    /// A supply of that rated voltage, with the limits of common practice.
    pub fn rated(voltage: ElectricPotential) -> Supply {
        Supply {
            rated: voltage,
            band: band(),
            running_sag: RUNNING_SAG,
            starting_sag: STARTING_SAG,
            level: Level::default(),
        }
    }

    /// Another range of voltages the unit may run at.
    #[must_use]
    pub fn within(mut self, band: Tolerance) -> Supply {
        self.band = band;
        self
    }

    /// Other limits of sag.
    #[must_use]
    pub fn sagging_at_most(mut self, running: Ratio, starting: Ratio) -> Supply {
        (self.running_sag, self.starting_sag) = (running, starting);
        self
    }

    /// Asks for another level of confidence than 95 %.
    #[must_use]
    pub fn at_level(mut self, level: Level) -> Supply {
        self.level = level;
        self
    }

    /// The sag from idle to running, and whether the running voltage suits the data plate.
    ///
    /// # Units
    /// Voltages at the unit's line terminals, read or plain.
    /// # Source
    /// Sag = 1 − V/V₀. Limits: NEMA MG 1 12.44 (±10 %) and [`RUNNING_SAG`], both from memory and replaceable.
    /// # Valid range
    /// Single phase, or between the same two of three phases; all other loads unchanged.
    /// # Accuracy
    /// Two readings of one meter share its percentage error, which cancels; steps and counts do not.
    /// # Errors
    /// A voltage that is not above zero and finite, a rated voltage or limit that cannot be.
    /// # Example
    /// See [`Supply`].
    pub fn running<A, B>(&self, idle: A, running: B) -> Result<Sag>
    where
        A: Known<ElectricPotential>,
        B: Known<ElectricPotential> + Clone,
    {
        positive("rated voltage", self.rated).map_err(|e| e.in_field("rated"))?;
        let (low, high) = self.band.bounds(self.rated)?;
        let suited = Limits::between(low, high)?.from_source("data plate");
        let now = Measured::exact(running.value()).depending_on(running.clone(), 1.0);
        let sag = self.sag(idle, running, self.running_sag, Moment::Running)?;
        Ok(Sag { voltage: Some(suited.judge(&now, self.level)?), ..sag })
    }

    /// The sag from idle to the lowest voltage while the compressor starts.
    ///
    /// # Units
    /// Voltages at the unit's line terminals, read or plain; the lowest as a meter's minimum hold caught it.
    /// # Source
    /// Sag = 1 − V/V₀; limit [`STARTING_SAG`]: common practice, no source.
    /// # Valid range
    /// A meter fast enough for a start of a fraction of a second; a slower one reads too little sag.
    /// # Accuracy
    /// As [`running`](Self::running).
    /// # Errors
    /// As [`running`](Self::running).
    /// # Example
    /// ```
    /// use kingvalve::electrical::Supply;
    /// use kingvalve::quantity::*;
    /// let sag = Supply::rated(volts(230.0)).starting(volts(241.0), volts(197.0))?;
    /// assert!(sag.verdict().is_outside());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn starting<A, B>(&self, idle: A, lowest: B) -> Result<Sag>
    where
        A: Known<ElectricPotential>,
        B: Known<ElectricPotential>,
    {
        self.sag(idle, lowest, self.starting_sag, Moment::Starting)
    }

    fn sag<A, B>(&self, idle: A, loaded: B, limit: Ratio, moment: Moment) -> Result<Sag>
    where
        A: Known<ElectricPotential>,
        B: Known<ElectricPotential>,
    {
        let (v0, v) = (idle.value(), loaded.value());
        positive("idle voltage", v0)?;
        positive("voltage under load", v)?;
        if !(limit > percent(0.0) && limit < percent(100.0)) {
            return Err(Error::out_of_range(
                "limit of sag",
                limit,
                "it lies between 0 % and 100 %",
                "give the share of the idle voltage that may be lost",
            ));
        }
        let sag = Measured::exact(Ratio::from_si(1.0 - v / v0))
            .depending_on(idle, v.volts() / v0.volts().powi(2))
            .depending_on(loaded, -1.0 / v0.volts());
        let source = match moment {
            Moment::Running => "sag from idle to running",
            Moment::Starting => "sag from idle to starting",
        };
        let verdict = Limits::at_most(limit)?.from_source(source).judge(&sag, self.level)?;
        Ok(Sag { moment, sag, verdict, voltage: None })
    }
}

impl Sag {
    /// The share of the idle voltage lost.
    pub fn sag(&self) -> &Measured<Ratio> {
        &self.sag
    }

    /// Against the limit of sag.
    pub fn verdict(&self) -> &Verdict<Ratio> {
        &self.verdict
    }

    /// The running voltage against the data plate's range; none for a start.
    pub fn voltage_verdict(&self) -> Option<&Verdict<ElectricPotential>> {
        self.voltage.as_ref()
    }

    /// The finding, in the shape shared by all checks.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut finding =
            Finding::of("supply_sag").measured("sag", &self.sag)?.judged("sag", &self.verdict)?;
        if let Some(voltage) = &self.voltage {
            finding = finding.judged("voltage while running", voltage)?;
        }
        finding = settling(deferring(finding.saying(self.to_string().replace('\n', " "))), &self.verdict);
        if self.verdict.is_outside() {
            finding = finding.then(
                "Measure the drop along the circuit piece by piece under load (service, breaker, disconnect, contactor) to \
                 find where it is lost; a licensed electrician mends it.",
            );
        }
        Ok(finding
            .caution(Caution::LiveVoltage)
            .source("NEMA MG 1 12.44, from memory")
            .source(match self.moment {
                Moment::Running => "NEC 215.2, informational note: 5 % in all, from memory",
                Moment::Starting => "15 % at the start: common practice, no source",
            })
            .source("JCGM 106:2012"))
    }
}

/// One line a verdict.
impl fmt::Display for Sag {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.verdict)?;
        self.voltage.iter().try_for_each(|voltage| write!(f, "\n{voltage}"))
    }
}

pub(super) fn positive(what: &str, voltage: ElectricPotential) -> Result<()> {
    if voltage > volts(0.0) && voltage.is_finite() {
        return Ok(());
    }
    Err(Error::out_of_range(
        what,
        voltage,
        "it must be above zero and finite",
        "measure between two line terminals, power on, by a qualified person",
    ))
}
