//! The saturation pressure of water over ice and liquid: the one curve all of moist air hangs on.

use crate::quantity::{Pressure, Quantity, Temperature, celsius, pascals};
use crate::{Error, Result, measure::Known};

/// Kelvins at 0 °C, exact.
pub(super) const ZERO_CELSIUS: f64 = 273.15;
/// Where the two branches meet, K: the triple point, 0.01 °C. The Handbook says 0 °C, where they differ by 1e-4.
const TRIPLE_POINT: f64 = 273.16;
/// Range of the curve, °C: ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 5 and 6.
pub(super) const COLDEST: f64 = -100.0;
pub(super) const HOTTEST: f64 = 200.0;

/// Coefficients C1 to C7 of equation 5 (over ice): ASHRAE Handbook—Fundamentals 2017, chapter 1.
const ICE: [f64; 7] =
    [-5.674_535_9e3, 6.392_524_7, -9.677_843e-3, 6.221_570_1e-7, 2.074_782_5e-9, -9.484_024e-13, 4.163_501_9];
/// Coefficients C8 to C13 of equation 6 (over liquid water), the T⁴ term zero: same.
const LIQUID: [f64; 7] =
    [-5.800_220_6e3, 1.391_499_3, -4.864_023_9e-2, 4.176_476_8e-5, -1.445_209_3e-8, 0.0, 6.545_967_3];

/// The natural logarithm of the saturation pressure in Pa, and its first two derivatives by temperature.
#[inline]
pub(super) fn ln_saturation(kelvins: f64) -> [f64; 3] {
    let [c1, c2, c3, c4, c5, c6, c7] = if kelvins <= TRIPLE_POINT { ICE } else { LIQUID };
    let t = kelvins;
    let per = 1.0 / t;
    let value = c1 * per + c2 + t * (c3 + t * (c4 + t * (c5 + t * c6))) + c7 * t.ln();
    let slope = per * (c7 - c1 * per) + c3 + t * (2.0 * c4 + t * (3.0 * c5 + t * 4.0 * c6));
    let bend = per * per * (2.0 * c1 * per - c7) + 2.0 * c4 + t * (6.0 * c5 + t * 12.0 * c6);
    [value, slope, bend]
}

/// The saturation pressure in Pa, and its first two derivatives by temperature.
#[inline]
pub(super) fn saturation(kelvins: f64) -> [f64; 3] {
    let [ln, slope, bend] = ln_saturation(kelvins);
    let p = ln.exp();
    [p, p * slope, p * (slope * slope + bend)]
}

/// The vapour pressure of water at saturation, over ice up to 0.01 °C and over liquid above.
///
/// # Units
/// Temperature in any unit; an absolute pressure.
/// # Source
/// ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 5 and 6 (Hyland and Wexler 1983); the branches are joined
/// at the triple point, where they meet.
/// # Valid range
/// −100 °C to 200 °C (−148 °F to 392 °F).
/// # Accuracy
/// Within 0.03 % of the Handbook's Table 3 (Hyland and Wexler's own is about as good).
/// # Errors
/// Outside the valid range, or not a number.
/// # Example
/// ```
/// use kingvalve::air::saturation_pressure;
/// use kingvalve::quantity::*;
/// assert_eq!(format!("{:.4}", saturation_pressure(fahrenheit(77.0))?), "0.4597 psia");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn saturation_pressure<T: Known<Temperature>>(temperature: T) -> Result<T::With<Pressure>> {
    let t = temperature.value();
    if !(COLDEST..=HOTTEST).contains(&t.celsius()) {
        return Err(Error::out_of_range(
            "temperature of saturated water vapor",
            t,
            format!("the curve runs from {:.0} to {:.0}", celsius(COLDEST), celsius(HOTTEST)),
            "check the temperature and its unit",
        ));
    }
    let [p, slope, _] = saturation(t.base());
    Ok(temperature.carry(pascals(p), slope))
}
