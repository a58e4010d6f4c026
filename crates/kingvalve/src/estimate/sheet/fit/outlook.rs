//! The height of the outlook sheet, by the measures of `page.css`.

use super::letters::{BOLD, length, rows};
use super::{Page, facts, parted, stack};
use crate::estimate::Paper;
use crate::estimate::sheet::outlook::{BAR, Row, View};

/// Sizes to try, in tenths of a point.
const TENTHS: std::ops::RangeInclusive<u32> = 75..=95;

/// The size of type of the sheet.
pub(in crate::estimate::sheet) fn points(view: &View, paper: Paper) -> f64 {
    Page::of(paper, 10.0, 190.0).fit(TENTHS, 8.0, |width| height(view, width))
}

/// Height of the whole in rem, for a body `width` rem wide.
fn height(view: &View, width: f64) -> f64 {
    /// A section's margin and its heading.
    const HEAD: f64 = 0.9 + 1.63;
    let lead = 0.5 + rows(&view.lead, width, BOLD) * 1.35;
    let table = 0.9 + 1.8 + view.rows.iter().map(|row| way(row, width)).sum::<f64>();
    let change = HEAD + stack(&view.change, width - 1.0, 1.0, 1.35);
    head(view, width)
        + lead
        + HEAD
        + view.curves.ratio() * width
        + table
        + change
        + rests_on(view, width)
        + foot(view, width)
}

fn head(view: &View, width: f64) -> f64 {
    let title = rows(&view.title, 0.6 * width, 1.9 * BOLD) * 2.1;
    let shop_line = |line: &String| rows(line, 0.38 * width, 0.9) * 1.13;
    let shop = rows(&view.shop, 0.38 * width, 1.15 * BOLD) * 1.44
        + view.shop_lines.iter().map(shop_line).sum::<f64>();
    0.8 + title.max(shop) + facts(&view.facts, width, 1.4, (0.85, 2.57)) + 0.5
}

/// Height of a way in the table: its name and what stands under it, or the bar with its ends.
fn way(row: &Row, width: f64) -> f64 {
    let room = 0.44 * width - 3.2;
    let beside = row.beside.iter().map(|note| rows(note, room, 0.88) * 1.06).sum::<f64>();
    let named = (rows(&row.title, room, BOLD) * 1.2 + beside).max(1.5);
    let bar = (0.3 * width - 1.0) * 12.0 / BAR + 1.2;
    0.45 + named.max(bar)
}

/// Height of the assumptions, in two columns.
fn rests_on(view: &View, width: f64) -> f64 {
    let column = width / 2.0 - 2.2;
    let item = |label: &str, value: &str| {
        let (label, value) = (length(label, 0.92), length(value, 0.92));
        if label + value + 0.8 <= column { 1.33 } else { 2.48 }
    };
    let heights: Vec<f64> = view
        .rests_on
        .iter()
        .flat_map(|group| {
            let first = rows(&group.basis, column, 0.95 * BOLD) * 1.19 + 0.4;
            let items = group.items.iter().enumerate();
            items.map(move |(at, one)| item(&one.label, &one.value) + if at == 0 { first } else { 0.0 })
        })
        .collect();
    0.9 + 1.63 + parted(&heights)
}

fn foot(view: &View, width: f64) -> f64 {
    let heights: Vec<f64> =
        view.cautions.iter().map(|caution| rows(caution, width / 2.0 - 3.0, 0.9) * 1.125 + 0.25).collect();
    let cautions = if heights.is_empty() { 0.0 } else { 0.9 + 0.5 + 1.63 + parted(&heights) };
    let terms: f64 = view.terms.iter().map(|term| 0.6 + rows(term, width, 0.88) * 1.1).sum();
    let note = 0.6 + rows(view.says.get("note").map_or("", String::as_str), width, 0.88) * 1.1;
    cautions + terms + note
}
