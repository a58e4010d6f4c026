//! What superheat and subcooling say about the charge of a running system.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::measure::{Both, Interval, Known, carry_both};
use crate::quantity::{Ratio, TemperatureDifference, delta_fahrenheit, percent};
use crate::{Error, Result};

/// The virtual charge of Li and Braun: charge from superheat and subcooling, with the constants of the relation.
///
/// # Source
/// H. Li and J. E. Braun, "Development, evaluation, and demonstration of a virtual refrigerant charge sensor",
/// HVAC&R Research 15 (2009) 117: (m − m_r)/m_r = [(SC − SC_r) − (k_sh/k_sc)(SH − SH_r)]/k_ch with
/// k_ch = SC_r/((1 − α₀)·X_hs). The constants are from memory: α₀ 0.75, X_hs 0.73, k_sh/k_sc 1/2.5. The scatter of
/// 10 % of the charge is that of W. Kim and J. E. Braun, "Evaluation of a virtual refrigerant charge sensor" (Purdue),
/// abstract, for sensors tuned to their system; here it is one standard deviation, since these are not.
/// # Example
/// ```
/// use kingvalve::charge::{FullCharge, VirtualCharge};
/// use kingvalve::quantity::*;
/// let full = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };
/// let share = VirtualCharge::default().share(&full, delta_fahrenheit(20.0), delta_fahrenheit(4.0))?;
/// assert!((share.percent() - 81.75).abs() < 1e-9);
/// let beyond = VirtualCharge::default().share(&full, delta_fahrenheit(2.0), delta_fahrenheit(40.0));
/// assert!(beyond.unwrap_err().to_string().contains("140 %"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct VirtualCharge {
    /// α₀: the share of the charge at which the high side would hold no subcooled liquid.
    pub alpha0: Ratio,
    /// X_hs: the high side's share of the charge.
    pub high_side: Ratio,
    /// k_sh/k_sc: how much less a degree of superheat says than one of subcooling.
    pub superheat_weight: Ratio,
    /// Its scatter as a standard deviation, as a share of the full charge.
    pub scatter: Ratio,
    /// Below this subcooling the condenser hardly seals with liquid, and below this superheat the evaporator hardly
    /// dries: then the relation gives a bound, no value. Common practice, no source: 2 Δ°F.
    pub least: TemperatureDifference,
    /// The shares of the full charge between which the relation is used; beyond them it gives a bound, no value.
    /// [`COMMON_RANGE`].
    pub range: Interval<Ratio>,
}

/// The shares of the full charge between which the virtual charge is used: 60 to 140 %.
///
/// # Source
/// About the charges at which the relation was tested; from memory.
pub const COMMON_RANGE: (Ratio, Ratio) = (percent(60.0), percent(140.0));

/// What the system shows when it holds its full charge, at the conditions of the reading: from the data plate, the
/// maker's chart or a target superheat.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FullCharge {
    /// Superheat at full charge.
    pub superheat: TemperatureDifference,
    /// Subcooling at full charge; above zero.
    pub subcooling: TemperatureDifference,
}

impl Default for VirtualCharge {
    fn default() -> Self {
        VirtualCharge {
            alpha0: percent(75.0),
            high_side: percent(73.0),
            superheat_weight: percent(40.0),
            scatter: percent(10.0),
            least: delta_fahrenheit(2.0),
            range: Interval::spanning(COMMON_RANGE.0, COMMON_RANGE.1),
        }
    }
}

impl VirtualCharge {
    /// k_ch: degrees of subcooling per whole charge.
    ///
    /// # Units
    /// Temperature difference out.
    /// # Source
    /// As [`VirtualCharge`].
    /// # Valid range
    /// A subcooling at full charge above zero.
    /// # Accuracy
    /// As [`share`](Self::share).
    /// # Errors
    /// A subcooling at full charge that is not above zero.
    /// # Example
    /// ```
    /// use kingvalve::charge::{FullCharge, VirtualCharge};
    /// use kingvalve::quantity::*;
    /// let full = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };
    /// let slope = VirtualCharge::default().degrees_per_charge(&full)?;
    /// assert_eq!(format!("{slope:.1}"), "54.8 Δ°F");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn degrees_per_charge(&self, full: &FullCharge) -> Result<TemperatureDifference> {
        if !(full.subcooling > delta_fahrenheit(0.0) && full.subcooling.is_finite()) {
            return Err(Error::out_of_range(
                "subcooling at full charge",
                full.subcooling,
                "the relation scales with it: it must be above zero",
                "take it from the data plate or the maker's chart",
            ));
        }
        if !(full.superheat >= delta_fahrenheit(0.0) && full.superheat.is_finite()) {
            return Err(Error::out_of_range(
                "superheat at full charge",
                full.superheat,
                "a system at full charge has a superheat of zero or more",
                "take it from the target for the conditions",
            ));
        }
        let slope =
            full.subcooling.delta_kelvins() / ((1.0 - self.alpha0.fraction()) * self.high_side.fraction());
        Ok(TemperatureDifference::from_si(slope))
    }

    /// The charge as a share of the full charge.
    ///
    /// # Units
    /// Temperature differences in; a share out, 100 % at full charge.
    /// # Source
    /// As [`VirtualCharge`].
    /// # Valid range
    /// Steady cooling, good airflow, superheat and subcooling both above [`least`](Self::least); shares within
    /// [`range`](Self::range).
    /// # Accuracy
    /// [`scatter`](Self::scatter), and the doubt of the readings, which is carried.
    /// # Errors
    /// A subcooling at full charge that is not above zero; a share outside the range.
    /// # Example
    /// See [`VirtualCharge`].
    pub fn share<H: Known<TemperatureDifference>, C: Known<TemperatureDifference>>(
        &self,
        full: &FullCharge,
        superheat: H,
        subcooling: C,
    ) -> Result<Both<H::Grade, C::Grade, Ratio>> {
        let share = self.extrapolated(full, superheat, subcooling)?;
        let value = share.value();
        if self.range.contains(value) {
            return Ok(share);
        }
        let beyond = if value < self.range.low() { "less" } else { "more" };
        Err(Error::out_of_range(
            "virtual charge",
            format!("{:.0}", value),
            format!(
                "the relation is used from {:.0} to {:.0} of the full charge",
                self.range.low(),
                self.range.high()
            ),
            format!("take it that there is {beyond} than that, and weigh: in by steps, or out and in anew"),
        ))
    }

    /// The same, in a straight line beyond the range.
    pub(super) fn extrapolated<H: Known<TemperatureDifference>, C: Known<TemperatureDifference>>(
        &self,
        full: &FullCharge,
        superheat: H,
        subcooling: C,
    ) -> Result<Both<H::Grade, C::Grade, Ratio>> {
        let per_kelvin = 1.0 / self.degrees_per_charge(full)?.delta_kelvins();
        let weight = self.superheat_weight.fraction();
        let more_subcooling = (subcooling.value() - full.subcooling).delta_kelvins();
        let more_superheat = (superheat.value() - full.superheat).delta_kelvins();
        let share = 1.0 + (more_subcooling - weight * more_superheat) * per_kelvin;
        Ok(carry_both(Ratio::from_si(share), (&superheat, -weight * per_kelvin), (&subcooling, per_kelvin)))
    }

    pub(crate) fn checked(&self) -> Result<()> {
        let share = |x: Ratio| x.fraction() > 0.0 && x.fraction() < 1.0;
        let sound = share(self.alpha0)
            && share(self.high_side)
            && share(self.scatter)
            && self.superheat_weight.fraction() >= 0.0
            && self.superheat_weight.is_finite()
            && self.least >= delta_fahrenheit(0.0)
            && self.least.is_finite()
            && self.range.low() >= percent(0.0)
            && self.range.contains(percent(100.0));
        if sound {
            return Ok(());
        }
        Err(Error::out_of_range(
            "constants of the virtual charge",
            format!("{self:?}"),
            "alpha0, high_side and scatter lie between 0 and 100 %, the range holds 100 %, the others are zero or more",
            "take them from the paper, or leave the defaults",
        ))
    }
}
