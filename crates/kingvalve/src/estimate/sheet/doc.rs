//! A sheet as a row of blocks, written as plain text or as Markdown.

/// Columns of a line of plain text.
const WIDTH: usize = 78;

/// A piece of a sheet.
pub(super) enum Block {
    /// Who it is from, and what it is.
    Title { from: String, title: String },
    /// A line of its own.
    Plain(String),
    /// A label and what it says.
    Fact(String, String),
    /// The head of a part.
    Heading(String),
    /// A sentence of a list.
    Bullet(String),
    /// The head of a way, with its price.
    Way { title: String, price: String, first: bool },
    /// Something and its amount, within a way or an invoice.
    Row { what: String, amount: String },
    /// A sentence within a way.
    Note(String),
    /// A sentence at the foot.
    Foot(String),
    /// Labelled sentences within a way.
    Said { label: String, text: String },
}

/// Plain text, 78 columns wide.
pub(super) fn text(blocks: &[Block]) -> String {
    let mut page = Page(String::new());
    for block in blocks {
        match block {
            Block::Title { from, title } => page.hanging(0, &format!("{from}: "), title),
            Block::Plain(line) => page.hanging(0, "", line),
            Block::Fact(label, value) => page.hanging(0, &format!("{label}: "), value),
            Block::Heading(heading) => page.heading(heading),
            Block::Bullet(item) => page.hanging(0, "- ", item),
            Block::Way { title, price, first } => {
                page.0.push_str(if *first { "" } else { "\n" });
                page.across(0, title, price);
            }
            Block::Row { what, amount } => page.across(2, what, amount),
            Block::Note(note) => page.hanging(2, "", note),
            Block::Foot(note) => {
                page.0.push('\n');
                page.hanging(0, "", note);
            }
            Block::Said { label, text } => page.hanging(2, &format!("{label}: "), text),
        }
    }
    page.0
}

/// CommonMark, with every character of the given texts that could be markup escaped.
pub(super) fn markdown(blocks: &[Block]) -> String {
    let mut page = String::new();
    let mut in_list = false;
    for block in blocks {
        let item =
            matches!(block, Block::Bullet(_) | Block::Row { .. } | Block::Said { .. } | Block::Note(_));
        if in_list && !item {
            page.push('\n');
        }
        in_list = item;
        page.push_str(&match block {
            Block::Title { from, title } => format!("# {}\n\n{}\n\n", escaped(title), escaped(from)),
            Block::Plain(line) | Block::Foot(line) => format!("{}\n\n", escaped(line)),
            Block::Fact(label, value) => format!("**{}:** {}\n\n", escaped(label), escaped(value)),
            Block::Heading(heading) => format!("## {}\n\n", escaped(heading)),
            Block::Bullet(item) => format!("- {}\n", escaped(item)),
            Block::Way { title, price, .. } => format!("### {}: {}\n\n", escaped(title), escaped(price)),
            Block::Row { what, amount } => format!("- {}: {}\n", escaped(what), escaped(amount)),
            Block::Note(note) => format!("- {}\n", escaped(note)),
            Block::Said { label, text } => format!("- **{}:** {}\n", escaped(label), escaped(text)),
        });
    }
    page.truncate(page.trim_end().len());
    page.push('\n');
    page
}

/// Text that Markdown shows as it is: ASCII punctuation that can be markup has a backslash before it.
fn escaped(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for c in text.chars() {
        if matches!(c, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '&' | '#' | '|' | '~' | '!' | '@') {
            shown.push('\\');
        }
        shown.push(c);
    }
    shown.replace("://", "\\://").replace("www.", "www\\.")
}

struct Page(String);

impl Page {
    fn heading(&mut self, heading: &str) {
        self.0.push('\n');
        let lines = wrapped(heading, WIDTH);
        lines.iter().for_each(|line| self.line(0, line));
        let longest = lines.iter().map(|line| line.chars().count()).max().unwrap_or(0);
        self.0.push_str(&"-".repeat(longest));
        self.0.push('\n');
    }

    /// Text at the left, an amount at the right end of its last line.
    fn across(&mut self, indent: usize, left: &str, right: &str) {
        let room = WIDTH.saturating_sub(indent + right.chars().count() + 2).max(20);
        let mut lines = wrapped(left, room);
        let last = lines.pop().unwrap_or_default();
        for line in lines {
            self.line(indent, &line);
        }
        let gap = WIDTH.saturating_sub(indent + last.chars().count() + right.chars().count()).max(2);
        self.line(indent, &format!("{last}{}{right}", " ".repeat(gap)));
    }

    /// A label, then text whose further lines stand two columns in.
    fn hanging(&mut self, indent: usize, label: &str, text: &str) {
        let lines = wrapped(&format!("{label}{text}"), WIDTH.saturating_sub(indent + 2));
        for (index, line) in lines.iter().enumerate() {
            self.line(if index == 0 { indent } else { indent + 2 }, line);
        }
    }

    fn line(&mut self, indent: usize, line: &str) {
        self.0.push_str(&" ".repeat(indent));
        self.0.push_str(line);
        self.0.push('\n');
    }
}

/// `text` in lines of at most `width` characters, broken between words where that is possible.
fn wrapped(text: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ').flat_map(|word| pieces(word, width)) {
        let length = word.chars().count();
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + length <= width => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}

/// A word in pieces that fit a line: one, unless it is longer than the line.
fn pieces(word: &str, width: usize) -> Vec<String> {
    let letters: Vec<char> = word.chars().collect();
    letters.chunks(width.max(1)).map(|piece| piece.iter().collect()).collect()
}
