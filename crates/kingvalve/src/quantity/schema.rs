//! The JSON Schema of a quantity, from its table of units.

use schemars::{Schema, json_schema};

use super::{Kind, Quantity};

/// `{"value": 62.0, "unit": "psig"}` with any name of any unit, or text such as `"62 psig"`.
pub(super) fn of<Q: Quantity>() -> Schema {
    written(Kind::of::<Q>())
}

fn written(kind: &Kind) -> Schema {
    let all = (kind.units)();
    let units: Vec<&str> = all.iter().flat_map(|unit| unit.names()).collect();
    let first = all.first().map_or("", |unit| unit.symbol);
    json_schema!({
        "title": kind.name,
        "anyOf": [
            {
                "type": "object",
                "properties": {"value": {"type": "number"}, "unit": {"enum": units}},
                "required": ["value", "unit"],
                "additionalProperties": false,
            },
            {"type": "string", "examples": [format!("1 {first}")]},
        ],
    })
}
