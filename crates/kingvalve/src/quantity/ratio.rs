//! Pure numbers that mean a share: tolerances, humidity, efficiency.

use super::define::{additive, quantity};

quantity! {
    /// A share of something: a tolerance, a relative humidity, a charge level. Printed in %.
    Ratio, "ratio", uom Ratio, difference Ratio, mistaken |_| None;
    percent, "%", ["pct"], 1e-2;
    fraction, "fraction", ["1", "ratio"], 1.0;
    parts_per_million, "ppm", [], 1e-6;
}

additive!(Ratio);

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
    Energy,
    Power,
    SpecificEnergy,
    SpecificEntropy,
    ElectricPotential,
    Current,
    Resistance,
    Capacitance,
    Frequency,
    Ratio
);
