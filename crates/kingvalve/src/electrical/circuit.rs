//! The wire and breaker a unit's circuit needs.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{LARGEST_SHARE, Load, Overcurrent, deferring};
use crate::measure::{Caution, Finding, Level, Limits, Verdict};
use crate::quantity::{Current, Quantity, Ratio, amperes, percent};
use crate::{Error, Result};

/// The loads of one branch circuit to air-conditioning or refrigerating equipment.
///
/// # Example
/// ```
/// use kingvalve::electrical::{Circuit, LARGEST_SHARE, Load};
/// use kingvalve::quantity::*;
/// let unit = Circuit::of(vec![Load::compressor(amperes(18.0)), Load::Motor(amperes(1.5))])?;
/// assert_eq!(unit.minimum_ampacity(), amperes(24.0));
/// let protection = unit.maximum_protection(LARGEST_SHARE)?;
/// assert_eq!((protection.calculated, protection.standard), (amperes(42.0), amperes(40.0)));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Circuit {
    loads: Vec<Load>,
}

/// What the data plate says of the circuit; it stands above anything computed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plate {
    /// Minimum circuit ampacity.
    pub minimum_ampacity: Current,
    /// Maximum overcurrent protection.
    pub maximum_protection: Current,
}

/// What was found installed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Installed {
    /// Ampacity of the conductors, by their size, insulation and terminals, after all corrections.
    pub conductor_ampacity: Current,
    /// Rating of the breaker or fuse.
    pub protection: Current,
}

/// What was installed, against what is wanted.
#[derive(Debug, Clone, Serialize)]
pub struct CircuitCheck {
    conductor: Verdict<Current>,
    protection: Verdict<Current>,
}

impl Circuit {
    /// A circuit with those loads.
    ///
    /// # Errors
    /// Without a load, or with a current that is not above zero and finite.
    pub fn of(loads: Vec<Load>) -> Result<Circuit> {
        if loads.is_empty() {
            return Err(Error::inconsistent(
                "circuit",
                "it feeds nothing",
                "give the loads on the data plate",
            ));
        }
        for (at, load) in loads.iter().enumerate() {
            load.check().map_err(|error| error.in_field(format!("loads[{at}]")))?;
        }
        Ok(Circuit { loads })
    }

    /// The loads.
    pub fn loads(&self) -> &[Load] {
        &self.loads
    }

    /// The smallest ampacity its conductors may have: all currents, and a quarter of the largest motor's.
    ///
    /// # Units
    /// Currents as on the data plates.
    /// # Source
    /// NEC 440.32 (one compressor, 125 %) and 440.33 (several motors); rule text as quoted in the trade press.
    /// # Valid range
    /// One circuit to air-conditioning or refrigerating equipment without wye-start or part-winding start.
    /// # Accuracy
    /// Exact arithmetic on the plate's currents.
    /// # Errors
    /// None.
    /// # Example
    /// See [`Circuit`].
    pub fn minimum_ampacity(&self) -> Current {
        let largest = self.loads.iter().filter(|load| load.is_motor()).map(Load::current);
        self.total() + 0.25 * largest.fold(amperes(0.0), Current::max)
    }

    /// The largest overcurrent protection it may have: a share of the largest compressor's current, and all others'.
    ///
    /// # Units
    /// The share as [`FIRST_CHOICE`](super::FIRST_CHOICE) or [`LARGEST_SHARE`].
    /// # Source
    /// NEC 440.22(A) and 440.22(B)(1), standard ratings by 240.6(A) rounded down.
    /// # Valid range
    /// Where a compressor is the largest load; shares of 100 % to 225 %.
    /// # Accuracy
    /// Exact arithmetic on the plate's currents.
    /// # Errors
    /// Where no compressor is the largest load (another article of the code sizes that circuit), or a share outside the
    /// range.
    /// # Example
    /// See [`Circuit`].
    pub fn maximum_protection(&self, share: Ratio) -> Result<Overcurrent> {
        if !(share >= percent(100.0) && share <= LARGEST_SHARE) {
            return Err(Error::out_of_range(
                "share of the compressor's current",
                share,
                "it lies from 100 % to 225 %",
                "175 % is the first choice, 225 % the ceiling where that does not carry the start",
            ));
        }
        let compressors = self.loads.iter().filter(|load| matches!(load, Load::Compressor { .. }));
        let largest = compressors.map(Load::current).fold(amperes(0.0), Current::max);
        if self.loads.iter().any(|load| load.current() > largest) {
            return Err(Error::inconsistent(
                "overcurrent protection",
                "no compressor is the largest load of this circuit",
                "take the maximum overcurrent protection from the data plate",
            ));
        }
        Ok(Overcurrent::of(self.total() + (share.fraction() - 1.0) * largest))
    }

    /// Holds what is installed against the data plate; where there is none, against what the loads' currents give.
    ///
    /// # Source
    /// As [`minimum_ampacity`](Self::minimum_ampacity) and [`maximum_protection`](Self::maximum_protection) at 225 %.
    /// # Errors
    /// A current that is not above zero and finite; as [`maximum_protection`](Self::maximum_protection).
    /// # Example
    /// ```
    /// use kingvalve::electrical::{Circuit, Installed, Load};
    /// use kingvalve::quantity::*;
    /// let unit = Circuit::of(vec![Load::compressor(amperes(18.0)), Load::Motor(amperes(1.5))])?;
    /// let found = Installed { conductor_ampacity: amperes(30.0), protection: amperes(50.0) };
    /// let check = unit.check(&found, None)?;
    /// assert!(check.conductor_verdict().is_within() && check.protection_verdict().is_outside());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn check(&self, installed: &Installed, plate: Option<&Plate>) -> Result<CircuitCheck> {
        let (ampacity, protection, source) = match plate {
            Some(plate) => (plate.minimum_ampacity, plate.maximum_protection, "data plate"),
            None => {
                let protection = self.maximum_protection(LARGEST_SHARE)?.standard;
                (self.minimum_ampacity(), protection, "NEC article 440")
            }
        };
        let all = [
            ("minimum circuit ampacity", ampacity),
            ("maximum overcurrent protection", protection),
            ("conductor ampacity", installed.conductor_ampacity),
            ("installed protection", installed.protection),
        ];
        for (what, current) in all {
            if !(current > amperes(0.0) && current.is_finite()) {
                return Err(Error::out_of_range(
                    what,
                    current,
                    "it must be above zero and finite",
                    "copy it from the data plate or the device",
                ));
            }
        }
        let level = Level::default();
        // Rounding in the sums must not condemn a wire of exactly the ampacity wanted.
        let ampacity = ampacity * (1.0 - 1e-12);
        let wire = Limits::at_least(ampacity)?.from_source(format!("minimum circuit ampacity, {source}"));
        let breaker = Limits::at_most(protection)?.from_source(format!("maximum protection, {source}"));
        Ok(CircuitCheck {
            conductor: wire.judge(installed.conductor_ampacity, level)?,
            protection: breaker.judge(installed.protection, level)?,
        })
    }

    fn total(&self) -> Current {
        self.loads.iter().map(Load::current).sum()
    }
}

impl CircuitCheck {
    /// The conductors against the minimum ampacity.
    pub fn conductor_verdict(&self) -> &Verdict<Current> {
        &self.conductor
    }

    /// The breaker or fuse against the maximum.
    pub fn protection_verdict(&self) -> &Verdict<Current> {
        &self.protection
    }

    /// The finding, in the shape shared by all checks. Its verdict is that of the worse of the two.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let mut both = [("conductors", &self.conductor), ("overcurrent protection", &self.protection)];
        both.sort_by_key(|(_, verdict)| verdict.is_within());
        let mut finding = Finding::of("circuit_sizes");
        for (what, verdict) in both {
            finding = finding.judged(what, verdict)?;
        }
        finding = deferring(finding.saying(self.to_string().replace('\n', " ")));
        if both.iter().any(|(_, verdict)| verdict.is_outside()) {
            finding = finding.then("Have a licensed electrician correct the circuit before the unit is run.");
        }
        Ok(finding.caution(Caution::LiveVoltage).source("NEC 440.22, 440.32, 440.33 and 240.6(A)"))
    }
}

/// One line each.
impl fmt::Display for CircuitCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let line = |verdict: &Verdict<Current>, what: &str| {
            let judgement = verdict.judgement();
            let limits = judgement.limits();
            let word = if verdict.is_within() { "suits" } else { "does not suit" };
            let limit = limits.lower().or(limits.upper()).unwrap_or(Current::from_base(0.0));
            format!("{what} of {:.1} {word} the {} of {limit:.1}.", judgement.value(), limits.source())
        };
        writeln!(f, "{}", line(&self.conductor, "A conductor ampacity"))?;
        write!(f, "{}", line(&self.protection, "An overcurrent protection"))
    }
}
