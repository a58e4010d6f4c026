//! Every program tells its story to the end, whatever it is given.

mod borderline_capacitor;
mod charging;
mod no_cool_call;
mod pressure_temperature;
mod shop;
mod vacuum_test;
