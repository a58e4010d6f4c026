//! Currencies by their ISO 4217 code, with the places of their minor unit.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::{Error, Result};

/// Decimal places of the minor unit, and the codes that have that many.
///
/// Source: ISO 4217 List One, published 2026-01-01, as carried by the Python package iso4217 1.16.20260101.
/// Codes for which the list states no minor unit (metals, bond units, testing) are left out: nobody is billed in them.
const BY_MINOR_UNIT: [(u32, &str); 4] = [
    (0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"),
    (
        2,
        "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE \
         CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD \
         HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK \
         MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD \
         RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH \
         USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG",
    ),
    (3, "BHD IQD JOD KWD LYD OMR TND"),
    (4, "CLF UYW"),
];

/// A currency of ISO 4217.
///
/// # Source
/// ISO 4217 List One, published 2026-01-01.
///
/// # Example
/// ```
/// use kingvalve::estimate::Currency;
/// let yen: Currency = "JPY".parse()?;
/// assert_eq!((Currency::USD.minor_units(), yen.minor_units()), (2, 0));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Currency {
    code: &'static str,
    minor_units: u32,
}

impl Currency {
    /// United States dollar.
    pub const USD: Self = Self { code: "USD", minor_units: 2 };
    /// Canadian dollar.
    pub const CAD: Self = Self { code: "CAD", minor_units: 2 };
    /// Mexican peso.
    pub const MXN: Self = Self { code: "MXN", minor_units: 2 };
    /// Euro.
    pub const EUR: Self = Self { code: "EUR", minor_units: 2 };
    /// Pound sterling.
    pub const GBP: Self = Self { code: "GBP", minor_units: 2 };

    /// The three-letter code.
    pub fn code(self) -> &'static str {
        self.code
    }

    /// Decimal places of the smallest amount that is paid: 2 for the dollar, 0 for the yen, 3 for the Kuwaiti dinar.
    pub fn minor_units(self) -> u32 {
        self.minor_units
    }

    /// Every currency of the list, by minor unit and then by code.
    pub fn all() -> impl Iterator<Item = Self> {
        BY_MINOR_UNIT.into_iter().flat_map(|(minor_units, codes)| {
            // One stands every four bytes.
            let each = (0..codes.len()).step_by(4).filter_map(|at| codes.get(at..at + 3));
            each.map(move |code| Self { code, minor_units })
        })
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.code)
    }
}

impl FromStr for Currency {
    type Err = Error;

    /// Reads the code, capitals only as ISO 4217 writes it.
    ///
    /// # Errors
    /// An unknown code, with the nearest ones that exist.
    fn from_str(code: &str) -> Result<Self> {
        let unknown = || Error::unknown("ISO 4217 currency", code, Self::all().map(Self::code));
        let letters: &[u8; 3] = code.as_bytes().try_into().map_err(|_| unknown())?;
        Self::all().find(|each| each.code.as_bytes().first_chunk() == Some(letters)).ok_or_else(unknown)
    }
}

impl Serialize for Currency {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.code)
    }
}

impl<'de> Deserialize<'de> for Currency {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let code = std::borrow::Cow::<str>::deserialize(deserializer)?;
        code.parse().map_err(de::Error::custom)
    }
}
