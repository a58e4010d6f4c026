//! The standard normal distribution.
#![allow(clippy::excessive_precision, reason = "coefficients as published")]

/// 1/√(2π).
pub(super) const INVERSE_SQRT_TAU: f64 = 0.398_942_280_401_432_7;

/// The density at `x`.
pub(super) fn density(x: f64) -> f64 {
    INVERSE_SQRT_TAU * (-0.5 * x * x).exp()
}

/// The probability of a value at or below `x`.
///
/// # Source
/// W. J. Cody, "Rational Chebyshev approximations for the error function", Math. Comp. 23 (1969) 631–637, in the
/// form of his ANORM (ACM Algorithm 715, 1993).
/// # Accuracy
/// 1e-13 relative, tails included; the tests hold it to scipy within 1e-12.
pub(crate) fn cdf(x: f64) -> f64 {
    let distance = x.abs();
    if distance <= NEAR {
        return 0.5 + x * central(x * x);
    }
    let tail = if distance <= FAR {
        let [tail] = upper_tails([distance]);
        tail
    } else {
        far_tail(distance)
    };
    if x > 0.0 { 1.0 - tail } else { tail }
}

/// [`cdf`] of two values, to the bit; in step where both lie where most do.
#[inline]
pub(crate) fn cdf_of_both(x: [f64; 2]) -> [f64; 2] {
    let distances = x.map(f64::abs);
    if distances.iter().all(|distance| *distance > NEAR && *distance <= FAR) {
        let tails = upper_tails(distances);
        return [0, 1].map(|at| if x[at] > 0.0 { 1.0 - tails[at] } else { tails[at] });
    }
    x.map(cdf)
}

/// Where one form of Cody's gives way to the next; √32.
const NEAR: f64 = 0.662_91;
const FAR: f64 = 4.0 * std::f64::consts::SQRT_2;

/// (Φ(x) − ½)/x for |x| ≤ 0.66291, of x².
fn central(square: f64) -> f64 {
    const A: [f64; 5] = [
        0.065_682_337_918_207_449_113,
        2.235_252_035_460_683_928_7,
        161.028_231_068_555_878_81,
        1_067.689_485_460_370_958_2,
        18_154.981_253_343_561_249,
    ];
    const B: [f64; 5] = [
        1.0,
        47.202_581_904_688_241_87,
        976.098_551_737_776_693_22,
        10_260.932_208_618_978_205,
        45_507.789_335_026_729_956,
    ];
    let [over, under] = both(square, &const { side_by_side(A, B) });
    over / under
}

/// 1 − Φ(x) for x above [`NEAR`] up to [`FAR`].
#[inline]
fn upper_tails<const LANES: usize>(x: [f64; LANES]) -> [f64; LANES] {
    const C: [f64; 9] = [
        1.076_557_677_372_019_231_7e-8,
        0.398_941_512_088_134_667_64,
        8.883_149_794_388_375_941_2,
        93.506_656_132_177_855_979,
        597.270_276_394_800_262_26,
        2_494.537_585_290_372_671_1,
        6_848.190_450_536_282_332_6,
        11_602.651_437_647_350_124,
        9_842.714_838_383_978_021_8,
    ];
    const D: [f64; 9] = [
        1.0,
        22.266_688_044_328_115_691,
        235.387_901_782_624_998_61,
        1_519.377_599_407_554_805,
        6_485.558_298_266_760_755,
        18_615.571_640_885_098_091,
        34_900.952_721_145_977_266,
        38_912.003_286_093_271_411,
        19_685.429_676_859_990_727,
    ];
    let shapes = both_at(x, &const { side_by_side(C, D) });
    std::array::from_fn(|lane| {
        let [over, under] = shapes[lane];
        (-0.5 * x[lane] * x[lane]).exp() * (over / under)
    })
}

/// 1 − Φ(x) for x above [`FAR`]; beyond 38.5 the tail is below the smallest number.
fn far_tail(x: f64) -> f64 {
    const P: [f64; 6] = [
        0.023_073_441_764_940_173_03,
        0.215_898_534_057_956_99,
        0.127_401_161_160_247_363_9,
        0.022_235_277_870_649_807,
        0.001_421_619_193_227_893_466,
        2.911_287_495_116_879_2e-5,
    ];
    const Q: [f64; 6] = [
        1.0,
        1.284_260_096_144_911_21,
        0.468_238_212_480_865_118,
        0.065_988_137_868_928_551_5,
        0.003_782_396_332_027_582_44,
        7.297_515_550_839_662_05e-5,
    ];
    if x > 38.5 {
        return 0.0;
    }
    let inverse_square = 1.0 / (x * x);
    let [over, under] = both(inverse_square, &const { side_by_side(P, Q) });
    let series = inverse_square * over / under;
    (-0.5 * x * x).exp() * ((INVERSE_SQRT_TAU - series) / x)
}

/// The value that is not exceeded with probability `p`; −∞ at 0, ∞ at 1, NaN outside.
///
/// # Source
/// M. J. Wichura, "Algorithm AS 241: the percentage points of the normal distribution",
/// Applied Statistics 37 (1988) 477–484, routine PPND16.
/// # Accuracy
/// 1e-15 relative; the tests hold it to scipy within 1e-12.
pub(crate) fn quantile(p: f64) -> f64 {
    const A: [f64; 8] = [
        2.509_080_928_730_122_672_7e3,
        3.343_057_558_358_812_810_5e4,
        6.726_577_092_700_870_085_3e4,
        4.592_195_393_154_987_145_7e4,
        1.373_169_376_550_946_112_5e4,
        1.971_590_950_306_551_442_7e3,
        1.331_416_678_917_843_774_5e2,
        3.387_132_872_796_366_608,
    ];
    const B: [f64; 8] = [
        5.226_495_278_852_854_561e3,
        2.872_908_573_572_194_267_4e4,
        3.930_789_580_009_271_061e4,
        2.121_379_430_158_659_586_7e4,
        5.394_196_021_424_751_107_7e3,
        6.871_870_074_920_579_083e2,
        4.231_333_070_160_091_125_2e1,
        1.0,
    ];
    let from_middle = p - 0.5;
    if from_middle.abs() <= 0.425 {
        let r = 0.180_625 - from_middle * from_middle;
        let [over, under] = both(r, &const { side_by_side(A, B) });
        return from_middle * over / under;
    }
    if !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    let tail = tail_quantile((-p.min(1.0 - p).ln()).sqrt());
    if from_middle < 0.0 { -tail } else { tail }
}

/// The quantile's magnitude where r = √(−ln of the tail's probability).
fn tail_quantile(r: f64) -> f64 {
    const C: [f64; 8] = [
        7.745_450_142_783_414_076_4e-4,
        2.272_384_498_926_918_458_33e-2,
        2.417_807_251_774_506_117_7e-1,
        1.270_458_252_452_368_382_58,
        3.647_848_324_763_204_605_04,
        5.769_497_221_460_691_405_5,
        4.630_337_846_156_545_295_9,
        1.423_437_110_749_683_577_34,
    ];
    const D: [f64; 8] = [
        1.050_750_071_644_416_843_24e-9,
        5.475_938_084_995_344_946e-4,
        1.519_866_656_361_645_719_66e-2,
        1.481_039_764_274_800_745_9e-1,
        6.897_673_349_851_000_045_5e-1,
        1.676_384_830_183_803_849_4,
        2.053_191_626_637_758_821_87,
        1.0,
    ];
    const E: [f64; 8] = [
        2.010_334_399_292_288_132_65e-7,
        2.711_555_568_743_487_578_15e-5,
        1.242_660_947_388_078_438_6e-3,
        2.653_218_952_657_612_309_3e-2,
        2.965_605_718_285_048_912_3e-1,
        1.784_826_539_917_291_335_8,
        5.463_784_911_164_114_369_9,
        6.657_904_643_501_103_777_2,
    ];
    const F: [f64; 8] = [
        2.044_263_103_389_939_785_64e-15,
        1.421_511_758_316_445_888_7e-7,
        1.846_318_317_510_054_681_8e-5,
        7.868_691_311_456_132_591e-4,
        1.487_536_129_085_061_485_25e-2,
        1.369_298_809_227_358_053_1e-1,
        5.998_322_065_558_879_376_9e-1,
        1.0,
    ];
    if r.is_infinite() {
        return r;
    }
    let [over, under] = if r <= 5.0 {
        both(r - 1.6, &const { side_by_side(C, D) })
    } else {
        both(r - 5.0, &const { side_by_side(E, F) })
    };
    over / under
}

/// Two polynomials' coefficients in pairs, highest power first.
const fn side_by_side<const N: usize>(over: [f64; N], under: [f64; N]) -> [[f64; 2]; N] {
    let mut pairs = [[0.0; 2]; N];
    let mut at = 0;
    while at < N {
        pairs[at] = [over[at], under[at]];
        at += 1;
    }
    pairs
}

/// The values of two polynomials.
#[inline]
fn both<const N: usize>(x: f64, pairs: &[[f64; 2]; N]) -> [f64; 2] {
    let [both] = both_at([x], pairs);
    both
}

/// The values of two polynomials at several places, by Horner's scheme in step: a processor adds and multiplies pairs at
/// once, and need not wait for one place to go on with the next.
#[inline]
fn both_at<const N: usize, const LANES: usize>(x: [f64; LANES], pairs: &[[f64; 2]; N]) -> [[f64; 2]; LANES] {
    let mut sums = [[0.0; 2]; LANES];
    for [over, under] in pairs {
        for (sum, x) in sums.iter_mut().zip(x) {
            *sum = [sum[0] * x + over, sum[1] * x + under];
        }
    }
    sums
}
