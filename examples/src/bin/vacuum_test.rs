//! Three vacuum logs of one system: why the rise of the first minutes cannot say what makes it, and what does.

use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

use kingvalve::measure::{Instrument, Level, Measured};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use kingvalve::tightness::{DecayCheck, DecayLog, DecayTest, Flow, LeakGas};
use kingvalve_examples::{Text, paragraph, tell};

const HELP: &str = "\
vacuum_test - three vacuum logs of one system: moisture, a leak, and tight

usage: vacuum_test [--svg FILE]

  --svg FILE  also draw the logs with their fits, as SVG

The scenario and its logs are invented; the logs are in examples/data/vacuum_*.csv. It prints one page of text.";

const FIRST_PULL: &str = include_str!("../../data/vacuum_1_first_pull.csv");
const DRIED: &str = include_str!("../../data/vacuum_2_dried.csv");
const FLARE_REMADE: &str = include_str!("../../data/vacuum_3_flare_remade.csv");
/// How long one usually watches, and some minutes more.
const SHORT: Time = minutes(15.0);

/// One log and what it showed.
struct Step {
    title: &'static str,
    log: DecayLog,
    check: DecayCheck,
}

fn main() -> ExitCode {
    tell("vacuum_test", HELP, run)
}

fn run(svg: Option<PathBuf>) -> Text {
    let steps = [
        step("The first 15 minutes after the first evacuation", FIRST_PULL, Some(SHORT))?,
        step("The same log, watched for two hours and a half", FIRST_PULL, None)?,
        step("Dried and evacuated again", DRIED, None)?,
        step("A flare remade, evacuated once more", FLARE_REMADE, None)?,
    ];
    if let Some(file) = svg {
        std::fs::write(file, plot(&steps)?)?;
    }
    page(&steps)
}

fn step(title: &'static str, csv: &str, until: Option<Time>) -> kingvalve::Result<Step> {
    // A vacuum gauge as such are specified: 10 % of reading (common practice, no source).
    let gauge =
        Instrument::resolution(delta_microns(1.0)).accuracy_percent_of_reading(10.0).named("vacuum gauge");
    let readings = csv.lines().filter_map(|line| {
        let (time, pressure) = line.split_once(',')?;
        Some((minutes(time.parse().ok()?), microns(pressure.parse().ok()?)))
    });
    let wanted = readings.filter(|(time, _)| until.is_none_or(|until| *time <= until));
    // What the gauge repeats to: 0.2 % of reading.
    let log = DecayLog::new(wanted, gauge)?.repeatable_within(percent(0.2))?;
    let coldest = Measured::from_standard(fahrenheit(68.0), delta_fahrenheit(1.0), "thermometer")?;
    let check = DecayTest::new(log.clone(), coldest).check()?;
    Ok(Step { title, log, check })
}

fn page(steps: &[Step]) -> Text {
    let mut page = String::new();
    writeln!(page, "A VACUUM THAT DOES NOT HOLD (an invented scenario)\n")?;
    paragraph(
        &mut page,
        "A compressor was changed on a wet day. The system is pumped down, the valve to the pump shut, the gauge logged \
         each minute; the coldest metal is at 68 °F. Asked for: 500 microns, and not above 1,000 after 10 minutes.",
    )?;
    for (at, step) in steps.iter().enumerate() {
        writeln!(page, "\n{}. {}", at + 1, step.title)?;
        writeln!(page, "   {}", line(&step.log)?)?;
        // The second step is the first one's log: it held, or not, just the same.
        if let Some(hold) = step.check.hold().filter(|_| at != 1) {
            paragraph(&mut page, &hold.to_string())?;
        }
        paragraph(&mut page, step.check.reason())?;
        for next in step.check.finding()?.next() {
            paragraph(&mut page, &format!("> {next}"))?;
        }
        if at == 2 {
            paragraph(&mut page, &size(&step.check)?)?;
        }
    }
    writeln!(page)?;
    paragraph(
        &mut page,
        "Rising is not leaking, and holding is not tight: the second vacuum held its ten minutes. Water stops at its vapour pressure, which its temperature sets; air does not stop. Only a \
         log long enough to show which says what to do next: dry, or search.",
    )?;
    writeln!(page)?;
    let leaking = steps.get(2).ok_or("the third log")?;
    for caution in leaking.check.finding()?.cautions() {
        paragraph(&mut page, caution.text())?;
    }
    Ok(page)
}

/// The size of the leak, as air into the vacuum and as refrigerant out of the charged system.
fn size(check: &DecayCheck) -> Text {
    let volume = Measured::from_limits(liters(8.0), liters(2.0), "internal volume")?;
    let leak = check.leak_size(&volume, Site::sea_level(), fahrenheit(68.0))?.ok_or("a leak is shown")?;
    let gas = LeakGas::of(&Refrigerant::named("R-454B")?);
    let out = leak.of_gas(&gas, psia(220.0), psia(14.7), Flow::Viscous)?;
    let days = 365.25;
    Ok(format!(
        "In 8 ± 2 L that is {:.1e} Pa·m³/s of air. Of R-454B at 205 psig the same hole would lose {:.0} ± {:.0} oz a day, \
         if it passes both alike.",
        leak.throughput().value().pascal_cubic_meters_per_second(),
        out.mass_flow().value().ounces_per_year() / days,
        out.mass_flow().expanded(Level::default()).ounces_per_year() / days,
    ))
}

/// The log as a line of text: first reading, the rise in eighths of its own range, last reading.
fn line(log: &DecayLog) -> Text {
    const CELLS: usize = 46;
    const EIGHTHS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
    let at: Vec<f64> = log.samples().iter().map(|sample| sample.pressure.microns()).collect();
    let (first, last) = (at.first().ok_or("a reading")?, at.last().ok_or("a reading")?);
    // A steady log shows as steady: the range is 100 microns at least.
    let (low, high) = at.iter().fold((f64::MAX, f64::MIN), |(low, high), p| (low.min(*p), high.max(*p)));
    let range = (high - low).max(100.0);
    let cell = |cell: usize| {
        let p = at.get(cell * (at.len() - 1) / (CELLS - 1)).copied().unwrap_or(low);
        EIGHTHS.get(((p - low) / range * 7.0).round() as usize).copied().unwrap_or(' ')
    };
    let curve: String = (0..CELLS).map(cell).collect();
    Ok(format!("{first:.0} {curve} {last:.0} microns, {:.0}", log.duration()))
}

fn plot(steps: &[Step]) -> Text {
    const PANEL: usize = 190;
    const LEFT: f64 = 70.0;
    const WIDTH: f64 = 650.0;
    const HEIGHT: f64 = 120.0;
    let total = 60 + PANEL * steps.len();
    let mut svg = String::new();
    writeln!(
        svg,
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 {total}" font-family="sans-serif" font-size="13" role="img" aria-label="Four vacuum logs with their fits: unresolved, moisture, leak, steady; an invented scenario">"#
    )?;
    writeln!(svg, r##"<rect width="760" height="{total}" fill="#ffffff"/>"##)?;
    writeln!(
        svg,
        r#"<text x="16" y="22" font-weight="bold">A vacuum that does not hold (invented scenario)</text>"#
    )?;
    for (at, Step { title, log, check }) in steps.iter().enumerate() {
        let top = 62.0 + (PANEL * at) as f64;
        let highest = log.samples().iter().map(|s| s.pressure.microns()).fold(1000.0, f64::max) * 1.05;
        let span = log.duration();
        let x = |t: Time| LEFT + WIDTH * (t / span);
        let y = |p: f64| top + HEIGHT * (1.0 - p / highest);
        writeln!(svg, r#"<text x="16" y="{:.0}">{}. {title}: {}</text>"#, top - 8.0, at + 1, word(check))?;
        let (bottom, right) = (top + HEIGHT, LEFT + WIDTH);
        let (dry, wet) = (check.water().low().microns(), check.water().high().microns().min(highest));
        if dry < wet {
            let (from, to) = (y(wet), y(dry));
            writeln!(
                svg,
                r##"<rect x="{LEFT}" y="{from:.1}" width="{WIDTH}" height="{:.1}" fill="#dfe9f5"/>"##,
                to - from
            )?;
        }
        writeln!(
            svg,
            r##"<path d="M{LEFT} {top} V{bottom} H{right}" fill="none" stroke="#888"/><text x="{:.0}" y="{:.0}" text-anchor="end">{:.0}</text><text x="{:.0}" y="{bottom:.0}" text-anchor="end">0</text><text x="{right:.0}" y="{:.0}" text-anchor="end">microns over {:.0}</text>"##,
            LEFT - 6.0,
            top + 10.0,
            highest,
            LEFT - 6.0,
            bottom + 16.0,
            span
        )?;
        let fitted: Vec<String> = (0..=100)
            .filter_map(|n| {
                let t = span * (f64::from(n) / 100.0);
                let p = check.fitted(t)?;
                Some(format!("{:.1},{:.1}", x(t), y(p.microns())))
            })
            .collect();
        writeln!(
            svg,
            r##"<polyline points="{}" fill="none" stroke="#c60" stroke-width="2"/>"##,
            fitted.join(" ")
        )?;
        for sample in log.samples() {
            let (cx, cy) = (x(sample.time), y(sample.pressure.microns()));
            writeln!(svg, r##"<circle cx="{cx:.1}" cy="{cy:.1}" r="1.6" fill="#345"/>"##)?;
        }
    }
    writeln!(
        svg,
        r#"<text x="16" y="{}">dots: the gauge; line: the fit; band: where water at the coldest point levels off</text>"#,
        total - 12
    )?;
    writeln!(svg, "</svg>")?;
    Ok(svg)
}

/// The first word of the reason: the cause.
fn word(check: &DecayCheck) -> &str {
    check.reason().split(':').next().unwrap_or_default()
}
