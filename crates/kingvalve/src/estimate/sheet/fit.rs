//! The size of type that lets a sheet fit one page.
//!
//! An estimate of the layout in `options.css`, whose measures it repeats: all but millimetres are in `rem`, the size of type
//! of the body. It decides nothing but how large the sheet is printed.

use super::view::{LineView, View, WayView};
use super::{Paper, scale};

/// Sizes to try, in tenths of a point: from the most comfortable to the smallest that is still read with ease in print.
const TENTHS: std::ops::RangeInclusive<u32> = 63..=90;
/// Where even the smallest does not do, the sheet runs to a second page at this size.
const RUN_ON: f64 = 8.0;
/// Width of the body.
const WIDTH_MM: f64 = 194.0;
/// Part of the page that the estimate may fill: it was within 2 % of a browser's layout.
const FILL: f64 = 0.985;
/// Points in a millimetre.
const POINT_MM: f64 = 72.0 / 25.4;
/// Mean width of a letter of running text in its size, for a sans serif.
const LETTER: f64 = 0.44;
/// What wrapping between words leaves empty, as a part of the text.
const RAGGED: f64 = 0.06;

/// The largest size at which the sheet fits its page.
pub(super) fn points(view: &View, paper: Paper) -> f64 {
    let page_mm = match paper {
        Paper::Letter => 279.4,
        Paper::A4 => 297.0,
    } - 16.0;
    let room = page_mm * POINT_MM * FILL;
    let fits = |points: &f64| height(view, WIDTH_MM * POINT_MM / points) * points <= room;
    TENTHS.rev().map(|tenths| f64::from(tenths) / 10.0).find(fits).unwrap_or(RUN_ON)
}

/// Height of the whole in rem, for a body `width` rem wide.
fn height(view: &View, width: f64) -> f64 {
    head(view, width) + findings(view, width) + costs(view, width) + table(view, width) + foot(view, width)
}

fn head(view: &View, width: f64) -> f64 {
    let title = rows(&view.title, 0.45 * width, 1.9) * 2.1;
    let shop_line = |line: &String| rows(line, 0.55 * width, 0.88) * 1.1;
    let shop =
        rows(&view.shop, 0.55 * width, 1.15) * 1.44 + view.shop_lines.iter().map(shop_line).sum::<f64>();
    let fact = |(label, value): &(String, String)| length(label, 0.82).max(length(value, 1.08)) + 1.2;
    let facts: f64 = view.facts.iter().map(fact).sum();
    let facts = if facts > 0.0 { (facts / width).ceil() * 2.35 + 1.2 } else { 0.0 };
    0.8 + title.max(shop) + facts
}

fn findings(view: &View, width: f64) -> f64 {
    let column = |items: &[String]| stack(items, width / 2.0 - 3.3, 1.0, 1.3, 0.0);
    2.5 + column(&view.known).max(column(&view.unknown))
}

fn costs(view: &View, width: f64) -> f64 {
    let mm = width / WIDTH_MM;
    let bar = width - 3.1 - 83.0 * mm;
    let row = |way: &WayView| 0.2 + (rows(&way.title, 46.0 * mm, 1.0) * 1.3).max(1.43);
    2.5 + view.ways.iter().map(row).sum::<f64>() + bar * 12.0 / scale::WIDTH
}

fn table(view: &View, width: f64) -> f64 {
    let column = width / view.ways.len() as f64 - 1.1;
    let tallest = |height: &dyn Fn(&WayView) -> f64| view.ways.iter().map(height).fold(0.0, f64::max);
    let topic = |said: fn(&WayView) -> &[String], room: f64| {
        1.85 + tallest(&|way| stack(said(way), column - room, 0.92, 1.22, 0.15))
    };
    let heading = 0.8 + tallest(&|way| rows(&way.title, column - 2.0, 1.14) * 1.21);
    let lines =
        1.85 + tallest(&|way| way.lines.iter().map(|line| line_rows(line, column) * 1.13 + 0.15).sum());
    0.5 + heading
        + topic(|way| &way.included, 0.0)
        + topic(|way| &way.does_not_fix, 0.0)
        + topic(|way| &way.uncertain, 0.0)
        + topic(|way| &way.cautions, 1.4)
        + lines
        + 1.9
        + tallest(&|way| beside(way, column))
}

/// Height of what stands under a total: the likely price, the deposit, what else can be done.
fn beside(way: &WayView, width: f64) -> f64 {
    let likely = way.likely.iter().map(|likely| &likely.text);
    let one = likely.chain(&way.deposit).map(|text| rows(text, width, 0.88));
    // "Together with" stands before each.
    let also = way.also.iter().map(|also| rows(&format!("{:14}{also}", ""), width, 0.88));
    one.chain(also).sum::<f64>() * 1.06
}

/// Rows of one line of a column: what it is, how much, and the amount, side by side as far as they fit.
fn line_rows(line: &LineView, width: f64) -> f64 {
    let [what, how_much, amount] = [&line.what, &line.how_much, &line.amount].map(|text| length(text, 0.92));
    let gap = 0.4;
    let amount = amount * 1.08;
    if what + how_much + amount + 2.0 * gap <= width {
        1.0
    } else if how_much == 0.0 || what + how_much + gap <= width {
        rows(&line.what, width, 0.92) + 1.0
    } else {
        rows(&line.what, width, 0.92) + if how_much + amount + gap <= width { 1.0 } else { 2.0 }
    }
}

fn foot(view: &View, width: f64) -> f64 {
    let advice = view.advice.as_ref().map_or(0.0, |advice| 0.6 + rows(advice, width - 10.0, 1.0) * 1.3);
    let cautions = stack(&view.cautions, width / 2.0 - 2.8, 0.95, 1.3, 0.0);
    let cautions = if cautions > 0.0 { 2.1 + (cautions / 2.0 / 1.24).ceil() * 1.24 } else { 0.0 };
    let choices: f64 = view.ways.iter().map(|way| length(&way.limit, 1.08) + 8.0).sum();
    let consent = 9.2 + (choices / (width - 1.6)).ceil() * 1.75;
    let terms: f64 = view.terms.iter().map(|term| 0.4 + rows(term, width, 0.85) * 1.02).sum();
    let note = 0.4 + rows(&view.range_note, width, 0.85) * 1.02;
    advice + cautions + consent + terms + note + 0.1
}

/// Height of a list of sentences, each wrapped to a width.
fn stack(items: &[String], width: f64, size: f64, leading: f64, gap: f64) -> f64 {
    items.iter().map(|item| rows(item, width, size) * size * leading + gap).sum()
}

/// Rows that a text takes in a width.
fn rows(text: &str, width: f64, size: f64) -> f64 {
    let rows = length(text, size) / width.max(1.0);
    if rows <= 1.0 { 1.0 } else { (rows * (1.0 + RAGGED)).ceil() }
}

/// Width of a text on one row; letters beyond Latin, Greek and Cyrillic count double.
fn length(text: &str, size: f64) -> f64 {
    let letters: f64 = text.chars().map(|c| if c < '\u{1100}' { 1.0 } else { 2.0 }).sum();
    letters * LETTER * size
}
