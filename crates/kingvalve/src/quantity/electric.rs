//! Electrical quantities.

use super::define::{additive, product, quantity};
use super::energy::Power;

quantity! {
    /// A voltage. Printed in V.
    ElectricPotential, "voltage", uom ElectricPotential, difference ElectricPotential, mistaken |_| None;
    volts, "V", ["volt", "VAC"], 1.0;
    millivolts, "mV", [], 1e-3;
    kilovolts, "kV", [], 1e3;
}

quantity! {
    /// An electric current. Printed in A.
    Current, "current", uom ElectricCurrent, difference Current, mistaken |_| None;
    amperes, "A", ["amp", "amps", "ampere"], 1.0;
    milliamperes, "mA", ["milliamps"], 1e-3;
}

quantity! {
    /// An electric resistance. Printed in Ω.
    Resistance, "resistance", uom ElectricalResistance, difference Resistance, mistaken |_| None;
    ohms, "Ω", ["ohm"], 1.0;
    milliohms, "mΩ", ["mohm", "milliohm"], 1e-3;
    kilohms, "kΩ", ["kohm", "kilohm"], 1e3;
    megohms, "MΩ", ["Mohm", "megohm"], 1e6;
    gigohms, "GΩ", ["Gohm", "gigohm"], 1e9;
}

quantity! {
    /// A capacitance. Printed in µF.
    Capacitance, "capacitance", uom Capacitance, difference Capacitance, mistaken |_| None;
    microfarads, "µF", ["uF", "mfd", "MFD", "microfarad"], 1e-6;
    farads, "F", ["farad"], 1.0;
    nanofarads, "nF", ["nanofarad"], 1e-9;
}

quantity! {
    /// A frequency. Printed in Hz.
    Frequency, "frequency", uom Frequency, difference Frequency, mistaken |_| None;
    hertz, "Hz", [], 1.0;
    kilohertz, "kHz", [], 1e3;
}

additive!(ElectricPotential, Current, Resistance, Capacitance, Frequency);
product! {
    ElectricPotential * Current = Power;
    Current * Resistance = ElectricPotential;
}
