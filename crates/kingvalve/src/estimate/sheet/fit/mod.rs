//! The size of type that lets a sheet fit one page.
//!
//! Estimates of the layouts in the style files, whose measures they repeat: all but millimetres are in `rem`, the size of
//! type of the body. They decide nothing but how large a sheet is printed.

mod letters;
mod options;
mod outlook;

pub(super) use options::points as options;
pub(super) use outlook::points as outlook;

use self::letters::{BOLD, length, rows};
use super::Paper;

/// Part of the page that an estimate may fill: they were within 1.5 % of a browser's layout.
const FILL: f64 = 0.985;
/// Points in a millimetre.
const POINT_MM: f64 = 72.0 / 25.4;

/// A page: its height and the width of the body on it, in millimetres, margins left out.
struct Page {
    height: f64,
    width: f64,
}

impl Page {
    fn of(paper: Paper, margin: f64, width: f64) -> Self {
        let height = match paper {
            Paper::Letter => 279.4,
            Paper::A4 => 297.0,
        };
        Self { height: height - 2.0 * margin, width }
    }

    /// The largest of these sizes, in tenths of a point, at which what is so many rem high at a width in rem fits the page;
    /// where even the smallest does not, the sheet runs to a second page at `else_at`.
    fn fit(&self, tenths: std::ops::RangeInclusive<u32>, else_at: f64, height: impl Fn(f64) -> f64) -> f64 {
        let room = self.height * POINT_MM * FILL;
        let fits = |tenths: u32| {
            let points = f64::from(tenths) / 10.0;
            height(self.width * POINT_MM / points) * points <= room
        };
        let (mut fit, mut too_large) = (*tenths.start(), *tenths.end() + 1);
        if !fits(fit) {
            return else_at;
        }
        while too_large - fit > 1 {
            let middle = u32::midpoint(fit, too_large);
            if fits(middle) { fit = middle } else { too_large = middle }
        }
        f64::from(fit) / 10.0
    }
}

/// Height of the taller of two columns over which things of these heights are parted, in their order, so that it is least.
fn parted(heights: &[f64]) -> f64 {
    let taller = |(left, right): (&[f64], &[f64])| left.iter().sum::<f64>().max(right.iter().sum());
    (0..=heights.len())
        .filter_map(|at| heights.split_at_checked(at))
        .map(taller)
        .fold(f64::INFINITY, f64::min)
}

/// Lines that things of these widths take side by side, none broken.
fn lines(widths: impl Iterator<Item = f64>, room: f64) -> f64 {
    let (mut lines, mut filled) = (0.0, f64::INFINITY);
    for width in widths {
        if filled + width > room {
            (lines, filled) = (lines + 1.0, 0.0);
        }
        filled += width;
    }
    lines
}

/// Height of labelled facts side by side: a label over its value, which takes more rows where it is wider than the page.
fn facts(facts: &[(String, String)], width: f64, gap: f64, (label, row): (f64, f64)) -> f64 {
    let wide = |(name, value): &(String, String)| length(name, label).max(length(value, BOLD)) + gap;
    let more: f64 = facts.iter().map(|(_, value)| rows(value, width, BOLD) - 1.0).sum();
    lines(facts.iter().map(wide), width + gap) * row + more * 1.25
}

/// Height of a list of sentences, each wrapped to a width.
fn stack(items: &[String], width: f64, size: f64, leading: f64) -> f64 {
    items.iter().map(|item| rows(item, width, size) * size * leading).sum()
}
