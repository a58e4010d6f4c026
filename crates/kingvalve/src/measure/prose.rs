//! Numbers as sentences need them: few digits, matched to their doubt.

use crate::quantity::{Kind, Pressure, Quantity, Resistance, Unit};

/// Six significant digits, trailing zeros dropped.
pub(super) fn brief(x: f64) -> String {
    significant(x, 6)
}

/// So many significant digits, trailing zeros dropped.
pub(super) fn significant(x: f64, digits: usize) -> String {
    let rounded: f64 = format!("{x:.*e}", digits.saturating_sub(1)).parse().unwrap_or(x);
    if rounded == 0.0 {
        "0".into()
    } else if (1e-5..1e9).contains(&rounded.abs()) {
        format!("{rounded}")
    } else {
        format!("{rounded:e}")
    }
}

/// Absolute pressures up to here, Pa, are spoken of in microns: vacuum, and water's vapour pressure at room temperature.
const VACUUM: f64 = 4e3;

/// The unit in which the trade speaks of so much of a quantity: the first it has, but microns for a vacuum, and kΩ and
/// MΩ for large resistances.
pub(super) fn spoken_in(kind: &Kind, si: f64) -> Option<&'static Unit> {
    let symbol = match si.abs() {
        p if kind.name == Pressure::NAME && p <= VACUUM => "microns",
        r if kind.name == Resistance::NAME && r >= 1e6 => "MΩ",
        r if kind.name == Resistance::NAME && r >= 1e3 => "kΩ",
        _ => "",
    };
    let units = (kind.units)();
    units.iter().find(|unit| unit.symbol == symbol).or(units.first())
}

/// The same for an amount by which it may be off.
pub(super) fn spread_spoken_in(kind: &Kind, si: f64) -> Option<&'static Unit> {
    let difference = (kind.difference)();
    if kind.name == Pressure::NAME && si.abs() <= 0.1 * VACUUM {
        return (difference.units)().iter().find(|unit| unit.symbol == "microns");
    }
    spoken_in(difference, si)
}

/// A value and its expanded uncertainty, the latter to two significant digits (JCGM 100, 7.2.6), in one unit:
/// `4.29 ± 0.40 µF`.
pub(super) fn value_and_doubt(kind: &Kind, value: f64, expanded: f64) -> String {
    let Some(unit) = spoken_in(kind, value) else { return String::new() };
    let x = count(value, unit);
    let half = expanded / unit.factor.abs();
    if !(half > 0.0 && half.is_finite()) {
        return format!("{} {}", brief(x), unit.symbol);
    }
    let decimals = (1.0 - half.log10().floor()).clamp(0.0, 12.0) as usize;
    format!("{x:.decimals$} ± {half:.decimals$} {}", unit.symbol)
}

/// A quantity to six significant digits in the trade's unit: `42.3 µF`.
pub(super) fn plain(kind: &Kind, value: f64) -> String {
    let Some(unit) = spoken_in(kind, value) else { return String::new() };
    format!("{} {}", brief(count(value, unit)), unit.symbol)
}

/// A standard uncertainty that is written already, to two significant digits.
pub(super) fn small(shown: String) -> String {
    with_number(shown, |x| significant(x, 2))
}

/// The largest that will do, rounded down to two significant digits: what it says is never too much.
pub(super) fn at_most(shown: String) -> String {
    with_number(shown, |x| {
        let rounded = significant(x, 2);
        let unit = 10f64.powf(x.abs().log10().floor() - 1.0);
        if rounded.parse::<f64>().is_ok_and(|r| r > x * (1.0 + 1e-9)) {
            significant(x - unit / 2.0, 2)
        } else {
            rounded
        }
    })
}

fn with_number(text: String, write: impl Fn(f64) -> String) -> String {
    match text.split_once(' ') {
        Some((number, unit)) => {
            let written = number.parse::<f64>().map_or(number.to_owned(), write);
            format!("{written} {unit}")
        }
        None => text,
    }
}

/// A share in whole percent.
pub(super) fn share(part: f64) -> String {
    format!("{:.0} %", 100.0 * part)
}

/// A probability in percent, never rounded to 0 or 100.
pub(super) fn probability(p: f64) -> String {
    if p > 0.999 {
        "more than 99.9 %".into()
    } else if p < 0.001 {
        "less than 0.1 %".into()
    } else if !(0.01..=0.99).contains(&p) || (p > 0.94 && p < 0.96) {
        format!("{:.1} %", 100.0 * p)
    } else {
        format!("{:.0} %", 100.0 * p)
    }
}

fn count(si: f64, unit: &Unit) -> f64 {
    si / unit.factor - unit.offset
}
