//! The outlook sheet: what each way is expected to cost over years, what would change that, and what it rests on.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::curves::{self, Curves};
use super::doc::Block;
use super::labels::Labels;
use super::scale::Scale;
use super::text::list;
use super::{Fact, Paper, Templates, doc, facts, figures, fit, html};
use crate::Result;
use crate::estimate::outlook::{Assumption, Basis, Forward, Outlook, Teller, WayOutlook, WhatWouldChange};
use crate::estimate::price::sentence;
use crate::estimate::{Language, Money, UnitSystem};

/// The years ahead on one page: a statistic beside the prices of the [options sheet](super::OptionsSheet).
///
/// # Example
/// ```
/// use kingvalve::estimate::OutlookSheet;
/// use kingvalve::visit::{OutlookAsked, Visit};
/// # let text = include_str!("../../../../../examples/data/no_cool_r454b.json");
/// let evaluation = Visit::from_json(text)?.evaluate()?.with_outlook(OutlookAsked::default())?;
/// let sheet: OutlookSheet = evaluation.outlook_sheet().expect("it was asked for");
/// assert!(sheet.to_html()?.contains("<svg"));
/// assert!(sheet.to_text().contains("averages over what may happen, not prices"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct OutlookSheet {
    /// The shop, as it signs.
    pub shop: String,
    /// Its address, telephone, licence: a line each.
    pub shop_lines: Vec<String>,
    /// What the language calls the page, if blank.
    pub title: String,
    /// Labelled facts at the head.
    pub facts: Vec<Fact>,
    /// What was found.
    pub outlook: Outlook,
    /// What would change the order.
    pub change: Option<WhatWouldChange>,
    /// What can hurt somebody.
    pub cautions: Vec<String>,
    /// The shop's small print.
    pub terms: Vec<String>,
    /// The paper it is laid out for.
    pub paper: Paper,
    /// The language of everything the library says.
    pub language: Language,
    /// The units of the page.
    pub units: UnitSystem,
    /// The shop's own words in that language.
    pub labels: BTreeMap<String, String>,
}

#[derive(Serialize)]
pub(super) struct View {
    lang: &'static str,
    words: &'static BTreeMap<String, String>,
    pub says: &'static BTreeMap<String, String>,
    pub shop: String,
    pub shop_lines: Vec<String>,
    pub title: String,
    pub facts: Vec<(String, String)>,
    pub lead: String,
    pub curves: Curves,
    last: String,
    pub rows: Vec<Row>,
    bar: f64,
    pub change: Vec<String>,
    pub rests_on: Vec<Group>,
    pub cautions: Vec<String>,
    pub terms: Vec<String>,
    page_size: &'static str,
    points: f64,
}

/// One way in the table, those that cost least on average first.
#[derive(Serialize)]
pub(super) struct Row {
    letter: char,
    pub title: String,
    pub beside: Vec<String>,
    today: String,
    expected: String,
    spread: String,
    low: f64,
    at: f64,
    high: f64,
    said: String,
}

/// Assumptions that rest on the same.
#[derive(Serialize)]
pub(super) struct Group {
    pub basis: String,
    pub items: Vec<Item>,
}

#[derive(Serialize)]
pub(super) struct Item {
    pub label: String,
    pub value: String,
}

/// Length of a bar of the table, in CSS pixels.
pub(super) const BAR: f64 = 200.0;
impl OutlookSheet {
    /// An outlook of a shop, with nothing else on the page.
    pub fn of(shop: impl Into<String>, outlook: Outlook) -> Self {
        Self {
            shop: shop.into(),
            outlook,
            shop_lines: Vec::new(),
            title: String::new(),
            facts: Vec::new(),
            change: None,
            cautions: Vec::new(),
            terms: Vec::new(),
            paper: Paper::default(),
            language: Language::default(),
            units: UnitSystem::default(),
            labels: BTreeMap::new(),
        }
    }

    /// One HTML page, with its style and pictures inside, by the built-in templates.
    ///
    /// # Errors
    /// None in practice: a template that does not read.
    pub fn to_html(&self) -> Result<String> {
        html::render("outlook.html", self.view())
    }

    /// The same by a shop's own templates.
    ///
    /// # Errors
    /// A template that does not read, or asks for what is not there.
    pub fn to_html_by(&self, templates: &Templates) -> Result<String> {
        templates.render("outlook.html", self.view())
    }

    /// Plain text, 78 columns wide.
    pub fn to_text(&self) -> String {
        doc::text(&self.blocks())
    }

    /// Markdown (CommonMark).
    pub fn to_markdown(&self) -> String {
        doc::markdown(&self.blocks())
    }

    /// A way's letter, by the order in which the ways are offered, and its title.
    fn named(&self, forward: Forward) -> (char, String) {
        let ways = self.outlook.ways().iter();
        let letter =
            ('A'..='Z').zip(ways).find(|(_, way)| way.forward == forward).map_or('?', |(letter, _)| letter);
        let (title, _) = self.language.way(forward.name(), &[]);
        (letter, Labels::new(&self.labels, self.language).of(&title))
    }

    /// Has everything said in the sheet's language, statistics as [`figures::about`] prints them.
    fn telling<T>(&self, tell: impl FnOnce(&Teller) -> T) -> T {
        tell(&Teller {
            language: self.language,
            units: self.units,
            amount: &figures::about,
            title: &|forward| self.named(forward).0.to_string(),
        })
    }

    /// Those that are ranked, least on average first; then the others.
    fn in_order(&self) -> impl Iterator<Item = &WayOutlook> {
        self.outlook.ranking().chain(self.outlook.ways().iter().filter(|way| !way.ranked))
    }

    fn view(&self) -> View {
        let labels = Labels::new(&self.labels, self.language);
        let say = |key: &str| self.language.outlook(key, &[]);
        let ends = || self.outlook.ways().iter().map(|way| way.nine_in_ten.high());
        let means = || self.outlook.ways().iter().map(|way| way.expected.amount());
        let scale = Scale::over(ends().chain(means()), BAR, 6.0);
        let title = Some(labels.of(&self.title)).filter(|title| !title.is_empty());
        let mut view = View {
            lang: self.language.code(),
            words: self.language.sheet_strings(),
            says: self.language.outlook_strings(),
            shop: labels.of(&self.shop),
            shop_lines: labels.all(&self.shop_lines),
            title: title.unwrap_or_else(|| say("title")),
            facts: facts(&self.facts, &labels),
            lead: self.telling(|told| told.lead(&self.outlook)),
            curves: self.curves(),
            last: self.telling(|told| told.horizon(self.outlook.years())),
            rows: self.in_order().map(|way| self.row(way, &scale)).collect(),
            bar: BAR,
            change: self.change(),
            rests_on: self.groups(),
            cautions: self.law().into_iter().chain(labels.all(&self.cautions)).collect(),
            terms: labels.all(&self.terms),
            page_size: self.paper.css(),
            points: 0.0,
        };
        view.points = fit::outlook(&view, self.paper);
        view
    }

    fn curves(&self) -> Curves {
        let amounts = |way: &WayOutlook| way.by_year.iter().map(|cost| cost.amount()).collect::<Vec<Money>>();
        let lines: Vec<_> = self
            .outlook
            .ways()
            .iter()
            .map(|way| {
                let (letter, title) = self.named(way.forward);
                curves::Line { letter, title, amounts: amounts(way) }
            })
            .collect();
        Curves::of(&lines, self.language)
    }

    fn row(&self, way: &WayOutlook, scale: &Scale) -> Row {
        let (letter, title) = self.named(way.forward);
        self.telling(|told| {
            let unranked = (!way.ranked).then(|| self.language.outlook("not_ranked", &[]));
            let spread =
                if way.nine_in_ten.is_exact() { told.spread(way) } else { told.range(way.nine_in_ten) };
            Row {
                letter,
                title,
                beside: [told.visits(way), told.energy(way), unranked].into_iter().flatten().collect(),
                today: way.by_year.first().map_or(String::new(), |cost| figures::about(cost.amount())),
                expected: figures::about(way.expected.amount()),
                spread,
                low: scale.at(way.nine_in_ten.low()),
                at: scale.at(way.expected.amount()),
                high: scale.at(way.nine_in_ten.high()),
                said: told.way(way),
            }
        })
    }

    /// What would change the order, and what a search is worth.
    fn change(&self) -> Vec<String> {
        self.telling(|told| {
            let change = self.change.iter().flat_map(|change| told.change(change));
            change.chain([told.search(self.outlook.search())]).collect()
        })
    }

    /// What the law says of filling a system that leaks.
    fn law(&self) -> Option<String> {
        self.telling(|told| told.law(&self.outlook))
    }

    /// The assumptions, those that rest on the same together, the firmest first.
    fn groups(&self) -> Vec<Group> {
        let assumptions = self.outlook.assumptions();
        let of = |basis: Basis| {
            let within: Vec<&Assumption> = assumptions.iter().filter(|one| one.basis == basis).collect();
            let first = within.first()?;
            let basis = match basis {
                Basis::Records => self.language.outlook("taught", &[]),
                _ => sentence(&first.rests_on(self.language)),
            };
            let items = within.iter().map(|one| self.item(one)).collect();
            Some(Group { basis, items })
        };
        let bases: BTreeSet<Basis> = assumptions.iter().map(|one| one.basis).collect();
        bases.into_iter().filter_map(of).collect()
    }

    fn item(&self, assumption: &Assumption) -> Item {
        let mut value = assumption.value(self.language, self.units);
        if assumption.records > 0 {
            let records = assumption.records.to_string();
            let key = if assumption.records == 1 { "from_record" } else { "from_records" };
            value.push_str(&self.language.outlook(key, &[("records", &records)]));
        }
        // A number is not parted from its sign.
        Item { label: assumption.label(self.language), value: value.replace(" %", "\u{A0}%") }
    }

    fn blocks(&self) -> Vec<Block> {
        let view = self.view();
        let say = |key: &str| self.language.outlook(key, &[]);
        let mut blocks = vec![Block::Title { from: view.shop, title: view.title }];
        blocks.extend(view.shop_lines.into_iter().map(Block::Plain));
        blocks.extend(view.facts.into_iter().map(|(label, value)| Block::Fact(label, value)));
        blocks.push(Block::Heading(view.lead));
        for (index, row) in view.rows.into_iter().enumerate() {
            let title = format!("{} {}", row.letter, row.title);
            blocks.push(Block::Way { title, price: row.expected, first: index == 0 });
            blocks.push(Block::Row { what: say("on_average"), amount: row.today });
            blocks.push(Block::Row { what: say("spread"), amount: row.spread });
            blocks.extend(row.beside.into_iter().map(Block::Note));
        }
        list(&mut blocks, say("change"), &view.change);
        for (index, group) in view.rests_on.into_iter().enumerate() {
            if index == 0 {
                blocks.push(Block::Heading(say("rests_on")));
            }
            let said = group.items.iter().map(|item| format!("{}: {}", item.label, item.value));
            blocks.push(Block::Plain(format!("{}:", group.basis)));
            blocks.extend(said.map(Block::Bullet));
        }
        list(&mut blocks, self.language.sheet("take_care", &[]), &view.cautions);
        list(&mut blocks, self.language.sheet("terms", &[]), &view.terms);
        blocks.push(Block::Foot(say("note")));
        blocks
    }
}
