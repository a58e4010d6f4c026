//! What was read: the system standing still, or running.

use crate::charge::FullCharge;
use crate::measure::{Label, Measured};
use crate::quantity::{Pressure, Temperature, TemperatureDifference};

/// The standing pressure of a system that is off, equalised and settled.
///
/// # Example
/// ```
/// use kingvalve::charge::inventory::StandingReading;
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let gauge = Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(500.0));
/// let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
/// let pressure = Site::sea_level().absolute(&Reading::new(psig(62.0), gauge)?)?;
/// let reading = StandingReading::at(pressure, Reading::new(fahrenheit(88.0), clamp)?).labelled("on arrival");
/// assert_eq!(reading.label(), "on arrival");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct StandingReading {
    pub(super) pressure: Measured<Pressure>,
    pub(super) temperatures: Vec<Measured<Temperature>>,
    pub(super) label: Label,
}

impl StandingReading {
    /// Absolute pressure, and one temperature for the whole system. Read before and after on one gauge (one
    /// [`Instrument`](crate::measure::Instrument), cloned), so that its accuracy is known to be shared.
    pub fn at(
        pressure: impl Into<Measured<Pressure>>,
        temperature: impl Into<Measured<Temperature>>,
    ) -> StandingReading {
        StandingReading::at_parts(pressure, vec![temperature.into()])
    }

    /// Absolute pressure, and one temperature for each part of the system, in their order.
    pub fn at_parts(
        pressure: impl Into<Measured<Pressure>>,
        temperatures: Vec<Measured<Temperature>>,
    ) -> StandingReading {
        StandingReading { pressure: pressure.into(), temperatures, label: Label::EMPTY }
    }

    /// The same, with what it is called in the account of what each reading contributed.
    #[must_use]
    pub fn labelled(mut self, label: impl Into<Label>) -> Self {
        self.label = label.into();
        self
    }

    /// What it is called.
    pub fn label(&self) -> &str {
        self.label.as_str()
    }

    /// The absolute pressure.
    pub fn pressure(&self) -> &Measured<Pressure> {
        &self.pressure
    }

    /// The temperatures: one, or one for each part.
    pub fn temperatures(&self) -> &[Measured<Temperature>] {
        &self.temperatures
    }
}

/// Superheat and subcooling of a system that has run until they are steady, with what they would be at full charge.
///
/// # Example
/// ```
/// use kingvalve::charge::FullCharge;
/// use kingvalve::charge::inventory::RunningReading;
/// use kingvalve::measure::Measured;
/// use kingvalve::quantity::*;
/// let reading = RunningReading::of(
///     Measured::from_standard(delta_fahrenheit(22.0), delta_fahrenheit(1.0), "superheat")?,
///     Measured::from_standard(delta_fahrenheit(4.0), delta_fahrenheit(1.0), "subcooling")?,
///     FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) },
/// );
/// assert_eq!(reading.superheat().value(), delta_fahrenheit(22.0));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct RunningReading {
    pub(super) superheat: Measured<TemperatureDifference>,
    pub(super) subcooling: Measured<TemperatureDifference>,
    pub(super) full: FullCharge,
    pub(super) label: Label,
}

impl RunningReading {
    /// Superheat and subcooling as read, and what they would be at full charge.
    pub fn of(
        superheat: impl Into<Measured<TemperatureDifference>>,
        subcooling: impl Into<Measured<TemperatureDifference>>,
        full: FullCharge,
    ) -> RunningReading {
        RunningReading {
            superheat: superheat.into(),
            subcooling: subcooling.into(),
            full,
            label: Label::EMPTY,
        }
    }

    /// The same, with what it is called in the account of what each reading contributed.
    #[must_use]
    pub fn labelled(mut self, label: impl Into<Label>) -> Self {
        self.label = label.into();
        self
    }

    /// What it is called.
    pub fn label(&self) -> &str {
        self.label.as_str()
    }

    /// Superheat as read.
    pub fn superheat(&self) -> &Measured<TemperatureDifference> {
        &self.superheat
    }

    /// Subcooling as read.
    pub fn subcooling(&self) -> &Measured<TemperatureDifference> {
        &self.subcooling
    }

    /// What they would be at full charge.
    pub fn full(&self) -> &FullCharge {
        &self.full
    }
}
