//! Comma-separated text with `#` comments and quoted fields (RFC 4180 otherwise).

use std::collections::BTreeMap;
use std::path::PathBuf;

/// A file of `tests/reference`: its header and rows, in order.
#[derive(Debug)]
pub struct Sheet {
    name: String,
    rows: Vec<Row>,
}

/// One row, its fields by column name.
#[derive(Debug, Clone)]
pub struct Row {
    place: String,
    fields: BTreeMap<String, String>,
}

impl Sheet {
    /// Reads `tests/reference/<name>.csv`.
    ///
    /// # Panics
    /// Where the file is missing, has no rows, or a row has not as many fields as the header.
    pub fn open(name: &str) -> Self {
        let path: PathBuf =
            [env!("CARGO_MANIFEST_DIR"), "reference", &format!("{name}.csv")].iter().collect();
        let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        Self::parse(name, &text)
    }

    /// Reads the text of a file called `name`.
    ///
    /// # Panics
    /// As [`open`](Sheet::open).
    pub fn parse(name: &str, text: &str) -> Self {
        let mut records = records(text).into_iter();
        let (_, header) = records.next().unwrap_or_else(|| panic!("{name}.csv has no header"));
        let rows: Vec<Row> = records.map(|(line, fields)| Row::new(name, line, &header, fields)).collect();
        assert!(!rows.is_empty(), "{name}.csv has no rows");
        Sheet { name: name.to_owned(), rows }
    }

    /// The file's name without its ending.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The rows, in order.
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }
}

impl Row {
    fn new(sheet: &str, line: usize, header: &[String], fields: Vec<String>) -> Self {
        let place = format!("{sheet}.csv:{line}");
        assert_eq!(fields.len(), header.len(), "{place}: as many fields as the header has columns");
        Row { place, fields: header.iter().cloned().zip(fields).collect() }
    }

    /// File and line, for messages.
    pub fn place(&self) -> &str {
        &self.place
    }

    /// The text of a column, if it is there and filled.
    pub fn get(&self, column: &str) -> Option<&str> {
        self.fields.get(column).map(String::as_str).filter(|text| !text.is_empty())
    }

    /// The text of a column that must be filled.
    ///
    /// # Panics
    /// Where it is not.
    pub fn text(&self, column: &str) -> &str {
        self.get(column).unwrap_or_else(|| panic!("{}: no {column}", self.place))
    }

    /// The number in a column, if it is filled.
    ///
    /// # Panics
    /// Where it is filled with something else.
    pub fn maybe_number(&self, column: &str) -> Option<f64> {
        self.get(column).map(|text| self.parse(column, text))
    }

    /// The number in a column that must be filled.
    ///
    /// # Panics
    /// Where it is not, or not with a number.
    pub fn number(&self, column: &str) -> f64 {
        self.parse(column, self.text(column))
    }

    /// The numbers of a list such as `4.9;5.0;5.1`.
    ///
    /// # Panics
    /// As [`number`](Row::number).
    pub fn numbers(&self, column: &str) -> Vec<f64> {
        self.text(column).split(';').map(|text| self.parse(column, text.trim())).collect()
    }

    /// The columns that start so and are filled, with their text.
    pub fn filled(&self, prefix: &str) -> impl Iterator<Item = (&str, &str)> {
        self.fields
            .iter()
            .filter(move |(column, text)| column.starts_with(prefix) && !text.is_empty())
            .map(|(column, text)| (column.as_str(), text.as_str()))
    }

    fn parse(&self, column: &str, text: &str) -> f64 {
        text.parse().unwrap_or_else(|_| panic!("{}: {column} is {text:?}, not a number", self.place))
    }
}

/// Every record with the number of the line it starts on; comments and empty lines left out.
fn records(text: &str) -> Vec<(usize, Vec<String>)> {
    let mut records = Vec::new();
    let mut lines = text.lines().zip(1..);
    while let Some((line, number)) = lines.next() {
        if line.trim().is_empty() || line.starts_with('#') {
            continue;
        }
        let mut record = line.to_owned();
        while record.matches('"').count() % 2 == 1 {
            let Some((more, _)) = lines.next() else { panic!("line {number}: a quote is never closed") };
            record.push('\n');
            record.push_str(more);
        }
        records.push((number, fields(&record)));
    }
    records
}

fn fields(record: &str) -> Vec<String> {
    let mut fields = Vec::new();
    let mut field = String::new();
    let mut quoted = false;
    let mut chars = record.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                chars.next();
                field.push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => fields.push(std::mem::take(&mut field)),
            c => field.push(c),
        }
    }
    fields.push(field);
    fields
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quotes_commas_and_comments() {
        let sheet = Sheet::parse("x", "# note\ncase,in_a,note\n\none,1.5,\"a, \"\"b\"\"\"\ntwo,,\n");
        let [one, two] = sheet.rows() else { panic!("two rows") };
        assert_eq!(one.text("note"), "a, \"b\"");
        assert_eq!(one.number("in_a"), 1.5);
        assert_eq!(one.place(), "x.csv:4");
        assert_eq!((two.get("in_a"), two.get("nowhere")), (None, None));
        assert_eq!(one.filled("in_").collect::<Vec<_>>(), [("in_a", "1.5")]);
    }

    #[test]
    fn lists() {
        let sheet = Sheet::parse("x", "case,in_a\none,1; 2;3\n");
        assert_eq!(sheet.rows()[0].numbers("in_a"), [1.0, 2.0, 3.0]);
    }

    #[test]
    #[should_panic(expected = "x.csv:2: as many fields")]
    fn a_short_row_is_an_error() {
        Sheet::parse("x", "case,in_a\none\n");
    }

    #[test]
    #[should_panic(expected = "in_a is \"many\", not a number")]
    fn words_are_not_numbers() {
        Sheet::parse("x", "case,in_a\none,many\n").rows()[0].number("in_a");
    }
}
