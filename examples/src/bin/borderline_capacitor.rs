//! A fan capacitor near its limit: why one reading cannot decide, and what does.

use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

use kingvalve::electrical::{
    CapacitorCheck, Replacement, RunCapacitor, SAFE_VOLTAGE, Section, StoredCharge, Tolerance,
};
use kingvalve::measure::{Instrument, Level, Reading};
use kingvalve::quantity::*;
use kingvalve_examples::{Text, paragraph, tell};

const HELP: &str = "\
borderline_capacitor - a fan capacitor near its limit, measured four ways

usage: borderline_capacitor [--svg FILE]

  --svg FILE  also draw the readings with their doubt beside the limits, as SVG

The scenario is invented. It prints one page of text.";

/// One way of measuring, and what came of it.
struct Step {
    title: &'static str,
    check: CapacitorCheck,
}

fn main() -> ExitCode {
    tell("borderline_capacitor", HELP, run)
}

fn run(svg: Option<PathBuf>) -> Text {
    let part =
        RunCapacitor::rated(microfarads(5.0), Tolerance::percent(6.0)).policy(Tolerance::percent(10.0));
    let voltmeter = Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.0).counts(3.0);
    let voltage = Reading::new(volts(371.3), voltmeter.named("voltmeter"))?;
    let coarse = clamp(0.1).named("0.1 A clamp");
    let fine = clamp(0.01).named("0.01 A clamp");
    let under_load = |current: &Reading<Current>| part.under_load(&voltage, current, hertz(60.0));

    let first = under_load(&Reading::new(amperes(0.6), coarse)?)?;
    let second = under_load(&Reading::new(amperes(0.60), fine.clone())?)?;
    let repeats = [0.60, 0.60, 0.61, 0.60, 0.60].map(amperes);
    let repeated = under_load(&Reading::repeated(&repeats, fine)?)?;
    let meter = Instrument::resolution(microfarads(0.01)).accuracy_percent_of_reading(1.0).counts(3.0);
    let bench = part.on_bench(Reading::new(microfarads(4.31), meter.named("capacitance meter"))?)?;
    let together = part.combined(&[second.clone(), bench.clone()])?;
    let combined = together.check().ok_or("the readings of this scenario agree")?.clone();
    let steps = [
        Step { title: "Under load, a clamp that steps by 0.1 A", check: first },
        Step { title: "Under load, a clamp that steps by 0.01 A", check: second },
        Step { title: "The same clamp, five readings", check: repeated },
        Step { title: "Out of circuit, a capacitance meter", check: bench },
        Step { title: "The second and the fourth together", check: combined },
    ];
    if let Some(file) = svg {
        std::fs::write(file, plot(&part, &steps)?)?;
    }
    page(&part, &steps)
}

/// A clamp as such clamps are specified: 2 % + 5 counts (common practice, no source).
fn clamp(step: f64) -> Instrument<Current> {
    Instrument::resolution(amperes(step)).accuracy_percent_of_reading(2.0).counts(5.0)
}

fn page(part: &RunCapacitor, steps: &[Step]) -> Text {
    let mut page = String::new();
    writeln!(page, "A BORDERLINE FAN CAPACITOR (an invented scenario)\n")?;
    paragraph(
        &mut page,
        "A condenser fan runs, the outdoor coil is a little warm. Its capacitor is marked 5 µF ±6 %, 370 V; the shop \
         replaces at 10 %. Across it stand 371.3 V, through its lead flow 0.6 A: 4.29 µF, below the shop's 4.5 µF. \
         Is it?",
    )?;
    for (at, step) in steps.iter().enumerate() {
        let verdict = step.check.deciding();
        writeln!(page, "\n{}. {}: {}", at + 1, step.title, step.check.capacitance())?;
        writeln!(page, "   {}", bar(part, &step.check)?)?;
        let text = verdict.to_string();
        let firm = if at == 0 || !verdict.is_unresolved() { text.as_str() } else { first_sentence(&text) };
        paragraph(&mut page, firm)?;
    }
    writeln!(page)?;
    paragraph(
        &mut page,
        "(The bar: 95 % of the doubt, cut at 3 µF and 7 µF; o the value; | the shop's limits.)",
    )?;
    paragraph(
        &mut page,
        "A finer step alone does not decide: the clamp's 2 % + 5 counts stay, and stay the same in every repeat. Another \
         method with a better specification does.",
    )?;
    writeln!(page, "\nWhat now")?;
    let replacement = Replacement::of(part, volts(370.0))?;
    let stored = StoredCharge::at(part.rating(), volts(371.3))?;
    let seconds = stored.time_to(SAFE_VOLTAGE, kilohms(15.0))?.seconds();
    paragraph(
        &mut page,
        &format!("Replace it: {replacement}. {}", Section::Fan.effect_of_low_capacitance()),
    )?;
    paragraph(
        &mut page,
        &format!(
            "{stored} A 15 kΩ bleed resistor takes {seconds:.2} s to bring that to {SAFE_VOLTAGE}, if it is whole."
        ),
    )?;
    let check = steps.first().ok_or("a step")?;
    for caution in check.check.cautions() {
        paragraph(&mut page, caution.text())?;
    }
    Ok(page)
}

fn first_sentence(text: &str) -> &str {
    text.split_inclusive(". ").next().unwrap_or(text).trim_end()
}

/// What the scale of the pictures spans.
const SCALE: (f64, f64) = (3.0, 7.0);

/// Where a capacitance lies on the scale, from 0 to 1.
fn place(value: Capacitance) -> f64 {
    ((value.microfarads() - SCALE.0) / (SCALE.1 - SCALE.0)).clamp(0.0, 1.0)
}

fn limits(part: &RunCapacitor) -> kingvalve::Result<(Capacitance, Capacitance)> {
    part.shop_policy().unwrap_or(part.tolerance()).bounds(part.rating())
}

/// The interval as text: `....[==o==]|.....|...`.
fn bar(part: &RunCapacitor, check: &CapacitorCheck) -> kingvalve::Result<String> {
    const CELLS: usize = 61;
    let cell = |value: Capacitance| (place(value) * (CELLS - 1) as f64).round() as usize;
    let interval = check.capacitance().interval(Level::default())?;
    let (low, high) = limits(part)?;
    let (from, to, at) = (cell(interval.low()), cell(interval.high()), cell(check.capacitance().value()));
    Ok((0..CELLS)
        .map(|here| match here {
            _ if here == at => 'o',
            _ if here == cell(low) || here == cell(high) => '|',
            _ if (from..=to).contains(&here) => '=',
            _ => '.',
        })
        .collect())
}

fn plot(part: &RunCapacitor, steps: &[Step]) -> Text {
    const LEFT: f64 = 300.0;
    const WIDTH: f64 = 420.0;
    let x = |value: Capacitance| LEFT + WIDTH * place(value);
    let height = 92 + 34 * steps.len();
    let (low, high) = limits(part)?;
    let mut svg = String::new();
    writeln!(
        svg,
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 {height}" font-family="sans-serif" font-size="13" role="img" aria-label="Readings of a fan capacitor with their doubt, beside the shop's limits; an invented scenario">"#
    )?;
    writeln!(svg, r##"<rect width="760" height="{height}" fill="#ffffff"/>"##)?;
    writeln!(
        svg,
        r#"<text x="16" y="22" font-weight="bold">A borderline fan capacitor (invented scenario)</text>"#
    )?;
    let (from, to) = (x(low), x(high));
    writeln!(
        svg,
        r##"<rect x="{from:.1}" y="34" width="{:.1}" height="{}" fill="#e4efe4"/>"##,
        to - from,
        height - 86
    )?;
    for (at, step) in steps.iter().enumerate() {
        let y = 54 + 34 * at;
        let interval = step.check.capacitance().interval(Level::default())?;
        let middle = x(step.check.capacitance().value());
        writeln!(svg, r#"<text x="16" y="{}">{}</text>"#, y + 4, step.title)?;
        writeln!(
            svg,
            r##"<line x1="{:.1}" x2="{:.1}" y1="{y}" y2="{y}" stroke="#345" stroke-width="3"/>"##,
            x(interval.low()),
            x(interval.high())
        )?;
        writeln!(svg, r##"<circle cx="{middle:.1}" cy="{y}" r="5" fill="#345"/>"##)?;
    }
    let base = height - 34;
    for mark in [3.0, 4.0, 4.5, 5.0, 5.5, 6.0, 7.0] {
        let at = x(microfarads(mark));
        writeln!(svg, r#"<text x="{at:.1}" y="{base}" text-anchor="middle">{mark}</text>"#)?;
    }
    writeln!(
        svg,
        r#"<text x="16" y="{}">µF; line: 95 % of the doubt, cut at 3 µF and 7 µF; band: the shop's limits</text>"#,
        height - 10
    )?;
    writeln!(svg, "</svg>")?;
    Ok(svg)
}
