//! Where refrigerant can be.

use super::oil::Oil;

/// A part of the system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Outdoor coil, with its headers and the discharge line.
    OutdoorCoil,
    /// Indoor coil, with its distributor.
    IndoorCoil,
    /// Liquid line, with its filter-drier.
    LiquidLine,
    /// Suction line.
    SuctionLine,
    /// Compressor shell, with an accumulator where there is one; the oil lies in it.
    Shell,
}

impl Part {
    /// How many there are.
    pub const COUNT: usize = 5;
    /// All of them.
    pub const ALL: [Part; Part::COUNT] =
        [Part::OutdoorCoil, Part::IndoorCoil, Part::LiquidLine, Part::SuctionLine, Part::Shell];

    /// Its place in [`ALL`](Self::ALL).
    pub const fn index(self) -> usize {
        match self {
            Part::OutdoorCoil => 0,
            Part::IndoorCoil => 1,
            Part::LiquidLine => 2,
            Part::SuctionLine => 3,
            Part::Shell => 4,
        }
    }
}

/// Internal volumes, m³, in the order of [`Part::ALL`]; the shell's before oil is filled in.
#[derive(Debug, Clone, Copy)]
pub struct Volumes(pub [f64; Part::COUNT]);

impl Volumes {
    /// One part's.
    pub fn of(&self, part: Part) -> f64 {
        self.0[part.index()]
    }

    /// What refrigerant can fill beside the oil.
    pub fn free(&self, oil: &Oil) -> [f64; Part::COUNT] {
        let mut free = self.0;
        free[Part::Shell.index()] -= oil.volume();
        free
    }

    /// All of it beside the oil, m³.
    pub fn free_total(&self, oil: &Oil) -> f64 {
        self.free(oil).iter().sum()
    }

    /// All parts larger or smaller by a factor.
    #[must_use]
    pub fn scaled(&self, by: f64) -> Volumes {
        Volumes(self.0.map(|volume| volume * by))
    }
}
