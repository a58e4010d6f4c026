//! What the work of each way costs today.

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use crate::estimate::{
    Charge, Currency, Money, PriceRange, RateCard, Rounding, Situation, Task, Way, WeightUnit, Words, Work,
};
use crate::measure::Interval;
use crate::quantity::{Mass, hours, kilograms, pounds};
use crate::{Error, Result};

/// Where a leak turns out to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LeakPlace {
    /// A joint, valve or line that can be reached.
    Reachable,
    /// The indoor coil.
    IndoorCoil,
    /// Inside the outdoor unit.
    OutdoorUnit,
}

impl LeakPlace {
    /// Every one.
    pub const ALL: [LeakPlace; 3] = [LeakPlace::Reachable, LeakPlace::IndoorCoil, LeakPlace::OutdoorUnit];
}

/// What a repair costs by the place of the leak: recovering, repairing, evacuating and weighing in, without the
/// refrigerant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlacePrices {
    /// A joint, valve or line that can be reached.
    pub reachable: PriceRange,
    /// A new indoor coil.
    pub indoor_coil: PriceRange,
    /// A new outdoor unit, or its coil.
    pub outdoor_unit: PriceRange,
}

impl PlacePrices {
    /// At one place.
    pub fn at(&self, place: LeakPlace) -> PriceRange {
        match place {
            LeakPlace::Reachable => self.reachable,
            LeakPlace::IndoorCoil => self.indoor_coil,
            LeakPlace::OutdoorUnit => self.outdoor_unit,
        }
    }
}

/// Today's prices, taxes included where they are added.
///
/// # Example
/// ```
/// use kingvalve::estimate::outlook::Prices;
/// use kingvalve::estimate::{RateCard, Situation};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
/// let mut situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?);
/// situation.coil = Some("indoor coil, 3 tons".into());
/// situation.outdoor_unit = Some("outdoor unit, 3 tons".into());
/// let prices = Prices::from_card(&card, &situation)?;
/// assert!(prices.refrigerant > card.refrigerant("R-454B")?.price); // with the card's tax on it
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Prices {
    /// Coming and finding out: every visit starts with it.
    pub called: PriceRange,
    /// Weighing in refrigerant and checking the result, without the refrigerant.
    pub recharge: PriceRange,
    /// One unit of refrigerant.
    pub refrigerant: Money,
    /// The unit.
    pub per: WeightUnit,
    /// Putting in sealant and dye besides.
    pub sealant: PriceRange,
    /// An hour of searching.
    pub search_hour: Money,
    /// Repairs by place, weighing in included, without the refrigerant.
    pub repair: PlacePrices,
    /// New equipment, installed and filled; without it nothing is replaced, and failures are left out.
    #[serde(default)]
    pub replacement: Option<PriceRange>,
}

/// What a new indoor coil costs installed, as a share of new equipment, where the card does not price one: common
/// practice, no source.
pub(crate) const INDOOR_COIL_SHARE: u32 = 30;
/// The same of a new outdoor unit.
pub(crate) const OUTDOOR_UNIT_SHARE: u32 = 60;

impl Prices {
    /// From a shop's rate card.
    ///
    /// A new indoor coil and a new outdoor unit cost what the situation's parts on the card do, installed, evacuated and
    /// weighed in; where it names none, 30 % and 60 % of new equipment (common practice, no source).
    ///
    /// # Units
    /// Money; refrigerant by the unit of the card.
    /// # Source
    /// Each is a way or part of one, priced as it would be printed ([`Way::price`]), taxes included.
    /// # Valid range
    /// Names that are on the card.
    /// # Accuracy
    /// Decimal; one unit of refrigerant and one hour are a thousandth of a thousand of them, so that counting by started
    /// steps does not enter.
    /// # Errors
    /// A name that is not on the card; neither a part nor new equipment named.
    pub fn from_card(card: &RateCard, situation: &Situation) -> Result<Prices> {
        let dry = Situation { missing: Interval::exactly(Mass::ZERO)?, ..situation.clone() };
        let total = |way: Way| way.price(card).map(|priced| priced.total());
        let called = total(dry.leave_as_is())?;
        let recharge = total(dry.recharge())?;
        let sealed = total(dry.recharge_with_sealant())?;
        let replacement = dry.replace().map(total).transpose()?.map(|all| all.minus(called)).transpose()?;
        let rate = card.refrigerant(&situation.refrigerant)?;
        let part = |way: &str, field: &str, share: u32| {
            let found = dry.once_found().into_iter().find(|found| found.name == way);
            match (found.map(total).transpose()?, replacement) {
                (Some(price), _) => Ok(price),
                (None, Some(new)) => {
                    let share = Decimal::new(share.into(), 2);
                    new.times(share, share, card.rounding)
                }
                (None, None) => {
                    let why = "neither it nor new equipment has a price";
                    let advice = "name the part or the new equipment as the rate card does";
                    Err(Error::inconsistent(field.replace('_', " "), why, advice).in_field(field))
                }
            }
        };
        Ok(Prices {
            called,
            recharge: recharge.minus(called)?,
            refrigerant: thousandth(total(bare(filled(situation, rate.per)?))?.low())?,
            per: rate.per,
            sealant: sealed.minus(recharge)?,
            search_hour: thousandth(total(bare(searched(situation)?))?.low())?,
            repair: PlacePrices {
                reachable: part("repair the leak", "leak_repair", 0)?,
                indoor_coil: part("replace the coil", "coil", INDOOR_COIL_SHARE)?,
                outdoor_unit: part("replace the outdoor unit", "outdoor_unit", OUTDOOR_UNIT_SHARE)?,
            },
            replacement,
        })
    }

    /// The currency of all of them.
    pub fn currency(&self) -> Currency {
        self.refrigerant.currency()
    }

    /// Every one that must be in that currency.
    pub(super) fn all(&self) -> Vec<Money> {
        let ranges = [
            self.called,
            self.recharge,
            self.sealant,
            self.repair.reachable,
            self.repair.indoor_coil,
            self.repair.outdoor_unit,
        ];
        let ranges = ranges.into_iter().chain(self.replacement);
        ranges.map(PriceRange::high).chain([self.refrigerant, self.search_hour]).collect()
    }
}

const THOUSAND: f64 = 1000.0;

/// A thousand units of the refrigerant.
fn filled(situation: &Situation, per: WeightUnit) -> Result<Work> {
    let mass = match per {
        WeightUnit::Pound => pounds(THOUSAND),
        WeightUnit::Kilogram => kilograms(THOUSAND),
    };
    let charge = Charge { designation: situation.refrigerant.clone(), mass: Interval::exactly(mass)? };
    Ok(Work { refrigerants: vec![charge], ..Work::default() })
}

/// A thousand hours of searching.
fn searched(situation: &Situation) -> Result<Work> {
    let (role, band) = (situation.names.role.clone(), situation.names.band.clone());
    let task = Task { what: "search".into(), role, band, hours: Interval::exactly(hours(THOUSAND))? };
    Ok(Work { tasks: vec![task], ..Work::default() })
}

fn bare(work: Work) -> Way {
    Way { name: String::new(), title: String::new(), work, words: Words::default() }
}

fn thousandth(money: Money) -> Result<Money> {
    let places = money.currency().minor_units() + 3;
    let amount = money.amount() / Decimal::ONE_THOUSAND;
    Money::new(Rounding::HalfUp.to_places(amount, places), money.currency())
}
