//! Text that can do nothing but be read.

/// `text` on one line, without characters that steer rather than show: control characters become spaces, marks that turn
/// the direction of what follows are dropped (the page isolates every text instead).
pub(super) fn clean(text: &str) -> String {
    let shown = text.chars().filter(|c| !steers(*c)).map(|c| if c.is_control() { ' ' } else { c });
    shown.collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Marks, embeddings, overrides and isolates of direction; the byte order mark; anchors of interlinear notes.
fn steers(c: char) -> bool {
    matches!(c, '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}' | '\u{FFF9}'..='\u{FFFB}')
}
