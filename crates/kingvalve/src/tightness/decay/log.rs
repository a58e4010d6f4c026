//! The log of a vacuum gauge after the valve was shut.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::measure::Instrument;
use crate::quantity::{Pressure, Quantity, Ratio, Time, kilopascals, percent};
use crate::{Error, Result};

/// Fewer readings than this tell shapes apart by luck alone: four of the model, and as many again twice over.
pub(super) const FEWEST: usize = 12;
/// Above this the inflow of a leak is no longer steady: at a tenth of an atmosphere it has fallen by 1 %.
const HIGHEST: Pressure = kilopascals(10.0);

/// One reading of a log: when, and the absolute pressure.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sample {
    /// Since any one moment, the same for the whole log.
    pub time: Time,
    /// Absolute: a vacuum gauge in microns, Torr, mbar or Pa.
    pub pressure: Pressure,
}

/// Readings of one vacuum gauge after the valve to the pump was shut.
///
/// In JSON `{"gauge": {"resolution": "1 micron"}, "samples": [{"time": "0 s", "pressure": "310 microns"}, …]}`.
///
/// # Example
/// ```
/// use kingvalve::measure::Instrument;
/// use kingvalve::quantity::*;
/// use kingvalve::tightness::DecayLog;
/// let gauge = Instrument::resolution(delta_microns(1.0)).accuracy_percent_of_reading(10.0);
/// let reading = |n: u32| (minutes(f64::from(n)), microns(300.0 + 2.0 * f64::from(n)));
/// let log = DecayLog::new((0..20).map(reading), gauge.clone())?;
/// assert_eq!(log.duration(), minutes(19.0));
/// // Out of order:
/// let error = DecayLog::new((0..20).rev().map(reading), gauge).unwrap_err();
/// assert!(error.to_string().starts_with("samples[1].time"), "{error}");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Form", into = "Form")]
pub struct DecayLog {
    samples: Vec<Sample>,
    gauge: Instrument<Pressure>,
    repeatability: Ratio,
}

/// A log in JSON.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "decay_log")]
struct Form {
    gauge: Instrument<Pressure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    repeatability: Option<Ratio>,
    samples: Vec<Sample>,
}

impl DecayLog {
    /// A log of times and absolute pressures, in the order they were read.
    ///
    /// # Errors
    /// Fewer than 12 readings; times that do not increase; pressures that are not above zero, above 10 kPa, or not
    /// finite; an instrument that cannot be.
    pub fn new(
        readings: impl IntoIterator<Item = (Time, Pressure)>,
        gauge: Instrument<Pressure>,
    ) -> Result<Self> {
        let samples: Vec<Sample> =
            readings.into_iter().map(|(time, pressure)| Sample { time, pressure }).collect();
        gauge.check().map_err(|error| error.in_field("gauge"))?;
        in_order(&samples)?;
        in_range(&samples)?;
        enough(&samples)?;
        Ok(DecayLog { samples, gauge, repeatability: percent(0.0) })
    }

    /// Says how much readings scatter in proportion to the pressure; without this, all scatter alike.
    ///
    /// # Errors
    /// A share that is negative or 100 % and more.
    pub fn repeatable_within(mut self, share: Ratio) -> Result<Self> {
        if !(0.0..1.0).contains(&share.fraction()) {
            return Err(Error::out_of_range(
                "repeatability",
                share,
                "it is a share of the reading, 0 % or more and below 100 %",
                "leave it out where it is not known",
            ));
        }
        self.repeatability = share;
        Ok(self)
    }

    /// Leaves out the first while, in which hoses and the gauge itself settle.
    ///
    /// # Errors
    /// Where fewer than 12 readings remain.
    pub fn leaving_out(mut self, first: Time) -> Result<Self> {
        let start = self.samples.first().map_or(0.0, |sample| sample.time.base());
        self.samples.retain(|sample| sample.time.base() - start >= first.base());
        enough(&self.samples)?;
        Ok(self)
    }

    /// The readings, in order.
    pub fn samples(&self) -> &[Sample] {
        &self.samples
    }

    /// The gauge.
    pub fn gauge(&self) -> &Instrument<Pressure> {
        &self.gauge
    }

    /// From the first reading to the last.
    pub fn duration(&self) -> Time {
        match self.samples.as_slice() {
            [first, .., last] => last.time - first.time,
            _ => Time::ZERO,
        }
    }

    pub(super) fn repeatability(&self) -> f64 {
        self.repeatability.fraction()
    }
}

fn in_order(samples: &[Sample]) -> Result<()> {
    for (at, pair) in samples.windows(2).enumerate() {
        if let [before, after] = pair
            && !(after.time > before.time && after.time.is_finite() && before.time.is_finite())
        {
            let what = format!("{} after {}", after.time, before.time);
            return Err(Error::inconsistent(
                "vacuum log",
                format!("the times are out of order: {what}"),
                "sort the log by time and leave out what was read twice",
            )
            .in_field("time")
            .in_field(format!("samples[{}]", at + 1)));
        }
    }
    Ok(())
}

fn in_range(samples: &[Sample]) -> Result<()> {
    for (at, sample) in samples.iter().enumerate() {
        if !(sample.pressure > Pressure::from_base(0.0) && sample.pressure <= HIGHEST) {
            return Err(Error::out_of_range(
                "absolute pressure",
                sample.pressure.in_unit("microns")?,
                format!("a vacuum log lies above zero and at or below {:.0}", HIGHEST.in_unit("microns")?),
                "read an absolute vacuum gauge, and leave out what was read before the system was evacuated",
            )
            .in_field("pressure")
            .in_field(format!("samples[{at}]")));
        }
    }
    Ok(())
}

fn enough(samples: &[Sample]) -> Result<()> {
    if samples.len() < FEWEST {
        return Err(Error::out_of_range(
            "number of readings in the vacuum log",
            samples.len(),
            format!("shapes are told apart from {FEWEST} readings on"),
            "log more often or for longer; thirty and more are better",
        )
        .in_field("samples"));
    }
    Ok(())
}

impl TryFrom<Form> for DecayLog {
    type Error = Error;
    fn try_from(form: Form) -> Result<DecayLog> {
        let readings = form.samples.into_iter().map(|sample| (sample.time, sample.pressure));
        DecayLog::new(readings, form.gauge)?.repeatable_within(form.repeatability.unwrap_or(percent(0.0)))
    }
}

impl From<DecayLog> for Form {
    fn from(log: DecayLog) -> Form {
        let repeatability = (log.repeatability() > 0.0).then_some(log.repeatability);
        Form { gauge: log.gauge, repeatability, samples: log.samples }
    }
}

impl JsonSchema for DecayLog {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "DecayLog".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        Form::json_schema(generator)
    }
}
