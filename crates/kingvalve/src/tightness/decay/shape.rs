//! The shapes in which a vacuum rises, beside the straight line of a leak.
//!
//! Source: a vapour that nears its own pressure over a volume follows p∞ − (p∞ − p₀)·e^(−t/τ), from the mass balance; the
//! rates of outgassing at [`Shape::ALL`]. Range: a volume shut off, its pressures far below the atmosphere's.

/// What gives off gas inside the system. Each has one number of its own, `x`: the length of the log over the source's
/// own time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shape {
    /// Liquid water: p∞ − (p∞ − p₀)·e^(−t/τ), p∞ near the vapour pressure at the coldest wet point.
    Water,
    /// The same form, levelling off within the log at a lower pressure: vapour out of oil, the last of little water.
    Ebbing,
    /// Desorption from surfaces, rate ∝ 1/t since pumping began: ln(1 + t/t₀).
    Surface,
    /// Diffusion out of elastomers and oil, rate ∝ 1/√t since pumping began: √(1 + t/t₀) − 1.
    Bulk,
}

/// What bounds a source.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bounds {
    /// Lowest and highest vapour pressure of water as the gauge may read it, Pa.
    pub water: (f64, f64),
    /// Shortest and longest time pumped, over the length of the log.
    pub pumped: (f64, f64),
}

impl Shape {
    /// In the order in which they are tried. Rates of outgassing: O'Hanlon, A User's Guide to Vacuum Technology, 3rd
    /// ed. (2003), chapter 4: exponents near 1 for metals, 1/2 for diffusion (from memory).
    pub const ALL: [Shape; 4] = [Shape::Water, Shape::Surface, Shape::Bulk, Shape::Ebbing];

    /// The range of `x`.
    pub fn range(self, bounds: &Bounds) -> (f64, f64) {
        match self {
            Shape::Water => (1e-3, 100.0),
            // It must be seen to level off: two of its times at least.
            Shape::Ebbing => (2.0, 100.0),
            Shape::Surface | Shape::Bulk => (bounds.pumped.1.recip(), bounds.pumped.0.recip()),
        }
    }

    /// How far it has come at `u`, from 0 at the start to 1 at the end of the log.
    pub fn at(self, x: f64, u: f64) -> f64 {
        match self {
            Shape::Water | Shape::Ebbing => (-x * u).exp_m1() / (-x).exp_m1(),
            Shape::Surface => (x * u).ln_1p() / x.ln_1p(),
            Shape::Bulk => ((1.0 + x * u).sqrt() - 1.0) / ((1.0 + x).sqrt() - 1.0),
        }
    }

    /// Where it levels off, if it does.
    pub fn plateau(self, x: f64, bounds: &Bounds) -> Option<Plateau> {
        let (low, high) = match self {
            Shape::Water => bounds.water,
            Shape::Ebbing => (0.0, bounds.water.0),
            Shape::Surface | Shape::Bulk => return None,
        };
        Some(Plateau { overshoot: -(-x).exp_m1().recip(), low, high })
    }
}

/// The level a source tends to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plateau {
    /// Its final rise over its rise by the end of the log.
    pub overshoot: f64,
    /// The lowest it may be, Pa.
    pub low: f64,
    /// The highest it may be, Pa.
    pub high: f64,
}
