//! What each fault does to each feature.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::feature::FEATURES;
use super::{Fault, Feature};
use crate::quantity::{Quantity, Ratio, TemperatureDifference, delta_fahrenheit, fraction};
use crate::{Error, Result};

const FAULTS: usize = Fault::ALL.len();

/// How the refrigerant is let into the indoor coil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Metering {
    /// Piston, orifice or capillary tube.
    FixedOrifice,
    /// Thermostatic or electronic valve: it holds superheat as long as it can.
    Valve,
}

/// What the direction of an effect rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Basis {
    /// The rules of Rossi and Braun, seen as quoted.
    Published,
    /// Recalled; no copy seen.
    Memory,
    /// Given by the user.
    User,
}

/// The effect of every fault on every feature, how much effects vary, and how well normal performance is known.
///
/// A fault of severity *s* moves feature *i* by *s·mᵢ*, where *mᵢ* is the typical effect, with a standard deviation of
/// `variation`·*s·|mᵢ|*; what the feature should have been is known within `scatter`. Severities have weights. One system
/// in twenty is unlike what was expected of it: there the scatter is three times as wide, so that no pattern is ever
/// ruled out by a few degrees alone.
///
/// # Units
/// Temperature differences; a severity of 1 is the typical one.
/// # Source
/// *Directions*, fixed orifice, of low charge, low indoor airflow, dirty outdoor coil, liquid-line restriction and weak
/// compressor on the first six features: T. M. Rossi and J. E. Braun, HVAC&R Research 3 (1997) 19–37, as quoted in H. Li
/// and J. E. Braun, Fault Detection and Diagnostics for Rooftop Air Conditioners (Purdue University), Table 1-1 (seen;
/// the evaporating depression has the sign opposite to the evaporating temperature). M. S. Breuker and J. E. Braun,
/// HVAC&R Research 4 (1998) 303–318, confirmed them in the laboratory (abstract seen). *Directions* of the other
/// faults, and all of those with a valve, are from memory: Y. Chen and J. E. Braun, ASHRAE Transactions 107 (2001),
/// and M. Kim and others, NIST SP 1087 (2008), of which only abstracts were seen. *Sizes*, `variation`, `scatter` and
/// severities: common practice, no source. [`basis`](Patterns::basis) says which is which.
/// # Valid range
/// Steady cooling, one fault, single-speed compressor, both fans running, no ice, outdoor air from 65 °F to 115 °F.
/// # Accuracy
/// Directions hold for most equipment; sizes differ by a factor of two from one to another, which is what the
/// severities and `variation` stand for.
/// # Example
/// ```
/// use kingvalve::fault::{Basis, Fault, Feature, Patterns};
/// use kingvalve::quantity::*;
/// let orifice = Patterns::fixed_orifice();
/// assert!(orifice.effect(Fault::LowCharge, Feature::Superheat) > delta_fahrenheit(10.0));
/// assert_eq!(orifice.basis(Fault::LowCharge, Feature::Superheat), Basis::Published);
/// // A valve holds superheat until it can no longer.
/// let valve = Patterns::valve();
/// assert!(valve.effect(Fault::LowCharge, Feature::Superheat) < delta_fahrenheit(5.0));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Patterns {
    metering: Metering,
    /// Kelvins.
    effects: [[f64; FEATURES]; FAULTS],
    bases: [[Basis; FEATURES]; FAULTS],
    scatter: [f64; FEATURES],
    variation: f64,
    severities: Vec<(f64, f64)>,
    unlike: f64,
}

/// One form a fault may take: how severe, and on a system how like the expected one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Form {
    pub(super) severity: f64,
    /// What the scatter is multiplied by.
    pub(super) stretch: f64,
    /// Its share of the fault's probability.
    pub(super) weight: f64,
}

/// °F at severity 1, features in the order of `Feature::ALL`, faults in that of `Fault::ALL`.
const FIXED_ORIFICE: [[f64; FEATURES]; FAULTS] = [
    [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
    [14.0, -7.0, -5.0, 7.0, -4.0, 15.0, 0.0, 0.0],
    [-7.0, 7.0, 6.0, -3.0, 0.0, -4.0, 0.0, 0.0],
    [-6.0, -2.0, -4.0, 7.0, 5.0, -6.0, 0.0, 0.0],
    [-4.0, -2.0, 12.0, -3.0, -2.0, 8.0, 0.0, 0.0],
    [14.0, 5.0, -3.0, 9.0, -4.0, 12.0, 5.0, 0.0],
    [-8.0, -5.0, 2.0, -4.0, -1.0, -8.0, 0.0, 0.0],
    [12.0, 5.0, -3.0, 8.0, -4.0, 12.0, 0.0, 0.0],
    [-2.0, 6.0, 9.0, -1.0, -1.0, 10.0, 0.0, 10.0],
    [-6.0, -3.0, -6.0, -8.0, -6.0, -8.0, 0.0, 0.0],
];

const VALVE: [[f64; FEATURES]; FAULTS] = [
    [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
    [3.0, -7.0, -3.0, 2.0, -2.0, 4.0, 0.0, 0.0],
    [0.0, 8.0, 7.0, 0.0, 0.0, 5.0, 0.0, 0.0],
    [-1.0, -1.0, -3.0, 7.0, 5.0, -3.0, 0.0, 0.0],
    [0.0, -1.0, 12.0, -1.0, -1.0, 10.0, 0.0, 0.0],
    [10.0, 5.0, -3.0, 7.0, -4.0, 10.0, 5.0, 0.0],
    [-7.0, -4.0, 1.0, -3.0, -1.0, -8.0, 0.0, 0.0],
    [12.0, 5.0, -3.0, 8.0, -4.0, 12.0, 0.0, 0.0],
    [0.0, 6.0, 9.0, 0.0, -1.0, 10.0, 0.0, 10.0],
    [0.0, -2.0, -6.0, -8.0, -6.0, 0.0, 0.0, 0.0],
];

/// How well normal performance is known in the field, standard, °F: common practice, no source.
const SCATTER: [f64; FEATURES] = [3.0, 2.0, 3.0, 3.0, 1.5, 8.0, 1.0, 2.0];
/// How much effects vary from one piece of equipment to another: common practice, no source.
const VARIATION: f64 = 0.4;
/// Severities and their weights: common practice, no source.
const SEVERITIES: [(f64, f64); 4] = [(0.5, 0.25), (1.0, 0.40), (2.0, 0.25), (4.0, 0.10)];
/// The share of systems that are unlike what was expected of them, and how much wider they scatter: common practice,
/// no source.
const UNLIKE: f64 = 0.05;
const STRETCH: f64 = 3.0;

impl Patterns {
    /// Those of a fixed orifice.
    pub fn fixed_orifice() -> Patterns {
        Patterns::of(Metering::FixedOrifice)
    }

    /// Those of a thermostatic or electronic valve.
    pub fn valve() -> Patterns {
        Patterns::of(Metering::Valve)
    }

    /// Those of that metering device.
    pub fn of(metering: Metering) -> Patterns {
        let (table, published) = match metering {
            Metering::FixedOrifice => (FIXED_ORIFICE, true),
            Metering::Valve => (VALVE, false),
        };
        let mut bases = [[Basis::Memory; FEATURES]; FAULTS];
        for fault in RULED {
            for basis in bases.iter_mut().skip(fault.at()).take(1).flatten().take(RULED_FEATURES) {
                *basis = if published { Basis::Published } else { Basis::Memory };
            }
        }
        Patterns {
            metering,
            effects: table.map(|row| row.map(|effect| delta_fahrenheit(effect).base())),
            bases,
            scatter: SCATTER.map(|scatter| delta_fahrenheit(scatter).base()),
            variation: VARIATION,
            severities: SEVERITIES.to_vec(),
            unlike: UNLIKE,
        }
    }

    /// The same with the effect of one fault on one feature replaced.
    ///
    /// # Errors
    /// An effect of "no fault", or one that is not finite.
    pub fn with(mut self, fault: Fault, feature: Feature, effect: TemperatureDifference) -> Result<Self> {
        if fault == Fault::NoFault {
            let why = "no fault has no effect";
            return Err(Error::inconsistent(
                "pattern",
                why,
                "change what was expected of the feature instead",
            ));
        }
        if !effect.is_finite() {
            let what = format!("effect of {fault} on {feature}");
            return Err(Error::out_of_range(what, effect, "it is finite", "0 where there is none"));
        }
        if let Some(slot) = self.effects.get_mut(fault.at()).and_then(|row| row.get_mut(feature.at())) {
            *slot = effect.base();
        }
        if let Some(slot) = self.bases.get_mut(fault.at()).and_then(|row| row.get_mut(feature.at())) {
            *slot = Basis::User;
        }
        Ok(self)
    }

    /// The same with another standard scatter of what a feature should be.
    ///
    /// # Errors
    /// Unless it is finite and positive: normal performance is never known exactly.
    pub fn with_scatter(mut self, feature: Feature, scatter: TemperatureDifference) -> Result<Self> {
        if !(scatter.is_finite() && scatter.base() > 0.0) {
            return Err(Error::out_of_range(
                format!("scatter of {feature}"),
                scatter,
                "it is finite and above zero",
                "normal performance is never known exactly; a tenth of a degree is as good as exact",
            ));
        }
        if let Some(slot) = self.scatter.get_mut(feature.at()) {
            *slot = scatter.base();
        }
        Ok(self)
    }

    /// The same with another variation of effects, as a share of their size.
    ///
    /// # Errors
    /// Unless it lies from 0 % to 100 %.
    pub fn with_variation(mut self, variation: Ratio) -> Result<Self> {
        if !(0.0..=1.0).contains(&variation.fraction()) {
            let advice = "40 % is the default";
            return Err(Error::out_of_range("variation", variation, "it lies from 0 % to 100 %", advice));
        }
        self.variation = variation.fraction();
        Ok(self)
    }

    /// The same with another share of systems that are unlike what was expected.
    ///
    /// # Errors
    /// Unless it lies from 0 % to 50 %.
    pub fn with_unlike(mut self, share: Ratio) -> Result<Self> {
        if !(0.0..=0.5).contains(&share.fraction()) {
            let limit = "it lies from 0 % to 50 %";
            return Err(Error::out_of_range(
                "share of systems unlike the expected",
                share,
                limit,
                "5 % is usual",
            ));
        }
        self.unlike = share.fraction();
        Ok(self)
    }

    /// The same with other severities, each a multiple of the typical effect with its weight.
    ///
    /// # Errors
    /// None, one that is not above zero and at most 10, or weights that are not positive.
    pub fn with_severities(mut self, severities: &[(Ratio, Ratio)]) -> Result<Self> {
        let fits = |&(severity, weight): &(Ratio, Ratio)| {
            severity.fraction() > 0.0
                && severity.fraction() <= 10.0
                && weight.is_finite()
                && weight.fraction() > 0.0
        };
        if severities.is_empty() || !severities.iter().all(fits) {
            return Err(Error::inconsistent(
                "severities",
                "each lies above 0 and up to 10 times the typical effect, with a weight above zero",
                "give at least one: 1 with weight 1",
            ));
        }
        let total: f64 = severities.iter().map(|(_, weight)| weight.fraction()).sum();
        self.severities = severities.iter().map(|(s, w)| (s.fraction(), w.fraction() / total)).collect();
        Ok(self)
    }

    /// Of what metering device.
    pub fn metering(&self) -> Metering {
        self.metering
    }

    /// The typical effect of a fault on a feature.
    pub fn effect(&self, fault: Fault, feature: Feature) -> TemperatureDifference {
        TemperatureDifference::from_base(self.si(fault, feature))
    }

    /// What the direction of that effect rests on.
    pub fn basis(&self, fault: Fault, feature: Feature) -> Basis {
        let row = self.bases.get(fault.at());
        row.and_then(|row| row.get(feature.at())).copied().unwrap_or(Basis::Memory)
    }

    /// How well it is known what the feature should be: standard.
    pub fn scatter(&self, feature: Feature) -> TemperatureDifference {
        TemperatureDifference::from_base(self.scatter.get(feature.at()).copied().unwrap_or(0.0))
    }

    /// How much effects vary, as a share of their size.
    pub fn variation(&self) -> Ratio {
        fraction(self.variation)
    }

    /// Every form a fault may take, weights summing to one: no fault has the one severity 0.
    pub(super) fn forms(&self, fault: Fault) -> impl Iterator<Item = Form> {
        let severities: &[(f64, f64)] =
            if fault == Fault::NoFault { &[(0.0, 1.0)] } else { &self.severities };
        severities
            .iter()
            .flat_map(|&(severity, weight)| {
                [(1.0, 1.0 - self.unlike), (STRETCH, self.unlike)].map(|(stretch, share)| Form {
                    severity,
                    stretch,
                    weight: weight * share,
                })
            })
            .filter(|form| form.weight > 0.0)
    }

    /// Mean and variance of a feature's residual under a fault of that form, before the doubt of the reading.
    pub(super) fn predicted(&self, fault: Fault, form: Form, feature: Feature) -> (f64, f64) {
        let mean = form.severity * self.si(fault, feature);
        let (vary, scatter) = (self.variation * mean, form.stretch * self.scatter(feature).base());
        (mean, vary * vary + scatter * scatter)
    }

    fn si(&self, fault: Fault, feature: Feature) -> f64 {
        let row = self.effects.get(fault.at());
        row.and_then(|row| row.get(feature.at())).copied().unwrap_or(0.0)
    }
}

/// The faults of the published rules.
const RULED: [Fault; 5] = [
    Fault::LowCharge,
    Fault::LowIndoorAirflow,
    Fault::DirtyOutdoorCoil,
    Fault::LiquidLineRestriction,
    Fault::WeakCompressor,
];
/// The rules cover the first six features.
const RULED_FEATURES: usize = 6;
