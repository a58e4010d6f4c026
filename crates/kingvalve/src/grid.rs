//! Reading a table between its entries, never beyond them.

/// Where a value lies between the steps of one side of a table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    /// The step below it.
    pub at: usize,
    /// How far into the step, 0 to 1.
    pub into: f64,
    /// How wide the step is.
    pub width: f64,
}

/// The step a value lies in, ends included; none outside the table.
pub(crate) fn place(steps: impl Iterator<Item = f64> + Clone, value: f64) -> Option<Place> {
    let pairs = steps.clone().zip(steps.skip(1));
    let (at, (low, high)) = pairs.enumerate().find(|(_, (low, high))| *low <= value && value <= *high)?;
    let width = high - low;
    Some(Place { at, into: (value - low) / width, width })
}

/// Whether there are two steps or more, each above the last.
pub(crate) fn rises(steps: impl Iterator<Item = f64> + Clone) -> bool {
    let pairs = || steps.clone().zip(steps.clone().skip(1));
    pairs().next().is_some() && pairs().all(|(low, high)| low < high)
}

/// The value between four entries (`[[a, b], [c, d]]`: rows down, columns across) and its derivatives by the row's and
/// by the column's value.
pub(crate) fn bilinear([[a, b], [c, d]]: [[f64; 2]; 2], row: Place, column: Place) -> [f64; 3] {
    let (above, below) = (a + column.into * (b - a), c + column.into * (d - c));
    let across = (b - a) + row.into * ((d - c) - (b - a));
    [above + row.into * (below - above), (below - above) / row.width, across / column.width]
}
