//! Pure numbers that mean a share: tolerances, humidity, efficiency.

use super::define::{additive, quantity};
use super::factor::{GRAIN, POUND};

quantity! {
    /// A share of something: a tolerance, a relative humidity, a charge level. Printed in %.
    Ratio, "ratio", uom Ratio, difference Ratio, mistaken |_| None;
    percent, "%", ["pct"], 1e-2;
    fraction, "fraction", ["1", "ratio"], 1.0;
    parts_per_million, "ppm", [], 1e-6;
}

quantity! {
    /// The water vapour in moist air: its mass per mass of *dry* air. Printed in gr/lb.
    HumidityRatio, "humidity ratio", uom Ratio, difference HumidityRatio, mistaken mistaken_for_humidity_ratio;
    grains_per_pound, "gr/lb", ["gr/lb da", "grains/lb"], GRAIN / POUND;
    pounds_per_pound, "lb/lb", ["lb/lb da"], 1.0;
    kilograms_per_kilogram, "kg/kg", ["kg/kg da"], 1.0;
    grams_per_kilogram, "g/kg", ["g/kg da"], 1e-3;
}

additive!(Ratio, HumidityRatio);

fn mistaken_for_humidity_ratio(unit: &str) -> Option<String> {
    (unit == "%").then(|| "% is a relative humidity: give it as such, with the dry bulb and the site".into())
}

/// A share of a quantity, by the quantities that have a zero.
macro_rules! share_of {
    ($($Type:ident),+) => {$(
        impl std::ops::Mul<Ratio> for super::$Type {
            type Output = super::$Type;
            #[inline]
            fn mul(self, share: Ratio) -> super::$Type {
                self * share.fraction()
            }
        }
    )+};
}

share_of!(
    Pressure,
    PressureDifference,
    TemperatureDifference,
    Mass,
    Length,
    Area,
    Volume,
    Density,
    Time,
    VolumeFlow,
    MassFlow,
    Velocity,
    Throughput,
    Viscosity,
    Energy,
    Power,
    SpecificEnergy,
    SpecificEntropy,
    ElectricPotential,
    Current,
    Resistance,
    Capacitance,
    Frequency,
    SpecificVolume,
    HumidityRatio,
    Ratio
);
