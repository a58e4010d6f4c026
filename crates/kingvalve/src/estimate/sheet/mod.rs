//! The sheets: options, outlook, work report, invoice. Each is one printed page, and the same as plain text and as Markdown.

mod clean;
mod curves;
mod doc;
mod figures;
mod fit;
mod html;
mod invoice;
mod labels;
mod outlook;
mod reading;
mod report;
mod scale;
mod text;
mod view;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

pub use html::Templates;
pub use invoice::{Invoice, Payment};
pub use outlook::OutlookSheet;
pub use reading::ReadingRow;
pub use report::WorkReport;

use super::{Language, Money, PricedWay};
use crate::{Error, Result};

/// Everything on the sheet: what was found, what it can cost, what the customer agrees to.
///
/// Plain values, so that any record can feed it. Text is printed as it is given: nothing in it is markup. No clock and no
/// locale is read; the same sheet gives the same bytes.
///
/// # Example
/// ```
/// use kingvalve::estimate::{OptionsSheet, RateCard, Situation};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
/// let situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?);
/// let ways = situation.ways().iter().map(|way| way.price(&card)).collect::<Result<_, _>>()?;
/// let sheet = OptionsSheet {
///     shop: card.shop.clone(),
///     known: vec!["The outdoor unit holds almost no refrigerant.".into()],
///     unknown: vec!["Where it went.".into()],
///     ways,
///     ..OptionsSheet::default()
/// };
/// assert!(sheet.to_html()?.contains("up to $871.22"));
/// assert!(sheet.to_text()?.contains("593.23 to 871.22 USD"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OptionsSheet {
    /// The shop, as it signs.
    pub shop: String,
    /// Its address, telephone, licence: a line each.
    #[serde(default)]
    pub shop_lines: Vec<String>,
    /// What this visit was about; "Your options" if blank.
    #[serde(default)]
    pub title: String,
    /// Labelled facts at the head: prepared for, address, equipment, date, technician.
    #[serde(default)]
    pub facts: Vec<Fact>,
    /// What the readings establish.
    pub known: Vec<String>,
    /// What they do not.
    pub unknown: Vec<String>,
    /// The ways forward, in the order in which they are offered.
    pub ways: Vec<PricedWay>,
    /// What the technician would do and why, if the shop says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub advice: Option<String>,
    /// What can hurt somebody, whichever way is chosen.
    #[serde(default)]
    pub cautions: Vec<String>,
    /// The shop's own small print: warranty words, how long the prices hold.
    #[serde(default)]
    pub terms: Vec<String>,
    /// What was agreed, once it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub consent: Option<Consent>,
    /// The paper it is laid out for.
    #[serde(default)]
    pub paper: Paper,
    /// The language of everything the library says; the words of the ways are those they were priced with.
    #[serde(default)]
    pub language: Language,
    /// The shop's own words in that language ([`RateCard::labels`](super::RateCard::labels)).
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub labels: BTreeMap<String, String>,
}

/// One labelled fact.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fact {
    /// What it is: "Equipment".
    pub label: String,
    /// The fact: "3-ton split, R-454B".
    pub value: String,
}

impl Fact {
    /// A labelled fact.
    pub fn new(label: impl Into<String>, value: impl Into<String>) -> Self {
        Self { label: label.into(), value: value.into() }
    }
}

/// What the customer agreed to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Consent {
    /// The name of the way that was chosen.
    pub way: String,
    /// The most that may be charged without asking again.
    pub up_to: Money,
    /// Who agreed.
    pub by: String,
    /// When, as it is to be printed.
    pub on: String,
}

/// The paper a sheet is laid out for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    /// 8.5 by 11 inches.
    #[default]
    Letter,
    /// 210 by 297 mm.
    A4,
}

impl Paper {
    fn css(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::A4 => "A4",
        }
    }
}

fn facts(facts: &[Fact], labels: &labels::Labels) -> Vec<(String, String)> {
    facts.iter().map(|fact| (labels.of(&fact.label), labels.of(&fact.value))).collect()
}

/// Ways are lettered.
const MOST_WAYS: usize = 26;

impl OptionsSheet {
    /// The sheet as one HTML page, with its style and pictures inside.
    ///
    /// Letter or A4 upright. It reads in black and white, and by a screen reader.
    ///
    /// # Errors
    /// No way or more than 26, two of one name, two currencies, a consent to a way that is not offered or for less than it
    /// can cost.
    ///
    /// # Example
    /// See [`OptionsSheet`].
    pub fn to_html(&self) -> Result<String> {
        html::render("options.html", self.view()?)
    }

    /// The same by a shop's own templates.
    ///
    /// # Errors
    /// As for [`to_html`](Self::to_html); a template that does not read, or asks for what is not there.
    ///
    /// # Example
    /// See [`Templates`].
    pub fn to_html_by(&self, templates: &Templates) -> Result<String> {
        templates.render("options.html", self.view()?)
    }

    /// The sheet as plain text, 78 columns wide, for a report or a terminal.
    ///
    /// # Errors
    /// As for [`to_html`](Self::to_html).
    ///
    /// # Example
    /// See [`OptionsSheet`].
    pub fn to_text(&self) -> Result<String> {
        Ok(doc::text(&text::blocks(&self.view()?, self.language)))
    }

    /// The sheet as Markdown (CommonMark).
    ///
    /// # Errors
    /// As for [`to_html`](Self::to_html).
    ///
    /// # Example
    /// See [`OptionsSheet`].
    pub fn to_markdown(&self) -> Result<String> {
        Ok(doc::markdown(&text::blocks(&self.view()?, self.language)))
    }

    /// What is printed, checked.
    fn view(&self) -> Result<view::View> {
        self.check()?;
        let mut view = view::View::of(self);
        view.points = fit::options(&view, self.paper);
        Ok(view)
    }

    fn check(&self) -> Result<()> {
        if self.ways.is_empty() || self.ways.len() > MOST_WAYS {
            let (count, limit) = (self.ways.len(), format!("1 to {MOST_WAYS}"));
            let error = Error::out_of_range(
                "number of ways",
                count,
                limit,
                "offer at least one, and letter them all",
            );
            return Err(error.in_field("ways"));
        }
        for (index, way) in self.ways.iter().enumerate() {
            let earlier = self.ways.iter().take(index);
            let first = earlier.clone().next().map_or(way, |first| first);
            let same = first.total().low().same_currency(way.total().low());
            let named = match earlier.into_iter().any(|other| other.name() == way.name()) {
                true => {
                    Err(Error::inconsistent("way", format!("two are named {:?}", way.name()), "rename one"))
                }
                false => Ok(()),
            };
            same.and(named).map_err(|error| error.in_field(format!("[{index}]")).in_field("ways"))?;
        }
        self.consent.as_ref().map_or(Ok(()), |consent| self.check_consent(consent))
    }

    fn check_consent(&self, consent: &Consent) -> Result<()> {
        let chosen = self.ways.iter().find(|way| way.name() == consent.way);
        let unknown =
            || Error::unknown("way", &*consent.way, self.ways.iter().map(PricedWay::name)).in_field("way");
        chosen
            .ok_or_else(unknown)
            .and_then(|way| way.clone().limited_to(consent.up_to))
            .map_err(|error| error.in_field("consent"))
            .map(drop)
    }
}
