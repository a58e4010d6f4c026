//! The system whose charge is asked for: its refrigerant, its plate, the room inside it, its oil.

use serde::{Deserialize, Serialize};

use super::assumptions::Assumptions;
use super::part::Part;
use crate::charge::Oil;
use crate::measure::{Interval, normal_quantile};
use crate::quantity::{Mass, Pressure, Quantity, Ratio, Temperature, Volume, celsius};
use crate::refrigerant::{Kind, Refrigerant};
use crate::{Error, Result};

/// A system, as far as it is known before anything is read.
///
/// Nothing but the refrigerant and either a data plate or a volume is needed; what is left out is taken from
/// [`Assumptions`].
///
/// # Example
/// ```
/// use kingvalve::charge::inventory::System;
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let by_plate = System::of_plate(&Refrigerant::named("R-454B")?, pounds(6.5))?;
/// assert!(by_plate.room().contains(liters(10.0)));
/// let by_tape_measure = by_plate.with_volume(Interval::new(liters(9.0), liters(11.0))?)?;
/// assert_eq!(by_tape_measure.room().low(), liters(9.0));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct System {
    #[serde(with = "super::blend")]
    pub(super) refrigerant: Refrigerant,
    #[serde(default, with = "super::blend::maybe", skip_serializing_if = "Option::is_none")]
    pub(super) leaked: Option<Refrigerant>,
    pub(super) plate: Option<Mass>,
    pub(super) room: Interval<Volume>,
    pub(super) parts: Vec<Part>,
    pub(super) oil: Oil,
    pub(super) oil_is_assumed: bool,
    pub(super) room_is_assumed: bool,
    pub(super) assumptions: Assumptions,
}

/// The standard normal's value that leaves one in twenty above.
fn one_in_twenty() -> f64 {
    normal_quantile(0.95)
}

impl System {
    /// A system whose data plate tells its charge (with the line set's: [`PlateCharge`](crate::charge::PlateCharge)).
    /// Its volume follows from [`Assumptions::fill`] until something better is given or learned.
    ///
    /// # Units
    /// The charge as a mass.
    /// # Source
    /// Common practice, no source: [`COMMON_FILL`](super::COMMON_FILL).
    /// # Valid range
    /// Split and packaged systems; no receivers.
    /// # Accuracy
    /// The volume within a factor of 1.7 either way, nine times in ten.
    /// # Errors
    /// A data plate with no charge; a refrigerant with no saturation at 25 °C.
    /// # Example
    /// See [`System`].
    pub fn of_plate(refrigerant: &Refrigerant, charge: Mass) -> Result<System> {
        if !(charge.is_finite() && charge > Mass::ZERO) {
            return Err(Error::out_of_range(
                "charge of the data plate",
                charge,
                "a data plate gives more than none",
                "read it again, or give the internal volume instead",
            ));
        }
        let assumptions = Assumptions::default();
        let mut system = System {
            refrigerant: refrigerant.clone(),
            leaked: None,
            plate: Some(charge),
            room: room_of(refrigerant, charge, &assumptions)?,
            parts: Vec::new(),
            oil: Oil::of(Interval::exactly(Mass::ZERO)?),
            oil_is_assumed: true,
            room_is_assumed: true,
            assumptions,
        };
        system.assume_oil()?;
        Ok(system)
    }

    /// A system with no data plate whose internal volume is known: nine times in ten it lies in the range.
    ///
    /// # Errors
    /// A volume that is not above zero; a refrigerant with no saturation at 25 °C.
    pub fn of_volume(refrigerant: &Refrigerant, room: Interval<Volume>) -> Result<System> {
        let assumptions = Assumptions::default();
        let mut system = System {
            refrigerant: refrigerant.clone(),
            leaked: None,
            plate: None,
            room,
            parts: Vec::new(),
            oil: Oil::of(Interval::exactly(Mass::ZERO)?),
            oil_is_assumed: true,
            room_is_assumed: false,
            assumptions,
        };
        system = system.with_volume(room)?;
        system.assume_oil()?;
        Ok(system)
    }

    /// The same with an internal volume that is known: nine times in ten it lies in the range.
    ///
    /// # Errors
    /// A volume that is not above zero.
    pub fn with_volume(mut self, room: Interval<Volume>) -> Result<System> {
        Part::room("the system", room)?;
        self.room = widened(room);
        self.room_is_assumed = false;
        Ok(self)
    }

    /// The same with its parts, whose volumes are independent of one another; each may stand at its own temperature.
    ///
    /// # Units
    /// Volumes in; the whole is their sum.
    /// # Source
    /// JCGM 100:2008, 5.1.2: variances of independent parts add, each range being a 90 % interval.
    /// # Valid range
    /// Volumes above zero.
    /// # Accuracy
    /// That of the parts. A part left out is missing from the whole.
    /// # Errors
    /// No part, a volume that is not above zero.
    /// # Example
    /// ```
    /// use kingvalve::charge::inventory::{Part, System};
    /// use kingvalve::measure::Interval;
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let parts = vec![
    ///     Part::room("outdoor coil and compressor", Interval::new(liters(5.0), liters(7.0))?)?,
    ///     Part::room("indoor coil and lines", Interval::new(liters(3.5), liters(4.5))?)?,
    /// ];
    /// let system = System::of_plate(&Refrigerant::named("R-410A")?, pounds(6.0))?.with_parts(parts)?;
    /// assert_eq!(format!("{:.2}", system.room().width().in_unit("L")?), "2.24 L"); // not 3: √(2² + 1²)
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn with_parts(mut self, parts: Vec<Part>) -> Result<System> {
        if parts.is_empty() {
            return Err(Error::inconsistent(
                "parts of the system",
                "none is given",
                "give one at least, or leave the parts out",
            ));
        }
        let (mut middle, mut variance) = (0.0, 0.0);
        for part in &parts {
            Part::room(part.name.as_str(), part.volume)?;
            middle += part.volume.middle().base();
            variance += (0.5 * part.volume.width().base()).powi(2);
        }
        // Independent parts cannot take the whole to nothing.
        let half = variance.sqrt().min(0.9 * middle);
        self.room = widened(Interval::new(Volume::from_si(middle - half), Volume::from_si(middle + half))?);
        self.room_is_assumed = false;
        self.parts = parts;
        Ok(self)
    }

    /// The same with its compressor oil.
    ///
    /// # Errors
    /// A negative mass or uptake; a steepening outside its range.
    pub fn with_oil(mut self, oil: Oil) -> Result<System> {
        oil.checked()?;
        self.oil = oil;
        self.oil_is_assumed = false;
        Ok(self)
    }

    /// The same with other assumptions.
    ///
    /// # Errors
    /// Assumptions that make no sense; see [`Assumptions::checked`].
    pub fn assuming(mut self, assumptions: Assumptions) -> Result<System> {
        self.assumptions = assumptions.checked()?;
        if let (Some(charge), true) = (self.plate, self.room_is_assumed) {
            self.room = room_of(&self.refrigerant, charge, &self.assumptions)?;
        }
        if self.oil_is_assumed {
            self.assume_oil()?;
        }
        Ok(self)
    }

    /// The same after a leak or a withdrawal as vapour, which enriches what stays in the less volatile components: the
    /// answer is widened from the composition as charged to the furthest that withdrawal can have shifted it.
    ///
    /// # Units
    /// The temperature at which it leaked.
    /// # Source
    /// Rayleigh's withdrawal at constant volume
    /// ([`Fluid::withdraw_vapour`](kingvalve_fluid::Fluid::withdraw_vapour)), from the plate charge in the middle of the
    /// volume's range until 95 % has gone; once the last liquid has boiled away the composition stays.
    /// # Valid range
    /// Blends; a refrigerant of one component comes back unchanged, and so does an azeotrope.
    /// # Accuracy
    /// A bound: leaks of liquid shift less, leaks that were topped up shift less.
    /// # Errors
    /// A temperature outside the saturation curve.
    /// # Example
    /// ```
    /// use kingvalve::charge::inventory::System;
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let system = System::of_plate(&Refrigerant::named("R-407C")?, pounds(6.0))?.leaked(fahrenheit(80.0))?;
    /// assert!(system.furthest_composition().is_some());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn leaked(mut self, at: Temperature) -> Result<System> {
        if self.refrigerant.kind() != Kind::Zeotrope {
            return Ok(self);
        }
        let fluid = self.refrigerant.fluid();
        let charge = self.nominal().kilograms();
        let molar = charge / self.room_middle() / fluid.molar_mass();
        let left = fluid.withdraw_vapour(at.kelvins(), molar, 0.95, 24).map_err(|error| {
            Error::inconsistent(
                format!("composition of {} after a leak", self.refrigerant),
                error.to_string(),
                "give the temperature at which it leaked, and a plate charge that leaves room for vapour",
            )
        })?;
        let shares: Vec<(&str, Ratio)> =
            fluid.components().zip(left.mass_fractions_left.iter().map(|w| Ratio::from_si(*w))).collect();
        self.leaked = Some(Refrigerant::by_mass(&shares)?);
        Ok(self)
    }

    /// The refrigerant, as charged.
    pub fn refrigerant(&self) -> &Refrigerant {
        &self.refrigerant
    }

    /// What withdrawal as vapour can have made of the blend at most; `None` where no shift was claimed.
    pub fn furthest_composition(&self) -> Option<&Refrigerant> {
        self.leaked.as_ref()
    }

    /// The plate charge, where there is one.
    pub fn plate(&self) -> Option<Mass> {
        self.plate
    }

    /// Where the internal volume lies nine times in ten before anything is learned.
    pub fn room(&self) -> Interval<Volume> {
        self.room
    }

    /// Its parts, where they are told apart.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// Its oil, as given or assumed.
    pub fn oil(&self) -> &Oil {
        &self.oil
    }

    /// What is taken for granted.
    pub fn assumptions(&self) -> &Assumptions {
        &self.assumptions
    }

    /// The plate charge, or what a system of this volume commonly takes.
    pub(super) fn nominal(&self) -> Mass {
        self.plate.unwrap_or_else(|| {
            let liquid = liquid_density(&self.refrigerant).unwrap_or(1000.0);
            let fill =
                (self.assumptions.fill.low().fraction() * self.assumptions.fill.high().fraction()).sqrt();
            Mass::from_si(self.room_middle() * liquid * fill)
        })
    }

    /// The most that could be called a full charge.
    pub(super) fn nominal_at_most(&self) -> Mass {
        self.plate.unwrap_or_else(|| {
            let liquid = liquid_density(&self.refrigerant).unwrap_or(1000.0);
            Mass::from_si(self.room_middle() * liquid * self.assumptions.fill.high().fraction())
        })
    }

    /// Middle of ln V and its standard deviation, V in m³.
    pub(super) fn ln_room(&self) -> (f64, f64) {
        let (low, high) = (self.room.low().base().ln(), self.room.high().base().ln());
        (0.5 * (low + high), (high - low) / (2.0 * one_in_twenty()))
    }

    fn room_middle(&self) -> f64 {
        self.ln_room().0.exp()
    }

    /// Lowest and highest mass that the oil takes up per share of saturation, near nothing, kg.
    pub(super) fn uptake(&self) -> (f64, f64) {
        let (low, high) = self.oil.uptakes();
        ((self.oil.mass.low() * low).base(), (self.oil.mass.high() * high).base())
    }

    /// How steeply that rises towards saturation.
    pub(super) fn steepening(&self) -> Interval<Ratio> {
        self.oil.steepening.unwrap_or(self.assumptions.steepening)
    }

    fn assume_oil(&mut self) -> Result<()> {
        let nominal = self.nominal();
        let share = self.assumptions.oil;
        self.oil = Oil::of(Interval::new(nominal * share.low(), nominal * share.high())?);
        Ok(())
    }

    /// Absolute pressures cannot exceed this in the message of an error: the highest of the equation.
    pub(super) fn highest_pressure(&self) -> Pressure {
        Pressure::from_si(self.refrigerant.fluid().pressure_max())
    }
}

/// A volume given as a single value still has some doubt: a hundredth either way.
fn widened(room: Interval<Volume>) -> Interval<Volume> {
    let least = 1.01;
    if room.high().base() / room.low().base() >= least * least {
        return room;
    }
    let middle = (room.low().base() * room.high().base()).sqrt();
    Interval::spanning(Volume::from_si(middle / least), Volume::from_si(middle * least))
}

fn room_of(refrigerant: &Refrigerant, charge: Mass, assumptions: &Assumptions) -> Result<Interval<Volume>> {
    let as_liquid = charge.kilograms() / liquid_density(refrigerant)?;
    let fill = assumptions.fill;
    Interval::new(
        Volume::from_si(as_liquid / fill.high().fraction()),
        Volume::from_si(as_liquid / fill.low().fraction()),
    )
}

/// kg/m³ at 25 °C.
fn liquid_density(refrigerant: &Refrigerant) -> Result<f64> {
    Ok(refrigerant.bubble_density(celsius(25.0))?.kilograms_per_cubic_meter())
}
