//! The height of the options sheet, by the measures of `options.css`.

use super::letters::{BOLD, length, rows};
use super::{Page, facts, lines, parted, stack};
use crate::estimate::Paper;
use crate::estimate::sheet::view::{LineView, View, WIDTH, WayView};

/// Sizes to try, in tenths of a point: from the most comfortable to the smallest that is still read with ease in print.
const TENTHS: std::ops::RangeInclusive<u32> = 70..=95;

/// The size of type of the sheet.
pub(in crate::estimate::sheet) fn points(view: &View, paper: Paper) -> f64 {
    Page::of(paper, 7.0, 196.0).fit(TENTHS, 8.0, |width| height(view, width))
}

/// Height of the whole in rem, for a body `width` rem wide.
fn height(view: &View, width: f64) -> f64 {
    head(view, width) + findings(view, width) + table(view, width) + foot(view, width)
}

fn head(view: &View, width: f64) -> f64 {
    let title = rows(&view.title, 0.6 * width, 1.7 * BOLD) * 1.87;
    let shop_line = |line: &String| rows(line, 0.38 * width, 0.88) * 1.1;
    let shop = rows(&view.shop, 0.38 * width, 1.15 * BOLD) * 1.44
        + view.shop_lines.iter().map(shop_line).sum::<f64>();
    let facts = match view.facts.is_empty() {
        true => 0.0,
        false => facts(&view.facts, width, 1.2, (0.82, 2.35)) + 1.0,
    };
    0.8 + title.max(shop) + facts
}

fn findings(view: &View, width: f64) -> f64 {
    let column = |items: &[String]| stack(items, width / 2.0 - 3.3, 1.0, 1.3);
    2.5 + column(&view.known).max(column(&view.unknown))
}

/// Parts of the table's width that its columns take, and the empty part of each.
const WAY: f64 = 0.25;
const SAID: f64 = 0.455;
const MADE: f64 = 0.295;
const PADDING: f64 = 1.2;

fn table(view: &View, width: f64) -> f64 {
    let key = rows(&view.costs_note, SAID * width - PADDING, 0.85) * 1.02;
    let picture = |pixels: f64| (WAY * width - PADDING) * pixels / WIDTH;
    let row = |way: &WayView| {
        let way_column = price(view, way, WAY * width - PADDING) + picture(9.0);
        let said = said(view, way, SAID * width - PADDING);
        let made = made_of(&way.lines, MADE * width - PADDING);
        0.6 + way_column.max(said).max(made)
    };
    0.7 + 1.6 + picture(10.0).max(key) + view.ways.iter().map(row).sum::<f64>()
}

/// Height of a way's first column without the bar: title, price, the likely price, the deposit, what else can be done.
fn price(view: &View, way: &WayView, width: f64) -> f64 {
    let likely = way.likely.iter().map(|likely| &likely.text);
    let one = likely.chain(&way.deposit).map(|text| rows(text, width, 0.88));
    let also = way.also.iter().map(|also| rows(&format!("{} {also}", word(view, "also")), width, 0.88));
    (rows(&way.title, width - 3.6, 1.05 * BOLD) * 1.21).max(1.43) + 1.5 + one.chain(also).sum::<f64>() * 1.06
}

/// Height of what is said of a way: each topic's heading and sentences as one paragraph.
fn said(view: &View, way: &WayView, width: f64) -> f64 {
    let topics = [
        ("includes", &way.included),
        ("does_not_fix", &way.does_not_fix),
        ("uncertain", &way.uncertain),
        ("cautions", &way.cautions),
    ];
    let paragraph = |(heading, sentences): (&str, &Vec<String>)| {
        rows(&format!("{}: {}", word(view, heading), sentences.join(" ")), width, 1.0) * 1.2 + 0.08
    };
    topics.into_iter().filter(|(_, sentences)| !sentences.is_empty()).map(paragraph).sum()
}

fn word(view: &View, key: &str) -> &'static str {
    view.words.get(key).map_or("", String::as_str)
}

fn made_of(lines: &[LineView], width: f64) -> f64 {
    (lines.iter().map(|line| line_rows(line, width)).sum::<f64>() + 1.0) * 0.92 * 1.2 + 0.15
}

/// Rows of one line of a column: what it is, how much, and the amount, side by side as far as they fit.
fn line_rows(line: &LineView, width: f64) -> f64 {
    let [what, how_much, amount] = [&line.what, &line.how_much, &line.amount].map(|text| length(text, 0.92));
    let gap = 0.4;
    if what + how_much + amount + 2.0 * gap <= width {
        1.0
    } else if how_much == 0.0 || what + how_much + gap <= width {
        rows(&line.what, width, 0.92) + 1.0
    } else {
        rows(&line.what, width, 0.92) + if how_much + amount + gap <= width { 1.0 } else { 2.0 }
    }
}

fn foot(view: &View, width: f64) -> f64 {
    let advice = view
        .advice
        .as_ref()
        .map_or(0.0, |advice| 0.6 + rows(&format!("{}: {advice}", word(view, "advice")), width, 1.0) * 1.3);
    let choices = lines(view.ways.iter().map(|way| length(&way.up_to, 1.0) + 4.5), width - 0.6);
    let agreed = rows(word(view, "consent"), width - 1.8, 1.0) * 1.3;
    let consent = 7.4 + agreed + choices * 1.75;
    let terms: f64 = view.terms.iter().map(|term| 0.4 + rows(term, width, 0.85) * 1.02).sum();
    let note = 0.4 + rows(&view.range_note, width, 0.85) * 1.02;
    advice + cautions(view, width) + consent + terms + note + 0.1
}

/// Height of the cautions in two columns.
fn cautions(view: &View, width: f64) -> f64 {
    let heights: Vec<f64> =
        view.cautions.iter().map(|caution| rows(caution, width / 2.0 - 2.8, 0.95) * 1.24).collect();
    if heights.is_empty() { 0.0 } else { 2.1 + parted(&heights) }
}
