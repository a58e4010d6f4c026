//! JSON Schema of the values that are written as text.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};

use super::{Currency, Money, Percent, Step};

/// Digits, an optional point and more digits.
const DECIMAL: &str = r"[0-9]+(\.[0-9]+)?";

macro_rules! schema {
    ($Type:ident, $schema:expr) => {
        impl JsonSchema for $Type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($Type).into()
            }
            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                $schema
            }
        }
    };
}

schema!(
    Currency,
    json_schema!({
        "description": "ISO 4217 code.",
        "enum": Currency::all().map(Currency::code).collect::<Vec<_>>(),
    })
);
schema!(
    Money,
    json_schema!({
        "description": "A decimal amount and its ISO 4217 code: \"123.45 USD\".",
        "anyOf": [
            {"type": "string", "pattern": format!("^-?{DECIMAL} [A-Z]{{3}}$")},
            {
                "type": "object",
                "properties": {
                    "amount": {"type": "string", "pattern": format!("^-?{DECIMAL}$")},
                    "currency": {"type": "string", "pattern": "^[A-Z]{3}$"},
                },
                "required": ["amount", "currency"],
                "additionalProperties": false,
            },
        ],
    })
);
schema!(
    Percent,
    json_schema!({
        "description": "A rate in percent, not negative: \"8.25 %\".",
        "type": "string",
        "pattern": format!("^{DECIMAL} ?%$"),
    })
);
schema!(
    Step,
    json_schema!({
        "description": "A positive decimal as text: \"0.25\".",
        "type": "string",
        "pattern": format!("^{DECIMAL}$"),
    })
);
