//! The chart as a drawing.

use std::fmt::Write as _;

use crate::chart::{Chart, Row};

const WIDTH: f64 = 760.0;
const HEIGHT: f64 = 520.0;
const LEFT: f64 = 74.0;
const RIGHT: f64 = 24.0;
const TOP: f64 = 56.0;
const BOTTOM: f64 = 60.0;

/// From where to where an axis runs, and the distance of its marks.
struct Axis {
    low: f64,
    high: f64,
    mark: f64,
}

impl Axis {
    /// Around all values, with at most about ten marks at 1, 2 or 5 times a power of ten.
    fn around(values: impl Iterator<Item = f64> + Clone) -> Axis {
        let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        let span = (high - low).max(1.0);
        let decade = 10f64.powf((span / 10.0).log10().floor());
        let mark = [1.0, 2.0, 5.0, 10.0].map(|m| m * decade).into_iter().find(|m| span / m <= 10.0);
        let mark = mark.unwrap_or(10.0 * decade);
        Axis { low: (low / mark).floor() * mark, high: ((high / mark).ceil() * mark).max(low + mark), mark }
    }

    fn share(&self, value: f64) -> f64 {
        (value - self.low) / (self.high - self.low)
    }

    fn marks(&self) -> impl Iterator<Item = f64> {
        let count = ((self.high - self.low) / self.mark).round() as usize;
        (0..=count).map(|k| self.low + k as f64 * self.mark)
    }
}

pub fn svg(chart: &Chart) -> String {
    let across = Axis::around(chart.rows.iter().map(|row| row.temperature));
    let up = Axis::around(chart.rows.iter().flat_map(|row| [row.bubble, row.dew]));
    let x = |t: f64| LEFT + (WIDTH - LEFT - RIGHT) * across.share(t);
    let y = |p: f64| HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * up.share(p);
    let title = chart.title();
    let mut out = format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" font-family="sans-serif" font-size="13" role="img" aria-label="{title}">
<rect width="{WIDTH}" height="{HEIGHT}" fill="#ffffff"/>
<text x="{LEFT}" y="28" font-size="16" font-weight="bold">{title}</text>
"##
    );
    let (bottom, right) = (y(up.low), x(across.high));
    for t in across.marks() {
        let at = x(t);
        let _ = writeln!(out, r##"<path d="M{at:.1} {TOP}V{bottom:.1}" stroke="#d8d8d8"/>"##);
        let _ =
            writeln!(out, r#"<text x="{at:.1}" y="{:.1}" text-anchor="middle">{t}</text>"#, bottom + 18.0);
    }
    for p in up.marks() {
        let at = y(p);
        let colour = if p == 0.0 { "#777777" } else { "#d8d8d8" };
        let _ = writeln!(out, r#"<path d="M{LEFT} {at:.1}H{right:.1}" stroke="{colour}"/>"#);
        let _ =
            writeln!(out, r#"<text x="{:.1}" y="{:.1}" text-anchor="end">{p}</text>"#, LEFT - 8.0, at + 4.0);
    }
    let mut line = |pick: fn(&Row) -> f64, dashes: &str| {
        let points: Vec<String> =
            chart.rows.iter().map(|row| format!("{:.1},{:.1}", x(row.temperature), y(pick(row)))).collect();
        let _ = writeln!(
            out,
            r##"<polyline points="{}" fill="none" stroke="#222222" stroke-width="2"{dashes}/>"##,
            points.join(" ")
        );
    };
    line(|row| row.bubble, "");
    if chart.is_blend() {
        line(|row| row.dew, r#" stroke-dasharray="7 4""#);
    }
    let key = if chart.is_blend() { ": bubble solid, dew dashed" } else { "" };
    let _ = writeln!(
        out,
        r#"<text x="{LEFT}" y="{:.1}">{} against {}{key}</text>"#,
        HEIGHT - 14.0,
        chart.units.of_pressure(),
        chart.units.of_temperature()
    );
    out.push_str("</svg>\n");
    out
}
