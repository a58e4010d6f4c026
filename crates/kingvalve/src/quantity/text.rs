//! Quantities as text: the shortest decimal that reads back as the same value, and reading.

use std::fmt::{self, Write};

use super::{Kind, Quantity, Unit};
use crate::{Error, Result};

/// The value of `si` in `unit`, rounded to the fewest digits (12, then 15, 16, 17) that still give `si` back.
///
/// A value typed in that unit comes back as typed. Where no number of the unit gives `si` exactly, the answer is
/// for the nearest value that can be given: within 4·10⁻¹⁶ of the larger of the value and the unit's offset.
/// Either way, writing what was read writes the same digits.
pub(super) fn shortest(si: f64, unit: &Unit) -> f64 {
    let exact = unit.count(si);
    if !exact.is_finite() {
        return exact;
    }
    let found = candidate(si, unit).or_else(|| candidate(unit.si(exact), unit)).unwrap_or(exact);
    if found == 0.0 { 0.0 } else { found }
}

/// The first of the roundings, then of the neighbouring numbers, that gives exactly `si`.
fn candidate(si: f64, unit: &Unit) -> Option<f64> {
    let exact = unit.count(si);
    let digits = [12, 15, 16, 17].into_iter().map(|digits| rounded(exact, digits, unit.offset));
    let (up, down) = (exact.next_up(), exact.next_down());
    digits.chain([exact, up, down, up.next_up(), down.next_down()]).find(|x| unit.si(*x) == si)
}

/// `x` to so many significant digits, counted from the larger of `x` and `offset`.
fn rounded(x: f64, digits: i32, offset: f64) -> f64 {
    let scale = x.abs().max(offset.abs());
    if scale == 0.0 {
        return 0.0;
    }
    let decimals = digits - 1 - scale.log10().floor() as i32;
    let text = match usize::try_from(decimals) {
        Ok(decimals) => format!("{x:.decimals$}"),
        Err(_) => format!("{x:.*e}", (digits - 1).max(0) as usize),
    };
    text.parse().unwrap_or(x)
}

/// Writes the value with its unit; honours precision, width and alignment.
pub(super) fn write(f: &mut fmt::Formatter<'_>, si: f64, unit: &Unit) -> fmt::Result {
    let mut text = String::new();
    match f.precision() {
        Some(precision) => write!(text, "{:.precision$}", tidy_zero(shortest(si, unit), precision))?,
        None => {
            let x = shortest(si, unit);
            if x == 0.0 || (1e-5..1e15).contains(&x.abs()) || !x.is_finite() {
                write!(text, "{x}")?;
            } else {
                write!(text, "{x:e}")?;
            }
        }
    }
    text.push(' ');
    text.push_str(unit.symbol);
    pad(f, &text)
}

/// `-0.04` to one place is `0.0`, not `-0.0`.
fn tidy_zero(x: f64, precision: usize) -> f64 {
    let rounds_away = x.is_finite() && x.abs() < 0.5 * 10f64.powi(-(precision.min(300) as i32));
    if rounds_away { 0.0 } else { x }
}

fn pad(f: &mut fmt::Formatter<'_>, text: &str) -> fmt::Result {
    let missing = f.width().unwrap_or(0).saturating_sub(text.chars().count());
    let before = match f.align() {
        Some(fmt::Alignment::Left) => 0,
        Some(fmt::Alignment::Center) => missing / 2,
        Some(fmt::Alignment::Right) | None => missing,
    };
    for _ in 0..before {
        f.write_char(f.fill())?;
    }
    f.write_str(text)?;
    for _ in before..missing {
        f.write_char(f.fill())?;
    }
    Ok(())
}

/// Reads `62 psig`.
pub(super) fn read<Q: Quantity>(given: &str) -> Result<Q> {
    read_si(Kind::of::<Q>(), given).map(Q::from_base)
}

/// The same, its SI base value.
pub(super) fn read_si(kind: &Kind, given: &str) -> Result<f64> {
    let text = given.trim();
    let (number, name) = split(text);
    let value: f64 = number.replace('\u{2212}', "-").parse().map_err(|_| {
        let unit = (kind.units)().first().map_or("", |unit| unit.symbol);
        let advice = format!("write a decimal number and its unit, as in \"12.5 {unit}\"");
        Error::unreadable(kind.name, given, advice)
    })?;
    from_parts(kind, value, name.trim(), given)
}

/// The SI base value of so many of a unit: the one way in for text and for JSON.
pub(super) fn from_parts(kind: &Kind, value: f64, name: &str, given: &str) -> Result<f64> {
    let unit = Unit::of(kind, name, given)?;
    let si = unit.si(value);
    if si.is_finite() {
        Ok(si)
    } else {
        Err(Error::unreadable(kind.name, given, "the number must be finite"))
    }
}

/// Splits after the number: sign, digits, point, and an exponent only where digits follow it.
fn split(text: &str) -> (&str, &str) {
    let mut end = 0;
    let mut rest = text.char_indices().peekable();
    while let Some((at, c)) = rest.next() {
        let part = match c {
            '0'..='9' | '.' | ',' => true,
            '+' | '-' | '\u{2212}' => at == 0 || text[..at].ends_with(['e', 'E']),
            'e' | 'E' => at > 0 && exponent_follows(&text[at + 1..]),
            _ => false,
        };
        if !part {
            break;
        }
        end = rest.peek().map_or(text.len(), |(next, _)| *next);
    }
    text.split_at(end)
}

fn exponent_follows(text: &str) -> bool {
    let digits = text.strip_prefix(['+', '-']).unwrap_or(text);
    digits.starts_with(|c: char| c.is_ascii_digit())
}
