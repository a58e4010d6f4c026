//! `fault_ranking`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Check, refrigerant};
use crate::Result;
use crate::fault::{Expected, Fault, Feature, Metering, Operation, Patterns, Priors, Ranking, Spreads};
use crate::measure::Finding;
use crate::quantity::{Ratio, Site, TemperatureDifference};

/// Which faults the readings of a running system point to, and what to read next.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct FaultRanking {
    /// Its designation: "R-410A".
    refrigerant: String,
    /// Where the gauges were read: elevation or barometer.
    site: Site,
    /// What lets the refrigerant into the indoor coil.
    metering: Metering,
    /// What was read, in steady cooling.
    readings: Operation,
    /// What it should be; a feature without an expectation is not used.
    expected: Expected,
    /// Weights of faults in place of the default percentages.
    #[serde(default)]
    priors: Vec<Weight>,
    /// How well features not read yet could be read, in place of the default spreads.
    #[serde(default)]
    spreads: Vec<Spread>,
}

/// The weight of one fault before any reading.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename = "prior weight", deny_unknown_fields)]
struct Weight {
    /// Which.
    fault: Fault,
    /// In percent of the calls.
    weight: Ratio,
}

/// How well one feature could be read.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename = "spread", deny_unknown_fields)]
struct Spread {
    /// Which.
    feature: Feature,
    /// Standard uncertainty of a reading of it.
    standard: TemperatureDifference,
}

impl Check for FaultRanking {
    const NAME: &'static str = "fault_ranking";
    const EXAMPLE: &'static str = include_str!("examples/fault_ranking.json");

    fn find(self) -> Result<Finding> {
        let refrigerant = refrigerant(&self.refrigerant)?;
        let residuals = self
            .readings
            .residuals(&refrigerant, &self.site, &self.expected)
            .map_err(|error| error.in_field("readings"))?;
        let mut priors = Priors::default();
        for given in self.priors {
            priors = priors.with(given.fault, given.weight).map_err(|error| error.in_field("priors"))?;
        }
        let mut spreads = Spreads::default();
        for given in self.spreads {
            spreads =
                spreads.with(given.feature, given.standard).map_err(|error| error.in_field("spreads"))?;
        }
        let ranking = Ranking::of(&residuals, &Patterns::of(self.metering), &priors)?;
        let finding = ranking.finding(&spreads)?;
        Ok(refrigerant.cautioned(finding))
    }
}
