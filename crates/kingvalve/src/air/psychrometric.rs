//! The equations of moist air in SI numbers: perfect gases, as in ASHRAE Handbook—Fundamentals 2017, chapter 1.

use super::water::{ZERO_CELSIUS, ln_saturation, saturation};

/// Ratio of the molar masses of water and dry air: chapter 1, equation 20.
pub(super) const MASS_RATIO: f64 = 0.621_945;
/// Its inverse as the Handbook rounds it, in the volume of moist air: chapter 1, equation 26.
const VOLUME_RATIO: f64 = 1.607_858;
/// Gas constant of dry air, J/(kg·K): chapter 1, equation 1.
const GAS_CONSTANT: f64 = 287.042;
/// Heat capacity of dry air, kJ/(kg·K): chapter 1, equation 28.
pub(super) const DRY_AIR: f64 = 1.006;
/// Heat capacity of water vapour, kJ/(kg·K), and its enthalpy at 0 °C, kJ/kg: chapter 1, equation 29.
pub(super) const VAPOR: f64 = 1.86;
pub(super) const VAPOR_AT_ZERO: f64 = 2501.0;
/// Heat capacities of liquid water and ice, kJ/(kg·K), enthalpy of vapour over ice at 0 °C, kJ/kg, and what is left
/// of the latent heats' slopes: chapter 1, equations 33 and 35.
const BULB_OVER_LIQUID: Bulb = Bulb { latent: 2501.0, latent_slope: 2.326, water: 4.186 };
const BULB_OVER_ICE: Bulb = Bulb { latent: 2830.0, latent_slope: 0.24, water: 2.1 };

/// Driest air told from dry air, kg/kg; below it a dew point has no meaning.
pub(super) const DRIEST: f64 = 1e-7;

/// Humidity ratio of a vapour pressure (equation 20), and its derivative.
#[inline]
pub(super) fn ratio_of_vapor(vapor: f64, pressure: f64) -> [f64; 2] {
    let dry = pressure - vapor;
    [MASS_RATIO * vapor / dry, MASS_RATIO * pressure / (dry * dry)]
}

/// Vapour pressure of a humidity ratio (equation 20 turned round), and its derivative.
#[inline]
pub(super) fn vapor_of_ratio(ratio: f64, pressure: f64) -> [f64; 2] {
    let sum = MASS_RATIO + ratio;
    [pressure * ratio / sum, pressure * MASS_RATIO / (sum * sum)]
}

/// Enthalpy, J per kg of dry air (equation 30), and its derivatives by temperature and humidity ratio.
pub(super) fn enthalpy(celsius: f64, ratio: f64) -> [f64; 3] {
    let vapor = VAPOR_AT_ZERO + VAPOR * celsius;
    [1e3 * (DRY_AIR * celsius + ratio * vapor), 1e3 * (DRY_AIR + VAPOR * ratio), 1e3 * vapor]
}

/// Volume, m³ per kg of dry air (equation 26), and its derivatives by temperature and humidity ratio.
pub(super) fn volume(kelvins: f64, ratio: f64, pressure: f64) -> [f64; 3] {
    let of_dry = GAS_CONSTANT / pressure;
    let moist = 1.0 + VOLUME_RATIO * ratio;
    [of_dry * kelvins * moist, of_dry * moist, of_dry * kelvins * VOLUME_RATIO]
}

/// The energy balance of a wetted bulb.
#[derive(Clone, Copy)]
struct Bulb {
    latent: f64,
    latent_slope: f64,
    water: f64,
}

impl Bulb {
    /// Over liquid from 0 °C up, over ice below.
    #[inline]
    fn at(celsius: f64) -> Bulb {
        if celsius >= 0.0 { BULB_OVER_LIQUID } else { BULB_OVER_ICE }
    }

    /// Humidity ratio by this balance (equation 33 or 35), and its derivatives by dry and wet bulb.
    fn ratio(self, dry: f64, wet: f64, pressure: f64) -> [f64; 3] {
        let [p, p_slope, _] = saturation(wet + ZERO_CELSIUS);
        let [saturated, by_vapor] = ratio_of_vapor(p, pressure);
        let latent = self.latent - self.latent_slope * wet;
        let below = self.latent + VAPOR * dry - self.water * wet;
        let ratio = (latent * saturated - DRY_AIR * (dry - wet)) / below;
        let by_dry = -(DRY_AIR + VAPOR * ratio) / below;
        let by_wet =
            (latent * by_vapor * p_slope - self.latent_slope * saturated + DRY_AIR + self.water * ratio)
                / below;
        [ratio, by_dry, by_wet]
    }

    /// The balance as a function of the wet bulb that is zero at the solution, and its first two derivatives: equation
    /// 33 or 35 times its denominators, so that it is smooth, increasing and convex up to the dry bulb even where
    /// water boils.
    #[inline]
    fn balance(self, dry: f64, ratio: f64, pressure: f64, wet: f64, saturation: [f64; 3]) -> [f64; 3] {
        let [p, p1, p2] = saturation;
        let gain = DRY_AIR * (dry - wet) + ratio * (self.latent + VAPOR * dry - self.water * wet);
        let gain_slope = -DRY_AIR - self.water * ratio;
        let sum = MASS_RATIO * (self.latent - self.latent_slope * wet) + gain;
        let sum_slope = gain_slope - MASS_RATIO * self.latent_slope;
        [
            p * sum - pressure * gain,
            p1 * sum + p * sum_slope - pressure * gain_slope,
            p2 * sum + 2.0 * p1 * sum_slope,
        ]
    }

    /// Halley's steps from above, which cannot pass the solution of an increasing convex balance by much; kept in
    /// (`low`, `high`) all the same.
    #[inline]
    fn solve(self, dry: f64, ratio: f64, pressure: f64, [mut low, mut high]: [f64; 2]) -> f64 {
        let mut wet = high;
        for _ in 0..MOST_STEPS {
            let [f, f1, f2] = self.balance(dry, ratio, pressure, wet, saturation(wet + ZERO_CELSIUS));
            if f > 0.0 {
                high = wet;
            } else {
                low = wet;
            }
            let step = f * f1 / (f1 * f1 - 0.5 * f * f2);
            let next = wet - step;
            if (next - wet).abs() < SMALL_STEP {
                return next;
            }
            wet = if next > low && next < high { next } else { 0.5 * (low + high) };
        }
        wet
    }
}

/// Iterations never reached: bisection alone gets there.
const MOST_STEPS: usize = 60;
/// A step, in K, after which the next would be below rounding: Halley's steps shrink as their cube.
const SMALL_STEP: f64 = 1e-4;

/// Humidity ratio of a wet bulb (equations 33 and 35), and its derivatives by dry and wet bulb.
pub(super) fn ratio_of_wet_bulb(dry: f64, wet: f64, pressure: f64) -> [f64; 3] {
    Bulb::at(wet).ratio(dry, wet, pressure)
}

/// Wet bulb in °C of air that is not supersaturated.
///
/// Near freezing equations 33 and 35 both have a solution for the same air; the one over liquid is taken.
#[inline]
pub(super) fn wet_bulb(dry: f64, ratio: f64, pressure: f64) -> f64 {
    let liquid = dry >= 0.0 && {
        let [at_zero, ..] = BULB_OVER_LIQUID.balance(dry, ratio, pressure, 0.0, [AT_ZERO, 0.0, 0.0]);
        at_zero <= 0.0
    };
    if liquid {
        BULB_OVER_LIQUID.solve(dry, ratio, pressure, [0.0, dry])
    } else {
        BULB_OVER_ICE.solve(dry, ratio, pressure, [super::water::COLDEST, dry.min(0.0)])
    }
}

/// Saturation pressure at 0 °C, Pa: equation 5, as [`saturation`] has it (a test holds them together).
const AT_ZERO: f64 = 611.153_570_890_767_9;

/// Dew point in °C of a vapour pressure in Pa, by Newton's steps on its logarithm.
#[inline]
pub(super) fn dew_point(vapor: f64) -> f64 {
    // Magnus's formula (WMO-No. 8, annex 4.B) as a start: within 1 K from −80 °C to 100 °C.
    let gamma = (vapor / 611.2).ln();
    let wanted = gamma + 611.2f64.ln();
    let mut t = (243.12 * gamma / (17.62 - gamma)).clamp(super::water::COLDEST, super::water::HOTTEST);
    for _ in 0..MOST_STEPS {
        let [ln, slope, _] = ln_saturation(t + ZERO_CELSIUS);
        let step = (ln - wanted) / slope;
        t -= step;
        if step.abs() < 1e-5 {
            break;
        }
    }
    t
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pressure_at_zero_is_that_of_the_curve() {
        let [p, ..] = saturation(ZERO_CELSIUS);
        assert!((AT_ZERO / p - 1.0).abs() < 1e-14, "{p}");
    }

    #[test]
    fn derivatives_are_those_of_the_functions() {
        let close = |exact: f64, f: &dyn Fn(f64) -> f64, x: f64| {
            let step = 1e-4 * x.abs().max(1e-3);
            let by_difference = (f(x + step) - f(x - step)) / (2.0 * step);
            assert!((exact / by_difference - 1.0).abs() < 1e-5, "{exact} {by_difference} at {x}");
        };
        for t in [-31.0, -4.0, 12.0, 55.0] {
            let [_, slope, bend] = saturation(t + ZERO_CELSIUS);
            close(slope, &|t| saturation(t)[0], t + ZERO_CELSIUS);
            close(bend, &|t| saturation(t)[1], t + ZERO_CELSIUS);
            let [_, by_dry, by_wet] = ratio_of_wet_bulb(t + 3.0, t, 9e4);
            close(by_dry, &|dry| ratio_of_wet_bulb(dry, t, 9e4)[0], t + 3.0);
            close(by_wet, &|wet| ratio_of_wet_bulb(t + 3.0, wet, 9e4)[0], t);
        }
        close(ratio_of_vapor(2e3, 9e4)[1], &|p| ratio_of_vapor(p, 9e4)[0], 2e3);
        close(vapor_of_ratio(0.01, 9e4)[1], &|w| vapor_of_ratio(w, 9e4)[0], 0.01);
        close(enthalpy(30.0, 0.01)[1], &|t| enthalpy(t, 0.01)[0], 30.0);
        close(enthalpy(30.0, 0.01)[2], &|w| enthalpy(30.0, w)[0], 0.01);
        close(volume(300.0, 0.01, 9e4)[1], &|t| volume(t, 0.01, 9e4)[0], 300.0);
        close(volume(300.0, 0.01, 9e4)[2], &|w| volume(300.0, w, 9e4)[0], 0.01);
    }
}
