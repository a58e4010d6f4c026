//! Random numbers that are the same every time.

/// A stream of random numbers, one for each name.
///
/// Source: SplitMix64, Steele, Lea and Flood, OOPSLA 2014, doi:10.1145/2660193.2660195.
#[derive(Debug, Clone)]
pub struct Draw(u64);

impl Draw {
    /// The stream of a name.
    pub fn named(name: &str) -> Self {
        // FNV-1a, to start each name elsewhere.
        Draw(
            name.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
                (hash ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3)
            }),
        )
    }

    /// From 0 up to but not including 1.
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Between two numbers.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.share() * (high - low)
    }
}
