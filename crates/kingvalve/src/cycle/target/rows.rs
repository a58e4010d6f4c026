//! Many systems at once: superheat, subcooling, target and verdict for columns of readings.

use super::ChargeTolerance;
use super::value::{BY_OUTDOOR, BY_WET_BULB, OUTDOOR, WET_BULBS, formula_value};
use crate::measure::{
    Instrument, Level, Limits, RowDoubt, RowVerdict, is_at_least, row_verdict, row_verdict_alone,
};
use crate::quantity::{
    GaugePressure, Quantity, Ratio, Site, Temperature, TemperatureDifference, delta_kelvins, fraction,
    pascals,
};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// Judges columns of readings of systems with one refrigerant, at one site, read on one set of instruments, without
/// allocating.
///
/// Each row is judged as [`TargetCheck`](super::TargetCheck) judges readings of these instruments; a row outside the
/// range of the refrigerant or of the formula, with a reading that is not a number, or with a target not shown to be
/// high enough for a test, is unusable. Preconditions other than the target are the caller's.
///
/// # Example
/// ```
/// use kingvalve::cycle::target::*;
/// use kingvalve::measure::{Instrument, Level, RowVerdict};
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let kit = ChargeInstruments {
///     gauge: Instrument::resolution(psi(0.1)).accuracy(psi(1.0)),
///     thermometer: Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0)),
/// };
/// let r = Refrigerant::named("R-410A")?;
/// let rows = ChargeRows::orifice(&r, &Site::sea_level(), &kit, &ChargeTolerance::default(), Level::default())?;
/// let mut out = [ChargeRow::NONE; 2];
/// let (nan, f) = (fahrenheit(f64::NAN), fahrenheit);
/// rows.judge(&ChargeColumns {
///     suction_pressure: &[psig(118.0), psig(118.0)], suction_line: &[f(54.0), nan],
///     liquid_pressure: &[psig(365.0), psig(365.0)], liquid_line: &[f(98.0), f(98.0)],
///     indoor_wet_bulb: &[f(67.0), f(67.0)], outdoor: &[f(95.0), f(95.0)],
/// }, &mut out)?;
/// assert_eq!(out.map(|row| row.verdict), [RowVerdict::Within, RowVerdict::Unusable]);
/// assert_eq!(format!("{:.1}", out[0].superheat), "14.2 Δ°F");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct ChargeRows {
    refrigerant: Refrigerant,
    atmosphere: f64,
    method: Method,
    lower: f64,
    upper: f64,
    lowest_target: f64,
    level: Level,
    gauge: RowDoubt,
    thermometer: RowDoubt,
}

/// What the verdict is on.
#[derive(Debug, Clone, Copy)]
enum Method {
    /// Superheat against the formula.
    Orifice,
    /// Subcooling against this target, K.
    Valve(f64),
}

/// The kinds of instrument the columns were read on; no two columns are taken to share one.
#[derive(Debug, Clone)]
pub struct ChargeInstruments {
    /// For both pressures.
    pub gauge: Instrument<GaugePressure>,
    /// For all temperatures.
    pub thermometer: Instrument<Temperature>,
}

/// Columns of readings, a row for each system.
#[derive(Debug, Clone, Copy)]
pub struct ChargeColumns<'a> {
    /// At the suction line's service valve.
    pub suction_pressure: &'a [GaugePressure],
    /// Of the suction line beside it.
    pub suction_line: &'a [Temperature],
    /// At the liquid line's service valve.
    pub liquid_pressure: &'a [GaugePressure],
    /// Of the liquid line beside it.
    pub liquid_line: &'a [Temperature],
    /// Of the air entering the indoor coil; not read where the target is a subcooling.
    pub indoor_wet_bulb: &'a [Temperature],
    /// Dry bulb of the air entering the outdoor coil; not read where the target is a subcooling.
    pub outdoor: &'a [Temperature],
}

/// What one row says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChargeRow {
    /// NaN where it cannot be had.
    pub superheat: TemperatureDifference,
    /// NaN where it cannot be had.
    pub subcooling: TemperatureDifference,
    /// NaN where there is none.
    pub target: TemperatureDifference,
    /// Standard uncertainty of actual less target.
    pub standard_uncertainty: TemperatureDifference,
    /// The verdict on actual less target.
    pub verdict: RowVerdict,
}

const NAN: TemperatureDifference = delta_kelvins(f64::NAN);

impl ChargeRow {
    /// A row not yet judged: unusable.
    pub const NONE: ChargeRow = ChargeRow {
        superheat: NAN,
        subcooling: NAN,
        target: NAN,
        standard_uncertainty: NAN,
        verdict: RowVerdict::Unusable,
    };
}

impl ChargeRows {
    /// Systems with a fixed orifice: superheat against the common formula.
    ///
    /// # Source
    /// As [`orifice_superheat`](super::orifice_superheat) and [`TargetCheck::superheat`](super::TargetCheck::superheat).
    /// # Valid range
    /// As there; instruments as specified, without ambient temperatures or ranges counted.
    /// # Accuracy
    /// Equal to [`TargetCheck`](super::TargetCheck) to rounding, where no two columns share an instrument.
    /// # Errors
    /// An instrument that cannot be, a refrigerant without a saturation curve.
    /// # Example
    /// See [`ChargeRows`].
    pub fn orifice(
        refrigerant: &Refrigerant,
        site: &Site,
        instruments: &ChargeInstruments,
        tolerance: &ChargeTolerance,
        level: Level,
    ) -> Result<ChargeRows> {
        ChargeRows::new(refrigerant, site, instruments, tolerance, level, Method::Orifice)
    }

    /// Systems with a valve: subcooling against one target, such as the data plate's of one model.
    ///
    /// # Source
    /// As [`TargetCheck::subcooling`](super::TargetCheck::subcooling).
    /// # Valid range
    /// As [`orifice`](Self::orifice).
    /// # Accuracy
    /// As [`orifice`](Self::orifice).
    /// # Errors
    /// As [`orifice`](Self::orifice); a target that is not finite.
    /// # Example
    /// ```
    /// use kingvalve::cycle::target::*;
    /// use kingvalve::measure::{Instrument, Level};
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let kit = ChargeInstruments {
    ///     gauge: Instrument::resolution(psi(0.1)), thermometer: Instrument::resolution(delta_fahrenheit(0.1)),
    /// };
    /// let (r, plate) = (Refrigerant::named("R-32")?, delta_fahrenheit(10.0));
    /// let usual = ChargeTolerance::default();
    /// let rows = ChargeRows::valve(&r, &Site::sea_level(), &kit, plate, &usual, Level::default())?;
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn valve(
        refrigerant: &Refrigerant,
        site: &Site,
        instruments: &ChargeInstruments,
        target: TemperatureDifference,
        tolerance: &ChargeTolerance,
        level: Level,
    ) -> Result<ChargeRows> {
        let target = super::Target::given(target, "given")?.value().value();
        ChargeRows::new(
            refrigerant,
            site,
            instruments,
            tolerance,
            level,
            Method::Valve(target.delta_kelvins()),
        )
    }

    fn new(
        refrigerant: &Refrigerant,
        site: &Site,
        instruments: &ChargeInstruments,
        tolerance: &ChargeTolerance,
        level: Level,
        method: Method,
    ) -> Result<ChargeRows> {
        let limits: &Limits<TemperatureDifference> = match method {
            Method::Orifice => &tolerance.superheat,
            Method::Valve(_) => &tolerance.subcooling,
        };
        let end = |limit: Option<TemperatureDifference>, none: f64| limit.map_or(none, Quantity::base);
        // The curves are made now, so that no row waits for them.
        let room = refrigerant.critical_temperature()? - delta_kelvins(60.0);
        refrigerant.dew_pressure(room)?;
        refrigerant.bubble_pressure(room)?;
        Ok(ChargeRows {
            refrigerant: refrigerant.clone(),
            atmosphere: site.atmosphere().pascals(),
            method,
            lower: end(limits.lower(), f64::NEG_INFINITY),
            upper: end(limits.upper(), f64::INFINITY),
            lowest_target: tolerance.lowest_target.base(),
            level,
            gauge: RowDoubt::of(&instruments.gauge)?,
            thermometer: RowDoubt::of(&instruments.thermometer)?,
        })
    }

    /// Judges each row.
    ///
    /// # Units
    /// One reading of each kind and one result a row.
    /// # Errors
    /// Where the columns differ in length. A row that cannot be is [`Unusable`](RowVerdict::Unusable), not an error.
    /// # Example
    /// See [`ChargeRows`].
    pub fn judge(&self, columns: &ChargeColumns<'_>, out: &mut [ChargeRow]) -> Result<()> {
        let c = columns;
        let air = matches!(self.method, Method::Orifice);
        let rows = c.suction_pressure.len();
        let air_columns = if air { [c.indoor_wet_bulb.len(), c.outdoor.len()] } else { [rows; 2] };
        let lengths = [c.suction_line.len(), c.liquid_pressure.len(), c.liquid_line.len(), out.len()];
        if lengths.iter().chain(&air_columns).any(|length| *length != rows) {
            return Err(Error::inconsistent(
                "columns of charge readings",
                format!(
                    "{rows} suction pressures; suction lines, liquid pressures, liquid lines and results: {lengths:?}; \
                     wet bulbs and outdoor temperatures: {air_columns:?}"
                ),
                "give columns of one length",
            ));
        }
        let suction = c.suction_pressure.iter().zip(c.suction_line);
        let liquid = c.liquid_pressure.iter().zip(c.liquid_line);
        let none = fahrenheit_nan();
        let readings = suction.zip(liquid).zip(out);
        if air {
            let air = c.indoor_wet_bulb.iter().zip(c.outdoor);
            for ((((p, t), (q, u)), row), (wet, dry)) in readings.zip(air) {
                *row = self.one(*p, *t, *q, *u, *wet, *dry);
            }
        } else {
            for (((p, t), (q, u)), row) in readings {
                *row = self.one(*p, *t, *q, *u, none, none);
            }
        }
        Ok(())
    }

    /// The probability that a judged row lies within its limits: one number to sort and to count rows by.
    ///
    /// # Units
    /// A share of one; not a number where the row is unusable.
    /// # Source
    /// JCGM 106:2012, 7.2: a normal distribution about the value, of the row's standard uncertainty.
    /// # Valid range
    /// Rows this object judged.
    /// # Accuracy
    /// That of the doubt: the same by which the verdict is taken.
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// # use kingvalve::cycle::target::{ChargeInstruments, ChargeRow, ChargeRows, ChargeTolerance};
    /// # use kingvalve::measure::{Instrument, Level};
    /// # use kingvalve::quantity::*;
    /// # use kingvalve::refrigerant::Refrigerant;
    /// # let r = Refrigerant::named("R-410A")?;
    /// # let instruments = ChargeInstruments {
    /// #     gauge: Instrument::resolution(psi(0.1)),
    /// #     thermometer: Instrument::resolution(delta_fahrenheit(0.1)),
    /// # };
    /// # let rows = ChargeRows::orifice(&r, &Site::sea_level(), &instruments, &ChargeTolerance::default(), Level::default())?;
    /// assert!(rows.probability_within(&ChargeRow::NONE).fraction().is_nan());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn probability_within(&self, row: &ChargeRow) -> Ratio {
        let actual = match self.method {
            Method::Orifice => row.superheat,
            Method::Valve(_) => row.subcooling,
        };
        let (distance, standard) = ((actual - row.target).base(), row.standard_uncertainty.base());
        if row.verdict == RowVerdict::Unusable {
            return fraction(f64::NAN);
        }
        let (_, below, above) = row_verdict(distance - self.lower, self.upper - distance, standard, 1.0);
        fraction((1.0 - below - above).clamp(0.0, 1.0))
    }

    #[inline]
    fn one(
        &self,
        suction: GaugePressure,
        suction_line: Temperature,
        liquid: GaugePressure,
        liquid_line: Temperature,
        wet: Temperature,
        dry: Temperature,
    ) -> ChargeRow {
        let mut row = ChargeRow::NONE;
        let dew = self.saturation(suction, Refrigerant::dew_temperature_and_slope);
        let bubble = self.saturation(liquid, Refrigerant::bubble_temperature_and_slope);
        if let Some((dew, _)) = dew {
            row.superheat = suction_line - dew;
        }
        if let Some((bubble, _)) = bubble {
            row.subcooling = bubble - liquid_line;
        }
        let variance = |gauge: GaugePressure, slope: f64, line: Temperature| {
            slope * slope * self.gauge.variance(gauge.base()) + self.thermometer.variance(line.base())
        };
        let (actual, variance) = match self.method {
            Method::Orifice => {
                let (Some((_, slope)), true) = (dew, is_in(wet, WET_BULBS) && is_in(dry, OUTDOOR)) else {
                    return row;
                };
                row.target = formula_value(wet, dry);
                let of_target = BY_WET_BULB * BY_WET_BULB * self.thermometer.variance(wet.base())
                    + BY_OUTDOOR * BY_OUTDOOR * self.thermometer.variance(dry.base());
                let above_lowest = row.target.base() - self.lowest_target;
                if !is_at_least(above_lowest, of_target.sqrt(), self.level) {
                    return row;
                }
                (row.superheat.base(), variance(suction, slope, suction_line) + of_target)
            }
            Method::Valve(target) => {
                let Some((_, slope)) = bubble else { return row };
                row.target = delta_kelvins(target);
                (row.subcooling.base(), variance(liquid, slope, liquid_line))
            }
        };
        let (distance, standard) = (actual - row.target.base(), variance.sqrt());
        if distance.is_finite() && standard.is_finite() {
            row.standard_uncertainty = delta_kelvins(standard);
            row.verdict =
                row_verdict_alone(distance - self.lower, self.upper - distance, standard, self.level);
        }
        row
    }

    /// Saturation temperature and slope at a gauge pressure; none outside the curve.
    #[inline]
    fn saturation(
        &self,
        gauge: GaugePressure,
        at: impl Fn(&Refrigerant, crate::quantity::Pressure) -> Result<(Temperature, f64)>,
    ) -> Option<(Temperature, f64)> {
        let absolute = pascals(gauge.base() + self.atmosphere);
        // Of a reading that is missing no error text is made.
        if absolute.is_finite() { at(&self.refrigerant, absolute).ok() } else { None }
    }
}

fn is_in(value: Temperature, (low, high): (Temperature, Temperature)) -> bool {
    value >= low && value <= high
}

fn fahrenheit_nan() -> Temperature {
    crate::quantity::fahrenheit(f64::NAN)
}
