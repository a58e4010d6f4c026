//! Writes sheets for the browser to check: every kind, language and paper, with long, foreign and hostile names; and
//! records with the schema for another validator.
#![allow(clippy::print_stdout, reason = "a program speaks on standard output")]

use std::error::Error;
use std::path::PathBuf;

use kingvalve::estimate::{Language, Paper, RateCard, UnitSystem};
use kingvalve::visit::{Evaluation, Visit, write_whole};
use serde_json::{Value, json};

const EXAMPLE: &str = include_str!("../../../examples/data/no_cool_r454b.json");
const OTHER: &str = include_str!("../../../examples/data/low_cooling_r410a.json");
const STEPS: &str = include_str!("../../../examples/data/charged_by_steps_r454b.json");
const FIRST: &str = include_str!("../../../crates/kingvalve/tests/data/visit_1_first_release.json");
const CARD: &str = include_str!("../../../examples/data/rate_card.json");

/// What a person could be called, or type, or paste.
fn names() -> [(&'static str, String); 4] {
    [
        ("long", "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch ".repeat(4).chars().take(200).collect()),
        ("unbroken", "Wolfeschlegelsteinhausenbergerdorff".repeat(6).chars().take(200).collect()),
        ("rtl", "מוחמד أحمد بن عبد الله — שלום 12".to_owned()),
        (
            "hostile",
            "<script>window.ran=1</script><img src=x onerror=\"window.ran=1\">\u{202E}\u{0}\u{7}😀{{ 7*7 }}\"'><svg onload=alert(1)>".to_owned(),
        ),
    ]
}

fn named(name: &str) -> Result<String, Box<dyn Error>> {
    let mut record: Value = serde_json::from_str(EXAMPLE)?;
    record["customer"]["name"] = json!(name);
    record["technician"] = json!(name);
    record["consent"]["by"] = json!(name);
    record["done"]["paid"] = json!([{"what": name, "on": "2026-07-14", "amount": "10.00 USD"}]);
    Ok(record.to_string())
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(std::env::args().nth(1).ok_or("usage: sheets FOLDER")?);
    std::fs::create_dir_all(&folder)?;
    let write = |name: &str, text: &str| write_whole(&folder.join(name), text);
    let evaluate = |text: &str| -> Result<Evaluation, Box<dyn Error>> {
        Ok(Visit::from_json(text)?.evaluate()?.with_likely_prices(300, 1)?)
    };
    let mut cases =
        vec![("plain", evaluate(EXAMPLE)?), ("other", evaluate(OTHER)?), ("steps", evaluate(STEPS)?)];
    for (label, name) in names() {
        cases.push((label, evaluate(&named(&name)?)?));
    }
    for (label, evaluation) in &cases {
        for (language, units) in [(Language::English, UnitSystem::Us), (Language::Spanish, UnitSystem::Si)] {
            let printed = evaluation.printed_in(language, units)?.with_likely_prices(300, 1)?;
            for (paper, size) in [(Paper::Letter, "letter"), (Paper::A4, "a4")] {
                let file = |sheet: &str| format!("{sheet}-{label}-{language}-{size}.html");
                let mut options = printed.sheet();
                options.paper = paper;
                write(&file("options"), &options.to_html()?)?;
                if let Some(mut outlook) = printed.outlook_sheet() {
                    outlook.paper = paper;
                    write(&file("outlook"), &outlook.to_html()?)?;
                }
                let mut report = printed.work_report()?;
                report.paper = paper;
                write(&file("work"), &report.to_html()?)?;
                if let Some(mut invoice) = printed.invoice() {
                    invoice.paper = paper;
                    write(&file("invoice"), &invoice.to_html()?)?;
                }
            }
        }
    }
    write("visit.schema.json", &Visit::schema()?)?;
    write("card.schema.json", &RateCard::schema()?)?;
    write("card-example.json", CARD)?;
    write("card-bad-money.json", &CARD.replacen("89.00 USD", "89 dollars", 1))?;
    for (name, text) in [("example", EXAMPLE), ("other", OTHER), ("steps", STEPS), ("first", FIRST)] {
        write(&format!("visit-{name}.json"), text)?;
        write(&format!("visit-{name}-completed.json"), &Visit::from_json(text)?.evaluate()?.to_json()?)?;
    }
    write("visit-bad-field.json", &EXAMPLE.replacen("\"date\":", "\"dat\":", 1))?;
    println!("{} files", std::fs::read_dir(&folder)?.count());
    Ok(())
}
