//! An invented shop over three years: every visit evaluated, the refrigerant ledger, and the sheets of one visit.

#![allow(clippy::print_stdout, reason = "a program speaks on standard output")]

mod invent;

use std::fmt::Write as _;
use std::fs::File;
use std::io::{BufReader, BufWriter, Write as _};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use kingvalve::refrigerant::Assessment;
use kingvalve::visit::{Evaluation, Ledger, Outcomes, OutlookAsked, Stock, Visit, visits, write_whole};
use kingvalve_examples::sheets::sheets;

const HELP: &str = "\
shop - an invented shop's sixty visits over three years

usage: shop [FOLDER]

  FOLDER  where to write (default: target/demo/shop)

writes into FOLDER
  visits.jsonl     the visits, made up from a seed
  evaluated.jsonl  the same with their results inside
  ledger.txt       refrigerant put in, taken out and not accounted for; leak rates by site; outcomes counted
  outlook.txt      what the ways of one visit are expected to cost over ten years, by the chances the sixty visits taught
  the sheets of the visit in examples/data/no_cool_r454b.json, in English and Spanish";

/// The visits are the same each time.
const SEED: u64 = 60;
const STOCK: &str = include_str!("../../../shop/stock.json");
const ONE: &str = include_str!("../../../data/no_cool_r454b.json");

type Outcome<T> = Result<T, Box<dyn std::error::Error>>;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let folder = match arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        [] => PathBuf::from("target/demo/shop"),
        ["--help" | "-h"] => {
            println!("{HELP}");
            return ExitCode::SUCCESS;
        }
        [folder] if !folder.starts_with('-') => PathBuf::from(folder),
        _ => {
            eprintln!("shop: at most a folder is wanted\n\n{HELP}");
            return ExitCode::from(2);
        }
    };
    match run(&folder) {
        Ok(page) => {
            print!("{page}");
            println!("\nWritten to {}", folder.display());
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("shop: {error}");
            ExitCode::FAILURE
        }
    }
}

fn run(folder: &Path) -> Outcome<String> {
    std::fs::create_dir_all(folder)?;
    let place = folder.join("visits.jsonl");
    write_whole(&place, &(invent::visits(SEED)?.join("\n") + "\n"))?;
    let (mut ledger, mut outcomes) = (Ledger::default(), Outcomes::default());
    let beside = folder.join(".evaluated.jsonl.partial");
    let mut evaluated = BufWriter::new(File::create(&beside)?);
    for visit in visits(BufReader::new(File::open(&place)?)) {
        let visit = visit?;
        outcomes.add(visit.record());
        let evaluation = visit.evaluate()?;
        ledger.add(&evaluation);
        writeln!(evaluated, "{}", evaluation.to_json_line()?)?;
    }
    evaluated.into_inner()?.sync_all()?;
    std::fs::rename(beside, folder.join("evaluated.jsonl"))?;
    let page = page(&ledger, &outcomes)?;
    write_whole(&folder.join("ledger.txt"), &page)?;
    let taught = with_shops_chances(&Visit::from_json(ONE)?, &outcomes)?;
    if let Some(outlook) = taught.outlook_sheet() {
        write_whole(&folder.join("outlook.txt"), &outlook.to_text())?;
    }
    for (name, text) in sheets(&taught)? {
        write_whole(&folder.join(name), &text)?;
    }
    Ok(page)
}

/// The visit with the outlook it asks for, its chances taught by what became of the shop's own work.
fn with_shops_chances(visit: &Visit, outcomes: &Outcomes) -> Outcome<Evaluation> {
    let asked = visit.record().outlook.clone().unwrap_or_default();
    let chances = asked.chances.learned(&outcomes.records())?;
    Ok(visit.evaluate()?.with_outlook(OutlookAsked { chances, ..asked })?)
}

fn page(ledger: &Ledger, outcomes: &Outcomes) -> Outcome<String> {
    let mut page = format!("An invented shop: {} invented visits over three years\n", ledger.visits());
    let equivalent = ledger.carbon_dioxide_equivalent(Assessment::Ar4)?;
    writeln!(
        page,
        "\nRefrigerant put in less taken out, as carbon dioxide (AR4): {:.1} t",
        equivalent.metric_tons()
    )?;
    writeln!(page, "{:<10}{:>14}{:>14}{:>26}", "", "put in", "taken out", "not accounted for")?;
    let shrinkage = ledger.shrinkage(&Stock::from_json(STOCK)?)?;
    for (designation, flow) in ledger.flows() {
        let lost = shrinkage.get(designation).map_or(String::new(), |lost| {
            let word = if lost.beyond_doubt() { "lost" } else { "within doubt" };
            format!("{:.1} ± {:.1} lb, {word}", lost.mass.pounds(), lost.doubt.pounds())
        });
        let (put_in, out) = (format!("{:.2}", flow.charged.mass), format!("{:.2}", flow.recovered.mass));
        writeln!(page, "{designation:<10}{put_in:>14}{out:>14}{lost:>32}")?;
    }
    writeln!(page, "\nLeak rates by site, percent of the full charge a year (40 CFR 84.102)")?;
    writeln!(page, "{:<8}{:<10}{:>14}{:>18}{:>12}", "site", "", "put in", "annualizing", "rolling")?;
    for (site, designation, flow) in ledger.sites() {
        let Some(rate) = flow.leak_rate() else { continue };
        let put_in = format!("{:.2}", flow.flow.charged.mass);
        let once = "one addition".to_owned();
        let annualizing = rate.annualizing.map_or(once, |rate| format!("{:.0} %", rate.percent()));
        writeln!(
            page,
            "{site:<8}{designation:<10}{put_in:>14}{annualizing:>18}{:>10.0} %",
            rate.rolling.percent()
        )?;
    }
    let Outcomes { sealants, repairs, search_hours, places, equipment } = outcomes;
    writeln!(page, "\nWhat became of the work")?;
    writeln!(page, "Sealants: {} held, {} did not", sealants[0], sealants[1])?;
    writeln!(page, "Repairs: {} held, {} did not", repairs[0], repairs[1])?;
    writeln!(page, "Hours of leak search: {} found it, {} in vain", search_hours[0], search_hours[1])?;
    writeln!(
        page,
        "Leaks found: {} reachable, {} indoor coil, {} outdoor unit",
        places[0], places[1], places[2]
    )?;
    let failed = equipment.iter().filter(|seen| seen.failed).count();
    writeln!(page, "Equipment seen again: {} pieces, {failed} failed for good", equipment.len())?;
    Ok(page)
}
