//! The options sheet as blocks, for plain text and Markdown.

use super::doc::Block;
use super::view::{View, WayView};
use crate::estimate::Language;

pub(super) fn blocks(view: &View, language: Language) -> Vec<Block> {
    let say = |key: &str| language.sheet(key, &[]);
    let mut blocks = vec![Block::Title { from: view.shop.clone(), title: view.title.clone() }];
    blocks.extend(view.shop_lines.iter().cloned().map(Block::Plain));
    blocks.extend(view.facts.iter().cloned().map(|(label, value)| Block::Fact(label, value)));
    list(&mut blocks, say("known"), &view.known);
    list(&mut blocks, say("unknown"), &view.unknown);
    blocks.push(Block::Heading(view.ways_note.clone()));
    for (index, way) in view.ways.iter().enumerate() {
        push_way(&mut blocks, way, index == 0, language);
    }
    list(&mut blocks, say("advice"), view.advice.as_slice());
    list(&mut blocks, say("whichever"), &view.cautions);
    list(&mut blocks, say("terms"), &view.terms);
    if let Some(consent) = &view.consent {
        blocks.push(Block::Heading(say("agreed")));
        let up_to = language.sheet("up_to", &[("amount", &consent.plain_up_to)]);
        blocks.push(Block::Plain(format!("{} {}, {up_to}", consent.letter, consent.title)));
        blocks.push(Block::Plain(format!("{}, {}", consent.by, consent.on)));
    }
    blocks
}

/// A headed list, left out where it is empty.
pub(super) fn list(blocks: &mut Vec<Block>, heading: String, items: &[String]) {
    if items.is_empty() {
        return;
    }
    blocks.push(Block::Heading(heading));
    blocks.extend(items.iter().cloned().map(Block::Bullet));
}

fn push_way(blocks: &mut Vec<Block>, way: &WayView, first: bool, language: Language) {
    let tick = if way.chosen { format!(" ({})", language.sheet("chosen", &[])) } else { String::new() };
    let title = format!("{} {}{tick}", way.letter, way.title);
    blocks.push(Block::Way { title, price: way.plain_price.clone(), first });
    for line in &way.lines {
        let or_nothing = |text: &str, said: String| if text.is_empty() { String::new() } else { said };
        let detail = or_nothing(&line.detail, format!(" ({})", line.detail));
        let how_much = or_nothing(&line.how_much, format!(", {}", line.plain_how_much));
        let what = format!("{}{detail}{how_much}", line.what);
        blocks.push(Block::Row { what, amount: line.plain_amount.clone() });
    }
    blocks.push(Block::Note(language.sheet("limit", &[("amount", &way.plain_limit)])));
    let notes = [&way.plain_likely, &way.plain_deposit].into_iter().flatten();
    blocks.extend(notes.cloned().map(Block::Note));
    for (key, said) in [
        ("includes", &way.includes),
        ("does_not_fix", &way.does_not_fix),
        ("uncertain", &way.uncertain),
        ("cautions", &way.cautions),
        ("warranty", &way.warranty),
        ("also", &way.plain_also),
    ] {
        if !said.is_empty() {
            blocks.push(Block::Said { label: language.sheet(key, &[]), text: said.join(" ") });
        }
    }
}
