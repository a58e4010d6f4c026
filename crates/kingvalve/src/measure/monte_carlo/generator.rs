//! Random numbers that are the same on every machine.

/// A generator of random numbers, the same sequence for the same seed everywhere.
///
/// # Source
/// xoshiro256++ 1.0, D. Blackman and S. Vigna, "Scrambled linear pseudorandom number generators", ACM Transactions on
/// Mathematical Software 47 (2021) 36; its state is filled from the seed by SplitMix64, as its authors advise.
/// # Accuracy
/// Period 2²⁵⁶ − 1; uniform numbers have 53 bits.
/// # Example
/// ```
/// use kingvalve::measure::Generator;
/// let mut one = Generator::seeded(7);
/// let mut same = Generator::seeded(7);
/// assert_eq!(one.uniform(), same.uniform());
/// assert!((0.0..1.0).contains(&one.uniform()));
/// ```
#[derive(Debug, Clone)]
pub struct Generator {
    state: [u64; 4],
    /// The second normal number of a pair.
    spare: Option<f64>,
}

impl Generator {
    /// The generator of that seed.
    pub fn seeded(seed: u64) -> Self {
        let mut mixed = seed;
        let state = [(); 4].map(|()| split_mix(&mut mixed));
        Generator { state, spare: None }
    }

    /// The next 64 bits.
    #[inline]
    pub fn bits(&mut self) -> u64 {
        let [a, b, c, d] = self.state;
        let result = a.wrapping_add(d).rotate_left(23).wrapping_add(a);
        let c = c ^ a;
        let d = d ^ b;
        self.state = [a ^ d, b ^ c, c ^ (b << 17), d.rotate_left(45)];
        result
    }

    /// A number between 0 and 1, neither of them.
    #[inline]
    pub fn uniform(&mut self) -> f64 {
        ((self.bits() >> 11) as f64 + 0.5) * (1.0 / (1u64 << 53) as f64)
    }

    /// A number of the normal distribution with mean 0 and standard deviation 1.
    ///
    /// # Source
    /// The polar method: G. Marsaglia and T. A. Bray, "A convenient method for generating normal variables",
    /// SIAM Review 6 (1964) 260.
    #[inline]
    pub fn normal(&mut self) -> f64 {
        if let Some(spare) = self.spare.take() {
            return spare;
        }
        let (x, y, square) = self.in_disc();
        let scale = (-2.0 * square.ln() / square).sqrt();
        self.spare = Some(y * scale);
        x * scale
    }

    /// A number of Student's t distribution.
    ///
    /// # Source
    /// R. W. Bailey, "Polar generation of random variates with the t-distribution", Mathematics of Computation 62
    /// (1994) 779.
    #[inline]
    pub fn student(&mut self, degrees_of_freedom: f64) -> f64 {
        if degrees_of_freedom.is_infinite() {
            return self.normal();
        }
        let (x, _, square) = self.in_disc();
        let spread = (square.ln() * (-2.0 / degrees_of_freedom)).exp_m1();
        x * (degrees_of_freedom * spread / square).sqrt()
    }

    /// A point of the unit disc, its centre left out, and the square of its distance from there.
    #[inline]
    fn in_disc(&mut self) -> (f64, f64, f64) {
        loop {
            let (x, y) = (2.0 * self.uniform() - 1.0, 2.0 * self.uniform() - 1.0);
            let square = x * x + y * y;
            if square < 1.0 && square > 0.0 {
                return (x, y, square);
            }
        }
    }
}

/// SplitMix64 (G. L. Steele, D. Lea and C. H. Flood, OOPSLA 2014).
fn split_mix(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let z = (*state ^ (*state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The test vector of the crate `rand_xoshiro` 0.6 (itself made with the authors' C program), state 1, 2, 3, 4:
    /// from memory.
    #[test]
    fn bits_are_those_of_the_authors_program() {
        let mut generator = Generator { state: [1, 2, 3, 4], spare: None };
        let expected =
            [41_943_041, 58_720_359, 3_588_806_011_781_223, 3_591_011_842_654_386, 9_228_616_714_210_784_205];
        for wanted in expected {
            assert_eq!(generator.bits(), wanted);
        }
    }

    /// SplitMix64 of seed 1234567, as quoted in the documentation of several ports: from memory.
    #[test]
    fn seeds_are_mixed_as_published() {
        let mut state = 1_234_567;
        assert_eq!(split_mix(&mut state), 6_457_827_717_110_365_317);
        assert_eq!(split_mix(&mut state), 3_203_168_211_198_807_973);
    }

    /// Moments of 200,000 numbers, within five standard deviations of what they should be.
    #[test]
    fn moments() {
        let n = 200_000;
        let five = 5.0 / f64::from(n).sqrt();
        let moments = |draw: &mut dyn FnMut() -> f64| {
            let (mut first, mut second, mut fourth) = (0.0, 0.0, 0.0);
            for _ in 0..n {
                let x = draw();
                first += x / f64::from(n);
                second += x * x / f64::from(n);
                fourth += x.powi(4) / f64::from(n);
            }
            (first, second, fourth)
        };
        let mut generator = Generator::seeded(1);
        let (first, second, fourth) = moments(&mut || generator.normal());
        assert!(first.abs() < five, "{first}");
        assert!((second - 1.0).abs() < five * 2f64.sqrt(), "{second}");
        assert!((fourth - 3.0).abs() < five * 96f64.sqrt(), "{fourth}");
        let (first, second, _) = moments(&mut || generator.student(9.0));
        assert!(first.abs() < five * 1.2, "{first}");
        // Variance ν/(ν − 2); its own deviation by the fourth moment 3ν²/((ν − 2)(ν − 4)).
        assert!((second - 9.0 / 7.0).abs() < five * 2.3, "{second}");
        let (first, second, _) = moments(&mut || generator.uniform() - 0.5);
        assert!(first.abs() < five && (second - 1.0 / 12.0).abs() < five * 0.1, "{first} {second}");
    }
}
