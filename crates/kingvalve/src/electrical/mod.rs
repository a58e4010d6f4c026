//! Run capacitors, supply and circuits.
//!
//! A [`RunCapacitor`] is judged [under load](RunCapacitor::under_load), [on the bench](RunCapacitor::on_bench), or
//! [by several readings together](RunCapacitor::combined); a [`DualCapacitor`] is two of them in one can. A [`Supply`]
//! is judged for sag, three voltages for [`Unbalance`], a [`Circuit`] for the sizes of its wire and breaker, a
//! [`Conductor`] for the voltage it drops. Every check has a `finding()` in the shape shared by all checks.
//!
//! # Source
//! C = I/(2πfV) and textbooks of alternating current; IEC 60252-1 for the marks of capacitors; NEMA MG 1 for unbalance
//! and derating; NEC articles 240, 440 and 460 and chapter 9, table 8. What is quoted from memory says so where it
//! stands; limits that are common practice are named constants, to be replaced.
//! # Valid range
//! Mains of 50 Hz and 60 Hz, sine wave, motors at speed; not behind a variable-speed drive.
//! # Accuracy
//! That of the meters, carried; the published worked examples are met to the digits printed. A capacitor read under
//! load with a 2 % + 5 counts clamp of 0.01 A steps is known to about ±12 % at 5 µF and ±4 % at 45 µF (95 %).
//!
//! Nothing here replaces local electrical code, the data plate or a licensed electrician; every finding says so.

mod bench;
mod capacitor;
mod check;
mod circuit;
mod class;
mod combined;
mod compressor;
mod conductor;
mod contactor;
mod drop;
mod dual;
mod effect;
mod insulation;
mod loads;
mod note;
mod overcurrent;
mod phases;
mod power;
mod replacement;
mod rows;
mod stored;
mod supply;
mod tolerance;
mod unbalance;

pub use capacitor::RunCapacitor;
pub use check::CapacitorCheck;
pub use circuit::{Circuit, CircuitCheck, Installed, Plate};
pub use class::{OperatingClass, SafetyClass};
pub use combined::CapacitorCombined;
pub use compressor::{CompressorCurrent, MCC_PER_RLA};
pub use conductor::{Conductor, Metal, Stranding, WireSize};
pub use contactor::{CONTACTOR_DROP, ContactorDrop};
pub use drop::{CONDUCTOR_DROP, VoltageDrop};
pub use dual::{DualCapacitor, DualCheck};
pub use effect::Section;
pub use insulation::{Insulation, corrected_to_40_celsius};
pub use loads::Load;
pub use note::CapacitorNote;
pub use overcurrent::{FIRST_CHOICE, LARGEST_SHARE, Overcurrent, STANDARD_RATINGS};
pub use phases::Phases;
pub use power::{PowerFactor, apparent_power, real_power};
pub use replacement::{Replacement, STANDARD_CAPACITANCES, STANDARD_VOLTAGES, StockPart, Unfit};
pub use rows::{CapacitorRow, CapacitorRows};
pub use stored::{DISCHARGE_TIME, SAFE_VOLTAGE, StoredCharge};
pub use supply::{RUNNING_SAG, STARTING_SAG, Sag, Supply};
pub use tolerance::Tolerance;
pub use unbalance::{UNBALANCE_LIMIT, UNBALANCE_STOP, Unbalance};

use crate::measure::Finding;

/// Ends the text of every finding of this room.
const DEFER: &str = "Local electrical code, the data plate and a licensed electrician decide; this is arithmetic on readings.";

/// A finding that says who decides.
fn deferring(finding: Finding) -> Finding {
    finding.saying(DEFER)
}

/// What an unresolved verdict needs, or nothing.
fn settling<Q: crate::quantity::Quantity>(finding: Finding, verdict: &crate::measure::Verdict<Q>) -> Finding {
    match verdict.judgement().settle() {
        Some(settle) => finding.then(format!("{settle}.")),
        None => finding,
    }
}
