//! Units by name: what a quantity can be read and written in. Their factors stand in `factor`, each with its source.

use std::fmt;

use super::text;
use super::{Kind, Quantity};
use crate::error::nearest;
use crate::{Error, Result};

/// A unit a quantity can be read and written in.
///
/// The value in the SI base unit is `(x + offset) · factor`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// How the unit is printed: `psig`.
    pub symbol: &'static str,
    /// Other spellings that are read: `psi gauge`.
    pub aliases: &'static [&'static str],
    /// The plural word of the constructor and of the accessor: `psig`, `inches_of_mercury`.
    pub word: &'static str,
    /// SI base units in one of this unit.
    pub factor: f64,
    /// What is added before the factor applies: 459.67 for °F, 0 for all but temperatures.
    pub offset: f64,
}

impl Unit {
    /// The SI base value of `x` of this unit.
    #[inline]
    pub(super) const fn si(&self, x: f64) -> f64 {
        scaled_up(x + self.offset, self.factor)
    }

    /// How many of this unit an SI base value is.
    #[inline]
    pub(super) const fn count(&self, si: f64) -> f64 {
        scaled_down(si, self.factor) - self.offset
    }

    /// Turns a column of numbers of this unit into SI base values, in place; each number as the unit's word would.
    ///
    /// # Example
    /// ```
    /// use kingvalve::quantity::{Quantity, Temperature, fahrenheit};
    /// let mut logged = [55.0, 57.2];
    /// Temperature::units()[0].to_base(&mut logged);
    /// assert_eq!(logged[1], fahrenheit(57.2).kelvins());
    /// ```
    pub fn to_base(&self, column: &mut [f64]) {
        if self.factor == 1.0 && self.offset == 0.0 {
            return;
        }
        for value in column {
            *value = self.si(*value);
        }
    }

    /// Turns a column of SI base values into numbers of this unit, in place; each as the unit's accessor would.
    pub fn of_base(&self, column: &mut [f64]) {
        if self.factor == 1.0 && self.offset == 0.0 {
            return;
        }
        for value in column {
            *value = self.count(*value);
        }
    }

    /// The unit of `Q` of that name, however it is spelt.
    ///
    /// # Errors
    /// When the quantity has no such unit; the text lists those it has.
    pub fn named<Q: Quantity>(name: &str) -> Result<&'static Unit> {
        Unit::of(Kind::of::<Q>(), name, name)
    }

    pub(super) fn names(&self) -> impl Iterator<Item = &'static str> {
        [self.symbol, self.word].into_iter().chain(self.aliases.iter().copied())
    }

    /// The unit of `units` that `name` means: exactly as written, else the only one that matches in any case.
    pub(super) fn find(units: &'static [Unit], name: &str) -> Option<&'static Unit> {
        let name = tidy(name);
        if let Some(unit) = units.iter().find(|unit| unit.names().any(|known| known == name)) {
            return Some(unit);
        }
        let lower = name.to_lowercase();
        let mut alike = units.iter().filter(|unit| unit.names().any(|known| known.to_lowercase() == lower));
        alike.next().filter(|_| alike.next().is_none())
    }

    /// The unit called `name`, or an error that lists the units there are.
    pub(super) fn of(kind: &Kind, name: &str, given: &str) -> Result<&'static Unit> {
        let units = (kind.units)();
        Unit::find(units, name).ok_or_else(|| {
            let symbols: Vec<&str> = units.iter().map(|unit| unit.symbol).collect();
            let near = || match nearest(name, symbols.iter().copied()).as_slice() {
                [first, ..] => Some(format!("did you mean {first}?")),
                [] => None,
            };
            let hint = (kind.mistaken)(&tidy(name)).or_else(near);
            let hint = hint.map(|hint| format!("{hint}; ")).unwrap_or_default();
            let advice = format!("{hint}units of {}: {}", kind.name, symbols.join(", "));
            Error::unreadable(kind.name, given, advice)
        })
    }
}

/// `x · factor`, by division where the factor is one part in a whole number: 95 % is 0.95, not 95 · 0.01.
#[inline]
pub(super) const fn scaled_up(x: f64, factor: f64) -> f64 {
    match parts(factor) {
        Some(parts) => x / parts,
        None => x * factor,
    }
}

/// `x / factor`, by multiplication where the factor is one part in a whole number.
#[inline]
pub(super) const fn scaled_down(x: f64, factor: f64) -> f64 {
    match parts(factor) {
        Some(parts) => x * parts,
        None => x / factor,
    }
}

/// The whole number of parts that `factor` is one of.
#[inline]
const fn parts(factor: f64) -> Option<f64> {
    if factor > 0.0 && factor < 1.0 && factor > 1e-12 {
        let whole = (1.0 / factor + 0.5) as u64 as f64;
        if whole * factor == 1.0 { Some(whole) } else { None }
    } else {
        None
    }
}

/// One spelling for the marks that keyboards and fonts write in several ways.
fn tidy(name: &str) -> String {
    let mut tidy = String::with_capacity(name.len());
    for word in name.split_whitespace() {
        if !tidy.is_empty() {
            tidy.push(' ');
        }
        tidy.extend(word.chars().map(|c| match c {
            '\u{3bc}' => '\u{b5}',   // Greek mu → micro sign
            '\u{2126}' => '\u{3a9}', // ohm sign → Greek omega
            '\u{ba}' => '\u{b0}',    // masculine ordinal → degree sign
            '\u{2206}' => '\u{394}', // increment → Greek delta
            c => c,
        }));
    }
    tidy
}

/// A quantity written in one of its units, as the `in_unit` methods return it.
///
/// # Example
/// ```
/// use kingvalve::quantity::psig;
/// let shown = psig(62.0).in_unit("kPag")?;
/// assert_eq!(format!("{shown:.1}"), "427.5 kPag");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InUnit<Q: Quantity> {
    quantity: Q,
    unit: &'static Unit,
}

impl<Q: Quantity> InUnit<Q> {
    /// The quantity, to be shown in the unit of that name.
    ///
    /// # Errors
    /// When the quantity has no such unit; the text lists those it has.
    pub fn of(quantity: Q, unit: &str) -> Result<Self> {
        Ok(InUnit { quantity, unit: Unit::named::<Q>(unit)? })
    }

    /// How many of the unit there are.
    pub fn value(&self) -> f64 {
        text::shortest(self.quantity.base(), self.unit)
    }

    /// The unit.
    pub fn unit(&self) -> &'static Unit {
        self.unit
    }
}

impl<Q: Quantity> fmt::Display for InUnit<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        text::write(f, self.quantity.base(), self.unit)
    }
}
