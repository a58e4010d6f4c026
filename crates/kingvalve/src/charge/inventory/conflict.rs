//! Readings that contradict each other, and what explains it.

use serde::{Deserialize, Serialize};

/// The last reading does not fit what was read and weighed before it.
///
/// It is called so where the reading is so unlikely that a mistake somewhere
/// ([`Assumptions::mistaken`](super::Assumptions::mistaken)) is likelier. The answer is widened until it holds for every
/// explanation, and stays so until a further step and reading agree with this one.
///
/// # Example
/// ```
/// use kingvalve::charge::inventory::{Conflict, Inventory, StandingReading, System};
/// use kingvalve::measure::Measured;
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let read = |p: f64| -> Result<StandingReading, kingvalve::Error> {
///     let pressure = Measured::from_standard(psia(p), psi(1.0), "gauge")?;
///     Ok(StandingReading::at(pressure, Measured::from_standard(fahrenheit(88.0), delta_fahrenheit(0.6), "clamp")?))
/// };
/// let half_a_pound = Measured::from_standard(pounds(0.5), ounces(0.2), "scale")?;
/// let system = System::of_plate(&Refrigerant::named("R-454B")?, pounds(6.5))?;
/// let stepped = Inventory::prior(&system)?.standing(&read(77.0)?)?.weighed_in(half_a_pound)?;
/// assert_eq!(stepped.standing(&read(125.0)?)?.conflict(), None);
/// assert_eq!(stepped.standing(&read(77.0)?)?.conflict(), Some(Conflict::PressureTooLow)); // it did not rise
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Conflict {
    /// The standing pressure is lower than what was weighed in makes it.
    PressureTooLow,
    /// The standing pressure is higher than what was weighed in makes it.
    PressureTooHigh,
    /// Superheat and subcooling show another charge than pressures and weights.
    #[serde(rename = "running_disagrees")]
    Running,
}

impl Conflict {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Conflict::PressureTooLow => "pressure_too_low",
            Conflict::PressureTooHigh => "pressure_too_high",
            Conflict::Running => "running_disagrees",
        }
    }

    /// What it is, in words.
    pub const fn text(self) -> &'static str {
        match self {
            Conflict::PressureTooLow => {
                "The standing pressure does not rise as what was weighed in should make it, so one of the two is not what it \
                 seems, and the answer is widened to hold either way."
            }
            Conflict::PressureTooHigh => {
                "The standing pressure is higher than what was weighed in should make it, so one of the two is not what it \
                 seems, and the answer is widened to hold either way."
            }
            Conflict::Running => {
                "Superheat and subcooling show another charge than pressures and weights do, so one of the two is not what it \
                 seems, and the answer is widened to hold either way."
            }
        }
    }

    /// What explains it and how to tell, likeliest first. Common practice, no source.
    pub const fn alternatives(self) -> &'static [&'static str] {
        match self {
            Conflict::PressureTooLow => &[
                "Nothing arrived: see whether the cylinder is empty, and every valve and core from it to the system open.",
                "The scale had not settled or was touched: weigh again, hoses hanging free.",
                "Not settled yet: wait until two readings five minutes apart agree.",
                "Liquid was there already, at a spot colder than was read (accumulator, compressor, a shaded coil): find the \
                 coldest spot. Pressure then says nothing of the amount.",
                "It leaves as fast as it comes: listen and look for a large leak.",
            ],
            Conflict::PressureTooHigh => &[
                "More arrived than was weighed: see the scale's zero, and whether a second hose or cylinder is open.",
                "Air or nitrogen came with it: were the hoses purged?",
                "Not settled yet: wait until two readings five minutes apart agree.",
                "A part of the system is shut off, so that the rest is small: see valves and solenoids.",
            ],
            Conflict::Running => &[
                "Airflow, coils or a restriction: superheat and subcooling tell the charge only where these are right.",
                "The metering device: a valve that hunts, starves or floods.",
                "Not steady yet: run until two readings five minutes apart agree.",
                "The plate's charge, or what superheat and subcooling should be at full charge, is not this system's.",
                "The weights: see the scale, and what the hoses hold.",
            ],
        }
    }
}
