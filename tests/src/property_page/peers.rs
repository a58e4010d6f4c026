//! The differences from other libraries that `properties/compare.py` found.

use std::collections::BTreeMap;

use crate::{Row, Sheet};

/// The rows of `property_differences.csv` by designation and library.
#[derive(Debug)]
pub(super) struct Peers(BTreeMap<(String, String), Row>);

impl Peers {
    pub fn read() -> Self {
        let key = |row: &Row| (row.text("designation").to_owned(), row.text("library").to_owned());
        Peers(Sheet::open("property_differences").rows().iter().map(|row| (key(row), row.clone())).collect())
    }

    /// αʳ, pressure and saturation; what CoolProp cannot do is said instead.
    pub fn cell(&self, designation: &str, library: &str) -> Result<String, String> {
        let Some(row) = self.0.get(&(designation.to_owned(), library.to_owned())) else {
            return match library {
                "CoolProp" => Ok("lacks R-1132a".to_owned()),
                _ => Err(format!("no row of {library} in property_differences.csv: run `make properties`")),
            };
        };
        let worst = ["worst_alpha", "worst_pressure", "worst_saturation"].map(|c| row.get(c).unwrap_or("–"));
        let lost = row.number("flash_failed") + row.number("flash_wrong");
        let rest = if lost > 0.0 {
            format!(" ({lost} of {} flashes fail)", lost + row.number("saturation_states"))
        } else {
            String::new()
        };
        Ok(format!("{}{rest}", worst.join("; ")))
    }

    /// The version of a library.
    pub fn version(&self, library: &str) -> &str {
        self.of(library).map(|row| row.text("version")).next().unwrap_or("")
    }

    /// How many states of a kind were compared with a library.
    pub fn total(&self, library: &str, column: &str) -> f64 {
        self.of(library).map(|row| row.number(column)).sum()
    }

    fn of(&self, library: &str) -> impl Iterator<Item = &Row> {
        self.0.iter().filter(move |((_, each), _)| each == library).map(|(_, row)| row)
    }
}
