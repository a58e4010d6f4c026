//! The chances an outlook rests on, and the records that teach them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Aging, Chance, FailureRecords, Places};
use crate::Result;
use crate::quantity::percent;

/// Every chance of an outlook, each with a default that is common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Chances {
    /// That a sealant stops the leak for good. Default 40 %, worth five cases.
    pub sealant_holds: Chance,
    /// That an hour of searching finds the leak. Default 50 %, worth four cases.
    pub found_in_an_hour: Chance,
    /// Where a leak that is found turns out to be. Default 40 % reachable, 45 % indoor coil, 15 % outdoor unit, worth ten.
    pub places: Places,
    /// That a repair stops the leak for good. Default 85 %, worth ten cases.
    pub repair_holds: Chance,
    /// How likely equipment fails as it ages. Default: a typical life of 18 years, worth four failures.
    pub aging: Aging,
}

impl Default for Chances {
    fn default() -> Self {
        Chances {
            sealant_holds: Chance::usual(percent(40.0), 5.0),
            found_in_an_hour: Chance::usual(percent(50.0), 4.0),
            places: Places { reachable: 4.0, indoor_coil: 4.5, outdoor_unit: 1.5, records: 0 },
            repair_holds: Chance::usual(percent(85.0), 10.0),
            aging: Aging::default(),
        }
    }
}

/// What became of something that was tried.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Tried {
    /// How often it worked.
    pub worked: u64,
    /// How often it did not.
    pub failed: u64,
}

/// What a shop's own visit records say, counted.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct ShopRecords {
    /// Sealants that held, and that did not.
    pub sealants: Tried,
    /// Hours of searching: those in which the leak was found, and those in vain.
    pub search_hours: Tried,
    /// Leaks found: reachable, at the indoor coil, in the outdoor unit.
    pub places: [u64; 3],
    /// Repairs that held, and that did not.
    pub repairs: Tried,
    /// Equipment watched, by group.
    pub failures: Vec<FailureRecords>,
}

impl Chances {
    /// After a shop's own records.
    ///
    /// # Units
    /// Counts of cases, hours and pieces.
    /// # Source
    /// Conjugate updating: beta-binomial, Dirichlet-multinomial, gamma-Poisson; see [`Chance`], [`Places`], [`Aging`].
    /// # Valid range
    /// Records of like work on like equipment.
    /// # Accuracy
    /// Exact for the beliefs it starts from; few records move them little.
    /// # Errors
    /// Records of failures that cannot be.
    /// # Example
    /// ```
    /// use kingvalve::estimate::outlook::{Chances, ShopRecords, Tried};
    /// let records = ShopRecords { sealants: Tried { worked: 3, failed: 12 }, ..ShopRecords::default() };
    /// let ours = Chances::default().learned(&records)?;
    /// assert_eq!(format!("{:.0}", ours.sealant_holds.mean()), "25 %"); // (2 + 3)/(5 + 15)
    /// assert_eq!((ours.sealant_holds.records(), ours.repair_holds.records()), (15, 0));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn learned(self, records: &ShopRecords) -> Result<Chances> {
        let tried =
            |chance: Chance, Tried { worked, failed }| chance.learned(worked, worked.saturating_add(failed));
        let aging = records.failures.iter().try_fold(self.aging, |aging, seen| aging.learned(*seen))?;
        Ok(Chances {
            sealant_holds: tried(self.sealant_holds, records.sealants),
            found_in_an_hour: tried(self.found_in_an_hour, records.search_hours),
            places: self.places.learned(records.places),
            repair_holds: tried(self.repair_holds, records.repairs),
            aging,
        })
    }
}
