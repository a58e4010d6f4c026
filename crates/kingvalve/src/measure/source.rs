//! One source of doubt, and what it contributes to a result.

use std::sync::atomic::{AtomicU64, Ordering};

use super::Label;
use super::prose::{brief, spread_spoken_in};
use crate::quantity::{Kind, Quantity};

/// Identifies a source: two results that share one are correlated through it.
///
/// Identities are counted up as readings and instruments are made. They never reach any output, nor its order.
pub(super) type Identity = u64;

/// `count` identities nobody else has; the first is returned.
pub(super) fn fresh(count: u64) -> Identity {
    static NEXT: AtomicU64 = AtomicU64::new(1);
    NEXT.fetch_add(count, Ordering::Relaxed)
}

/// Where a doubt comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Cause {
    /// The step of a display, so wide in SI units; whether no accuracy is stated beside it.
    Step { width: f64, bare: bool },
    /// The accuracy an instrument is specified to: limits never exceeded, or an expanded uncertainty.
    Accuracy { limits: bool },
    /// The scatter of so many repeated readings.
    Repeats { count: usize },
    /// One of so many observations in each of which several quantities were read.
    Together { count: usize },
    /// A standard uncertainty given as such, with its degrees of freedom.
    Stated { degrees_of_freedom: f64 },
    /// Limits given as such, anywhere between as likely.
    Limits,
}

/// What one source contributes to a result, in SI units throughout.
#[derive(Debug, Clone)]
pub(super) struct Contribution {
    pub source: Identity,
    /// The reading (or set of readings taken together) it belongs to.
    pub reading: Identity,
    /// Derivative of the result by what was read, times `own`.
    pub amount: f64,
    /// Standard uncertainty of what was read, from this source.
    pub own: f64,
    pub cause: Cause,
    /// What was read, or with what: "ammeter".
    pub what: Label,
    /// Writes an amount of what was read: "0.1 A".
    pub show: fn(f64) -> String,
}

impl Contribution {
    pub fn variance(&self) -> f64 {
        self.amount * self.amount
    }

    pub fn degrees_of_freedom(&self) -> f64 {
        match self.cause {
            Cause::Step { .. } | Cause::Accuracy { .. } | Cause::Limits => f64::INFINITY,
            Cause::Repeats { count } | Cause::Together { count } => count as f64 - 1.0,
            Cause::Stated { degrees_of_freedom } => degrees_of_freedom,
        }
    }

    /// What it is called: "ammeter: 0.1 A step".
    pub fn describe(&self) -> String {
        let what = &self.what;
        match self.cause {
            Cause::Step { width, .. } => format!("{what}: {} step", (self.show)(width)),
            Cause::Accuracy { .. } => format!("{what}: accuracy"),
            Cause::Repeats { count } => format!("{what}: scatter of {count} readings"),
            Cause::Together { count } => format!("scatter of {count} observations"),
            Cause::Stated { .. } | Cause::Limits => what.to_string(),
        }
    }
}

/// An amount of a quantity's difference in the trade's unit, as prose has it: "0.1 A", "0.5 °F".
pub(super) fn shown<Q: Quantity>(si: f64) -> String {
    difference_shown(Kind::of::<Q>(), si)
}

/// The same, of a kind.
pub(super) fn difference_shown(kind: &Kind, si: f64) -> String {
    match spread_spoken_in(kind, si) {
        Some(unit) => format!("{} {}", brief(si / unit.factor), unit.symbol.trim_start_matches('Δ')),
        None => String::new(),
    }
}
