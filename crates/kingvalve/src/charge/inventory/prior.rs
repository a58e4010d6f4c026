//! How what is supposed follows from standard normal coordinates.
//!
//! Source: the ranges that [`System`] assumes, each even between its ends. Volume in m³, oil uptake in kg.

use super::points::{COORDINATES, even};
use super::proposal::Along;
use super::supposed::Supposed;
use super::system::System;
use crate::charge::oil::Uptake;

/// How what is supposed follows from standard normal coordinates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Prior {
    ln_room: f64,
    ln_room_deviation: f64,
    usual: f64,
    uptake: (f64, f64),
    steepening: (f64, f64),
    shifts: bool,
}

impl Prior {
    pub fn of(system: &System) -> Prior {
        let (ln_room, ln_room_deviation) = system.ln_room();
        let steepening = system.steepening();
        Prior {
            ln_room,
            ln_room_deviation,
            usual: ln_room.exp(),
            uptake: system.uptake(),
            steepening: (steepening.low().fraction(), steepening.high().fraction()),
            shifts: system.leaked.is_some(),
        }
    }

    /// All but the volume.
    #[inline]
    pub fn supposed(&self, at: &[f64; COORDINATES]) -> Supposed {
        let [uptake, gauge, thermometer, shift, steepening, _] = *at;
        let between = |(low, high): (f64, f64), normal: f64| low + (high - low) * even(normal);
        Supposed {
            volume: 0.0,
            oil: Uptake {
                slope: between(self.uptake, uptake),
                steepening: between(self.steepening, steepening),
            },
            gauge,
            thermometer,
            shift: if self.shifts { even(shift) } else { 0.0 },
        }
    }

    pub fn volume(&self, along: f64) -> f64 {
        (self.ln_room + self.ln_room_deviation * along).exp()
    }

    pub fn usual_volume(&self) -> f64 {
        self.usual
    }

    /// A volume and its doubt, as the coordinate.
    pub fn along(&self, volume: f64, deviation: f64) -> Along {
        Along {
            mean: (volume.ln() - self.ln_room) / self.ln_room_deviation,
            deviation: deviation / (volume * self.ln_room_deviation),
        }
    }
}
