//! The interval of the charge over the steps, drawn.

use std::fmt::Write as _;

use kingvalve::charge::inventory::{Estimate, Inventory};
use kingvalve::quantity::*;

const LEFT: f64 = 150.0;
const WIDE: f64 = 520.0;
const ROW: f64 = 26.0;
const TOP: f64 = 58.0;

/// An SVG of one bar a step: thin nine times in ten, thick one time in two, a tick in the middle.
pub fn draw(inventory: &Inventory, plate: Mass) -> String {
    let steps = inventory.contributions();
    let height = TOP + ROW * (steps.len() as f64 + 1.0) + 40.0;
    let across = |mass: Mass| LEFT + WIDE * (mass / (1.2 * plate)).clamp(0.0, 1.0);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0} {height:.0}\" role=\"img\" \
         font-family=\"sans-serif\" font-size=\"12\"><title>Charge in the system, step by step</title>\
         <rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\
         <text x=\"12\" y=\"24\" font-size=\"15\" font-weight=\"bold\">Charge in the system, step by step</text>\
         <text x=\"12\" y=\"42\" fill=\"#555\">thin: nine times in ten; thick: one time in two; an invented visit</text>",
        LEFT + WIDE + 24.0
    );
    let bottom = height - 40.0;
    let x = across(plate);
    let _ = write!(
        svg,
        "<line x1=\"{x:.1}\" x2=\"{x:.1}\" y1=\"{TOP}\" y2=\"{bottom:.1}\" stroke=\"#111\" stroke-dasharray=\"4 3\"/>\
         <text x=\"{x:.1}\" y=\"{:.1}\" text-anchor=\"middle\">plate {plate:.2}</text>",
        bottom + 30.0
    );
    for whole in 0..=plate.pounds().ceil() as usize {
        let x = across(pounds(whole as f64));
        let _ = write!(
            svg,
            "<line x1=\"{x:.1}\" x2=\"{x:.1}\" y1=\"{TOP}\" y2=\"{bottom:.1}\" stroke=\"#e4e4e4\"/>\
             <text x=\"{x:.1}\" y=\"{:.1}\" text-anchor=\"middle\" fill=\"#555\">{whole}</text>",
            bottom + 14.0
        );
    }
    let first = steps.first().map(|step| ("assumed", step.before));
    let all = first.into_iter().chain(steps.iter().map(|step| (step.what.as_str(), step.after)));
    for (index, (what, estimate)) in all.enumerate() {
        row(&mut svg, what, &estimate, TOP + ROW * (index as f64 + 0.5), &across);
    }
    svg.push_str("</svg>\n");
    svg
}

fn row(svg: &mut String, what: &str, estimate: &Estimate<Mass>, y: f64, across: &impl Fn(Mass) -> f64) {
    let mut line = |low: Mass, high: Mass, width: f64, colour: &str| {
        let (from, to) = (across(low), across(high));
        let _ = write!(
            svg,
            "<line x1=\"{from:.1}\" x2=\"{to:.1}\" y1=\"{y:.1}\" y2=\"{y:.1}\" stroke=\"{colour}\" \
             stroke-width=\"{width}\"/>"
        );
    };
    line(estimate.ninety.low(), estimate.ninety.high(), 3.0, "#0b5d8a");
    line(estimate.half.low(), estimate.half.high(), 10.0, "#0b5d8a");
    let x = across(estimate.median);
    let _ = write!(
        svg,
        "<line x1=\"{x:.1}\" x2=\"{x:.1}\" y1=\"{:.1}\" y2=\"{:.1}\" stroke=\"#e07b00\" stroke-width=\"3\"/>\
         <text x=\"12\" y=\"{:.1}\">{}</text>",
        y - 8.0,
        y + 8.0,
        y + 4.0,
        what.replace('&', "&amp;").replace('<', "&lt;")
    );
}
