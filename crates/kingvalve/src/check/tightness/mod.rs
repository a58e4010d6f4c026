//! Checks of the tightness room.

mod leak;
mod pressure;
mod vacuum;

use super::Entry;

pub(super) const CHECKS: &[Entry] = &[
    Entry::of::<pressure::Allowed>(),
    Entry::of::<pressure::Standing>(),
    Entry::of::<vacuum::Decay>(),
    Entry::of::<leak::Size>(),
];
