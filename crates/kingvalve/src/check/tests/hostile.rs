//! Every value of every example, one at a time, made into something no reading can be: an error with a reason, or a
//! finding that is whole. Never a panic, never a number that is none.

use std::time::{Duration, Instant};

use serde_json::{Value, json};

use super::super::{example, names, run};

/// What a number is replaced by, its unit kept.
const NUMBERS: &[&str] = &[
    "0", "-0", "-1", "-1e9", "5e-324", "1e-308", "1e-9", "1e6", "1e15", "1e154", "1e308", "-1e308", "1e309",
    "NaN", "inf",
];

/// How long one answer may take in a debug build: most take under a millisecond, a first use of a blend some tens.
const LIMIT: Duration = Duration::from_secs(2);

/// The places of a JSON value, as pointers.
fn places(value: &Value, here: &str, into: &mut Vec<String>) {
    into.push(here.to_owned());
    match value {
        Value::Object(fields) => fields.iter().for_each(|(k, v)| places(v, &format!("{here}/{k}"), into)),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, v)| places(v, &format!("{here}/{i}"), into))
        }
        _ => {}
    }
}

/// What stands in for a value.
fn stand_ins(value: &Value) -> Vec<Value> {
    let mut all = vec![Value::Null, json!({}), json!([]), json!(true)];
    match value {
        Value::Number(_) => {
            all.push(json!("1"));
            all.extend(NUMBERS.iter().filter_map(|text| serde_json::from_str(text).ok()));
        }
        Value::String(text) => {
            all.extend([json!(""), json!(" "), json!("\u{0}"), json!("٣ psig"), json!(0)]);
            if let Some((number, unit)) = text.split_once(' ')
                && number.parse::<f64>().is_ok()
            {
                all.extend(NUMBERS.iter().map(|other| json!(format!("{other} {unit}"))));
                all.push(json!(format!("{number} furlongs")));
                all.push(json!(number));
            }
        }
        Value::Array(items) => {
            let twice = items.iter().chain(items).cloned().collect();
            all.extend([Value::Array(twice), Value::Array(items.iter().rev().cloned().collect())]);
            all.extend(items.first().map(|one| json!([one])));
        }
        Value::Object(fields) => {
            // A range the wrong way round.
            if let (Some(low), Some(high)) = (fields.get("low"), fields.get("high")) {
                let mut turned = fields.clone();
                turned.insert("low".into(), high.clone());
                turned.insert("high".into(), low.clone());
                all.push(Value::Object(turned));
            }
        }
        _ => {}
    }
    all
}

/// What is wrong with an answer, if anything. `plain`: a number of a kind people mistype, which an error must place.
fn fault_in(answer: Result<String, crate::Error>, plain: bool) -> Option<String> {
    match answer {
        Err(error) => {
            let lost = plain && error.is_out_of_range() && error.field().is_none();
            lost.then(|| format!("names no field: {error}"))
        }
        Ok(text) => {
            let finding: Value = serde_json::from_str(&text).unwrap();
            let mut all = Vec::new();
            places(&finding, "", &mut all);
            let broken = all.iter().find(|place| match finding.pointer(place).unwrap() {
                Value::Null => true,
                Value::String(text) => {
                    text.split(|c: char| !c.is_alphabetic()).any(|word| ["NaN", "inf"].contains(&word))
                }
                _ => false,
            });
            broken.map(|place| format!("{place}: {}", finding.pointer(place).unwrap()))
        }
    }
}

#[test]
fn no_value_breaks_a_check() {
    let mut wrong = Vec::new();
    let mut runs = 0;
    for name in names() {
        let good: Value = serde_json::from_str(example(name).unwrap()).unwrap();
        let mut all = Vec::new();
        places(&good, "", &mut all);
        for place in all {
            for other in stand_ins(good.pointer(&place).unwrap()) {
                let mut input = good.clone();
                *input.pointer_mut(&place).unwrap() = other.clone();
                let text = input.to_string();
                let shown = other.to_string();
                let plain = ["0", "-1", "-1e9"].contains(&shown.trim_matches('"').split(' ').next().unwrap());
                let start = Instant::now();
                let answer = std::panic::catch_unwind(|| run(name, &text));
                let took = start.elapsed();
                runs += 1;
                let fault = match answer {
                    Err(_) => Some("panics".to_owned()),
                    _ if took > LIMIT => Some(format!("takes {took:?}")),
                    Ok(answer) => fault_in(answer, plain),
                };
                if let Some(fault) = fault {
                    wrong.push(format!("{name} {place} = {other}: {fault}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {runs}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(runs > 5_000, "{runs}");
}
