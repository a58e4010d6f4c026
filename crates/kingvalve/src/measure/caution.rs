//! What can hurt someone, said with the result that asks for the work.

use std::fmt;

use serde::{Serialize, Serializer, ser::SerializeStruct};

/// A hazard that goes with a result, with the words to print beside it.
///
/// The words are reminders for a trained person: local codes, the data plate and licensed practice decide.
///
/// # Source
/// Common practice, no source.
/// # Example
/// ```
/// use kingvalve::measure::Caution;
/// assert!(Caution::StoredCharge.text().contains("discharge"));
/// assert_eq!(Caution::StoredCharge.name(), "stored_charge");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Caution {
    /// A capacitor may hold a charge after the power is off.
    StoredCharge,
    /// The reading is taken, or the work done, on live parts.
    LiveVoltage,
    /// Gas or liquid under pressure.
    HighPressure,
    /// A pressure test with gas: never oxygen, air or acetylene.
    TestGas,
    /// The refrigerant burns (safety group A2L, A2, A3 or B2L, B2, B3).
    FlammableRefrigerant,
    /// The refrigerant is toxic (safety group B).
    ToxicRefrigerant,
    /// The safety group of the refrigerant is not known here.
    UnknownSafetyGroup,
    /// Gas displaces air where people breathe.
    Asphyxiation,
    /// Letting refrigerant out is unlawful in many places.
    Venting,
    /// A cylinder filled too far bursts when it warms.
    Overfilling,
    /// Liquid refrigerant freezes skin and eyes.
    Frostbite,
    /// Parts that turn or start by themselves.
    MovingParts,
}

impl Caution {
    /// Every caution, in the order they are declared.
    pub const ALL: [Caution; 12] = [
        Caution::StoredCharge,
        Caution::LiveVoltage,
        Caution::HighPressure,
        Caution::TestGas,
        Caution::FlammableRefrigerant,
        Caution::ToxicRefrigerant,
        Caution::UnknownSafetyGroup,
        Caution::Asphyxiation,
        Caution::Venting,
        Caution::Overfilling,
        Caution::Frostbite,
        Caution::MovingParts,
    ];

    /// Its name in JSON.
    pub const fn name(self) -> &'static str {
        match self {
            Caution::StoredCharge => "stored_charge",
            Caution::LiveVoltage => "live_voltage",
            Caution::HighPressure => "high_pressure",
            Caution::TestGas => "test_gas",
            Caution::FlammableRefrigerant => "flammable_refrigerant",
            Caution::ToxicRefrigerant => "toxic_refrigerant",
            Caution::UnknownSafetyGroup => "unknown_safety_group",
            Caution::Asphyxiation => "asphyxiation",
            Caution::Venting => "venting",
            Caution::Overfilling => "overfilling",
            Caution::Frostbite => "frostbite",
            Caution::MovingParts => "moving_parts",
        }
    }

    /// What to print.
    pub const fn text(self) -> &'static str {
        match self {
            Caution::StoredCharge => {
                "Stored charge: a capacitor can shock after the power is off. Lock out the power, discharge it through \
                 a resistor made for it, and measure zero volts before touching a terminal."
            }
            Caution::LiveVoltage => {
                "Live voltage: readings under load are taken on energised parts. Only a qualified person, with meters \
                 and protective gear rated for the circuit, as local electrical code and licence require."
            }
            Caution::HighPressure => {
                "Pressure: wear eye protection, use hoses and fittings rated for it, stay at or below the pressure on \
                 the data plate, and never loosen a fitting under pressure."
            }
            Caution::TestGas => {
                "Pressure test: dry nitrogen through a regulator with a relief device, up to the test pressure on the \
                 data plate. Never oxygen, compressed air or acetylene: with oil they explode."
            }
            Caution::FlammableRefrigerant => {
                "Flammable refrigerant: no flame, spark or hot surface near, ventilate, use a detector and tools made \
                 for it, and follow the equipment's instructions and local code on charge and room size."
            }
            Caution::ToxicRefrigerant => {
                "Toxic refrigerant: ventilate, keep the detector and the breathing protection that the code and the \
                 safety data sheet call for at hand, and do not work alone."
            }
            Caution::UnknownSafetyGroup => {
                "Safety group not known here: handle the refrigerant as flammable and toxic until its safety data sheet says \
                 otherwise."
            }
            Caution::Asphyxiation => {
                "Asphyxiation: nitrogen and refrigerant push air out of low and closed places. Ventilate, and leave at \
                 the first sign of dizziness."
            }
            Caution::Venting => {
                "Venting: letting refrigerant out on purpose is unlawful in many places. Recover it, with the \
                 certification local law asks for, and write down the amount."
            }
            Caution::Overfilling => {
                "Overfilling: a cylinder filled with liquid bursts when it warms. Weigh it, stop at the limit of its \
                 rating and of local rules, and never heat it with a flame."
            }
            Caution::Frostbite => {
                "Frostbite: escaping liquid refrigerant freezes skin and eyes. Wear gloves and eye protection."
            }
            Caution::MovingParts => {
                "Moving parts: fans and compressors start by themselves. Lock out the power before reaching in."
            }
        }
    }
}

impl fmt::Display for Caution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}

impl Serialize for Caution {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut object = serializer.serialize_struct("caution", 2)?;
        object.serialize_field("hazard", self.name())?;
        object.serialize_field("text", self.text())?;
        object.end()
    }
}
