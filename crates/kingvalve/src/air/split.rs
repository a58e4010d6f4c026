//! The temperature split: what the air loses on its way through the coil, against what it should.

use std::fmt;

use super::airflow::positive;
use super::carry::{Of3, carried, measured};
use super::psychrometric::{enthalpy, ratio_of_vapor};
use super::state::MoistAir;
use super::water::{COLDEST, ZERO_CELSIUS, saturation};
use crate::measure::{All3, Caution, Finding, Grade, Known, Label, Level, Limits, Measured, Verdict};
use crate::quantity::{
    Power, Quantity, Ratio, Temperature, TemperatureDifference, VolumeFlow, delta_fahrenheit, delta_kelvins,
    fraction,
};
use crate::{Error, Result};

/// How far the split may be from its target when the installer tests: 3 °F either way (California 2008 Reference
/// Residential Appendix RA3.2.2.7).
pub fn installer_split_limits() -> Limits<TemperatureDifference> {
    let limit = delta_fahrenheit(3.0);
    Limits::ordered(
        -limit,
        limit,
        "3 °F, California 2008 Reference Residential Appendix RA3.2.2.7, installer",
    )
}

/// The same when a rater tests: 4 °F.
pub fn rater_split_limits() -> Limits<TemperatureDifference> {
    let limit = delta_fahrenheit(4.0);
    Limits::ordered(-limit, limit, "4 °F, California 2008 Reference Residential Appendix RA3.2.2.7, rater")
}

/// A coil's bypass factor to model with where none was measured: 0.1. Common practice, no source.
pub fn usual_bypass() -> Ratio {
    fraction(0.1)
}

/// The split a coil of known capacity gives, by model.
///
/// All air either passes untouched or leaves saturated at the apparatus dew point ([`bypass`](super::bypass)); the
/// capacity says how cold that is. Where that is too warm to take water out, the coil is dry and all of it is sensible.
///
/// # Units
/// Volume flow at the state of the entering air; *total* net capacity at these conditions, from the maker's table or as
/// agreed on; temperature difference.
/// # Source
/// Energy balance with enthalpy and volume by ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 26 and 30.
/// # Valid range
/// Steady cooling, coil above freezing.
/// # Accuracy
/// That of the inputs; a bypass factor off by 0.05 moves the split by about 0.5 °F.
/// # Errors
/// An airflow or capacity that is not positive, a bypass factor outside 0 to 1, or a capacity that would take the coil
/// below −40 °C.
/// # Example
/// ```
/// use kingvalve::air::{MoistAir, split_by_model, usual_bypass};
/// use kingvalve::quantity::*;
/// let back = MoistAir::from_wet_bulb(fahrenheit(75.0), fahrenheit(63.0), &Site::sea_level())?;
/// let split = split_by_model(cfm(1200.0), &back, tons_of_refrigeration(2.7), usual_bypass())?;
/// assert_eq!(format!("{split:.1}"), "20.4 Δ°F");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn split_by_model<F: Known<VolumeFlow>, E: Grade, C: Known<Power>>(
    airflow: F,
    entering: &MoistAir<E>,
    total_capacity: C,
    bypass: Ratio,
) -> Result<All3<F::Grade, E, C::Grade, TemperatureDifference>> {
    let (flow, q) = (airflow.value(), total_capacity.value());
    positive("airflow", flow)?;
    positive("total capacity", q)?;
    let met = 1.0 - bypass.fraction();
    if !(met > 0.0 && met <= 1.0) {
        let limit = "it lies from 0 % up to, not including, 100 %";
        return Err(Error::out_of_range("bypass factor", bypass, limit, "0.1 is usual"));
    }
    let [v, v_by_dry, v_by_ratio] = entering.volume();
    // Enthalpy the air that meets the coil loses, J per kg of dry air.
    let lost = q.base() * v / (flow.base() * met);
    let [h, h_by_dry, h_by_ratio] = enthalpy(entering.t(), entering.w());
    let [coil, coil_by_enthalpy] = saturated_at(h - lost, entering.t(), entering.pressure.base())?;
    let [ratio, _] = ratio_of_vapor(saturation(coil + ZERO_CELSIUS)[0], entering.pressure.base());
    // The split, and its derivatives by what is lost, by entering dry bulb and by entering humidity ratio.
    let (split, by_lost, by_dry, by_ratio) = if ratio < entering.w() {
        let by = met * coil_by_enthalpy;
        (met * (entering.t() - coil), by, met - by * h_by_dry, -by * h_by_ratio)
    } else {
        let [heat, heat_by_ratio] = entering.heat_capacity();
        let split = met * lost / heat;
        (split, met / heat, 0.0, -split * heat_by_ratio / heat)
    };
    Ok(carried::<Of3<F::Grade, E, C::Grade>, _>(delta_kelvins(split), |doubt| {
        doubt
            .by(&airflow, -by_lost * lost / flow.base())
            .by(&entering.dry_bulb, by_dry + by_lost * lost * v_by_dry / v)
            .by(&entering.humidity_ratio, by_ratio + by_lost * lost * v_by_ratio / v)
            .by(&total_capacity, by_lost * lost / q.base())
    }))
}

/// The temperature in °C at which saturated air has an enthalpy, and its derivative; Newton's method from above.
fn saturated_at(wanted: f64, from: f64, pressure: f64) -> Result<[f64; 2]> {
    let mut t = from;
    for _ in 0..60 {
        let [vapor, by_kelvin, _] = saturation(t + ZERO_CELSIUS);
        let [ratio, by_vapor] = ratio_of_vapor(vapor, pressure);
        let [h, by_dry, by_ratio] = enthalpy(t, ratio);
        let slope = by_dry + by_ratio * by_vapor * by_kelvin;
        let step = (h - wanted) / slope;
        t -= step;
        if !(COLDEST..=from + 1.0).contains(&t) {
            break;
        }
        if step.abs() < 1e-9 && t >= COLDEST_COIL {
            return Ok([t, 1.0 / slope]);
        }
    }
    Err(Error::inconsistent(
        "total capacity",
        format!("so much heat from so little air would take the coil below {COLDEST_COIL:.0} °C"),
        "check the airflow and the capacity, and their units",
    ))
}

/// Below this a cooling coil is not one for comfort, °C.
const COLDEST_COIL: f64 = -40.0;

/// A measured temperature split against its target.
///
/// # Example
/// ```
/// use kingvalve::air::{SplitCheck, installer_split_limits};
/// use kingvalve::measure::{Instrument, Level, Reading};
/// use kingvalve::quantity::*;
/// let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(0.5));
/// let back = Reading::new(fahrenheit(75.0), probe.clone())?;
/// let supply = Reading::new(fahrenheit(61.5), probe)?;
/// let check = SplitCheck::of(&back, &supply, delta_fahrenheit(18.8), "model", installer_split_limits(), Level::default())?;
/// assert!(check.verdict().is_outside());
/// assert!(check.to_string().contains("below"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct SplitCheck {
    split: Measured<TemperatureDifference>,
    target: Measured<TemperatureDifference>,
    target_source: Label,
    verdict: Verdict<TemperatureDifference>,
}

impl SplitCheck {
    /// Judges return less supply dry bulb against a target; the limits are how far from it the split may be.
    ///
    /// # Units
    /// Temperatures; temperature differences.
    /// # Source
    /// The target's own (a [`SplitTable`](super::SplitTable) or [`split_by_model`]) and the limits'.
    /// # Valid range
    /// Steady cooling, well-mixed air at both places.
    /// # Accuracy
    /// That of the readings, with what they share with one another and with the target counted once.
    /// # Errors
    /// A reading that is not finite; a target that is not positive.
    /// # Example
    /// See [`SplitCheck`].
    pub fn of(
        return_dry_bulb: impl Known<Temperature>,
        supply_dry_bulb: impl Known<Temperature>,
        target: impl Known<TemperatureDifference>,
        target_source: impl Into<Label>,
        limits: Limits<TemperatureDifference>,
        level: Level,
    ) -> Result<SplitCheck> {
        positive("target split", target.value())?;
        let split = measured(&return_dry_bulb) - measured(&supply_dry_bulb);
        let target = measured(&target);
        let verdict = limits.judge(split.clone() - target.clone(), level)?;
        Ok(SplitCheck { split, target, target_source: target_source.into(), verdict })
    }

    /// The split.
    pub fn split(&self) -> &Measured<TemperatureDifference> {
        &self.split
    }

    /// Its target.
    pub fn target(&self) -> &Measured<TemperatureDifference> {
        &self.target
    }

    /// Whether the split's distance from the target lies within the limits.
    pub fn verdict(&self) -> &Verdict<TemperatureDifference> {
        &self.verdict
    }

    /// What to do next.
    pub fn next(&self) -> &'static str {
        let judgement = self.verdict.judgement();
        let low = judgement.probability_below() > judgement.probability_above();
        match (&self.verdict, low) {
            (Verdict::Within(_), _) => "The split is as it should be.",
            (Verdict::Outside(_), true) => {
                "Split too small: the capacity is low or the airflow high. Measure the airflow before anything else."
            }
            (Verdict::Outside(_), false) => {
                "Split too large: most often too little air. Check filter, coil, blower and ducts, and measure the airflow."
            }
            (Verdict::Unresolved(_), _) => {
                "These thermometers cannot tell: use one probe for both places, or a better one."
            }
        }
    }

    /// The finding in the form all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let finding = Finding::of("temperature_split")
            .measured("split", &self.split)?
            .measured("target split", &self.target)?
            .judged("split less target", &self.verdict)?
            .saying(self.to_string())
            .then(self.next())
            .caution(Caution::MovingParts)
            .source(self.verdict.judgement().limits().source())
            .source(self.target_source.as_str());
        Ok(finding)
    }
}

impl fmt::Display for SplitCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let target = self.target.value();
        write!(
            f,
            "Split {} against {target:.1} ({}). Distance: {}",
            self.split, self.target_source, self.verdict
        )
    }
}
