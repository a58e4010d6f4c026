//! What a leak is counted in: gas throughput, and the viscosity that converts it from gas to gas.

use super::define::{additive, product, quantity};
use super::factor::{ATMOSPHERE, FOOT, HOUR, MICRON_OF_MERCURY, POUND, TORR};
use super::{PressureDifference, VolumeFlow};

quantity! {
    /// A flow of gas counted as pressure times volume over time: the size of a leak. Printed in Pa·m³/s.
    ///
    /// It says how much gas only together with its temperature.
    Throughput, "gas throughput", uom Power, difference Throughput, mistaken |_| None;
    pascal_cubic_meters_per_second, "Pa·m³/s", ["Pa m3/s", "Pa·m3/s", "Pa m³/s"], 1.0;
    millibar_liters_per_second, "mbar·L/s", ["mbar L/s", "mbar l/s", "mbar·l/s"], 0.1;
    atmosphere_cubic_centimeters_per_second, "atm·cm³/s", ["atm cc/s", "atm cm3/s", "std cm3/s"], ATMOSPHERE * 1e-6;
    torr_liters_per_second, "Torr·L/s", ["Torr L/s", "Torr l/s"], TORR * 1e-3;
    micron_liters_per_hour, "micron·L/h", ["micron L/h"], MICRON_OF_MERCURY * 1e-3 / HOUR;
}

quantity! {
    /// A dynamic viscosity. Printed in µPa·s.
    Viscosity, "viscosity", uom DynamicViscosity, difference Viscosity, mistaken |_| None;
    micropascal_seconds, "µPa·s", ["uPa s", "uPa·s", "µPa s"], 1e-6;
    pascal_seconds, "Pa·s", ["Pa s"], 1.0;
    centipoises, "cP", ["centipoise"], 1e-3;
    pounds_per_foot_hour, "lb/(ft·h)", ["lb/ft-h", "lb/(ft h)"], POUND / FOOT / HOUR;
}

additive!(Throughput, Viscosity);
product! {
    PressureDifference * VolumeFlow = Throughput;
}
