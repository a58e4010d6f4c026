//! From readings of a running system to residuals.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Feature, Residual};
use crate::measure::{Measured, Reading};
use crate::quantity::{GaugePressure, Pressure, Site, Temperature, TemperatureDifference};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// What was read of a system that runs steadily in cooling; whatever was not read is left out.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(rename = "operation", deny_unknown_fields)]
pub struct Operation {
    /// At the service valve of the suction line.
    #[serde(default)]
    pub suction_pressure: Option<Reading<GaugePressure>>,
    /// Of the suction line beside it.
    #[serde(default)]
    pub suction_line: Option<Reading<Temperature>>,
    /// At the service valve of the liquid line.
    #[serde(default)]
    pub liquid_pressure: Option<Reading<GaugePressure>>,
    /// Of the liquid line beside it.
    #[serde(default)]
    pub liquid_line: Option<Reading<Temperature>>,
    /// Of the air entering the outdoor coil.
    #[serde(default)]
    pub outdoor_air: Option<Reading<Temperature>>,
    /// Of the air returning to the indoor coil, dry bulb.
    #[serde(default)]
    pub return_air: Option<Reading<Temperature>>,
    /// Of the air leaving the indoor coil, dry bulb.
    #[serde(default)]
    pub supply_air: Option<Reading<Temperature>>,
    /// Of the discharge line near the compressor.
    #[serde(default)]
    pub discharge_line: Option<Reading<Temperature>>,
    /// Of the liquid line just before the metering device.
    #[serde(default)]
    pub liquid_line_at_metering: Option<Reading<Temperature>>,
    /// With the power off and the system settled.
    #[serde(default)]
    pub standing_pressure: Option<Reading<GaugePressure>>,
    /// Of the outdoor coil then.
    #[serde(default)]
    pub standing_temperature: Option<Reading<Temperature>>,
}

/// What the features should be for this equipment in these conditions: from the maker, the plate, a chart, or a visit
/// when all was well.
#[derive(Debug, Clone, Copy, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "expected", deny_unknown_fields)]
pub struct Expected {
    /// Suction line above the dew point.
    #[serde(default)]
    pub superheat: Option<TemperatureDifference>,
    /// Liquid line below the bubble point.
    #[serde(default)]
    pub subcooling: Option<TemperatureDifference>,
    /// Bubble point above the outdoor air.
    #[serde(default)]
    pub condensing_over_ambient: Option<TemperatureDifference>,
    /// Dew point below the return air.
    #[serde(default)]
    pub evaporating_depression: Option<TemperatureDifference>,
    /// Return air above supply air.
    #[serde(default)]
    pub air_split: Option<TemperatureDifference>,
    /// Of the discharge line.
    #[serde(default)]
    pub discharge_temperature: Option<Temperature>,
    /// Along the liquid line; zero where it is left out.
    #[serde(default)]
    pub liquid_line_drop: Option<TemperatureDifference>,
}

impl Operation {
    /// The residual of every feature that was read and of which something was expected.
    ///
    /// Two features from one reading (superheat and evaporating depression from one suction gauge) keep what they
    /// share.
    ///
    /// # Units
    /// Gauge pressures and temperatures in; temperature differences out.
    /// # Source
    /// Definitions at [`Feature`]; saturation by [`Refrigerant`].
    /// # Valid range
    /// As saturation.
    /// # Accuracy
    /// Readings carry their doubt; what was expected is taken as given, its doubt being the patterns' scatter.
    /// # Errors
    /// A pressure outside the range of the refrigerant, said of its field.
    /// # Example
    /// ```
    /// use kingvalve::fault::{Expected, Feature, Operation};
    /// use kingvalve::measure::{Instrument, Reading};
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let gauge = Instrument::resolution(psi(0.1)).accuracy(psi(2.5));
    /// let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    /// let operation = Operation {
    ///     suction_pressure: Some(Reading::new(psig(105.0), gauge)?),
    ///     suction_line: Some(Reading::new(fahrenheit(62.0), clamp)?),
    ///     ..Operation::default()
    /// };
    /// let expected = Expected { superheat: Some(delta_fahrenheit(12.0)), ..Expected::default() };
    /// let off = operation.residuals(&Refrigerant::named("R-410A")?, &Site::sea_level(), &expected)?;
    /// assert_eq!(off[0].feature(), Feature::Superheat);
    /// assert_eq!(format!("{:.0}", off[0].value().value()), "16 Δ°F");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn residuals(
        &self,
        refrigerant: &Refrigerant,
        site: &Site,
        expected: &Expected,
    ) -> Result<Vec<Residual>> {
        let suction = saturated(self.suction_pressure.as_ref(), site, "suction_pressure", |p| {
            refrigerant.dew_temperature(p)
        })?;
        let liquid = saturated(self.liquid_pressure.as_ref(), site, "liquid_pressure", |p| {
            refrigerant.bubble_temperature(p)
        })?;
        let standing = saturated(self.standing_pressure.as_ref(), site, "standing_pressure", |p| {
            refrigerant.bubble_temperature(p)
        })?;
        let line = |reading: &Option<Reading<Temperature>>| reading.as_ref().map(Reading::measured);
        let zero = Some(TemperatureDifference::ZERO);
        let drop = expected.liquid_line_drop.or(zero);
        let mut residuals = Vec::new();
        let mut add = |feature, warm: Option<_>, cold: Option<_>, should: Option<TemperatureDifference>| {
            if let (Some(warm), Some(cold), Some(should)) = (warm, cold, should) {
                let seen: Measured<TemperatureDifference> = warm - cold;
                residuals.push(Residual::new(feature, seen, should)?);
            }
            Ok::<(), Error>(())
        };
        let (liquid_line, back) = (line(&self.liquid_line), line(&self.return_air));
        add(Feature::Superheat, line(&self.suction_line), suction.clone(), expected.superheat)?;
        add(Feature::Subcooling, liquid.clone(), liquid_line.clone(), expected.subcooling)?;
        let over = expected.condensing_over_ambient;
        add(Feature::CondensingOverAmbient, liquid, line(&self.outdoor_air), over)?;
        add(Feature::EvaporatingDepression, back.clone(), suction, expected.evaporating_depression)?;
        add(Feature::AirSplit, back, line(&self.supply_air), expected.air_split)?;
        let usual = expected.discharge_temperature.map(Measured::exact);
        add(Feature::DischargeTemperature, line(&self.discharge_line), usual, zero)?;
        add(Feature::LiquidLineDrop, liquid_line, line(&self.liquid_line_at_metering), drop)?;
        add(Feature::StandingExcess, standing, line(&self.standing_temperature), zero)?;
        Ok(residuals)
    }
}

/// The saturation temperature at a gauge reading, its errors said of the field.
fn saturated(
    gauge: Option<&Reading<GaugePressure>>,
    site: &Site,
    field: &str,
    temperature: impl Fn(Measured<Pressure>) -> Result<Measured<Temperature>>,
) -> Result<Option<Measured<Temperature>>> {
    let of = |gauge| temperature(site.absolute(gauge)?);
    gauge.map(of).transpose().map_err(|error| error.in_field(field))
}
