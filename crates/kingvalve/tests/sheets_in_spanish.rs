//! Sheets in Spanish speak Spanish: no sentence of the English files, of a caution or of a check's own text is on them.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeSet;

use kingvalve::check;
use kingvalve::estimate::{Language, UnitSystem};
use kingvalve::measure::Caution;
use kingvalve::visit::{Evaluation, Visit};
use serde_json::{Value, json};

const DEMO: [&str; 3] = [
    include_str!("../../../examples/data/no_cool_r454b.json"),
    include_str!("../../../examples/data/low_cooling_r410a.json"),
    include_str!("../../../examples/data/charged_by_steps_r454b.json"),
];
const CARD: &str = include_str!("../../../examples/data/rate_card.json");
const ENGLISH: [&str; 2] = [
    include_str!("../src/estimate/language/en.json"),
    include_str!("../src/estimate/language/en.checks.json"),
];
const SPANISH: [&str; 2] = [
    include_str!("../src/estimate/language/es.json"),
    include_str!("../src/estimate/language/es.checks.json"),
];

/// The demo records with every check's example in them, an outlook and a membership. What people wrote is blotted out: it
/// stays as it was written, and would be English on any sheet.
fn records() -> Vec<String> {
    let blot = |text: &str| {
        let mut record: Value = serde_json::from_str(text).unwrap();
        for field in ["note", "technician", "recommendation", "id"] {
            record[field] = json!("Zz");
        }
        record["customer"] = json!({"name": "Zz", "address": "Zz"});
        record["intake"] = json!({"complaint": "Zz", "since": "Zz", "filter": "Zz", "thermostat": "Zz"});
        record["equipment"]["description"] = json!("Zz");
        // The card whose own words the shop has put into Spanish.
        record["rates"] = serde_json::from_str(CARD).unwrap();
        record["rates"]["shop"] = json!("Zz");
        record["equipment"]["replacement"] = json!("outdoor unit and indoor coil, 3 tons");
        record["outlook"] = json!({"comfort_per_day": "9.00 USD", "draws": 200,
            "energy": {"per_year": "3000 kWh", "price": "0.18 USD"}});
        record["checks"] = check::names()
            .map(|name| json!({"check": name, "input": serde_json::from_str::<Value>(check::example(name).unwrap()).unwrap()}))
            .collect();
        for list in ["running", "capacitors"] {
            let named = if list == "running" { "when" } else { "name" };
            let listed = record.get_mut(list).and_then(Value::as_array_mut);
            listed.into_iter().flatten().for_each(|one| one[named] = json!("Zz"));
        }
        if record.get("done").is_some() {
            record["done"]["notes"] = json!(["Zz"]);
            record["membership"] = json!("comfort plan");
            record["consent"] = json!(null);
            record.as_object_mut().unwrap().remove("consent");
        }
        record.to_string()
    };
    DEMO.iter().map(|text| blot(text)).collect()
}

fn evaluated(text: &str, language: Language, units: UnitSystem) -> Evaluation {
    let evaluation = Visit::from_json(text).unwrap().evaluate().unwrap();
    evaluation.printed_in(language, units).unwrap().with_likely_prices(100, 1).unwrap()
}

/// Every form of every sheet, on one line each, as it is read.
fn sheets(evaluation: &Evaluation) -> Vec<String> {
    let mut all = Vec::new();
    let options = evaluation.sheet();
    all.extend([options.to_html().unwrap(), options.to_text().unwrap(), options.to_markdown().unwrap()]);
    let outlook = evaluation.outlook_sheet().unwrap();
    all.extend([outlook.to_html().unwrap(), outlook.to_text(), outlook.to_markdown()]);
    let report = evaluation.work_report().unwrap();
    all.extend([report.to_html().unwrap(), report.to_text(), report.to_markdown()]);
    if let Some(invoice) = evaluation.invoice() {
        all.extend([invoice.to_html().unwrap(), invoice.to_text().unwrap(), invoice.to_markdown().unwrap()]);
    }
    all.iter().map(|sheet| read(sheet)).collect()
}

/// What a person reads or is read: no style, no tags but what they are labelled with, no entities, no backslash of
/// Markdown, no breaks of lines.
fn read(sheet: &str) -> String {
    let body = sheet.split_once("</style>").map_or(sheet, |(_, body)| body);
    let mut text = String::new();
    for (at, piece) in body.split('<').enumerate() {
        let (tag, after) = piece.split_once('>').filter(|_| at > 0).unwrap_or(("", piece));
        let label = tag.split_once("aria-label=\"").and_then(|(_, rest)| rest.split_once('"'));
        text.push_str(label.map_or("", |(label, _)| label));
        text.push(' ');
        text.push_str(after);
    }
    let plain = text.replace("&#x27;", "'").replace("&amp;", "&").replace("&quot;", "\"").replace('\\', "");
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn strings(value: &Value, into: &mut Vec<String>) {
    match value {
        Value::String(text) => into.push(text.clone()),
        Value::Array(items) => items.iter().for_each(|item| strings(item, into)),
        Value::Object(fields) => fields.values().for_each(|field| strings(field, into)),
        _ => {}
    }
}

/// What stands between the places of every string of some files.
fn fragments(files: &[&str]) -> BTreeSet<String> {
    let mut texts = Vec::new();
    files.iter().for_each(|file| strings(&serde_json::from_str(file).unwrap(), &mut texts));
    let between = |text: &String| {
        let pieces = text.split(['{', '}']).step_by(2).map(|piece| piece.trim().to_owned());
        pieces.collect::<Vec<_>>()
    };
    texts.iter().flat_map(between).collect()
}

/// Long enough to be of a language.
fn telling(piece: &str) -> bool {
    piece.chars().filter(|c| c.is_alphabetic()).count() >= 6
}

#[test]
fn no_english_sentence_is_on_a_spanish_sheet() {
    let spanish = fragments(&SPANISH);
    let mut english: BTreeSet<String> =
        fragments(&ENGLISH).into_iter().filter(|piece| telling(piece) && !spanish.contains(piece)).collect();
    english.extend(Caution::ALL.iter().map(|caution| caution.text().to_owned()));
    assert!(english.len() > 300);
    for record in records() {
        let evaluation = evaluated(&record, Language::Spanish, UnitSystem::Si);
        let checks = &evaluation.results().checks;
        assert_eq!(checks.len(), check::names().count());
        let own = checks.iter().flat_map(|check| [check.text().to_owned(), check.next().join(" ")]);
        let own: Vec<String> = own
            .flat_map(|text| {
                text.split(['.', ':', ';']).map(|said| said.trim().to_owned()).collect::<Vec<_>>()
            })
            .collect();
        for sheet in sheets(&evaluation) {
            for piece in english.iter().chain(own.iter().filter(|said| telling(said) && said.contains(' '))) {
                assert!(!whole(&sheet, piece), "{piece:?} stands on {sheet}");
            }
        }
    }
}

/// Whether a piece stands in a text as words of its own.
fn whole(text: &str, piece: &str) -> bool {
    text.match_indices(piece).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + piece.len()..].chars().next();
        !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric)
    })
}

/// The same record in English has those sentences: the test above can fail.
#[test]
fn the_english_sheets_have_the_english_sentences() {
    let english: BTreeSet<String> = fragments(&ENGLISH).into_iter().filter(|piece| telling(piece)).collect();
    let [record, ..] = &records()[..] else { panic!() };
    let sheets = sheets(&evaluated(record, Language::English, UnitSystem::Us)).join(" ");
    let found = english.iter().filter(|piece| whole(&sheets, piece)).count();
    assert!(found > 150, "{found} of {}", english.len());
}

/// Whatever a check judged is a row of the report, and whatever it says to do next is said there, in either language.
#[test]
fn every_check_is_told_in_every_language() {
    let plain = {
        let mut record: Value = serde_json::from_str(DEMO[0]).unwrap();
        ["outlook", "rates", "consent", "done"].iter().for_each(|field| {
            record.as_object_mut().unwrap().remove(*field);
        });
        record
    };
    let report = |record: &Value, language| {
        let evaluation = Visit::from_json(&record.to_string()).unwrap().evaluate().unwrap();
        evaluation.printed_in(language, UnitSystem::Us).unwrap().work_report().unwrap()
    };
    for name in check::names() {
        let input: Value = serde_json::from_str(check::example(name).unwrap()).unwrap();
        let mut record = plain.clone();
        record["checks"] = json!([{"check": name, "at": "10:40", "input": input}]);
        let finding = check::find(name, check::example(name).unwrap()).unwrap();
        let judged = serde_json::to_value(&finding).unwrap()["verdicts"].as_array().unwrap().len();
        for language in Language::ALL {
            let (with, without) = (report(&record, language), report(&plain, language));
            assert_eq!(with.readings.len(), without.readings.len() + judged, "{name} {language}");
            let told = with.next.iter().filter(|next| next.contains("(10:40)")).count();
            assert_eq!(told > 0, !finding.next().is_empty(), "{name} {language}: {:?}", with.next);
            let shown = with.to_text();
            assert!(shown.contains("(10:40)"), "{name} {language}");
            assert!(!shown.contains('{'), "{name} {language}: {shown}");
        }
    }
}
