//! The target itself: by formula, by chart, or from the data plate.

use super::ChargingChart;
use crate::measure::{Both, Known, Label, Measured, carry_both};
use crate::quantity::{
    Quantity, Temperature, TemperatureDifference, delta_fahrenheit, delta_kelvins, fahrenheit,
};
use crate::{Error, Result};

/// The span of the tables the formula stands in for: indoor wet bulb 50 to 76 °F. From memory.
pub(super) const WET_BULBS: (Temperature, Temperature) = (fahrenheit(50.0), fahrenheit(76.0));
/// The same: outdoor dry bulb 55 to 115 °F. From memory.
pub(super) const OUTDOOR: (Temperature, Temperature) = (fahrenheit(55.0), fahrenheit(115.0));
/// The formula's derivatives by wet bulb and by outdoor dry bulb.
pub(super) const BY_WET_BULB: f64 = 1.5;
pub(super) const BY_OUTDOOR: f64 = -0.5;

/// The superheat a system with a fixed orifice should run at: (3·WB − 80 − DB)/2, in °F.
///
/// # Units
/// Wet bulb of the air entering the indoor coil, dry bulb of the air entering the outdoor coil; temperature difference.
/// # Source
/// Common practice, no source.
/// # Valid range
/// Wet bulbs of 50 to 76 °F, outdoor temperatures of 55 to 115 °F (the span of the tables it stands in for, from
/// memory), results of 5 °F and more: below that there is no valid test.
/// # Accuracy
/// Within 2 to 6 °F of published tables at mild conditions; a maker's own chart ([`ChargingChart`]) comes first.
/// # Errors
/// Outside the range: by temperature, or because the target is below 5 °F.
/// # Example
/// ```
/// use kingvalve::cycle::target::orifice_superheat;
/// use kingvalve::quantity::*;
/// assert_eq!(format!("{:.1}", orifice_superheat(fahrenheit(64.0), fahrenheit(96.0))?), "8.0 Δ°F");
/// assert!(orifice_superheat(fahrenheit(60.0), fahrenheit(105.0)).unwrap_err().is_out_of_range());
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn orifice_superheat<W: Known<Temperature>, D: Known<Temperature>>(
    indoor_wet_bulb: W,
    outdoor_dry_bulb: D,
) -> Result<Both<W::Grade, D::Grade, TemperatureDifference>> {
    let lowest = delta_fahrenheit(5.0);
    let target = formula(indoor_wet_bulb, outdoor_dry_bulb)?;
    if target.value() >= lowest {
        return Ok(target);
    }
    Err(Error::out_of_range(
        "target superheat",
        format!("{:.1}", target.value()),
        format!("below {lowest:.0} there is no valid test"),
        "test when it is cooler outside or the house is warmer and more humid, or weigh the charge in",
    ))
}

/// The formula, whatever comes out.
pub(super) fn formula<W: Known<Temperature>, D: Known<Temperature>>(
    wet_bulb: W,
    outdoor: D,
) -> Result<Both<W::Grade, D::Grade, TemperatureDifference>> {
    let (wet, dry) = (wet_bulb.value(), outdoor.value());
    for (what, value, (low, high)) in
        [("indoor wet bulb", wet, WET_BULBS), ("outdoor dry bulb", dry, OUTDOOR)]
    {
        if !(value >= low && value <= high) {
            return Err(Error::out_of_range(
                what,
                value,
                format!("the target-superheat formula is for {low:.0} to {high:.0}"),
                "test under other conditions, use the maker's chart, or weigh the charge in",
            ));
        }
    }
    Ok(carry_both(formula_value(wet, dry), (&wet_bulb, BY_WET_BULB), (&outdoor, BY_OUTDOOR)))
}

#[inline]
pub(super) fn formula_value(wet: Temperature, dry: Temperature) -> TemperatureDifference {
    // (3·WB − 80 − DB)/2 in °F, written from 0 °F so that no offset remains.
    let zero = fahrenheit(0.0);
    let (wet, dry) = ((wet - zero).delta_kelvins(), (dry - zero).delta_kelvins());
    delta_kelvins(BY_WET_BULB * wet + BY_OUTDOOR * dry) - delta_fahrenheit(40.0)
}

/// What a superheat, a subcooling or an approach should be, with its doubt and where it comes from.
///
/// # Example
/// ```
/// use kingvalve::cycle::target::Target;
/// use kingvalve::quantity::*;
/// let plate = Target::given(delta_fahrenheit(10.0), "data plate")?;
/// assert_eq!(plate.source(), "data plate");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Target {
    value: Measured<TemperatureDifference>,
    source: Label,
}

impl Target {
    /// The superheat of a fixed orifice by the common formula. One below the lowest that can be tested is kept as it
    /// is: [`TargetCheck`](super::TargetCheck) then gives the reason why there is no verdict.
    ///
    /// # Source
    /// As [`orifice_superheat`].
    /// # Errors
    /// A temperature outside the formula's range.
    pub fn by_formula(
        indoor_wet_bulb: impl Known<Temperature>,
        outdoor_dry_bulb: impl Known<Temperature>,
    ) -> Result<Target> {
        let value = formula(measured(&indoor_wet_bulb), measured(&outdoor_dry_bulb))?;
        Ok(Target { value, source: "(3·WB − 80 − DB)/2, common practice, no source".into() })
    }

    /// A target read off a maker's or shop's chart.
    ///
    /// # Errors
    /// Outside the chart, or beside one of its dashes.
    pub fn by_chart(
        chart: &ChargingChart,
        outdoor: impl Known<Temperature>,
        indoor: impl Known<Temperature>,
    ) -> Result<Target> {
        let value = chart.target(measured(&outdoor), measured(&indoor))?;
        Ok(Target { value, source: String::from(chart.source()).into() })
    }

    /// A target as given: by the data plate, the maker's instructions, the shop.
    ///
    /// # Errors
    /// One that is not finite.
    pub fn given(value: impl Known<TemperatureDifference>, source: impl Into<Label>) -> Result<Target> {
        let target = value.value();
        if !target.is_finite() {
            let advice = "copy it from the data plate";
            return Err(Error::out_of_range("target", target, "a target is a finite number", advice));
        }
        Ok(Target { value: measured(&value), source: source.into() })
    }

    /// The target.
    pub fn value(&self) -> &Measured<TemperatureDifference> {
        &self.value
    }

    /// Where it comes from.
    pub fn source(&self) -> &str {
        self.source.as_str()
    }
}

/// What is known, with whatever doubt it has.
pub(super) fn measured<Q: Quantity>(known: &impl Known<Q>) -> Measured<Q> {
    let mut doubt = crate::measure::Doubt::none();
    known.add_to(&mut doubt, 1.0);
    Measured::new(known.value(), doubt)
}
