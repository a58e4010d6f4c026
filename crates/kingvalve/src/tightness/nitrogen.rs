//! The standing pressure test: did it hold, once the temperature is allowed for?

use kingvalve_fluid::{Fluid, Reference};

use super::PressureTestCheck;
use crate::measure::Measured;
use crate::quantity::{
    Pressure, PressureDifference, Quantity, Site, Temperature, Time, Volume, kelvins, psi,
};
use crate::{Error, Result};

/// The loss allowed where none is named: 1 psi. Common practice, no source; an installer's or maker's own goes first.
pub const ALLOWED_LOSS: PressureDifference = psi(1.0);

/// The gas in a system at one moment.
///
/// The pressure is *absolute* ([`Site::absolute`]): a correction in gauge pressures is wrong by the atmosphere's
/// share.
///
/// ```compile_fail
/// use kingvalve::measure::Measured;
/// use kingvalve::quantity::*;
/// use kingvalve::tightness::GasState;
/// GasState { pressure: Measured::exact(psig(300.0)), temperature: Measured::exact(fahrenheit(70.0)) };
/// ```
#[derive(Debug, Clone)]
pub struct GasState {
    /// Absolute pressure.
    pub pressure: Measured<Pressure>,
    /// Temperature of the gas, the same all through the system.
    pub temperature: Measured<Temperature>,
}

/// A standing test with dry nitrogen: two states of one closed system.
///
/// Read both with the same gauge and the same thermometer: what their accuracy adds to both readings then cancels
/// almost wholly, and the step of the display is what remains.
///
/// # Example
/// ```
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// use kingvalve::tightness::{GasState, PressureTest};
/// let site = Site::sea_level();
/// let gauge = Instrument::resolution(psi(0.1)).accuracy_percent_of_span(0.5, psi(800.0));
/// let thermometer = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
/// let state = |p: f64, t: f64| -> kingvalve::Result<GasState> {
///     Ok(GasState {
///         pressure: site.absolute(Reading::new(psig(p), gauge.clone())?)?,
///         temperature: Reading::new(fahrenheit(t), thermometer.clone())?.measured(),
///     })
/// };
/// // It lost 17.8 psi overnight, and it is tight: the night was 30 °F colder.
/// let check = PressureTest::new(state(300.0, 80.0)?, state(282.2, 50.0)?).check()?;
/// assert!(check.verdict().is_within(), "{}", check.verdict());
/// // The same fall with no change of temperature is a leak.
/// let check = PressureTest::new(state(300.0, 80.0)?, state(282.2, 80.0)?).check()?;
/// assert!(check.verdict().is_outside() && check.leak_shown().is_outside());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct PressureTest {
    start: GasState,
    end: GasState,
    allowed: PressureDifference,
    allowed_source: &'static str,
    size: Option<Size>,
}

/// What turns a loss of pressure into the size of a leak.
#[derive(Debug, Clone)]
pub(super) struct Size {
    pub volume: Measured<Volume>,
    pub lasted: Time,
    pub site: Site,
}

impl PressureTest {
    /// A test from its first and last readings, with [`ALLOWED_LOSS`].
    pub fn new(start: GasState, end: GasState) -> Self {
        let allowed_source = "allowed loss, common practice, no source";
        PressureTest { start, end, allowed: ALLOWED_LOSS, allowed_source, size: None }
    }

    /// Allows another loss, at the last temperature.
    #[must_use]
    pub fn allowing(mut self, loss: PressureDifference) -> Self {
        self.allowed = loss;
        self.allowed_source = "allowed loss as named";
        self
    }

    /// Says how long it stood, in what volume and where, so that a loss becomes the size of a leak.
    ///
    /// # Errors
    /// A time or a volume that is not above zero.
    pub fn sized(mut self, volume: Measured<Volume>, lasted: Time, site: Site) -> Result<Self> {
        if !(lasted.base() > 0.0 && lasted.is_finite()) {
            return Err(Error::out_of_range(
                "duration of the test",
                lasted,
                "it lasts longer than no time",
                "check that the last reading is later than the first",
            ));
        }
        if volume.value() <= Volume::ZERO || !volume.value().is_finite() {
            return Err(Error::out_of_range(
                "volume under test",
                volume.value(),
                "an internal volume is above zero",
                "leave it out where it is not known",
            ));
        }
        self.size = Some(Size { volume, lasted, site });
        Ok(self)
    }

    /// What the test shows: the loss corrected for temperature, and whether it is allowed.
    ///
    /// # Units
    /// Absolute pressures and temperatures in; the loss as a pressure difference at the last temperature.
    /// # Source
    /// The gas keeps its density: loss = p(ρ₁, T₂) − p₂, with ρ₁ = ρ(p₁, T₁) by the equation of state of nitrogen
    /// (Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361); for an ideal gas this is p₁·T₂/T₁ − p₂. Doubt by JCGM
    /// 100:2008 with what the readings share; conformity by JCGM 106:2012.
    /// # Valid range
    /// Dry nitrogen from −40 °C to 80 °C, above vacuum and up to 10 MPa, settled: the gas warms when it is let in, so
    /// wait until pressure and temperature stand still before the first reading. No liquid and little refrigerant
    /// inside.
    /// # Accuracy
    /// The correction is good to 0.02 % of the pressure (equation of state). What is left is the doubt of the
    /// readings, carried, and parts of the system at another temperature than the thermometer's, which is not: 1 °F
    /// matters 0.6 psi at 300 psig.
    /// # Errors
    /// A pressure or temperature outside the range; an allowed loss that is negative.
    /// # Example
    /// See [`PressureTest`].
    pub fn check(&self) -> Result<PressureTestCheck> {
        if !(self.allowed.base() >= 0.0 && self.allowed.is_finite()) {
            return Err(Error::out_of_range(
                "allowed loss",
                self.allowed,
                "it is zero or more",
                "give the loss of pressure that may be, without a sign",
            ));
        }
        self.start.within_range().map_err(|error| error.in_field("start"))?;
        self.end.within_range().map_err(|error| error.in_field("end"))?;
        let expected = at_same_density(&self.start, &self.end.temperature)?;
        let loss = expected.clone() - self.end.pressure.clone();
        PressureTestCheck::new(self, expected, loss)
    }

    pub(super) fn allowed(&self) -> (PressureDifference, &'static str) {
        (self.allowed, self.allowed_source)
    }

    pub(super) fn size(&self) -> Option<&Size> {
        self.size.as_ref()
    }

    pub(super) fn start(&self) -> &GasState {
        &self.start
    }

    pub(super) fn end(&self) -> &GasState {
        &self.end
    }
}

impl GasState {
    pub(super) fn within_range(&self) -> Result<()> {
        const COLDEST: Temperature = kelvins(233.15);
        const HOTTEST: Temperature = kelvins(353.15);
        const HIGHEST: Pressure = Pressure::from_si(10e6);
        let (p, t) = (self.pressure.value(), self.temperature.value());
        if !(p > Pressure::from_base(0.0) && p <= HIGHEST) {
            return Err(Error::out_of_range(
                "absolute pressure of the test",
                p,
                format!("it lies above vacuum and at or below {HIGHEST:.0}"),
                "make it absolute by the site's atmosphere, and check its unit",
            )
            .in_field("pressure"));
        }
        if !(t >= COLDEST && t <= HOTTEST) {
            return Err(Error::out_of_range(
                "temperature of the gas",
                t,
                format!("a pressure test is judged from {COLDEST:.0} to {HOTTEST:.0}"),
                "check the reading and its unit",
            )
            .in_field("temperature"));
        }
        Ok(())
    }
}

/// The pressure of nitrogen brought to another temperature in a closed volume.
pub(super) fn at_same_density(start: &GasState, end: &Measured<Temperature>) -> Result<Measured<Pressure>> {
    let gas = Fluid::pure("R-728").map_err(|error| of_nitrogen(&error))?;
    let (t1, p1) = (start.temperature.value().base(), start.pressure.value().base());
    let t2 = end.value().base();
    let (density, by_p1, by_t1) = gas.density_and_slopes(t1, p1).map_err(|error| of_nitrogen(&error))?;
    let state = gas.state(t2, density, Reference::NormalBoilingPoint).map_err(|error| of_nitrogen(&error))?;
    let (_, by_p2, by_t2) =
        gas.density_and_slopes(t2, state.pressure).map_err(|error| of_nitrogen(&error))?;
    // ∂p/∂ρ at T₂ and ∂p/∂T at ρ, from the slopes of ρ(p, T).
    let (by_density, by_end) = (1.0 / by_p2, -by_t2 / by_p2);
    Ok(Measured::exact(Pressure::from_base(state.pressure))
        .depending_on(&start.pressure, by_density * by_p1)
        .depending_on(&start.temperature, by_density * by_t1)
        .depending_on(end, by_end))
}

fn of_nitrogen(error: &kingvalve_fluid::Error) -> Error {
    Error::inconsistent("nitrogen", error.to_string(), "check the pressures and temperatures of the test")
}
