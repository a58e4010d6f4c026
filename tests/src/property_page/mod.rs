//! The page `docs/properties.md`: what every listed refrigerant rests on, and how far it lies from its peers.
//!
//! What the library can say is computed; the differences from other libraries are read from
//! `reference/property_differences.csv`, which `properties/compare.py` writes.

mod entry;
mod peers;
mod words;

use std::collections::BTreeMap;
use std::fmt::Write as _;

use kingvalve::refrigerant::Refrigerant;

use crate::{Sheet, ask_every_refrigerant};
use entry::Entry;
use peers::Peers;

/// The page as Markdown.
///
/// # Errors
/// A refrigerant without one of its properties, or a peer's table without one of the refrigerants.
pub fn property_page() -> Result<String, String> {
    let peers = Peers::read();
    let entries = ask_every_refrigerant(|r| Entry::of(r, &peers))
        .into_iter()
        .map(|(r, entry)| entry.map_err(|why| format!("{r}: {why}")))
        .collect::<Result<Vec<_>, _>>()?;
    let (blends, pures): (Vec<Entry>, Vec<Entry>) = entries.into_iter().partition(|entry| entry.is_blend);
    let mut page = String::new();
    words::opening(&mut page, &pures, &blends, &peers);
    pure_table(&mut page, &pures);
    blend_table(&mut page, &blends);
    not_listed(&mut page);
    papers(&mut page, &pures, &blends);
    Ok(page)
}

fn row(page: &mut String, cells: &[&str]) {
    let _ = writeln!(page, "| {} |", cells.join(" | "));
}

fn head(page: &mut String, title: &str, cells: &[&str]) {
    let _ = writeln!(page, "\n## {title}\n");
    row(page, cells);
    row(page, &vec!["---"; cells.len()]);
}

fn pure_table(page: &mut String, pures: &[Entry]) {
    head(
        page,
        &format!("{} pure refrigerants", pures.len()),
        &[
            "",
            "substance",
            "equation",
            "valid, °C; MPa",
            "boils at 101.325 kPa, °C",
            "critical point, °C; MPa; kg/m³",
            "CoolProp: αʳ; p; saturation",
            "teqp: αʳ; p; saturation",
        ],
    );
    for entry in pures {
        row(
            page,
            &[
                &entry.name,
                &entry.substance,
                &entry.equations.join(", "),
                &entry.range,
                &entry.boiling,
                &entry.critical,
                &entry.coolprop,
                &entry.teqp,
            ],
        );
    }
}

fn blend_table(page: &mut String, blends: &[Entry]) {
    head(
        page,
        &format!("{} blends", blends.len()),
        &[
            "",
            "% by mass",
            "pairs: measured / fitted / estimated",
            "papers of the pairs",
            "error in p to expect",
            "bubble line from, °C; valid to, °C; MPa",
            "boils at 101.325 kPa, °C",
            "glide at 25 °C, K",
            "critical point, °C; MPa; kg/m³",
            "CoolProp: αʳ; p; saturation",
            "teqp: αʳ; p; saturation",
        ],
    );
    for entry in blends {
        row(
            page,
            &[
                &entry.name,
                &entry.substance,
                &entry.pairs,
                &entry.pair_papers.join(", "),
                &entry.expected,
                &entry.range,
                &entry.boiling,
                &entry.glide,
                &entry.critical,
                &entry.coolprop,
                &entry.teqp,
            ],
        );
    }
}

fn not_listed(page: &mut String) {
    head(page, "Not here, and why", &["", "substance or components", "why"]);
    for missing in Sheet::open("not_listed").rows() {
        let text = |column| missing.get(column).unwrap_or("");
        row(page, &[text("designation"), text("substance"), text("why")]);
    }
}

fn papers(page: &mut String, pures: &[Entry], blends: &[Entry]) {
    let _ = writeln!(page, "\n## Papers\n");
    let of = |entries: &[Entry]| -> BTreeMap<String, String> {
        entries.iter().flat_map(|entry| entry.papers.clone()).collect()
    };
    let mut all = of(pures);
    all.extend(of(blends));
    for (key, citation) in all {
        let _ = writeln!(page, "- {key}: {citation}");
    }
}

/// The name of a refrigerant and the reason, where it should have been listed but is.
///
/// # Errors
/// A designation of `not_listed.csv` that the library does know.
pub fn not_listed_is_right() -> Result<(), String> {
    match Sheet::open("not_listed")
        .rows()
        .iter()
        .find(|row| Refrigerant::named(row.text("designation")).is_ok())
    {
        Some(known) => Err(format!("{} is known", known.text("designation"))),
        None => Ok(()),
    }
}
