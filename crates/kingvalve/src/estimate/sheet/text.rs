//! The sheet as plain text.

use super::view::{View, WayView};

/// Columns of a line.
const WIDTH: usize = 78;

pub(super) fn render(view: &View) -> String {
    let mut page = Page(String::new());
    page.hanging(0, &format!("{}: ", view.shop), &view.title);
    for line in &view.shop_lines {
        page.hanging(0, "", line);
    }
    for (label, value) in &view.facts {
        page.hanging(0, &format!("{label}: "), value);
    }
    page.list("What we know", &view.known);
    page.list("What we do not know yet", &view.unknown);
    let tax = if view.includes_tax { ", tax included" } else { "" };
    page.heading(&format!("Ways forward, in {}{tax}", view.currency));
    for (index, way) in view.ways.iter().enumerate() {
        page.0.push_str(if index > 0 { "\n" } else { "" });
        page.way(way);
    }
    if let Some(advice) = &view.advice {
        page.list("What we would do", std::slice::from_ref(advice));
    }
    page.list("Whichever way: take care", &view.cautions);
    page.list("Terms", &view.terms);
    if let Some(consent) = &view.consent {
        page.heading("Agreed");
        page.hanging(0, "", &format!("{} {}, up to {}", consent.letter, consent.title, consent.plain_up_to));
        page.hanging(0, "", &format!("{}, {}", consent.by, consent.on));
    }
    page.0
}

struct Page(String);

impl Page {
    fn heading(&mut self, heading: &str) {
        self.0.push('\n');
        self.line(0, heading);
        self.0.push_str(&"-".repeat(heading.chars().count().min(WIDTH)));
        self.0.push('\n');
    }

    fn list(&mut self, heading: &str, items: &[String]) {
        if items.is_empty() {
            return;
        }
        self.heading(heading);
        for item in items {
            self.hanging(0, "- ", item);
        }
    }

    fn way(&mut self, way: &WayView) {
        let tick = if way.chosen { " (chosen)" } else { "" };
        self.across(0, &format!("{} {}{tick}", way.letter, way.title), &way.plain_price);
        for line in &way.lines {
            let or_nothing = |text: &str, said: String| if text.is_empty() { String::new() } else { said };
            let detail = or_nothing(&line.detail, format!(" ({})", line.detail));
            let how_much = or_nothing(&line.how_much, format!(", {}", line.plain_how_much));
            self.across(2, &format!("{}{detail}{how_much}", line.what), &line.plain_amount);
        }
        self.line(2, &format!("Not more than {} without asking again.", way.plain_limit));
        for (label, said) in [
            ("Includes: ", &way.includes),
            ("Does not fix: ", &way.does_not_fix),
            ("Not known yet: ", &way.uncertain),
            ("Take care: ", &way.cautions),
        ] {
            if !said.is_empty() {
                self.hanging(2, label, &said.join(" "));
            }
        }
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
