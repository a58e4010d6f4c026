//! What an inventory answers.

use super::particle::Meaning;
use super::{Conflict, Contribution, Estimate, Inventory, RunningSays, StandingReading, System};
use crate::charge::{AirIngress, Oil, Space, Standing, StandingFinding};
use crate::measure::{Interval, Measured};
use crate::quantity::{Mass, Pressure, PressureDifference, Quantity, Ratio, Site, Volume};
use crate::{Error, Result};

impl Inventory {
    /// The charge now.
    pub fn now(&self) -> Estimate<Mass> {
        self.belief.now
    }

    /// What is missing to a full charge; negative where there is too much.
    pub fn missing(&self, full: Mass) -> Estimate<Mass> {
        self.belief.now.turned(|now| full - now)
    }

    /// The internal volume, as assumed or learned.
    pub fn volume(&self) -> Estimate<Volume> {
        let volumes = self.belief.draws.iter().map(|draw| (draw.supposed.volume, draw.weight));
        Estimate::of(volumes).unwrap_or_else(|| {
            let room = self.system.room();
            Estimate { median: room.middle(), half: room, ninety: room }
        })
    }

    /// What each reading and weighing contributed, in their order.
    pub fn contributions(&self) -> &[Contribution] {
        &self.contributions
    }

    /// The system it is about.
    pub fn system(&self) -> &System {
        &self.system
    }

    /// All that was weighed in less what was removed.
    pub fn added(&self) -> Mass {
        Mass::from_si(self.weighed.added + self.belief.moved.mass)
    }

    /// How probable it is that all was vapour at the last standing reading; zero before one.
    pub fn probability_all_vapour(&self) -> Ratio {
        if self.standing.is_empty() {
            return Ratio::ZERO;
        }
        Ratio::from_si(self.belief.probability(|draw| draw.meaning == Meaning::Vapour))
    }

    /// How probable it is that air, nitrogen or another refrigerant is in the system, or that the temperatures had not
    /// settled.
    pub fn probability_gas(&self) -> Ratio {
        Ratio::from_si(self.belief.probability(|draw| draw.meaning == Meaning::Gas))
    }

    /// Whether the readings fit the assumptions so badly that the answer was widened beyond what they say.
    pub fn is_widened(&self) -> bool {
        self.belief.widened
    }

    /// What the last running reading says of the charge, where there is one.
    pub fn running_says(&self) -> Option<RunningSays> {
        self.running.map(|running| running.says)
    }

    /// How the last reading contradicts what was read and weighed before it, where it does.
    pub fn conflict(&self) -> Option<Conflict> {
        self.conflict
    }

    /// Whether it was evacuated: what is in it was weighed in since.
    pub fn is_evacuated(&self) -> bool {
        self.weighed.since_evacuated.is_some()
    }

    /// How many equally likely systems the answer rests on.
    pub fn effective_systems(&self) -> f64 {
        self.belief.effective
    }

    /// The finding on a standing reading by itself: all vapour, liquid possible, or not this refrigerant alone, with
    /// the volume as it is known now.
    ///
    /// # Errors
    /// As [`standing`](Self::standing).
    pub fn finding(&self, reading: &StandingReading) -> Result<StandingFinding> {
        let room = self.volume().ninety;
        let whole = |volume: Interval<Volume>| -> Result<Vec<Space>> {
            let temperature = reading.temperatures.first().cloned().ok_or_else(|| {
                Error::inconsistent("temperatures", "none is given", "give one for the whole system")
            })?;
            Ok(vec![Space { name: "whole system".into(), volume, temperature }])
        };
        let parts = &self.system.parts;
        let spaces = if reading.temperatures.len() == parts.len() && parts.len() > 1 {
            let middle: f64 = parts.iter().map(|part| part.volume.middle().base()).sum();
            let mut spaces = Vec::new();
            for (part, temperature) in parts.iter().zip(&reading.temperatures) {
                let share = part.volume.middle().base() / middle;
                let volume = room.times(share)?;
                spaces.push(Space { name: part.name.clone(), volume, temperature: temperature.clone() });
            }
            spaces
        } else {
            whole(room)?
        };
        let oil = Some(Oil { steepening: Some(self.system.steepening()), ..self.system.oil });
        Standing { pressure: reading.pressure.clone(), spaces, oil }.read(&self.system.refrigerant)
    }

    /// Whether air may have come in, by the standing pressures against the atmosphere: the worst of them, since what came
    /// in before a step stays in after it. Without one, and after it was evacuated, air counts as kept out.
    ///
    /// # Units
    /// The site, for its atmosphere.
    /// # Source
    /// [`AirIngress`].
    /// # Valid range
    /// As [`standing`](Self::standing).
    /// # Accuracy
    /// As [`AirIngress::of`].
    /// # Errors
    /// None in practice: the readings were taken as numbers.
    /// # Example
    /// ```
    /// use kingvalve::charge::AirIngress;
    /// use kingvalve::charge::inventory::{Inventory, StandingReading, System};
    /// use kingvalve::measure::Measured;
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let site = Site::sea_level();
    /// let read = |p: f64| -> Result<StandingReading, kingvalve::Error> {
    ///     let pressure = Measured::from_standard(psia(p), psi(0.5), "gauge")?;
    ///     Ok(StandingReading::at(pressure, Measured::from_standard(fahrenheit(88.0), delta_fahrenheit(1.0), "clamp")?))
    /// };
    /// let opened = Inventory::prior(&System::of_plate(&Refrigerant::named("R-454B")?, pounds(6.5))?)?.standing(&read(9.0)?)?;
    /// assert_eq!(opened.air_ingress(&site)?, AirIngress::DrawnIn);
    /// let half_a_pound = Measured::from_standard(pounds(0.5), ounces(0.2), "scale")?;
    /// let topped_up = opened.weighed_in(half_a_pound)?.standing(&read(70.0)?)?;
    /// assert_eq!(topped_up.air_ingress(&site)?, AirIngress::DrawnIn); // the air is still there
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn air_ingress(&self, site: &Site) -> Result<AirIngress> {
        let mut worst = AirIngress::KeptOut;
        if self.is_evacuated() {
            return Ok(worst);
        }
        for reading in &self.standing {
            let doubt = PressureDifference::from_si(reading.own.hypot(reading.common));
            let pressure =
                Measured::from_standard(Pressure::from_si(reading.pressure), doubt, "standing pressure")?;
            worst = worst.max(AirIngress::of(&pressure, site)?);
        }
        Ok(worst)
    }

    /// Whether nothing was read yet, standing or running.
    pub(crate) fn has_no_reading(&self) -> bool {
        self.standing.is_empty() && self.running.is_none()
    }
}
