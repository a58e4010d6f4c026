//! Classes of motor capacitors by IEC 60252-1.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::quantity::{Time, hours};
use crate::{Error, Result};

/// The class of operation marked on a motor run capacitor: how long it is made to last at rated duty.
///
/// # Source
/// IEC 60252-1, classes of operation; from memory.
/// # Example
/// ```
/// use kingvalve::electrical::OperatingClass;
/// assert_eq!("B".parse::<OperatingClass>()?.life().hours(), 10_000.0);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum OperatingClass {
    /// 30 000 h.
    A,
    /// 10 000 h.
    B,
    /// 3 000 h.
    C,
    /// 1 000 h.
    D,
}

impl OperatingClass {
    /// The hours of operation it is made for, at rated voltage, frequency and temperature; at most 3 % of them may fail
    /// within (IEC 60252-1, from memory).
    pub const fn life(self) -> Time {
        match self {
            OperatingClass::A => hours(30_000.0),
            OperatingClass::B => hours(10_000.0),
            OperatingClass::C => hours(3_000.0),
            OperatingClass::D => hours(1_000.0),
        }
    }
}

impl fmt::Display for OperatingClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

impl FromStr for OperatingClass {
    type Err = Error;
    fn from_str(text: &str) -> Result<Self> {
        match text.trim() {
            "A" | "a" => Ok(OperatingClass::A),
            "B" | "b" => Ok(OperatingClass::B),
            "C" | "c" => Ok(OperatingClass::C),
            "D" | "d" => Ok(OperatingClass::D),
            _ => Err(Error::unknown("class of operation", text, ["A", "B", "C", "D"])),
        }
    }
}

/// The class of safety protection marked on a motor run capacitor: how it is allowed to fail.
///
/// # Source
/// IEC 60252-1:2010, classes of safety protection (P0 to P2 in earlier editions); from memory.
/// # Example
/// ```
/// use kingvalve::electrical::SafetyClass;
/// assert_eq!("P2".parse::<SafetyClass>()?, SafetyClass::S2);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum SafetyClass {
    /// No protection against failure.
    S0,
    /// May fail open or shorted, protected against fire and shock.
    S1,
    /// Fails open only, protected against fire and shock.
    S2,
    /// As S2, by segmented film: little of its capacitance is left.
    S3,
}

impl SafetyClass {
    /// What it means, in words for a report.
    pub const fn text(self) -> &'static str {
        match self {
            SafetyClass::S0 => "no specific protection against failure",
            SafetyClass::S1 => "may fail open or shorted, protected against fire and shock",
            SafetyClass::S2 => "fails open only, protected against fire and shock",
            SafetyClass::S3 => {
                "segmented film: fails with little of its capacitance left, protected against fire and shock"
            }
        }
    }
}

impl fmt::Display for SafetyClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

impl FromStr for SafetyClass {
    type Err = Error;
    /// `S0` to `S3`, or the earlier `P0` to `P2`.
    fn from_str(text: &str) -> Result<Self> {
        match text.trim().to_ascii_uppercase().as_str() {
            "S0" | "P0" => Ok(SafetyClass::S0),
            "S1" | "P1" => Ok(SafetyClass::S1),
            "S2" | "P2" => Ok(SafetyClass::S2),
            "S3" => Ok(SafetyClass::S3),
            _ => Err(Error::unknown("class of safety protection", text, ["S0", "S1", "S2", "S3"])),
        }
    }
}
