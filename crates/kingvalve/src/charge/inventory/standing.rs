//! A standing reading made ready for weighing: density near its pressure, saturation, and its doubt.
//!
//! Source: density and saturation of the equation of state, linear about the pressure read; doubts by the law of propagation
//! (JCGM 100, 5.1.2). Pa, K, kg/m³. Range: that of the equation at the temperatures read.

use serde::{Deserialize, Serialize};

use super::moved::Moved;
use super::reading::StandingReading;
use super::supposed::Supposed;
use super::system::System;
use crate::measure::Measured;
use crate::quantity::{Quantity, Temperature, kelvins, pascals};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// Beyond so many standard uncertainties below saturation, liquid is out of the question.
const OUT_OF_THE_QUESTION: f64 = 6.0;
/// Pressures below this, Pa, count as it.
const LEAST_PRESSURE: f64 = 100.0;

/// One standing reading, in SI units.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct Standing {
    /// Absolute pressure read, its own standard uncertainty, and what the gauge's common doubt adds per standard
    /// deviation of it.
    pub pressure: f64,
    pub own: f64,
    pub common: f64,
    /// The same uncertainty with that of the saturation pressure in it.
    pub own_at_saturation: f64,
    /// What the temperatures' own doubt makes of the vapour's density, kg/m³, and of the oil's uptake, relative: both fall
    /// as it warms.
    pub thinning: f64,
    pub driving_out: f64,
    /// How much denser the vapour is, kg/m³, and how much lower saturation, relative, per standard deviation of the
    /// thermometer's common doubt.
    #[serde(default)]
    pub denser: f64,
    #[serde(default)]
    pub lower: f64,
    /// Dew and bubble pressure at the coldest point.
    pub dew: f64,
    pub bubble: f64,
    /// Mean vapour density of the parts and its slope by pressure, at `reference`.
    pub reference: f64,
    pub density: f64,
    pub slope: f64,
    /// Mean temperature of the coldest point.
    pub coldest: f64,
    /// How much the furthest shift of composition changes density and saturation, relative.
    pub density_shift: f64,
    pub dew_shift: f64,
    /// Whether liquid is possible by its doubt.
    pub liquid_possible: bool,
    /// What was weighed since.
    pub since: Moved,
}

/// The common doubt of the first gauge or thermometer, by source; readings with the same instrument share it.
#[derive(Debug, Clone, Default)]
pub(super) struct Shared {
    sources: Vec<(u64, f64)>,
}

/// Which instrument it is, is no value, as with [`Instrument`](crate::measure::Instrument).
impl PartialEq for Shared {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Shared {
    /// One that no further reading shares.
    pub fn closed() -> Shared {
        Shared { sources: vec![(0, 1.0)] }
    }

    /// How much of a reading's doubt is the instrument's, per standard deviation of the instrument's common doubt.
    fn common<Q: Quantity>(&mut self, read: &Measured<Q>) -> f64 {
        let here: Vec<(u64, f64)> = read.doubt().in_common().collect();
        if self.sources.is_empty() {
            self.sources = here;
            return self.size();
        }
        let shared: f64 = here
            .iter()
            .flat_map(|(id, amount)| {
                self.sources.iter().filter(move |(other, _)| other == id).map(move |(_, a)| a * amount)
            })
            .sum();
        let size = self.size();
        if size > 0.0 { shared / size } else { 0.0 }
    }

    fn size(&self) -> f64 {
        self.sources.iter().map(|(_, amount)| amount * amount).sum::<f64>().sqrt()
    }
}

impl Standing {
    pub fn of(
        system: &System,
        gauge: &mut Shared,
        thermometer: &mut Shared,
        reading: &StandingReading,
    ) -> Result<Standing> {
        let shares = shares(system, reading.temperatures.len())?;
        let pressure = reading.pressure.value().pascals();
        if !(pressure >= 0.0 && pressure < system.highest_pressure().pascals()) {
            return Err(Error::out_of_range(
                "standing pressure",
                reading.pressure.value(),
                format!("an absolute pressure up to {}", system.highest_pressure()),
                "check the unit, and whether it was a gauge pressure",
            )
            .in_field("pressure"));
        }
        let coldest = coldest(&reading.temperatures)?;
        let settled = system.assumptions.settled.delta_kelvins();
        // The thermometer of the coldest point stands for all.
        let warmer = thermometer.common(coldest);
        let total = coldest.standard_uncertainty().delta_kelvins();
        let doubt_of_coldest = (total * total - warmer * warmer).max(0.0).sqrt().hypot(settled);
        let t = coldest.value();
        let at_temperature = |error: Error| error.in_field("temperature");
        let (dew, slope_of_dew) = saturation(&system.refrigerant, t, Line::Dew).map_err(at_temperature)?;
        let (bubble, _) = saturation(&system.refrigerant, t, Line::Bubble).map_err(at_temperature)?;
        // Just below the dew point, so that the curve's own error does not decide the phase.
        let reference = pressure.clamp(LEAST_PRESSURE, dew * (1.0 - 2e-4));
        let (density, slope, warming) =
            filling(&system.refrigerant, reference, &shares, &reading.temperatures)?;

        let total = reading.pressure.standard_uncertainty().delta_pascals();
        let common = gauge.common(&reading.pressure);
        let own = (total * total - common * common).max(0.0).sqrt().max(1.0);
        let of_saturation = slope_of_dew * doubt_of_coldest;
        let own_at_saturation = own.hypot(of_saturation);
        let (mut density_shift, mut dew_shift, mut thinnest) = (0.0, 0.0, dew);
        if let Some(shifted) = &system.leaked {
            let (dew_then, _) = saturation(shifted, t, Line::Dew).map_err(at_temperature)?;
            let below = reference.min(dew_then * (1.0 - 2e-4));
            let (density_then, slope_then, _) = filling(shifted, below, &shares, &reading.temperatures)?;
            density_shift = (density_then + slope_then * (reference - below)) / density - 1.0;
            dew_shift = dew_then / dew - 1.0;
            thinnest = dew.min(dew_then);
        }
        let reach = OUT_OF_THE_QUESTION * own_at_saturation.hypot(common).hypot(slope_of_dew * warmer);
        Ok(Standing {
            pressure,
            own,
            common,
            own_at_saturation,
            thinning: warming * doubt_of_coldest,
            driving_out: of_saturation / dew,
            denser: warming * warmer,
            lower: slope_of_dew * warmer / dew,
            dew,
            bubble: bubble.max(dew),
            reference,
            density,
            slope,
            coldest: t.kelvins(),
            density_shift,
            dew_shift,
            liquid_possible: thinnest - pressure < reach,
            since: Moved::default(),
        })
    }

    /// Mean vapour density at a pressure, kg/m³, with the composition shifted by a share of the furthest.
    pub fn density_at(&self, pressure: f64, supposed: &Supposed) -> f64 {
        // Where there is no pressure there is no vapour to be denser.
        let denser = self.denser * supposed.thermometer * (pressure / self.reference).min(1.0);
        let density = self.density + self.slope * (pressure - self.reference) + denser;
        density.max(0.0) * (1.0 + supposed.shift * self.density_shift)
    }

    /// Saturation pressure over that of the temperature read.
    pub fn saturation_at(&self, supposed: &Supposed) -> f64 {
        (1.0 - self.lower * supposed.thermometer).max(0.1) * (1.0 + supposed.shift * self.dew_shift)
    }
}

/// Shares of the volume that stand at each temperature.
pub(super) fn shares(system: &System, temperatures: usize) -> Result<Vec<f64>> {
    if temperatures == 1 {
        return Ok(vec![1.0]);
    }
    if temperatures == 0 || temperatures != system.parts.len() {
        return Err(no_temperatures(temperatures, system.parts.len()));
    }
    let middles: Vec<f64> = system.parts.iter().map(|part| part.volume.middle().base()).collect();
    let whole: f64 = middles.iter().sum();
    Ok(middles.iter().map(|middle| middle / whole).collect())
}

fn coldest(temperatures: &[Measured<Temperature>]) -> Result<&Measured<Temperature>> {
    let kelvins = |t: &Measured<Temperature>| t.value().kelvins();
    temperatures.iter().min_by(|a, b| kelvins(a).total_cmp(&kelvins(b))).ok_or_else(|| no_temperatures(0, 1))
}

/// Dew and bubble pressure at the coldest of the temperatures, Pa.
pub(super) fn coldest_saturation(
    system: &System,
    temperatures: &[Measured<Temperature>],
) -> Result<(f64, f64)> {
    let t = coldest(temperatures)?.value();
    let dew = system.refrigerant.dew_pressure(t)?.pascals();
    Ok((dew, system.refrigerant.bubble_pressure(t)?.pascals().max(dew)))
}

fn no_temperatures(given: usize, parts: usize) -> Error {
    Error::inconsistent(
        "temperatures of the standing system",
        format!("{given} are given for {parts} parts"),
        "give one for the whole system, or one for each of its parts",
    )
    .in_field("temperatures")
}

#[derive(Clone, Copy)]
enum Line {
    Dew,
    Bubble,
}

/// Saturation pressure and its slope by temperature, Pa and Pa/K.
fn saturation(refrigerant: &Refrigerant, t: Temperature, line: Line) -> Result<(f64, f64)> {
    let at = |t: Temperature| match line {
        Line::Dew => refrigerant.dew_pressure(t),
        Line::Bubble => refrigerant.bubble_pressure(t),
    };
    let here = at(t)?.pascals();
    let cooler = at(kelvins(t.kelvins() - 0.5))?.pascals();
    Ok((here, (here - cooler) / 0.5))
}

/// Mean vapour density of the parts, its slope by pressure, and minus its slope by temperature.
pub(super) fn filling(
    refrigerant: &Refrigerant,
    pressure: f64,
    shares: &[f64],
    temperatures: &[Measured<Temperature>],
) -> Result<(f64, f64, f64)> {
    let (mut density, mut slope, mut warming) = (0.0, 0.0, 0.0);
    for (share, temperature) in shares.iter().zip(temperatures) {
        let t = temperature.value();
        let (molar, by_pressure, by_temperature) = refrigerant
            .fluid()
            .density_and_slopes(t.kelvins(), pressure)
            .map_err(|error| refrigerant.failed_at(&error, pascals(pressure), t))?;
        let scale = share * refrigerant.fluid().molar_mass();
        density += scale * molar;
        slope += scale * by_pressure;
        warming -= scale * by_temperature;
    }
    Ok((density, slope, warming))
}
