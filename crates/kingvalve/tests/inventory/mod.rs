//! The inventory: laws, the three answers to one pressure, and coverage of systems drawn from what is assumed.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, missing_docs)]

mod conflict;
mod coverage;
mod evacuated;
mod laws;
mod running;
mod simulated;
mod three_answers;
