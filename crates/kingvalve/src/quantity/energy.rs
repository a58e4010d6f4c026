//! Energy, power, and energy per mass.

use super::bulk::Mass;
use super::define::{additive, product, quantity};
use super::factor::{BTU, DEGREE_FAHRENHEIT, HORSEPOWER, HOUR, POUND, TON_OF_REFRIGERATION};
use super::rate::{MassFlow, Time};
use super::temperature::TemperatureDifference;

quantity! {
    /// An energy. Printed in Btu (International Table).
    Energy, "energy", uom Energy, difference Energy, mistaken |_| None;
    btu, "Btu", ["BTU", "Btus"], BTU;
    joules, "J", ["joule"], 1.0;
    kilojoules, "kJ", [], 1e3;
    megajoules, "MJ", [], 1e6;
    watt_hours, "Wh", ["W·h"], HOUR;
    kilowatt_hours, "kWh", ["kW·h"], 1e3 * HOUR;
}

quantity! {
    /// A power or a capacity. Printed in W.
    Power, "power", uom Power, difference Power, mistaken |_| None;
    watts, "W", ["watt"], 1.0;
    kilowatts, "kW", [], 1e3;
    btu_per_hour, "Btu/h", ["Btu/hr", "BTUH", "Btuh"], BTU / HOUR;
    tons_of_refrigeration, "ton", ["tons", "TR", "ton of refrigeration"], TON_OF_REFRIGERATION;
    horsepower, "hp", ["HP"], HORSEPOWER;
}

quantity! {
    /// An energy per mass: enthalpy, latent heat. Printed in Btu/lb.
    SpecificEnergy, "specific energy", uom AvailableEnergy, difference SpecificEnergy, mistaken |_| None;
    btu_per_pound, "Btu/lb", ["BTU/lb", "Btu/lbm"], BTU / POUND;
    joules_per_kilogram, "J/kg", [], 1.0;
    kilojoules_per_kilogram, "kJ/kg", ["J/g"], 1e3;
}

quantity! {
    /// An entropy or a heat capacity per mass. Printed in Btu/(lb·°F).
    SpecificEntropy, "specific entropy", uom SpecificHeatCapacity, difference SpecificEntropy, mistaken |_| None;
    btu_per_pound_fahrenheit, "Btu/(lb·°F)", ["Btu/lb-F", "Btu/(lb degF)", "Btu/lb-R", "Btu/(lb·°R)"], BTU / (POUND * DEGREE_FAHRENHEIT);
    joules_per_kilogram_kelvin, "J/(kg·K)", ["J/kg-K", "J/(kg K)", "J/kg/K"], 1.0;
    kilojoules_per_kilogram_kelvin, "kJ/(kg·K)", ["kJ/kg-K", "kJ/(kg K)", "kJ/kg/K"], 1e3;
}

additive!(Energy, Power, SpecificEnergy, SpecificEntropy);
product! {
    Power * Time = Energy;
    SpecificEnergy * Mass = Energy;
    SpecificEnergy * MassFlow = Power;
    SpecificEntropy * TemperatureDifference = SpecificEnergy;
}
