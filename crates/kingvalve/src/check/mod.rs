//! Every check by name: JSON in, a finding in JSON out, with a schema and an example for each.
//!
//! # Example
//! ```
//! use kingvalve::check;
//! assert!(check::names().any(|name| name == "run_capacitor_under_load"));
//! let finding = check::run("run_capacitor_under_load", check::example("run_capacitor_under_load")?)?;
//! assert!(finding.starts_with(r#"{"check":"run_capacitor_under_load","verdict":"unresolved""#));
//! let error = check::run("run_capacitor", "{}").unwrap_err();
//! assert!(error.is_unknown_name());
//! # Ok::<(), kingvalve::Error>(())
//! ```

/// The list of a room's checks, and that of their schemas: two, so that a program that asks for no schema has none linked
/// in.
macro_rules! checks {
    ($($Check:ty),+ $(,)?) => {
        pub(in crate::check) const CHECKS: &[$crate::check::Entry] = &[$($crate::check::Entry::of::<$Check>()),+];
        pub(in crate::check) const SCHEMAS: &[$crate::check::Form] = &[$($crate::check::Form::of::<$Check>()),+];
    };
}

mod air;
mod cylinder;
mod electrical;
mod charging;
mod fault;
mod leak;
mod running;
mod shared;
mod standing;
mod tally;
mod target;
mod tightness;
mod weigh_in;

use schemars::JsonSchema;
use serde::de::DeserializeOwned;

use self::shared::{called, refrigerant};
use crate::measure::Finding;
use crate::{Error, Result, json};

/// A check of the registry: its input in JSON, and how a finding is made of it.
trait Check: DeserializeOwned + JsonSchema {
    const NAME: &'static str;
    /// An input, as JSON: an invented case.
    const EXAMPLE: &'static str;
    /// How errors that name no field begin, and the field they speak of.
    const FIELDS: Fields = &[];
    fn find(self) -> Result<Finding>;
}

/// The first words of an error, and the field of the input it is about.
type Fields = &'static [(&'static str, &'static str)];

/// A check, its types left behind.
struct Entry {
    name: &'static str,
    example: &'static str,
    find: fn(&str) -> Result<Finding>,
}

impl Entry {
    const fn of<C: Check>() -> Entry {
        Entry {
            name: C::NAME,
            example: C::EXAMPLE,
            find: |text| json::read::<C>(C::NAME, text)?.find().map_err(|error| placed(error, C::FIELDS)),
        }
    }
}

/// The form of a check's input.
struct Form {
    name: &'static str,
    schema: fn() -> Result<String>,
}

impl Form {
    const fn of<C: Check>() -> Form {
        Form { name: C::NAME, schema: json::schema::<C> }
    }
}

/// Every check, by room.
const ROOMS: &[&[Entry]] = &[air::CHECKS, electrical::CHECKS, tightness::CHECKS, CHECKS];

/// The form of every check, by room.
const FORMS: &[&[Form]] = &[air::SCHEMAS, electrical::SCHEMAS, tightness::SCHEMAS, SCHEMAS];

// Those of rooms with a few.
checks![
    tally::CylinderTally,
    cylinder::CylinderFill,
    cylinder::CylinderHeel,
    running::Superheat,
    running::Subcooling,
    target::TargetSuperheat,
    target::TargetSubcooling,
    fault::FaultRanking,
    weigh_in::WeighInCharge,
    leak::LeakRateCheck,
    standing::StandingPressure,
    charging::ChargeInventory,
    charging::ChargePlan,
];

/// The name of every check.
pub fn names() -> impl Iterator<Item = &'static str> {
    entries().map(|entry| entry.name)
}

/// The JSON Schema (draft 2020-12) of what a check takes.
///
/// A schema says the form; what the values must be to each other (a range the right way round, a scale that does not
/// go up) the check itself says.
///
/// # Errors
/// A name nobody knows, with the nearest ones.
/// # Example
/// ```
/// let schema = kingvalve::check::schema("superheat")?;
/// assert!(schema.contains("suction_pressure"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn schema(name: &str) -> Result<String> {
    let form = FORMS.iter().copied().flatten().find(|form| form.name == name);
    (form.ok_or_else(|| unknown(name))?.schema)()
}

/// An input the check takes: an invented case, to copy from.
///
/// # Errors
/// A name nobody knows, with the nearest ones.
/// # Example
/// See [the room](self).
pub fn example(name: &str) -> Result<&'static str> {
    Ok(entry(name)?.example)
}

/// Runs a check on its input and gives the finding, both JSON text.
///
/// # Errors
/// A name nobody knows; JSON of another form (the field is named, and the nearest field where one is misspelt); a
/// reading or limit that cannot be.
/// # Example
/// See [the room](self).
pub fn run(name: &str, input: &str) -> Result<String> {
    let finding = find(name, input)?;
    serde_json::to_string(&finding).map_err(|error| Error::malformed("a finding", error.to_string()))
}

/// The same, as a [`Finding`].
///
/// # Errors
/// As [`run`].
/// # Example
/// ```
/// use kingvalve::check;
/// let finding = check::find("cylinder_tally", check::example("cylinder_tally")?)?;
/// assert!(!finding.cautions().is_empty());
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn find(name: &str, input: &str) -> Result<Finding> {
    let finding = (entry(name)?.find)(input)?;
    let open = finding.verdict() == Some("unresolved") && finding.next().is_empty();
    Ok(if open { finding.then(OPEN) } else { finding })
}

/// What to do where the readings do not decide and the check has nothing better to say.
const OPEN: &str =
    "These readings do not decide: improve the one the text names, or measure in another way, before acting.";

fn entry(name: &str) -> Result<&'static Entry> {
    entries().find(|entry| entry.name == name).ok_or_else(|| unknown(name))
}

fn unknown(name: &str) -> Error {
    Error::unknown("check", name, names())
}

fn entries() -> impl Iterator<Item = &'static Entry> {
    ROOMS.iter().copied().flatten()
}

/// Says which field an error is about, where the room that made it could not know.
fn placed(error: Error, fields: Fields) -> Error {
    if error.field().is_some() {
        return error;
    }
    let said = error.to_string();
    match fields.iter().find(|(start, _)| said.starts_with(start)) {
        Some((_, field)) => error.in_field(*field),
        None => error,
    }
}

#[cfg(test)]
mod tests;
