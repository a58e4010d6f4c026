//! Checks of the tightness room.

mod leak;
mod pressure;
mod vacuum;

checks![pressure::Allowed, pressure::Standing, vacuum::Decay, leak::Size,];
