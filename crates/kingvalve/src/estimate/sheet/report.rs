//! The work report: what was read, what it means, what was done, what comes next.

use std::collections::BTreeMap;

use serde::Serialize;

use super::doc::Block;
use super::labels::Labels;
use super::reading::{ReadingRow, RowView, WIDTH};
use super::text::list;
use super::{Fact, Paper, Templates, doc, facts, html};
use crate::Result;
use crate::estimate::Language;

/// A report of work on one page: readings against where they should be, what they mean, what was done.
///
/// Plain values, so that any record can feed it. Text is printed as it is given: nothing in it is markup.
///
/// # Example
/// ```
/// use kingvalve::estimate::{ReadingRow, UnitSystem, WorkReport};
/// use kingvalve::measure::{Level, Limits, Measured};
/// use kingvalve::quantity::*;
/// let charge = Measured::from_standard(delta_fahrenheit(10.8), delta_fahrenheit(0.9), "gauge")?;
/// let target = Limits::between(delta_fahrenheit(8.0), delta_fahrenheit(12.0))?;
/// let verdict = target.judge(&charge, Level::default())?;
/// let report = WorkReport {
///     shop: "Invented Air Service".into(),
///     readings: vec![ReadingRow::judged("Superheat", &verdict, UnitSystem::Us)],
///     done: vec!["Weighed in 2.0 lb.".into()],
///     ..WorkReport::default()
/// };
/// assert!(report.to_text().contains("Superheat: 10.8 ± 1.8 °F, should be 8.0 to 12.0 °F: not decided"));
/// assert!(report.to_html()?.contains("<svg"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WorkReport {
    /// The shop, as it signs.
    pub shop: String,
    /// Its address, telephone, licence: a line each.
    pub shop_lines: Vec<String>,
    /// "Work report" if blank.
    pub title: String,
    /// Labelled facts at the head.
    pub facts: Vec<Fact>,
    /// What was said at the door.
    pub said: Vec<String>,
    /// What was read, against where it should be.
    pub readings: Vec<ReadingRow>,
    /// What it means.
    pub found: Vec<String>,
    /// What the readings leave open.
    pub open: Vec<String>,
    /// Refrigerant: what was there, what went in.
    pub charged: Vec<Fact>,
    /// What was done.
    pub done: Vec<String>,
    /// What to measure next.
    pub next: Vec<String>,
    /// What the technician recommends.
    pub recommendation: Option<String>,
    /// When to come again, as it is to be printed.
    pub follow_up: Option<String>,
    /// What can hurt somebody.
    pub cautions: Vec<String>,
    /// The shop's small print.
    pub terms: Vec<String>,
    /// The paper it is laid out for.
    pub paper: Paper,
    /// The language of everything the library says.
    pub language: Language,
    /// The shop's own words in that language.
    pub labels: BTreeMap<String, String>,
}

#[derive(Serialize)]
struct View {
    lang: &'static str,
    words: &'static BTreeMap<String, String>,
    shop: String,
    shop_lines: Vec<String>,
    title: String,
    facts: Vec<(String, String)>,
    said: Vec<String>,
    readings: Vec<RowView>,
    found: Vec<String>,
    open: Vec<String>,
    charged: Vec<(String, String)>,
    done: Vec<String>,
    next: Vec<String>,
    recommendation: Option<String>,
    follow_up: Option<String>,
    cautions: Vec<String>,
    terms: Vec<String>,
    page_size: &'static str,
    points: f64,
    width: f64,
}

/// Sizes of type, from comfortable to small, and how many letters a page holds at each: found with a browser.
const SIZES: [(f64, usize); 4] = [(9.5, 2400), (8.5, 3200), (7.5, 4300), (6.8, usize::MAX)];

impl WorkReport {
    /// One HTML page, with its style and pictures inside, by the built-in templates.
    ///
    /// # Errors
    /// None in practice: a template that does not read.
    pub fn to_html(&self) -> Result<String> {
        html::render("report.html", self.view())
    }

    /// The same by a shop's own templates.
    ///
    /// # Errors
    /// A template that does not read, or asks for what is not there.
    pub fn to_html_by(&self, templates: &Templates) -> Result<String> {
        templates.render("report.html", self.view())
    }

    /// Plain text, 78 columns wide.
    pub fn to_text(&self) -> String {
        doc::text(&self.blocks())
    }

    /// Markdown (CommonMark).
    pub fn to_markdown(&self) -> String {
        doc::markdown(&self.blocks())
    }

    fn view(&self) -> View {
        let labels = Labels::new(&self.labels, self.language);
        let one = |text: &Option<String>| {
            text.as_deref().map(|text| labels.of(text)).filter(|text| !text.is_empty())
        };
        let mut view = View {
            lang: self.language.code(),
            words: self.language.sheet_strings(),
            shop: labels.of(&self.shop),
            shop_lines: labels.all(&self.shop_lines),
            title: Some(labels.of(&self.title))
                .filter(|title| !title.is_empty())
                .unwrap_or_else(|| self.language.sheet("work_report", &[])),
            facts: facts(&self.facts, &labels),
            said: labels.all(&self.said),
            readings: self.readings.iter().map(|row| row.view(&labels)).collect(),
            found: labels.all(&self.found),
            open: labels.all(&self.open),
            charged: facts(&self.charged, &labels),
            done: labels.all(&self.done),
            next: labels.all(&self.next),
            recommendation: one(&self.recommendation),
            follow_up: one(&self.follow_up),
            cautions: labels.all(&self.cautions),
            terms: labels.all(&self.terms),
            page_size: self.paper.css(),
            points: 0.0,
            width: WIDTH,
        };
        view.points = view.size();
        view
    }

    fn blocks(&self) -> Vec<Block> {
        let view = self.view();
        let say = |key: &str| self.language.sheet(key, &[]);
        let mut blocks = vec![Block::Title { from: view.shop, title: view.title }];
        blocks.extend(view.shop_lines.into_iter().map(Block::Plain));
        blocks.extend(view.facts.into_iter().map(|(label, value)| Block::Fact(label, value)));
        list(&mut blocks, say("said"), &view.said);
        let readings: Vec<String> =
            view.readings.iter().map(|row| format!("{}: {}", row.what, row.said)).collect();
        list(&mut blocks, say("readings"), &readings);
        list(&mut blocks, say("found"), &view.found);
        list(&mut blocks, say("open"), &view.open);
        let charged: Vec<String> =
            view.charged.iter().map(|(label, value)| format!("{label}: {value}")).collect();
        list(&mut blocks, say("charged"), &charged);
        list(&mut blocks, say("done"), &view.done);
        list(&mut blocks, say("next"), &view.next);
        list(&mut blocks, say("recommendation"), view.recommendation.as_slice());
        list(&mut blocks, say("follow_up"), view.follow_up.as_slice());
        list(&mut blocks, say("take_care"), &view.cautions);
        list(&mut blocks, say("terms"), &view.terms);
        blocks.push(Block::Foot(say("report_note")));
        blocks
    }
}

impl View {
    /// The largest size of type at which about so many letters and rows fit a page.
    fn size(&self) -> f64 {
        let lists = [&self.shop_lines, &self.said, &self.found, &self.open, &self.done, &self.next];
        let listed = lists.into_iter().chain([&self.cautions, &self.terms]).flatten();
        // A line costs about a hundred letters however short it is, in one of two columns half of that.
        let letters = |text: &String| text.chars().count() + 30;
        let text: usize = listed.chain(&self.recommendation).chain(&self.follow_up).map(letters).sum();
        let facts = self.facts.iter().chain(&self.charged);
        let facts: usize = facts.map(|(label, value)| label.len().max(value.len()) + 30).sum();
        let readings: usize =
            self.readings.iter().map(|row| 110 + row.what.chars().count().saturating_sub(30) * 3).sum();
        let head = 2 * (self.title.chars().count() + self.shop.chars().count());
        let all = text + facts + readings + head;
        SIZES.into_iter().find(|(_, most)| all <= *most).map_or(6.8, |(points, _)| points)
    }
}
