//! How wide text is printed, and how many rows it takes: what a page is laid out by before a browser has seen it.

/// Widths of the letters from space to tilde in thousandths of the size of type, in Helvetica and in the typefaces made to
/// its measures, which the sheets ask for (Adobe's font metrics for Helvetica, from memory).
const WIDTHS: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556,
    556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278,
    500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469,
    556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500,
    278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];
/// Other letters of alphabets, and letters that take a square.
const OTHER: u16 = 580;
const SQUARE: u16 = 1000;
/// How much wider bold type is.
pub(super) const BOLD: f64 = 1.07;

fn width_of(letter: char) -> u16 {
    let place = usize::try_from(u32::from(letter)).unwrap_or(0).checked_sub(32);
    match place.and_then(|place| WIDTHS.get(place)) {
        Some(width) => *width,
        None if letter < '\u{1100}' => OTHER,
        None => SQUARE,
    }
}

/// Width of a text on one row, in the size of type.
pub(super) fn length(text: &str, size: f64) -> f64 {
    let thousandths: u32 = text.chars().map(|letter| u32::from(width_of(letter))).sum();
    f64::from(thousandths) * size / 1000.0
}

/// Rows that a text takes in a width, broken between words, and within one that is longer than a row.
pub(super) fn rows(text: &str, width: f64, size: f64) -> f64 {
    let (room, space) = (width.max(1.0) / size * 1000.0, f64::from(width_of(' ')));
    let (mut rows, mut filled) = (1.0, 0.0);
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let long = length(word, 1000.0);
        if filled > 0.0 && filled + space + long <= room {
            filled += space + long;
        } else {
            rows += if filled > 0.0 { 1.0 } else { 0.0 };
            let more = (long / room).ceil().max(1.0) - 1.0;
            rows += more;
            filled = long - more * room;
        }
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_narrower_column_never_takes_fewer_rows() {
        let text = "Sealant can affect a warranty and foul recovery machines: read the makers' terms first.";
        let taken: Vec<f64> = (4..120).map(|width| rows(text, f64::from(width), 1.0)).collect();
        assert!(taken.windows(2).all(|pair| pair[0] >= pair[1]), "{taken:?}");
        assert_eq!((taken.last(), rows("", 5.0, 1.0)), (Some(&1.0), 1.0));
        // As long as its letters: "ll" is two of 222.
        assert!((length("ll", 10.0) - 4.44).abs() < 1e-12);
        assert_eq!(rows(&"m".repeat(100), 8.33, 1.0), 10.0);
    }
}
