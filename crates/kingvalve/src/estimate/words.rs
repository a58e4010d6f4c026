//! What is said of the five ways. Short: five of them stand side by side on one page.

use super::Words;
use crate::measure::Interval;
use crate::quantity::Mass;

fn words(includes: &[&str], does_not_fix: &[&str], uncertain: &[&str], cautions: &[&str]) -> Words {
    let own = |sentences: &[&str]| sentences.iter().map(|&sentence| sentence.to_owned()).collect();
    Words {
        includes: own(includes),
        does_not_fix: own(does_not_fix),
        uncertain: own(uncertain),
        cautions: own(cautions),
    }
}

pub(super) fn leave_as_is() -> Words {
    words(
        &["The trip and the diagnosis, which are done."],
        &["Cooling is not restored.", "What refrigerant is left can go on escaping."],
        &["How long what still works will go on working."],
        &["Leave the system off: running short of refrigerant can ruin the compressor."],
    )
}

pub(super) fn recharge(missing: Interval<Mass>) -> Words {
    let (low, high) = (missing.low().pounds(), missing.high().pounds());
    let pounds = format!("How much it takes: {low:.1} to {high:.1} lb by today's readings.");
    words(
        &["Refrigerant weighed in, and the result checked."],
        &["The leak: what is added can escape again."],
        &[&pounds, "How long it lasts: days or years, by the size of the leak."],
        &["No flames and no bystanders while refrigerant is handled."],
    )
}

pub(super) fn sealant() -> Words {
    words(
        &["Sealant for small leaks, dye to show them, a label on the unit."],
        &["Large leaks, or any the sealant does not reach."],
        &["Whether the sealant holds."],
        &["Sealant can affect a warranty and foul recovery machines: read the makers' terms first."],
    )
}

pub(super) fn leak_search() -> Words {
    words(
        &[
            "Search, then repair where it can be reached, within the hours shown.",
            "With a repair: recovery, new filter-drier, vacuum, charge by weight.",
        ],
        &["A leaking coil, or a line in a wall: priced separately before any such work."],
        &["Where the leak is, and whether it can be reached. The low price is the search alone."],
        &["Nitrogen pressure and brazing heat: refrigerant comes out first, flames stay away."],
    )
}

pub(super) fn replace() -> Words {
    words(
        &["New equipment, installed and charged.", "Old refrigerant recovered, old equipment taken away."],
        &["Ducts, wiring and drains, unless a line says so."],
        &["The price within its range, until the equipment is sized and chosen."],
        &["Permit and inspection as the local code asks."],
    )
}
