//! Checks of the electrical room.

mod capacitor;
mod circuit;
mod motor;
mod part;
mod supply;

use super::Entry;

/// In the order of the work: the capacitor, the motor, the supply, the circuit.
pub(super) const CHECKS: &[Entry] = &[
    Entry::of::<capacitor::UnderLoad>(),
    Entry::of::<part::OnBench>(),
    Entry::of::<part::Together>(),
    Entry::of::<part::Dual>(),
    Entry::of::<part::Shelf>(),
    Entry::of::<part::Charged>(),
    Entry::of::<motor::Compressor>(),
    Entry::of::<motor::Winding>(),
    Entry::of::<motor::Factor>(),
    Entry::of::<supply::Sagging>(),
    Entry::of::<supply::Unbalanced>(),
    Entry::of::<circuit::Sizes>(),
    Entry::of::<circuit::Wire>(),
    Entry::of::<circuit::Pole>(),
];
