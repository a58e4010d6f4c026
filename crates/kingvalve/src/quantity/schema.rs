//! The JSON Schema of a quantity, from its table of units.

use schemars::{Schema, json_schema};

use super::Quantity;

/// `{"value": 62.0, "unit": "psig"}` with any name of any unit, or text such as `"62 psig"`.
pub(super) fn of<Q: Quantity>() -> Schema {
    let units: Vec<&str> = Q::units().iter().flat_map(|unit| unit.names()).collect();
    let first = Q::units().first().map_or("", |unit| unit.symbol);
    json_schema!({
        "title": Q::NAME,
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
