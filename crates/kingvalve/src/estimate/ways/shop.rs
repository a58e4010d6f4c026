//! A shop's own ways and additions, as data on its rate card.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Situation;
use crate::estimate::{Way, Words, Work};

/// A way that a shop offers besides the built-in ones: its own work and words, put on top of one of them.
///
/// # Example
/// ```
/// use kingvalve::estimate::{RateCard, Situation};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
/// let own = serde_json::from_str(r#"{
///     "name": "recharge and return",
///     "title": "Recharge, and come back in 30 days",
///     "after": "recharge",
///     "work": {"fees": [{"name": "trip", "least": 1, "most": 1}]},
///     "words": {"includes": ["A second visit: what has changed tells how fast it leaks."]}
/// }"#)?;
/// let card = RateCard { ways: vec![own], ..card };
/// let situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?);
/// let own = situation.shop_ways(&card);
/// assert_eq!(own[0].title, "Recharge, and come back in 30 days");
/// assert_eq!(own[0].price(&card)?.total().to_string(), "682.23–960.22 USD"); // a recharge and a second trip
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShopWay {
    /// What programs call it.
    pub name: String,
    /// What the customer reads.
    pub title: String,
    /// What it starts from.
    pub after: After,
    /// What it takes besides.
    #[serde(default)]
    pub work: Work,
    /// What is said of it besides.
    #[serde(default)]
    pub words: Words,
}

/// What a shop's own way starts from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum After {
    /// Nothing: not even the trip.
    Nothing,
    /// The trip and the diagnosis.
    Diagnosis,
    /// [`Situation::recharge`].
    Recharge,
    /// [`Situation::recharge_with_sealant`].
    RechargeWithSealant,
    /// [`Situation::leak_search`].
    LeakSearch,
    /// [`Situation::replace`]; not offered where no replacement is named.
    Replace,
}

/// Something that can be done at the same visit, whichever way is chosen: the run capacitor now as well.
///
/// # Example
/// ```
/// use kingvalve::estimate::{RateCard, Situation};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
/// let situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?);
/// let capacitor = card.addition("run capacitor")?.clone();
/// let priced = situation.recharge().price_with(&card, &[capacitor])?;
/// assert_eq!(priced.total().to_string(), "593.23–871.22 USD");
/// // A quarter of an hour is added to the hours before they are billed.
/// assert_eq!(priced.together()[0].total.to_string(), "708.41–986.40 USD");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Addition {
    /// What programs call it.
    pub name: String,
    /// What the customer reads after "together with".
    pub title: String,
    /// What it takes.
    pub work: Work,
    /// What is said of it.
    #[serde(default)]
    pub words: Words,
}

impl Situation {
    /// The shop's own ways that this situation allows, in the order of the card.
    pub fn shop_ways(&self, card: &crate::estimate::RateCard) -> Vec<Way> {
        card.ways.iter().filter_map(|way| self.shop_way(way)).collect()
    }

    /// One of the shop's own ways; none where it starts from a replacement and none is named.
    pub fn shop_way(&self, own: &ShopWay) -> Option<Way> {
        let base = match own.after {
            After::Nothing => (Work::default(), Words::default()),
            After::Diagnosis => (self.done_already(), Words::default()),
            After::Recharge => parts(self.recharge()),
            After::RechargeWithSealant => parts(self.recharge_with_sealant()),
            After::LeakSearch => parts(self.leak_search()),
            After::Replace => parts(self.replace()?),
        };
        let (work, words) = (base.0.and(own.work.clone()), base.1.and(own.words.clone()));
        Some(Way { name: own.name.clone(), title: own.title.clone(), work, words })
    }
}

fn parts(way: Way) -> (Work, Words) {
    (way.work, way.words)
}
