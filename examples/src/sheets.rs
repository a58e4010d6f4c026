//! The sheets of one visit as files: in English and US units, in Spanish and SI units, and as Markdown.

use kingvalve::estimate::{Language, UnitSystem};
use kingvalve::visit::Evaluation;

/// Draws of the simulated interval, and their seed: the same pages each time.
const DRAWS: (u32, u64) = (500, 20_260_714);

/// Name and text of every sheet that a visit has.
///
/// # Errors
/// A visit without ways, or a bill beyond what was agreed.
pub fn sheets(evaluation: &Evaluation) -> Result<Vec<(String, String)>, kingvalve::Error> {
    let mut sheets = Vec::new();
    let (draws, seed) = DRAWS;
    let likely = evaluation.with_likely_prices(draws, seed)?;
    let languages =
        [(Language::English, UnitSystem::Us, "html"), (Language::Spanish, UnitSystem::Si, "es.html")];
    for (language, units, ending) in languages {
        let options = likely.printed_in(language, units)?.with_likely_prices(draws, seed)?;
        sheets.push((format!("options.{ending}"), options.sheet().to_html()?));
        if let Some(outlook) = options.outlook_sheet() {
            sheets.push((format!("outlook.{ending}"), outlook.to_html()?));
        }
        sheets.push((format!("work.{ending}"), options.work_report()?.to_html()?));
        if let Some(invoice) = options.invoice() {
            sheets.push((format!("invoice.{ending}"), invoice.to_html()?));
        }
    }
    sheets.push(("options.md".to_owned(), likely.sheet().to_markdown()?));
    Ok(sheets)
}
