//! Sixty invented visits over three years: sites, leaks, choices and outcomes are drawn from a seed.

use kingvalve::measure::Generator;
use serde_json::{Value, json};

const SPLIT: &str = include_str!("../../../data/no_cool_r454b.json");
const OLDER: &str = include_str!("../../../data/low_cooling_r410a.json");
/// How many, and over how many sites.
const VISITS: u32 = 60;
const SITES: u32 = 22;
const SCALE: &str = "platform scale, 0.05 lb steps";

/// One JSON line each, in the order of their dates.
pub fn visits(seed: u64) -> Result<Vec<String>, serde_json::Error> {
    let mut dice = Generator::seeded(seed);
    (0..VISITS).map(|number| visit(number, &mut dice).map(|visit| visit.to_string())).collect()
}

fn visit(number: u32, dice: &mut Generator) -> Result<Value, serde_json::Error> {
    let site = below(SITES, dice);
    let older = site.is_multiple_of(3);
    let mut record: Value = serde_json::from_str(if older { OLDER } else { SPLIT })?;
    let (year, month, day) = (2024 + number / 20, 1 + (number % 20) * 12 / 20, 1 + below(28, dice));
    record["id"] = json!(format!("V-{number:04}"));
    record["date"] = json!(format!("{year}-{month:02}-{day:02}"));
    record["note"] =
        json!("An invented visit: shop, people, equipment, readings and prices are made up by a program.");
    record["customer"]["name"] = json!(format!("Invented Customer {}", site + 1));
    record["customer"]["address"] = json!(format!("{} Example Street, Sampletown", 10 + 2 * site));
    record["customer"]["site"] = json!(format!("S-{:02}", site + 1));
    record["intake"]["since"] = json!(["yesterday", "this week", "last month"][below(3, dice) as usize % 3]);
    cylinders(&mut record, dice);
    record["outcome"] = outcome(dice);
    if site % 4 == 1 {
        record["membership"] = json!("comfort plan");
    }
    record["rates"] = serde_json::from_str(include_str!("../../../data/rate_card.json"))?;
    let fields = record.as_object_mut();
    fields.into_iter().for_each(|fields| {
        ["consent", "done", "outlook", "results"].iter().for_each(|name| drop(fields.remove(*name)))
    });
    Ok(record)
}

/// What went in, in scale steps; on every fifth visit what was taken out first.
fn cylinders(record: &mut Value, dice: &mut Generator) {
    let weight =
        |steps: u32| json!({"value": {"value": f64::from(steps) / 20.0, "unit": "lb"}, "with": SCALE});
    let charged = 10 + below(80, dice);
    let start = 400 + below(80, dice);
    record["cylinders"] =
        json!([{"name": "cylinder A", "weights": [weight(start), weight(start - charged)]}]);
    if below(5, dice) == 0 {
        let recovered = 4 + below(40, dice);
        record["recovered"] =
            json!([{"name": "recovery cylinder", "weights": [weight(520), weight(520 + recovered)]}]);
    }
}

/// What became of earlier work: nothing on most visits.
fn outcome(dice: &mut Generator) -> Value {
    match below(8, dice) {
        0 | 1 => json!({"sealant_held": below(3, dice) == 0}),
        2 => json!({"repair_held": below(7, dice) != 0}),
        3 | 4 => {
            let hours = 1 + below(3, dice);
            let place = ["reachable", "indoor_coil", "outdoor_unit"].get(below(4, dice) as usize).copied();
            place.map_or(
                json!({"hours_searched": hours}),
                |at| json!({"hours_searched": hours, "leak_found": at}),
            )
        }
        5 => {
            let (age, years) = (4 + below(12, dice), 1 + below(3, dice));
            json!({"equipment": {"from_age": format!("{age} yr"), "to_age": format!("{} yr", age + years),
                "failed": below(20, dice) < age / 3}})
        }
        _ => json!({}),
    }
}

fn below(count: u32, dice: &mut Generator) -> u32 {
    ((dice.uniform() * f64::from(count)) as u32).min(count.saturating_sub(1))
}
