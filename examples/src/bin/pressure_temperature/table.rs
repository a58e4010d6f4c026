//! The chart as text and as CSV.

use std::fmt::Write as _;

use crate::chart::Chart;

pub fn text(chart: &Chart) -> String {
    let (t, p) = (chart.units.of_temperature(), chart.units.of_pressure());
    let mut out = format!("{}\n\n", chart.title());
    if chart.is_blend() {
        let _ = writeln!(out, "{t:>8} {:>12} {:>12}", "bubble", "dew");
        let _ = writeln!(out, "{:>8} {p:>12} {p:>12}", "");
    } else {
        let _ = writeln!(out, "{t:>8} {p:>12}");
    }
    for row in &chart.rows {
        let _ = write!(out, "{:>8.1} {:>12.1}", row.temperature, row.bubble);
        if chart.is_blend() {
            let _ = write!(out, " {:>12.1}", row.dew);
        }
        out.push('\n');
    }
    if chart.left_out > 0 {
        let _ = writeln!(out, "\n{} rows outside the refrigerant's range are left out.", chart.left_out);
    }
    if chart.is_blend() {
        out.push_str("\nCount subcooling from the bubble column, superheat from the dew column.\n");
    }
    let error = chart.refrigerant.accuracy().pressure_error().percent();
    let _ = writeln!(
        out,
        "Below zero is vacuum. The model is good to about {error:.1} % of the absolute pressure."
    );
    out
}

pub fn csv(chart: &Chart) -> String {
    let (t, p) = match chart.units.of_temperature() {
        "°F" => ("temperature_f", "psig"),
        _ => ("temperature_c", "kpa_gauge"),
    };
    let mut out = format!("{t},bubble_{p},dew_{p}\n");
    for row in &chart.rows {
        let _ = writeln!(out, "{},{:.3},{:.3}", tidy(row.temperature), row.bubble, row.dew);
    }
    out
}

/// Without the last digits that steps of 0.1 leave.
fn tidy(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
