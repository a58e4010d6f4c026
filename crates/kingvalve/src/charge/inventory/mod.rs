//! What is in the system now, as a distribution, from whatever was read.
//!
//! An [`Inventory`] starts from what is taken for granted of a [`System`], and each reading or weighing makes a new
//! one that is surer: `prior → standing → weighed_in → standing → running`. It is a plain value: cloning, comparing and
//! storing it (as JSON) change nothing.
//!
//! How it weighs: a few hundred systems are supposed, each with a volume, an oil uptake, errors of the gauge and the
//! thermometer and a shift of composition, evenly spread where the readings point to. Given those, a standing pressure
//! leaves the charge nearly no freedom where all is vapour, says nothing where there is liquid, and bounds it where air
//! is present; each case counts as the readings make it likely (Bayes). The accuracy of gauge and thermometer is one
//! error each, the same before and after a weighed step, so the *rise* of the pressure tells the volume far better than
//! either pressure could.
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
mod conflict;
mod estimate;
mod evidence;
mod form;
mod moved;
mod part;
mod particle;
mod points;
mod predict;
mod prior;
mod product;
mod proposal;
mod quantiles;
mod reading;
mod running;
mod seen;
mod standing;
mod supposed;
mod system;
mod trial;
mod weigh;

use std::sync::Arc;

pub use assumptions::{Assumptions, COMMON_CHARGE, COMMON_FILL, COMMON_OIL, COMMON_RESIDUE};
pub use conflict::Conflict;
pub use estimate::{Contribution, Estimate};
pub use part::Part;
pub use reading::{RunningReading, StandingReading};
pub use running::RunningSays;
pub use system::System;

use self::belief::{Belief, nothing_left};
use self::evidence::{SinceEvacuated, Weighed};
use self::moved::Moved;
use self::prior::Prior;
use self::proposal::Proposal;
use self::running::{Running, Says};
use self::standing::{Shared, Standing};
use crate::measure::{Label, Measured};
use crate::quantity::{Mass, Quantity};
use crate::{Error, Result};

/// What is in the system now, and how sure that is.
///
/// See the [module](self) for how it is used.
#[derive(Debug, Clone, PartialEq)]
pub struct Inventory {
    system: System,
    standing: Vec<Standing>,
    running: Option<Running>,
    gauge: Shared,
    thermometer: Shared,
    weighed: Weighed,
    conflict: Option<Conflict>,
    contributions: Vec<Contribution>,
    from: Proposal,
    belief: Arc<Belief>,
}

/// The least that may stay, kg: something to reckon with.
const LEAST_LEFT: f64 = 1e-4;
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
        let weighed = Weighed::default();
        let evidence = evidence::of(system, &[], None, &weighed);
        let belief = Belief::of(&Prior::of(system), &evidence, Proposal::PRIOR, 0.0)?;
        Ok(Inventory {
            system: system.clone(),
            standing: Vec::new(),
            running: None,
            gauge: Shared::default(),
            thermometer: Shared::default(),
            weighed,
            conflict: None,
            contributions: Vec::new(),
            from: Proposal::PRIOR,
            belief: Arc::new(belief.ok_or_else(nothing_left)?),
        })
    }

    /// With the standing pressure of the system: off, equalised, settled.
    ///
    /// # Units
    /// Absolute pressure and temperatures in.
    /// # Source
    /// Bayes; density and saturation from the equation of state; oil between Henry's and Raoult's law
    /// ([`COMMON_STEEPENING`](super::COMMON_STEEPENING)). A
    /// pressure above saturation counts as air, nitrogen, another refrigerant or unsettled temperatures as far as
    /// [`Assumptions::gas`] and the readings' doubt make that likelier.
    /// # Valid range
    /// Off long enough that pressures are equal and temperatures steady; temperatures of the saturation curve at the
    /// coldest point.
    /// # Accuracy
    /// The 90 % interval holds the truth 88 to 95 % of the time for systems as assumed; `make calibration` prints it by
    /// class. The accuracy of gauge and thermometer is one error each, the same at every reading with that instrument; the
    /// thermometer of the coldest point stands for those of all parts.
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
        let mut next = self.up_to_now();
        if next.conflict == Some(Conflict::Running) {
            next.running = None;
        }
        next.conflict = None;
        let last = Standing::of(&self.system, &mut next.gauge, &mut next.thermometer, reading)?;
        let range = last.bubble + self.system.assumptions.gas_pressure.pascals();
        next.standing.push(last);
        next.from = self.belief.proposal;
        // Where nothing was read or weighed before there is nothing to contradict.
        let earlier = !self.standing.is_empty() || self.is_evacuated() || self.added() != Mass::ZERO;
        let hardly = if earlier { self.belief.evidence * self.mistaken_over(range) } else { 0.0 };
        let label = labelled(&reading.label, "standing pressure");
        match next.believed(hardly)? {
            Some(belief) => Ok(next.noted(label, &self.now(), belief)),
            None => self.contradicted(next, label),
        }
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
    /// ones before it. A standing pressure that contradicts what was weighed counts no more from here on.
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
        let mut next = self.up_to_now();
        // What was contradicted once is held against pressures and weights alone.
        let alone = next.without_doubted_running()?;
        if matches!(next.conflict, Some(Conflict::PressureTooLow | Conflict::PressureTooHigh)) {
            next.standing.clear();
        }
        next.conflict = None;
        if running.says == Says::About && (!next.standing.is_empty() || self.is_evacuated()) {
            let before = alone.as_ref().unwrap_or(&self.belief);
            let density = running.density();
            let told = before.mean(|draw| density(before.charge(draw)));
            let unlikely = told < self.mistaken_over(self.system.nominal_at_most().base());
            next.conflict = unlikely.then_some(Conflict::Running);
        }
        next.running = Some(running);
        next.from = self.belief.proposal;
        let belief = next.believed(0.0)?.ok_or_else(nothing_left)?;
        Ok(next.noted(labelled(&reading.label, "superheat and subcooling"), &self.now(), belief))
    }

    /// After it was recovered, evacuated and held: what was read before counts no more, and next to nothing is left.
    ///
    /// What is weighed in from then on is what the system holds, so a standing pressure after a part of it tells the
    /// volume.
    ///
    /// # Units
    /// The most that may have stayed; left out, [`COMMON_RESIDUE`].
    /// # Source
    /// Conservation of mass.
    /// # Valid range
    /// A vacuum that was deep and held ([`DecayTest`](crate::tightness::DecayTest)).
    /// # Accuracy
    /// That of the weights and of what may have stayed.
    /// # Errors
    /// A negative mass.
    /// # Example
    /// ```
    /// use kingvalve::charge::inventory::{Inventory, System};
    /// use kingvalve::measure::Measured;
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let system = System::of_plate(&Refrigerant::named("R-454B")?, pounds(6.5))?;
    /// let whole_charge = Measured::from_standard(pounds(6.5), ounces(0.3), "scale")?;
    /// let charged = Inventory::prior(&system)?.evacuated(None)?.weighed_in(whole_charge)?;
    /// assert!(charged.missing(pounds(6.5)).ninety.contains(pounds(0.0)));
    /// assert!(charged.now().ninety.width() < pounds(0.1));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn evacuated(&self, left: Option<Mass>) -> Result<Inventory> {
        let left = left.unwrap_or(COMMON_RESIDUE);
        not_negative(&Measured::exact(left), "mass left after evacuating", "leave it out for the usual")?;
        let mut next = Inventory::prior(&System { leaked: None, ..self.system.clone() })?;
        next.contributions.clone_from(&self.contributions);
        let since = Moved::default();
        let left = left.base().max(LEAST_LEFT);
        next.weighed.since_evacuated = Some(SinceEvacuated { left, since });
        let belief = next.believed(0.0)?.ok_or_else(nothing_left)?;
        Ok(next.noted("evacuated".into(), &self.now(), belief))
    }

    fn changed(&self, mass: &Measured<Mass>, sign: f64, what: &'static str) -> Result<Inventory> {
        let doubt = mass.standard_uncertainty().base();
        let more = Moved { mass: sign * mass.value().base(), variance: doubt * doubt };
        let belief = self.belief.moved(self.belief.moved.and(more)).ok_or_else(|| {
            Error::inconsistent(
                "mass removed",
                format!(
                    "{} is more than can have been in the system: {:.2}",
                    mass.value(),
                    self.now().ninety
                ),
                "check the weights of the recovery cylinder, and what was read and weighed before",
            )
        })?;
        Ok(self.clone().noted(what.into(), &self.now(), belief))
    }
}

fn labelled(label: &Label, otherwise: &'static str) -> Label {
    if label.is_empty() { otherwise.into() } else { label.clone() }
}

fn not_negative(mass: &Measured<Mass>, what: &str, advice: &str) -> Result<()> {
    if mass.value().is_finite() && mass.value() >= Mass::ZERO {
        return Ok(());
    }
    Err(Error::out_of_range(what, mass.value(), "it is zero or more", advice))
}
