//! `test_pressure` and `nitrogen_pressure_test`.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::Result;
use crate::check::shared::{anywhere, called, on_one};
use crate::check::{Check, Fields};
use crate::measure::{Finding, Interval, Reading};
use crate::quantity::{GaugePressure, PressureDifference, Site, Temperature, Time, Volume};
use crate::tightness::{GasState, PressureTest, TestPressure};

/// Whether a planned test pressure may stand in the system, cold and warmed by the sun.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Allowed {
    /// On the data plate, for the high side.
    high_side: GaugePressure,
    /// On the data plate, for the low side, where it is tested too.
    #[serde(default)]
    low_side: Option<GaugePressure>,
    /// Set pressure of a relief device that stays on.
    #[serde(default)]
    relief: Option<GaugePressure>,
    /// What is to be put on it.
    planned: Reading<GaugePressure>,
    /// How warm it may get with the valves shut.
    #[serde(default)]
    warming: Option<Warming>,
}

/// How warm the gas may get.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Warming {
    /// Elevation or barometer.
    site: Site,
    /// When it is filled.
    filled_at: Temperature,
    /// The hottest it may get.
    hottest: Temperature,
}

impl Check for Allowed {
    const NAME: &'static str = "test_pressure";
    const EXAMPLE: &'static str = include_str!("../examples/test_pressure.json");
    const FIELDS: Fields = &[("planned test pressure", "planned"), ("temperatures of the test", "warming")];

    fn find(self) -> Result<Finding> {
        let mut plate =
            TestPressure::of_plate(self.high_side).map_err(|error| error.in_field("high_side"))?;
        if let Some(low_side) = self.low_side {
            plate = plate.low_side(low_side).map_err(|error| error.in_field("low_side"))?;
        }
        if let Some(relief) = self.relief {
            plate = plate.relief(relief).map_err(|error| error.in_field("relief"))?;
        }
        let warming = self.warming.map(|warming| (warming.site, warming.filled_at, warming.hottest));
        plate.check(called(self.planned, "gauge"), warming)?.finding()
    }
}

/// A standing test with dry nitrogen, corrected for temperature in absolute pressures.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Standing {
    /// Where the gauge was read: elevation or barometer.
    site: Site,
    /// Settled, the valves shut.
    start: State,
    /// Later.
    end: State,
    /// Whether one gauge and one thermometer took both: their accuracy then cancels.
    #[serde(default)]
    same_instruments: bool,
    /// The loss that may be, at the last temperature; 1 psi where it is left out.
    #[serde(default)]
    allowed_loss: Option<PressureDifference>,
    /// Volume and time, where the leak's size is wanted.
    #[serde(default)]
    size: Option<Size>,
}

/// The gas at one moment.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct State {
    /// On the gauge.
    pressure: Reading<GaugePressure>,
    /// Of the gas: on the metal, in the shade.
    temperature: Reading<Temperature>,
}

/// What turns a loss into a leak.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Size {
    /// Internal volume under test.
    volume: Interval<Volume>,
    /// From first to last reading.
    lasted: Time,
}

impl Check for Standing {
    const NAME: &'static str = "nitrogen_pressure_test";
    const EXAMPLE: &'static str = include_str!("../examples/nitrogen_pressure_test.json");

    fn find(self) -> Result<Finding> {
        let one = self.same_instruments;
        let in_end = |error: crate::Error| error.in_field("end");
        let end = State {
            pressure: on_one(one, &self.start.pressure, self.end.pressure).map_err(in_end)?,
            temperature: on_one(one, &self.start.temperature, self.end.temperature).map_err(in_end)?,
        };
        let start = self.start.gas(&self.site, "first").map_err(|error| error.in_field("start"))?;
        let mut test = PressureTest::new(start, end.gas(&self.site, "last").map_err(in_end)?);
        if let Some(loss) = self.allowed_loss {
            test = test.allowing(loss);
        }
        if let Some(size) = self.size {
            let volume = anywhere(&size.volume, "internal volume")?;
            test = test.sized(volume, size.lasted, self.site).map_err(|error| error.in_field("size"))?;
        }
        test.check()?.finding()
    }
}

impl State {
    fn gas(self, site: &Site, which: &str) -> Result<GasState> {
        let pressure = called(self.pressure, format!("{which} pressure"));
        let temperature = called(self.temperature, format!("{which} temperature"));
        let pressure = site.absolute(pressure).map_err(|error| error.in_field("pressure"))?;
        Ok(GasState { pressure, temperature: temperature.measured() })
    }
}
