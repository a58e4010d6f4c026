//! A simulated split air conditioner whose true charge is known: what the charge estimator is judged by.
//!
//! It is lumped and steady: a coil is one set of zones, air properties are constant, lines have no lengths. It takes
//! refrigerant properties from the equation of state and nothing else from the library under test: no formula of
//! `kingvalve::charge` or `kingvalve::cycle` is used here, and its oil, its volumes and its coils follow models of their own.
//! Systems are drawn from [`population`], which is stated there in full and was fixed before the estimator was measured.
//! SI units throughout.

pub mod air;
pub mod compressor;
pub mod condenser;
pub mod cycle;
pub mod design;
pub mod evaporator;
pub mod instrument;
pub mod medium;
pub mod metering;
pub mod oil;
pub mod population;
pub mod root;
pub mod standing;
pub mod visit;
pub mod void_fraction;
pub mod volumes;
