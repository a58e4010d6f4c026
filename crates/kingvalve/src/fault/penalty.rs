//! What a wrong charge or airflow takes from capacity and efficiency.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::measure::{Doubt, Grade, Known, Plain};
use crate::quantity::{Ratio, Temperature, fraction};
use crate::{Error, Result};

/// What the system does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Mode {
    /// Cooling the house.
    Cooling,
    /// Heating it, as a heat pump.
    Heating,
}

/// On which side of the right charge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// Too little, or right.
    Under,
    /// Too much.
    Over,
}

/// Capacity, power and efficiency of a system with the wrong charge, each as a share of what it has with the right one.
pub struct ChargePenalty<G: Grade = Plain> {
    /// Gross capacity.
    pub capacity: G::Of<Ratio>,
    /// Power of the outdoor unit.
    pub power: G::Of<Ratio>,
    /// Coefficient of performance: capacity by power.
    pub cop: G::Of<Ratio>,
}

/// The same with the wrong indoor airflow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirflowPenalty {
    /// Gross capacity.
    pub capacity: Ratio,
    /// Power by capacity.
    pub input_ratio: Ratio,
    /// Coefficient of performance: the reciprocal of the input ratio.
    pub cop: Ratio,
}

/// Charge may be off by this much: the range of the regressions.
const WIDEST: f64 = 0.30;
/// Airflow may be this share of the rated: common practice, no source; the curves were fitted nearer to it.
const AIRFLOW: (f64, f64) = (0.5, 1.2);

/// The coefficients of capacity and of power, each `Y = 1 + (a₁ + a₂·t_indoor + a₃·t_outdoor + a₄·F)·F`, temperatures
/// in °C.
///
/// # Units
/// F is the charge off the right one as a share of it; °C.
/// # Source
/// Installation-quality coefficients of NREL's OpenStudio-HPXML (`hvac.rb`, charge defect ratio of ANSI/RESNET/ACCA 310).
/// That they come from NIST TN 1848 (Domanski, Henderson and Payne, 2014) is from memory.
/// # Valid range
/// F from −30 % to +30 %.
/// # Accuracy
/// As coded there.
/// # Example
/// ```
/// use kingvalve::fault::{Mode, Side, charge_coefficients};
/// let [capacity, _power] = charge_coefficients(Mode::Cooling, Side::Under);
/// assert_eq!(capacity[0], -0.946);
/// ```
pub const fn charge_coefficients(mode: Mode, side: Side) -> [[f64; 4]; 2] {
    match (mode, side) {
        (Mode::Cooling, Side::Under) => {
            [[-9.46e-1, 4.93e-2, -1.18e-3, -1.15], [-3.13e-1, 1.15e-2, 2.66e-3, -1.16e-1]]
        }
        (Mode::Cooling, Side::Over) => {
            [[-1.63e-1, 1.14e-2, -2.1e-4, -1.4e-1], [2.19e-1, -5.01e-3, 9.89e-4, 2.84e-1]]
        }
        (Mode::Heating, Side::Under) => {
            [[-0.033_859_5, 0.0, 0.020_282_7, -2.622_634_3], [0.061_564_9, 0.0, 0.004_455_4, -0.259_850_7]]
        }
        (Mode::Heating, Side::Over) => {
            [[-0.002_951_4, 0.0, 0.000_737_9, -0.006_411_2], [-0.059_413_4, 0.0, 0.015_920_5, 1.887_215_3]]
        }
    }
}

/// What charge that is off takes from capacity and efficiency at these temperatures.
///
/// # Units
/// The charge off the right one as a share of it (−15 % where 15 % is missing), read or plain; dry-bulb temperatures.
/// # Source
/// See [`charge_coefficients`].
/// # Valid range
/// −30 % to +30 %, an error beyond. Indoor air 15 °C to 32 °C; outdoor air 15 °C to 50 °C in cooling, −20 °C to 20 °C
/// in heating (common practice, no source: the tests behind the regressions span less).
/// # Accuracy
/// No uncertainty is published with the coefficients; at a rating point they reproduce the tests of a few units.
/// Annual figures differ: −30 % is given as −11 % of the annual cooling COP, against −17 % at the rating point.
/// # Errors
/// A charge or temperature outside the range.
/// # Example
/// ```
/// use kingvalve::fault::{Mode, charge_penalty};
/// use kingvalve::quantity::*;
/// let low = charge_penalty(Mode::Cooling, percent(-25.0), celsius(26.67), celsius(35.0))?;
/// assert_eq!(format!("{:.1} {:.1} {:.1}", low.capacity, low.power, low.cop), "84.6 % 97.1 % 87.1 %");
/// assert!(charge_penalty(Mode::Cooling, percent(-40.0), celsius(26.67), celsius(35.0)).is_err());
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn charge_penalty<F: Known<Ratio>>(
    mode: Mode,
    off: F,
    indoor: Temperature,
    outdoor: Temperature,
) -> Result<ChargePenalty<F::Grade>> {
    let f = off.value().fraction();
    if !(-WIDEST - 1e-12..=WIDEST + 1e-12).contains(&f) {
        return Err(Error::out_of_range(
            "charge off the right one",
            off.value(),
            "the regressions hold from −30 % to +30 %",
            "correct the charge first; beyond that nothing published says how much is lost",
        ));
    }
    within("indoor air", indoor, (15.0, 32.0))?;
    let span = if mode == Mode::Cooling { (15.0, 50.0) } else { (-20.0, 20.0) };
    within("outdoor air", outdoor, span)?;
    let side = if f <= 0.0 { Side::Under } else { Side::Over };
    let [capacity, power] = charge_coefficients(mode, side).map(|[a1, a2, a3, a4]| {
        let linear = a1 + a2 * indoor.celsius() + a3 * outdoor.celsius();
        (1.0 + (linear + a4 * f) * f, linear + 2.0 * a4 * f)
    });
    let cop = capacity.0 / power.0;
    let cop_slope = (capacity.1 - cop * power.1) / power.0;
    Ok(ChargePenalty {
        capacity: carried(&off, capacity.0, capacity.1),
        power: carried(&off, power.0, power.1),
        cop: carried(&off, cop, cop_slope),
    })
}

/// A result that depends on one input of the same grade.
fn carried<F: Known<Ratio>>(by: &F, result: f64, slope: f64) -> <F::Grade as Grade>::Of<Ratio> {
    F::Grade::of(fraction(result), || {
        let mut doubt = Doubt::none();
        by.add_to(&mut doubt, slope);
        doubt
    })
}

fn within(what: &str, temperature: Temperature, (low, high): (f64, f64)) -> Result<()> {
    if (low..=high).contains(&temperature.celsius()) {
        return Ok(());
    }
    Err(Error::out_of_range(
        what,
        temperature,
        format!("the regressions are used from {low} °C to {high} °C"),
        "give a temperature at which the system runs in this mode",
    ))
}

/// What indoor airflow that is off takes from capacity and efficiency.
///
/// # Units
/// Airflow as a share of the rated.
/// # Source
/// D. Cutler and others, NREL/TP-5500-56354 (2013), single-speed curves as coded in NREL's OpenStudio-HPXML.
/// # Valid range
/// 50 % to 120 % of the rated airflow (common practice, no source).
/// # Accuracy
/// Curves fitted to makers' tables; no uncertainty is published with them. The fan's own power is not in them.
/// # Errors
/// An airflow outside the range.
/// # Example
/// ```
/// use kingvalve::fault::{Mode, airflow_penalty};
/// use kingvalve::quantity::percent;
/// let low = airflow_penalty(Mode::Cooling, percent(75.0))?;
/// assert_eq!(format!("{:.1}", low.capacity), "95.5 %");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn airflow_penalty(mode: Mode, airflow: Ratio) -> Result<AirflowPenalty> {
    let x = airflow.fraction();
    if !(AIRFLOW.0..=AIRFLOW.1).contains(&x) {
        return Err(Error::out_of_range(
            "airflow as a share of the rated",
            airflow,
            "the curves are used from 50 % to 120 %",
            "correct the airflow first",
        ));
    }
    let [capacity, input] = match mode {
        Mode::Cooling => {
            [[0.718_664_047, 0.417_974_09, -0.136_638_137], [1.143_487_507, -0.139_439_72, -0.004_047_787]]
        }
        Mode::Heating => {
            [[0.694_045_465, 0.474_207_981, -0.168_253_446], [2.185_418_751, -1.942_827_919, 0.757_409_168]]
        }
    }
    .map(|[c1, c2, c3]: [f64; 3]| c1 + (c2 + c3 * x) * x);
    Ok(AirflowPenalty {
        capacity: fraction(capacity),
        input_ratio: fraction(input),
        cop: fraction(1.0 / input),
    })
}
