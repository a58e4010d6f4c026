//! The ways forward and the bill of a visit, by the record's rate card.

use std::borrow::Cow;

use super::Record;
use super::results::ChargedResult;
use crate::Result;
use crate::estimate::{Charge, Language, PricedWay, RateCard, Situation, UnitSystem, Way, Words};
use crate::measure::Interval;
use crate::quantity::Mass;
use crate::refrigerant::Refrigerant;

/// The record's card for this customer and place.
pub(super) fn card(record: &Record) -> Result<Option<Cow<'_, RateCard>>> {
    let Some(card) = &record.rates else { return Ok(None) };
    let mut card = Cow::Borrowed(card);
    if let Some(jurisdictions) = &record.jurisdictions {
        let here = card.for_place(jurisdictions).map_err(|error| error.in_field("jurisdictions"))?;
        card = Cow::Owned(here);
    }
    if let Some(membership) = &record.membership {
        let for_member = card.for_member(membership).map_err(|error| error.in_field("membership"))?;
        card = Cow::Owned(for_member);
    }
    Ok(Some(card))
}

/// The ways of the record, before they are priced.
pub(super) fn laid_out(
    record: &Record,
    refrigerant: &Refrigerant,
    missing: Interval<Mass>,
    card: &RateCard,
    (language, units): (Language, UnitSystem),
) -> Vec<Way> {
    Situation { language, units, ..situation(record, refrigerant, missing) }.ways_of(card)
}

/// What the visit found, and how the shop works.
pub(super) fn situation(record: &Record, refrigerant: &Refrigerant, missing: Interval<Mass>) -> Situation {
    let mut situation = Situation::new(refrigerant.designation(), missing);
    situation.replacement.clone_from(&record.equipment.replacement);
    if let Some(hours) = &record.hours {
        situation.hours = hours.clone();
    }
    situation
}

/// The ways, priced, each alone and together with the card's additions.
pub(super) fn ways(
    record: &Record,
    refrigerant: &Refrigerant,
    missing: Option<Interval<Mass>>,
) -> Result<Vec<PricedWay>> {
    let (Some(card), Some(missing)) = (card(record)?, missing) else {
        return Ok(Vec::new());
    };
    laid_out(record, refrigerant, missing, &card, (record.language, record.units))
        .iter()
        .map(|way| way.price_with(&card, &card.additions))
        .collect::<Result<_>>()
        .map_err(|error| error.in_field("rates"))
}

/// The work as it was, priced: none where nothing is billed.
pub(super) fn bill(
    record: &Record,
    refrigerant: &Refrigerant,
    charged: Option<&ChargedResult>,
    ways: &[PricedWay],
) -> Result<Option<PricedWay>> {
    let (Some(card), Some(done)) = (card(record)?, &record.done) else {
        return Ok(None);
    };
    let mut work = done.work.clone();
    if let (true, Some(charged)) = (work.refrigerants.is_empty(), charged) {
        let mass = Interval::exactly(charged.total.value().max(Mass::ZERO))?;
        work.refrigerants.push(Charge { designation: refrigerant.designation().to_owned(), mass });
    }
    let chosen = record.consent.as_ref().map(|consent| consent.way.as_str());
    let title = ways.iter().find(|way| Some(way.name()) == chosen).map(PricedWay::title);
    let title = title.map_or_else(|| record.language.visit("work_done", &[]), str::to_owned);
    let name = chosen.unwrap_or("work done").to_owned();
    let way = Way { name, title, work, words: Words::default() };
    way.price(&card).map(Some).map_err(|error| error.in_field("done.work"))
}
