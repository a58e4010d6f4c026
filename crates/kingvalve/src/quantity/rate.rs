//! Time, and what passes in a time: flows and velocity.

use super::bulk::{Area, Density, Length, Mass, Volume};
use super::define::{additive, product, quantity};
use super::factor::{FOOT, GALLON, HOUR, OUNCE, POUND, YEAR};

quantity! {
    /// A duration. Printed in min. A year is 365 days, as in NIST SP 811.
    Time, "time", uom Time, difference Time, mistaken |_| None;
    minutes, "min", ["mins", "minute"], 60.0;
    seconds, "s", ["sec", "second"], 1.0;
    hours, "h", ["hr", "hrs", "hour"], HOUR;
    days, "d", ["day"], 86_400.0;
    years, "yr", ["year", "a"], YEAR;
}

quantity! {
    /// A volume flow. Printed in cfm.
    VolumeFlow, "volume flow", uom VolumeRate, difference VolumeFlow, mistaken |_| None;
    cubic_feet_per_minute, "cfm", ["CFM", "ft³/min", "ft3/min", "ft^3/min"], FOOT * FOOT * FOOT / 60.0;
    gallons_per_minute, "gpm", ["GPM", "gal/min"], GALLON / 60.0;
    cubic_meters_per_second, "m³/s", ["m3/s", "m^3/s"], 1.0;
    cubic_meters_per_hour, "m³/h", ["m3/h", "m^3/h"], 1.0 / HOUR;
    liters_per_second, "L/s", ["l/s"], 1e-3;
    liters_per_minute, "L/min", ["l/min", "lpm"], 1e-3 / 60.0;
}

quantity! {
    /// A mass flow, or a leak rate. Printed in lb/h.
    MassFlow, "mass flow", uom MassRate, difference MassFlow, mistaken |_| None;
    pounds_per_hour, "lb/h", ["lb/hr", "lbs/hr"], POUND / HOUR;
    pounds_per_minute, "lb/min", [], POUND / 60.0;
    pounds_per_year, "lb/yr", ["lb/a"], POUND / YEAR;
    ounces_per_year, "oz/yr", ["oz/a"], OUNCE / YEAR;
    kilograms_per_second, "kg/s", [], 1.0;
    kilograms_per_hour, "kg/h", ["kg/hr"], 1.0 / HOUR;
    kilograms_per_year, "kg/yr", ["kg/a"], 1.0 / YEAR;
    grams_per_second, "g/s", [], 1e-3;
    grams_per_year, "g/yr", ["g/a"], 1e-3 / YEAR;
}

quantity! {
    /// A speed, such as that of air at a grille. Printed in ft/min.
    Velocity, "velocity", uom Velocity, difference Velocity, mistaken |_| None;
    feet_per_minute, "ft/min", ["fpm", "FPM"], FOOT / 60.0;
    feet_per_second, "ft/s", ["fps"], FOOT;
    meters_per_second, "m/s", [], 1.0;
}

/// The volume flow of `value` cubic feet per minute.
#[inline]
pub const fn cfm(value: f64) -> VolumeFlow {
    cubic_feet_per_minute(value)
}

impl VolumeFlow {
    /// How many cubic feet per minute this volume flow is.
    #[inline]
    pub const fn cfm(self) -> f64 {
        self.cubic_feet_per_minute()
    }
}

additive!(Time, VolumeFlow, MassFlow, Velocity);
product! {
    VolumeFlow * Time = Volume;
    MassFlow * Time = Mass;
    Velocity * Time = Length;
    Velocity * Area = VolumeFlow;
    Density * VolumeFlow = MassFlow;
}
