//! How much and how big: mass, length, area, volume, density.

use super::define::{additive, product, quantity};
use super::factor::{CIRCULAR_MIL, FOOT, GALLON, GRAIN, INCH, OUNCE, POUND};
use super::rate::{MassFlow, VolumeFlow};

quantity! {
    /// A mass, or the difference of two weighings. Printed in lb.
    Mass, "mass", uom Mass, difference Mass, mistaken |_| None;
    pounds, "lb", ["lbs", "lbm", "pound"], POUND;
    ounces, "oz", ["ounce"], OUNCE;
    kilograms, "kg", ["kilogram"], 1.0;
    grams, "g", ["gram"], 1e-3;
    grains, "gr", ["grain"], GRAIN;
    metric_tons, "t", ["tonne", "tonnes", "metric ton", "metric tons"], 1e3;
}

quantity! {
    /// A length, a height or an elevation. Printed in ft.
    Length, "length", uom Length, difference Length, mistaken |_| None;
    feet, "ft", ["foot", "'"], FOOT;
    inches, "in", ["inch", "\""], INCH;
    meters, "m", ["meter", "metres", "metre"], 1.0;
    centimeters, "cm", ["centimeter"], 1e-2;
    millimeters, "mm", ["millimeter"], 1e-3;
}

quantity! {
    /// An area. Printed in ft².
    Area, "area", uom Area, difference Area, mistaken |_| None;
    square_feet, "ft²", ["ft2", "ft^2", "sq ft", "sqft"], FOOT * FOOT;
    square_inches, "in²", ["in2", "in^2", "sq in"], INCH * INCH;
    square_meters, "m²", ["m2", "m^2"], 1.0;
    square_centimeters, "cm²", ["cm2", "cm^2"], 1e-4;
    square_millimeters, "mm²", ["mm2", "mm^2"], 1e-6;
    circular_mils, "cmil", ["circular mils"], CIRCULAR_MIL;
}

quantity! {
    /// A volume. Printed in ft³.
    Volume, "volume", uom Volume, difference Volume, mistaken |_| None;
    cubic_feet, "ft³", ["ft3", "ft^3", "cu ft", "cuft"], FOOT * FOOT * FOOT;
    cubic_inches, "in³", ["in3", "in^3", "cu in"], INCH * INCH * INCH;
    gallons, "gal", ["gallon", "US gal"], GALLON;
    fluid_ounces, "fl oz", ["floz", "fluid ounces"], GALLON / 128.0;
    cubic_meters, "m³", ["m3", "m^3"], 1.0;
    liters, "L", ["l", "liter", "litre", "litres"], 1e-3;
    milliliters, "mL", ["ml", "cm³", "cm3", "cc"], 1e-6;
}

quantity! {
    /// A density. Printed in lb/ft³.
    Density, "density", uom MassDensity, difference Density, mistaken |_| None;
    pounds_per_cubic_foot, "lb/ft³", ["lb/ft3", "lb/ft^3"], POUND / (FOOT * FOOT * FOOT);
    kilograms_per_cubic_meter, "kg/m³", ["kg/m3", "kg/m^3", "g/L"], 1.0;
    grams_per_cubic_centimeter, "g/cm³", ["g/cm3", "g/mL", "kg/L"], 1e3;
}

quantity! {
    /// A volume per mass; of moist air, per mass of *dry* air. Printed in ft³/lb.
    SpecificVolume, "specific volume", uom SpecificVolume, difference SpecificVolume, mistaken |_| None;
    cubic_feet_per_pound, "ft³/lb", ["ft3/lb", "ft^3/lb"], FOOT * FOOT * FOOT / POUND;
    cubic_meters_per_kilogram, "m³/kg", ["m3/kg", "m^3/kg"], 1.0;
}

additive!(Mass, Length, Area, Volume, Density, SpecificVolume);
product! {
    SpecificVolume * Mass = Volume;
    SpecificVolume * MassFlow = VolumeFlow;
    Density * Volume = Mass;
    Length * Area = Volume;
}

impl std::ops::Mul for Length {
    type Output = Area;
    #[inline]
    fn mul(self, other: Length) -> Area {
        Area::from_si(self.si() * other.si())
    }
}

impl std::ops::Div<Length> for Area {
    type Output = Length;
    #[inline]
    fn div(self, other: Length) -> Length {
        Length::from_si(self.si() / other.si())
    }
}
