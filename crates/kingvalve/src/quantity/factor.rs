//! The few defining constants from which every conversion factor follows.
//!
//! `uom` carries pounds, pounds per square inch, gallons and Btu to seven digits (0.453 592 4 kg); by those
//! factors sixteen ounces are not one pound. The definitions are exact, so the factors here are products of
//! definitions, and the tests hold them to `uom`, to NIST SP 811 and to `pint`.

/// Kilograms in a pound: exact, international yard and pound agreement of 1959 (NIST SP 811, B.8).
pub(super) const POUND: f64 = 0.453_592_37;
/// Kilograms in an avoirdupois ounce: 1/16 lb, exact.
pub(super) const OUNCE: f64 = POUND / 16.0;
/// Kilograms in a grain: 1/7000 lb, exact.
pub(super) const GRAIN: f64 = POUND / 7000.0;
/// Meters in a foot: exact, same agreement.
pub(super) const FOOT: f64 = 0.3048;
/// Meters in an inch: exact.
pub(super) const INCH: f64 = 0.0254;
/// Standard acceleration of free fall, m/s²: exact, 3rd CGPM (1901).
pub(super) const GRAVITY: f64 = 9.806_65;
/// Pascals in a pound-force per square inch: lb·g₀/in².
pub(super) const PSI: f64 = POUND * GRAVITY / (INCH * INCH);
/// Pascals in a standard atmosphere: exact, 10th CGPM (1954).
pub(super) const ATMOSPHERE: f64 = 101_325.0;
/// Pascals in a torr: 1/760 atm, exact by definition (NIST SP 811, B.8).
pub(super) const TORR: f64 = ATMOSPHERE / 760.0;
/// Conventional density of mercury, kg/m³, as in the conventional millimetre of mercury (NIST SP 811, B.8).
const MERCURY: f64 = 13_595.1;
/// Conventional density of water, kg/m³, as in the conventional inch of water (NIST SP 811, B.8).
const WATER: f64 = 1000.0;
/// Pascals in a conventional millimetre of mercury.
pub(super) const MM_OF_MERCURY: f64 = MERCURY * GRAVITY / 1000.0;
/// Pascals in a conventional inch of mercury.
pub(super) const INCH_OF_MERCURY: f64 = MERCURY * GRAVITY * INCH;
/// Pascals in a conventional inch of water.
pub(super) const INCH_OF_WATER: f64 = WATER * GRAVITY * INCH;
/// Pascals in a micron of mercury: a thousandth of a conventional millimetre.
pub(super) const MICRON_OF_MERCURY: f64 = MM_OF_MERCURY / 1000.0;
/// Kelvins in a degree Fahrenheit or Rankine: exact.
pub(super) const DEGREE_FAHRENHEIT: f64 = 5.0 / 9.0;
/// Degrees Fahrenheit from absolute zero to 0 °F: exact.
pub(super) const FAHRENHEIT_ZERO: f64 = 459.67;
/// Kelvins from absolute zero to 0 °C: exact.
pub(super) const CELSIUS_ZERO: f64 = 273.15;
/// Cubic meters in a US gallon: 231 in³, exact.
pub(super) const GALLON: f64 = 231.0 * INCH * INCH * INCH;
/// Square meters in a circular mil: a circle one thousandth of an inch across.
pub(super) const CIRCULAR_MIL: f64 = std::f64::consts::FRAC_PI_4 * INCH * INCH * 1e-6;
/// Joules in an International Table Btu: 2 326 J/kg per Btu/lb, exact (NIST SP 811, B.8, footnote 9).
pub(super) const BTU: f64 = 2326.0 * POUND;
/// Seconds in an hour.
pub(super) const HOUR: f64 = 3600.0;
/// Seconds in a year of 365 days, the year of NIST SP 811 and of annual leak rates.
pub(super) const YEAR: f64 = 365.0 * 86_400.0;
/// Watts in a ton of refrigeration: 12 000 Btu/h.
pub(super) const TON_OF_REFRIGERATION: f64 = 12_000.0 * BTU / HOUR;
/// Watts in a horsepower: 550 ft·lbf/s (NIST SP 811, B.8).
pub(super) const HORSEPOWER: f64 = 550.0 * FOOT * POUND * GRAVITY;
