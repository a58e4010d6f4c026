//! Walking a truth table so that every row is answered.

use crate::{Row, Sheet};

/// A truth table: rows with `case`, one filled `exp_…`, `tol_abs` or `tol_rel`, `source` and `mark`.
#[derive(Debug)]
pub struct Table(Sheet);

/// What a test says of a row.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// What the library computes; compared with the row's expected number within its tolerance.
    Number(f64),
    /// What the library says; compared with the row's expected text exactly.
    Text(String),
    /// The row is not used here, and why.
    LeftOut(&'static str),
}

impl From<f64> for Answer {
    fn from(value: f64) -> Self {
        Answer::Number(value)
    }
}

impl Table {
    /// Reads `tests/reference/<name>.csv`.
    ///
    /// # Panics
    /// Where the file cannot be read.
    pub fn open(name: &str) -> Self {
        Table(Sheet::open(name))
    }

    /// Asks `answer` about every row, compares, prints what was used and what was left out and why.
    ///
    /// # Panics
    /// With every row that differs, and where no row was compared at all.
    pub fn check(&self, mut answer: impl FnMut(&Row) -> Answer) {
        let mut used = Vec::new();
        let mut left_out = Vec::new();
        let mut wrong = Vec::new();
        for row in self.0.rows() {
            match answer(row) {
                Answer::LeftOut(why) => left_out.push(format!("{} ({why})", row.text("case"))),
                given => match compare(row, &given) {
                    Ok(()) => used.push(row.text("case").to_owned()),
                    Err(difference) => wrong.push(difference),
                },
            }
        }
        println!("{}.csv: {} rows hold: {}", self.0.name(), used.len(), used.join(", "));
        if !left_out.is_empty() {
            println!("{}.csv: {} rows left out: {}", self.0.name(), left_out.len(), left_out.join(", "));
        }
        assert!(wrong.is_empty(), "{} rows differ:\n{}", wrong.len(), wrong.join("\n"));
        assert!(!used.is_empty(), "no row of {}.csv was compared", self.0.name());
    }
}

/// Whether the answer is the row's expected value: a number passes inside either tolerance given.
fn compare(row: &Row, given: &Answer) -> Result<(), String> {
    let expected: Vec<(&str, &str)> = row.filled("exp_").collect();
    let [(column, expected)] = expected[..] else {
        return Err(format!("{}: exactly one exp_ column must be filled, found {expected:?}", row.place()));
    };
    let case = row.text("case");
    let report = |given: &str| {
        Err(format!("{} {case}: {column} is {expected} ({}), got {given}", row.place(), row.text("source")))
    };
    match given {
        Answer::Text(text) if text == expected => Ok(()),
        Answer::Text(text) => report(text),
        Answer::LeftOut(why) => report(why),
        Answer::Number(value) => {
            let wanted = row.number(column);
            let off = (value - wanted).abs();
            // A sum that lies at the very edge may round to either side of it.
            let rounding = 4.0 * f64::EPSILON * wanted.abs();
            let absolute = row.maybe_number("tol_abs").is_some_and(|tol| off <= tol + rounding);
            let relative = row.maybe_number("tol_rel").is_some_and(|tol| off <= tol * wanted.abs());
            if absolute || relative { Ok(()) } else { report(&value.to_string()) }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(rows: &str) -> Table {
        let header = "case,exp_a,exp_b,tol_abs,tol_rel,source,mark\n";
        Table(Sheet::parse("x", &format!("{header}{rows}")))
    }

    #[test]
    fn either_tolerance_is_enough() {
        table("abs,10,,0.5,,here,memory\nrel,1000,,0.5,0.01,here,memory\nnegative,-10,,,0.1,here,memory\n")
            .check(|row| Answer::Number(row.number("exp_a") * 1.01 - 0.1));
    }

    #[test]
    fn text_is_compared_exactly() {
        table("group,,A2L,,,here,memory\n").check(|_| Answer::Text("A2L".into()));
    }

    #[test]
    #[should_panic(expected = "x.csv:2 one: exp_a is 10 (here), got 11")]
    fn a_difference_is_reported_with_its_source() {
        table("one,10,,0.5,,here,memory\n").check(|_| Answer::Number(11.0));
    }

    #[test]
    #[should_panic(expected = "1 rows differ")]
    fn nan_never_passes() {
        table("one,10,,1e300,1e300,here,memory\n").check(|_| Answer::Number(f64::NAN));
    }

    #[test]
    #[should_panic(expected = "exactly one exp_ column")]
    fn two_expected_values_are_an_error() {
        table("one,10,11,1,,here,memory\n").check(|_| Answer::Number(10.0));
    }

    #[test]
    #[should_panic(expected = "no row of x.csv was compared")]
    fn leaving_everything_out_is_an_error() {
        table("one,10,,1,,here,memory\n").check(|_| Answer::LeftOut("not yet"));
    }
}
