//! What is in the system now, as a distribution, from whatever was read.
//!
//! An [`Inventory`] starts from what is taken for granted of a [`System`], and each reading or weighing makes a new
//! one that is surer: `prior → standing → weighed_in → standing → running`. It is a plain value: cloning, comparing and
//! storing it (as JSON) change nothing.
//!
//! How it weighs: a few hundred systems are supposed, each with a volume, an oil uptake, an error of the gauge and a
//! shift of composition, evenly spread where the readings point to. Given those, a standing pressure leaves the charge
//! nearly no freedom where all is vapour, says nothing where there is liquid, and bounds it where air is present; each
//! case counts as the readings make it likely (Bayes). The gauge's accuracy is one error, the same before and after a
//! weighed step, so the *rise* of the pressure tells the volume far better than either pressure could.
//!
//! # Example
//! ```
//! use kingvalve::charge::inventory::{Inventory, StandingReading, System};
//! use kingvalve::measure::{Instrument, Measured, Reading};
//! use kingvalve::quantity::*;
//! use kingvalve::refrigerant::Refrigerant;
//! let gauge = Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(500.0)).named("gauge");
//! let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0)).named("clamp");
//! let site = Site::sea_level();
//! let standing = |psi_gauge: f64| -> Result<StandingReading, kingvalve::Error> {
//!     let pressure = site.absolute(&Reading::new(psig(psi_gauge), gauge.clone())?)?;
//!     Ok(StandingReading::at(pressure, Reading::new(fahrenheit(88.0), clamp.clone())?))
//! };
//! let system = System::of_plate(&Refrigerant::named("R-454B")?, pounds(6.5))?;
//!
//! let arrival = Inventory::prior(&system)?.standing(&standing(62.0)?)?;
//! assert!(arrival.now().ninety.high() < pounds(1.2)); // nearly empty
//! let half_a_pound = Measured::from_standard(pounds(0.5), ounces(0.2), "scale")?;
//! let then = arrival.weighed_in(half_a_pound)?.standing(&standing(118.0)?)?;
//! assert!(then.now().ninety.width() < 0.5 * arrival.now().ninety.width()); // and the volume is learned
//! assert_eq!(then.contributions().len(), 3);
//! println!("missing: {:.2}", then.missing(pounds(6.5)).ninety);
//! # Ok::<(), kingvalve::Error>(())
//! ```

mod answers;
mod assumptions;
mod belief;
mod blend;
mod estimate;
mod evidence;
mod form;
mod part;
mod particle;
mod points;
mod predict;
mod proposal;
mod reading;
mod running;
mod standing;
mod supposed;
mod system;

use std::sync::Arc;

pub use assumptions::{Assumptions, COMMON_CHARGE, COMMON_FILL, COMMON_OIL, COMMON_STEEPENING};
pub use estimate::{Contribution, Estimate};
pub use part::Part;
pub use reading::{RunningReading, StandingReading};
pub use system::System;

use self::belief::{Belief, Prior};
use self::proposal::Proposal;
use self::running::{Running, Says};
use self::standing::{Gauge, Standing};
use crate::measure::{Label, Level, Measured};
use crate::quantity::{Mass, Quantity, percent};
use crate::{Error, Result};

/// What is in the system now, and how sure that is.
///
/// See the [module](self) for how it is used.
#[derive(Debug, Clone, PartialEq)]
pub struct Inventory {
    system: System,
    standing: Vec<Standing>,
    running: Option<Running>,
    gauge: Gauge,
    added: f64,
    contributions: Vec<Contribution>,
    from: Proposal,
    belief: Arc<Belief>,
}

/// More standing readings than this are not weighed together.
const MOST_STANDING: usize = 10;

impl Inventory {
    /// What is believed before anything is read.
    ///
    /// # Units
    /// Masses out.
    /// # Source
    /// [`Assumptions`]: common practice, no source.
    /// # Valid range
    /// Any system.
    /// # Accuracy
    /// The intervals are those of the assumptions.
    /// # Errors
    /// Assumptions that leave nothing possible.
    /// # Example
    /// ```
    /// use kingvalve::charge::inventory::{Inventory, System};
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let system = System::of_plate(&Refrigerant::named("R-410A")?, pounds(6.0))?;
    /// let nothing_read = Inventory::prior(&system)?;
    /// assert!((nothing_read.now().median.pounds() - 3.6).abs() < 0.2); // 0 to 120 %, any as likely
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn prior(system: &System) -> Result<Inventory> {
        let evidence = evidence::of(system, &[], None, 0.0);
        let belief = Belief::of(&Prior::of(system), &evidence, Proposal::PRIOR)?;
        Ok(Inventory {
            system: system.clone(),
            standing: Vec::new(),
            running: None,
            gauge: Gauge::default(),
            added: 0.0,
            contributions: Vec::new(),
            from: Proposal::PRIOR,
            belief: Arc::new(belief),
        })
    }

    /// With the standing pressure of the system: off, equalised, settled.
    ///
    /// # Units
    /// Absolute pressure and temperatures in.
    /// # Source
    /// Bayes; density and saturation from the equation of state; oil between Henry's and Raoult's law
    /// ([`COMMON_STEEPENING`]). A
    /// pressure above saturation counts as air, nitrogen, another refrigerant or unsettled temperatures as far as
    /// [`Assumptions::gas`] and the readings' doubt make that likelier.
    /// # Valid range
    /// Off long enough that pressures are equal and temperatures steady; temperatures of the saturation curve at the
    /// coldest point.
    /// # Accuracy
    /// The 90 % interval holds the truth 88 to 95 % of the time for systems as assumed; `make calibration` prints it by
    /// class. Temperatures are taken as independent between readings, which errs on the wide side.
    /// # Errors
    /// A pressure or temperature outside the equation's range, a number of temperatures that does not fit the parts,
    /// more than ten standing readings, readings that leave nothing possible.
    /// # Example
    /// See the [module](self).
    pub fn standing(&self, reading: &StandingReading) -> Result<Inventory> {
        if self.standing.len() >= MOST_STANDING {
            return Err(Error::out_of_range(
                "number of standing readings",
                self.standing.len() + 1,
                format!("up to {MOST_STANDING} are weighed together"),
                "leave out those that were repeated without a change between them",
            ));
        }
        let mut next = self.clone();
        next.standing.push(Standing::of(&self.system, &mut next.gauge, reading)?);
        next.weigh(if reading.label().is_empty() {
            "standing pressure".into()
        } else {
            reading.label.clone()
        })
    }

    /// With refrigerant weighed in since the last reading.
    ///
    /// # Units
    /// The mass that entered the system, hoses allowed for, with the doubt of the scale.
    /// # Source
    /// Conservation of mass.
    /// # Valid range
    /// Zero or more; what was taken out goes to [`removed`](Self::removed).
    /// # Accuracy
    /// The doubts of several steps are taken as independent.
    /// # Errors
    /// A negative mass.
    /// # Example
    /// See the [module](self).
    pub fn weighed_in(&self, mass: impl Into<Measured<Mass>>) -> Result<Inventory> {
        let mass = mass.into();
        not_negative(&mass, "mass weighed in", "what was taken out goes to `removed`")?;
        self.changed(&mass, 1.0, "weighed in")
    }

    /// With refrigerant taken out and weighed.
    ///
    /// Vapour taken from a zeotrope shifts what stays: see [`System::leaked`].
    ///
    /// # Errors
    /// A negative mass; more than can have been in the system.
    pub fn removed(&self, mass: impl Into<Measured<Mass>>) -> Result<Inventory> {
        let mass = mass.into();
        not_negative(&mass, "mass removed", "what was charged goes to `weighed_in`")?;
        self.changed(&mass, -1.0, "removed")
    }

    /// With superheat and subcooling of the running system.
    ///
    /// The relation's scatter is the system's own and the same at every reading, so the latest reading replaces the
    /// ones before it.
    ///
    /// # Units
    /// Temperature differences in.
    /// # Source
    /// [`VirtualCharge`](super::VirtualCharge).
    /// # Valid range
    /// Steady cooling, good airflow, clean coils, no other fault. Where the subcooling is not clear of zero the reading
    /// bounds the charge from above, where the superheat is not, from below.
    /// # Accuracy
    /// The relation's scatter, 10 % of the charge by default.
    /// # Errors
    /// No plate charge; neither superheat nor subcooling clear of zero; subcooling on a system that is nearly empty
    /// beyond doubt.
    /// # Example
    /// ```
    /// use kingvalve::charge::FullCharge;
    /// use kingvalve::charge::inventory::{Inventory, RunningReading, System};
    /// use kingvalve::measure::Measured;
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let system = System::of_plate(&Refrigerant::named("R-410A")?, pounds(6.0))?;
    /// let degrees = |x: f64| Measured::from_standard(delta_fahrenheit(x), delta_fahrenheit(1.0), "thermometer");
    /// let full = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };
    /// let low = Inventory::prior(&system)?.running(&RunningReading::of(degrees(25.0)?, degrees(6.0)?, full))?;
    /// assert!(low.missing(pounds(6.0)).median > pounds(0.8));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn running(&self, reading: &RunningReading) -> Result<Inventory> {
        let running = Running::of(&self.system, reading)?;
        if running.says != Says::AtMost {
            self.refuse_subcooling_when_empty(reading)?;
        }
        let mut next = self.clone();
        next.running = Some(running);
        next.weigh(if reading.label().is_empty() {
            "superheat and subcooling".into()
        } else {
            reading.label.clone()
        })
    }

    fn changed(&self, mass: &Measured<Mass>, sign: f64, what: &'static str) -> Result<Inventory> {
        let (change, doubt) = (sign * mass.value().base(), mass.standard_uncertainty().base());
        let mut next = self.clone();
        next.added += change;
        for standing in &mut next.standing {
            standing.since += change;
            standing.since_variance += doubt * doubt;
        }
        if let Some(running) = &mut next.running {
            running.since += change;
            running.since_variance += doubt * doubt;
        }
        next.weigh(what.into())
    }

    /// Weighs everything anew and notes what the last piece of evidence did.
    fn weigh(mut self, what: Label) -> Result<Inventory> {
        let before = self.belief.now;
        self.from = self.belief.proposal;
        self.belief = Arc::new(self.believed()?);
        self.contributions.push(Contribution { what, before, after: self.belief.now });
        Ok(self)
    }

    fn believed(&self) -> Result<Belief> {
        let evidence = evidence::of(&self.system, &self.standing, self.running.as_ref(), self.added);
        Belief::of(&Prior::of(&self.system), &evidence, self.from)
    }

    fn refuse_subcooling_when_empty(&self, reading: &RunningReading) -> Result<()> {
        let nearly_empty = 0.3 * self.system.nominal().base();
        let empty = self.belief.probability(|draw| draw.charge < nearly_empty);
        let subcooling = reading.subcooling.interval(Level::new(percent(95.0))?)?;
        if empty > 0.95 && subcooling.low().delta_kelvins() > 0.0 {
            return Err(Error::inconsistent(
                "subcooling",
                format!(
                    "{} was read, while {:.2} of refrigerant are in the system: too little to stand as liquid in the \
                     condenser",
                    reading.subcooling, self.belief.now.ninety
                ),
                "check that the gauge sits on the liquid line and its valve is open, the thermometer, the refrigerant, \
                 and that the system ran until steady",
            )
            .in_field("subcooling"));
        }
        Ok(())
    }
}

fn not_negative(mass: &Measured<Mass>, what: &str, advice: &str) -> Result<()> {
    if mass.value().is_finite() && mass.value() >= Mass::ZERO {
        return Ok(());
    }
    Err(Error::out_of_range(what, mass.value(), "it is zero or more", advice))
}
