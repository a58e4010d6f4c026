//! Every check: its example runs, its schema is in step with its reader, its mistakes are named.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "how a test fails")]

use serde_json::Value;

use super::*;

mod bad_input;
mod findings;
mod hostile;

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

#[test]
fn every_example_runs_and_answers_in_the_one_shape() {
    for name in names() {
        let finding = parsed(&run(name, example(name).unwrap()).unwrap());
        assert_eq!(finding["check"], name);
        for part in ["text", "measured", "verdicts", "next", "cautions", "sources"] {
            assert!(!finding[part].is_null(), "{name} has no {part}");
        }
        assert!(!finding["text"].as_str().unwrap().is_empty() && finding["sources"][0].is_string(), "{name}");
    }
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    for name in names() {
        let once = || run(name, example(name).unwrap()).unwrap();
        assert_eq!(once(), once());
    }
}

#[test]
fn names_are_unique() {
    let mut all: Vec<_> = names().collect();
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), names().count());
}

/// At every object of every example: the reader knows exactly the fields the schema lists, and asks for exactly those
/// it requires.
#[test]
fn schemas_are_in_step_with_the_readers() {
    for name in names() {
        let schema = parsed(&schema(name).unwrap());
        let example = parsed(example(name).unwrap());
        let mut compared = 0;
        walk(&example, &schema, &schema, &mut Vec::new(), &mut |path, here| {
            compared += 1;
            step(name, &example, path, here);
        });
        let nested = example.as_object().unwrap().values().any(|field| field.is_object() || field.is_array());
        assert!(compared > usize::from(nested), "{name}: {compared} objects compared");
    }
}

/// Visits every object of the example that has a schema with properties.
fn walk<'a>(
    value: &'a Value,
    schema: &'a Value,
    root: &'a Value,
    path: &mut Vec<String>,
    visit: &mut impl FnMut(&[String], &Value),
) {
    let schema = resolved(schema, root, value);
    match value {
        Value::Object(fields) if schema["properties"].is_object() => {
            visit(path, schema);
            for (field, value) in fields {
                path.push(field.clone());
                walk(value, &schema["properties"][field], root, path, visit);
                path.pop();
            }
        }
        // A choice: one field, which says what is given.
        Value::Object(fields) if schema["oneOf"].is_array() => {
            for (field, value) in fields {
                let chosen = schema["oneOf"]
                    .as_array()
                    .into_iter()
                    .flatten()
                    .find(|b| b["properties"][field].is_object());
                let chosen = chosen.unwrap_or_else(|| panic!("{field} in {schema:#}"));
                path.push(field.clone());
                walk(value, &chosen["properties"][field], root, path, visit);
                path.pop();
            }
        }
        Value::Array(items) => {
            for (at, value) in items.iter().enumerate() {
                path.push(at.to_string());
                walk(value, &schema["items"], root, path, visit);
                path.pop();
            }
        }
        _ => {}
    }
}

/// Follows references, and takes the branch for the value's type where there are several.
fn resolved<'a>(schema: &'a Value, root: &'a Value, value: &Value) -> &'a Value {
    if let Some(reference) = schema["$ref"].as_str() {
        let reference = reference.replace("%20", " ");
        let target = root.pointer(reference.trim_start_matches('#'));
        return resolved(target.unwrap_or_else(|| panic!("{reference} in {root:#}")), root, value);
    }
    if let Some(branches) = schema["anyOf"].as_array() {
        let fits = |branch: &&Value| {
            let branch = resolved(branch, root, value);
            branch["type"] == if value.is_object() { "object" } else { "string" }
        };
        return branches.iter().find(fits).map_or(schema, |branch| resolved(branch, root, value));
    }
    schema
}

/// Compares one object's reader with its schema.
fn step(name: &str, example: &Value, path: &[String], schema: &Value) {
    let changed = |change: &dyn Fn(&mut serde_json::Map<String, Value>)| {
        let mut input = example.clone();
        let pointer: String = path.iter().map(|part| format!("/{part}")).collect();
        let Some(Value::Object(object)) = input.pointer_mut(&pointer) else { panic!("{pointer}") };
        change(object);
        find(name, &input.to_string())
    };
    let place = format!("{name} {}", path.join("."));
    assert_eq!(schema["additionalProperties"], false, "{place} lets unknown fields pass");
    let properties = schema["properties"].as_object().unwrap();
    let error = changed(&|o| drop(o.insert("no_such_field".into(), Value::Null))).unwrap_err().to_string();
    let known: Vec<&str> = error.split('`').skip(3).step_by(2).collect();
    let mut listed: Vec<&str> = properties.keys().map(String::as_str).collect();
    let mut read = known.clone();
    read.sort_unstable();
    listed.sort_unstable();
    assert_eq!(read, listed, "{place}: the reader said {error}");
    let required: Vec<&str> =
        schema["required"].as_array().into_iter().flatten().map(|field| field.as_str().unwrap()).collect();
    for field in known {
        let missing = changed(&|o| drop(o.remove(field)));
        let asked = missing.as_ref().err().is_some_and(|e| e.to_string().contains("missing field"));
        // One of a reading's value and its repeats is asked for; the schema says so by `oneOf`.
        let either = schema["oneOf"].is_array() && ["value", "repeats"].contains(&field);
        assert!(either || asked == required.contains(&field), "{place}.{field}: {missing:?}");
    }
}

#[test]
fn mistakes_are_named_with_the_nearest_name() {
    let error = run("run_capacitor_underload", "{}").unwrap_err();
    assert_eq!(
        error.to_string(),
        r#"unknown check "run_capacitor_underload"; did you mean run_capacitor_under_load or run_capacitor_on_bench?"#
    );
    let misspelt = example("superheat").unwrap().replace("suction_line", "suction_lime");
    let error = run("superheat", &misspelt).unwrap_err().to_string();
    assert!(error.contains("did you mean suction_line?"), "{error}");
    let gauge = example("superheat").unwrap().replace(r#""unit": "psig""#, r#""unit": "psia""#);
    let error = run("superheat", &gauge).unwrap_err();
    assert_eq!(error.field(), Some("suction_pressure.value"));
    assert!(error.to_string().contains("gauge"), "{error}");
    let unknown = example("superheat").unwrap().replace("R-410A", "R-410");
    let error = run("superheat", &unknown).unwrap_err();
    assert!(error.is_unknown_name() && error.field() == Some("refrigerant"), "{error}");
}

/// An unresolved verdict comes with the cheapest way to settle it; one's own instruments are used where given.
#[test]
fn what_would_settle_it_is_said() {
    let input = example("run_capacitor_under_load").unwrap();
    let finding = find("run_capacitor_under_load", input).unwrap();
    assert_eq!(
        finding.next(),
        [
            "The cheapest way to settle it: capacitance meter, 0.01 µF steps, 1 % + 3 counts (power off, capacitor \
          discharged and disconnected)."
        ]
    );
    let mut own = parsed(input);
    own["instruments"] = serde_json::json!({"instruments": [{
        "class": "our only clamp", "reads": "current", "cost": 1,
        "instrument": {"resolution": "0.1 A", "accuracy": {"percent_of_reading": 2, "counts": 5}},
    }]});
    let finding = find("run_capacitor_under_load", &own.to_string()).unwrap();
    assert_eq!(finding.next(), ["None of the 1 ways tried settles it."]);
}
