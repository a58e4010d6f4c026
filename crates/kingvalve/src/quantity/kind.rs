//! What a quantity is, as a value: for what is the same whatever the quantity, and is compiled once.

use std::fmt;

use super::{Quantity, Unit, text};

/// A quantity's name and units, and those of the difference of two of it.
#[derive(Debug)]
pub(crate) struct Kind {
    /// What it is called in messages: `gauge pressure`.
    pub(crate) name: &'static str,
    pub(crate) units: fn() -> &'static [Unit],
    /// What the difference of two of it is.
    pub(crate) difference: fn() -> &'static Kind,
    pub(super) mistaken: fn(&str) -> Option<String>,
}

impl Kind {
    /// That of `Q`.
    #[inline]
    pub(crate) fn of<Q: Quantity>() -> &'static Kind {
        const {
            &Kind {
                name: Q::NAME,
                units: Q::units,
                difference: Kind::of::<Q::Difference>,
                mistaken: Q::mistaken,
            }
        }
    }

    /// So much of it, in SI base units, to be written as the quantity is.
    pub(crate) fn shown(&self, si: f64) -> Shown {
        Shown(si, (self.units)())
    }
}

/// An amount of a quantity that is known by its units alone.
pub(crate) struct Shown(f64, &'static [Unit]);

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.1.first() {
            Some(unit) => text::write(f, self.0, unit),
            None => Ok(()),
        }
    }
}
